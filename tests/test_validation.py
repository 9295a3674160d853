"""Things are frozen, strict, and tell every wrong field at once."""

import dataclasses
from typing import Annotated, Literal

import numpy as np
import pytest

from coachlib.errors import InputError
from coachlib.validation import Letters, Limits, thing


@thing
class Plug:
    """Another thing, held by the lamp."""

    name: str = ""


@thing
class Lamp:
    """A thing of our own to try the decorator on."""

    power_w: Annotated[float, Limits(1, 100, "W", "Read it off the base.")]
    colour: Literal["warm", "cold"] = "warm"
    note: Annotated[str, Letters(5)] = ""
    low_w: float | None = None
    is_on: bool = False
    n_bulbs: int = 1
    rooms: tuple[str, ...] = ()
    twin: "Plug | None" = None
    place: Annotated[str, Letters(8, least=1)] = "here"
    level: Annotated[float, Limits(0, 10, "steps")] | Literal["dim", "full"] | None = None

    def _problems(self):
        if self.low_w is not None and self.low_w > self.power_w:
            return {"low_w": "low_w is above power_w; expected less. Swap them."}
        return {}


def test_good_values_are_kept_and_numpy_numbers_become_plain():
    lamp = Lamp(power_w=np.int64(40))
    assert lamp == Lamp(40.0)
    assert type(lamp.power_w) is float


def test_frozen_and_replace_validates_again():
    lamp = Lamp(40)
    with pytest.raises(dataclasses.FrozenInstanceError):
        lamp.power_w = 50
    with pytest.raises(InputError, match=r"power_w is 400; expected 1 to 100 W\. Read it off the base\."):
        dataclasses.replace(lamp, power_w=400)


def test_all_wrong_fields_are_told_at_once():
    with pytest.raises(InputError) as caught:
        Lamp(power_w=float("nan"), colour="blue", note="far too long", size=3)
    assert set(caught.value.fields) == {"power_w", "colour", "note", "size"}
    assert "expected one of 'warm', 'cold'" in caught.value.fields["colour"]
    assert "at most 5 letters" in caught.value.fields["note"]
    assert (
        "size is no field of Lamp; expected power_w, colour, note, low_w, is_on"
        in caught.value.fields["size"]
    )


def test_missing_field_says_what_it_needs():
    with pytest.raises(InputError, match="power_w is missing; Lamp needs a number from 1 to 100 W"):
        Lamp()


def test_problem_of_two_fields_together():
    with pytest.raises(InputError, match="low_w is above power_w") as caught:
        Lamp(power_w=10, low_w=20.0)
    assert list(caught.value.fields) == ["low_w"]


@pytest.mark.parametrize("value", [True, "40", None, 1 + 2j])
def test_no_silent_conversion(value):
    with pytest.raises(InputError, match="power_w is"):
        Lamp(power_w=value)


@pytest.mark.parametrize(
    ("field", "value", "text"),
    [
        ("is_on", "yes", "is_on is 'yes'; expected True or False. Give one of the two, without quotes."),
        ("n_bulbs", 1.5, "n_bulbs is 1.5; expected a whole number. Give it without quotes or decimals."),
        ("low_w", "1", "low_w is '1'; expected a number. Give it without quotes."),
        ("rooms", "hall", "rooms is 'hall'; expected a list. Put the values in parentheses, with commas."),
        ("rooms", (1,), "rooms holds 1; expected only str. Take it out."),
        ("twin", 3, "twin is 3; expected a Plug. Make one with Plug(…)."),
        ("note", 3, "note is 3; expected a text of at most 5 letters. Type a text of that length."),
        ("place", " ", "place is ' '; expected a text of 1 to 8 letters. Type a text of that length."),
        (
            "level",
            True,
            "level is True; expected a number from 0 to 10 steps, or one of 'dim', 'full'. "
            "Give one number in this range.",
        ),
        ("power_w", 10**400, f"power_w is 1{'0' * 35} …0; expected 1 to 100 W. Read it off the base."),
    ],
)
def test_the_four_parts_for_every_kind_of_field(field, value, text):
    with pytest.raises(InputError) as caught:
        Lamp(**({"power_w": 40} | {field: value}))
    assert caught.value.fields == {field: text}


def test_spaces_round_a_name_are_taken_away():
    assert Lamp(40, place=" door ").place == "door"
    assert Lamp(40, note=" ").note == " "
