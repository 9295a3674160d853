"""Things are frozen, strict, and tell every wrong field at once."""

import dataclasses
from typing import Annotated, Literal

import numpy as np
import pytest

from coachlib.errors import InputError
from coachlib.things import Letters, Limits, thing


@thing
class Lamp:
    """A thing of our own to try the decorator on."""

    power_w: Annotated[float, Limits(1, 100, "W", "Read it off the base.")]
    colour: Literal["warm", "cold"] = "warm"
    note: Annotated[str, Letters(5)] = ""
    low_w: float | None = None

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
    assert "size is no field of Lamp; expected power_w, colour, note, low_w" in caught.value.fields["size"]


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
