"""Numbers and pins as people write them are read, and what is none is not guessed.

All invariants; no outside source.
"""

import pytest

from coachlib.errors import InputError
from coachlib.world.parsing import read_number, read_pins


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12", 12.0),
        ("12.5", 12.5),
        ("12,5", 12.5),
        ("12½", 12.5),
        (" 12 ½ ", 12.5),
        ("12 1/2", 12.5),
        ("½", 0.5),
        ("-2", -2.0),
        ("−2", -2.0),
        ("9¾", 9.75),
        (".5", 0.5),
    ],
)
def test_a_number_may_be_written_as_people_write_it(text: str, number: float) -> None:
    assert read_number(text) == number


@pytest.mark.parametrize(
    "text", ["", "abc", "nan", "inf", "1e5", "12-13", "121/2", "-", ".", "12.5.1", "½½", "0x1"]
)
def test_what_is_no_number_is_not_guessed(text: str) -> None:
    assert read_number(text) is None


@pytest.mark.parametrize(
    ("text", "pins"),
    [
        ("4 9", (4, 9)),
        ("9,4", (4, 9)),
        ("4-9", (4, 9)),
        ("7/10", (7, 10)),
        ("10", (10,)),
        ("all down", ()),
        ("X", ()),
        ("Strike", ()),
        ("0", ()),
        ("not seen", None),
        ("", None),
    ],
)
def test_pins_may_be_typed(text: str, pins: tuple[int, ...] | None) -> None:
    assert read_pins(text) == pins


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("11", r"pins left holds 11; expected pins 1 to 10\. Type the pins left, e\.g\. 4 9"),
        ("4 99", r"pins left holds 99; expected pins 1 to 10\. Type the pins left, e\.g\. 4 9"),
        ("49", r"pins left holds 49; expected pins 1 to 10\. Put a space between two pins, e\.g\. 4 9\."),
        ("4 4", r"pins left holds 4 twice; expected each pin once\. Take one away\."),
        ("4 pins", r"pins left holds pins; expected pins 1 to 10\. Type the pins left, e\.g\. 4 9"),
        ("4 0", r"pins left holds 0; expected pins 1 to 10\."),
        ("²", r"pins left holds ²; expected pins 1 to 10\."),
    ],
)
def test_pins_that_do_not_exist_are_told(text: str, match: str) -> None:
    with pytest.raises(InputError, match=match):
        read_pins(text)
