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
        ("11", r"Type the pins left, such as 4 9, .*11 is no pin from 1 to 10\."),
        ("4 99", r"Type the pins left, such as 4 9, .*99 is no pin from 1 to 10\."),
        ("49", r"Put a space between two pins, such as 4 9\. 49 is no pin from 1 to 10\."),
        ("4 4", r"Type each pin left once, 1 to 10\. 4 stands there twice\."),
        ("4 pins", r"Type the pins left, such as 4 9, .*pins is no pin from 1 to 10\."),
        ("4 0", r"0 is no pin from 1 to 10\."),
        ("²", r"² is no pin from 1 to 10\."),
    ],
)
def test_pins_that_do_not_exist_are_told(text: str, match: str) -> None:
    with pytest.raises(InputError, match=match):
        read_pins(text)
