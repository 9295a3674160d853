"""A student is shown under the alias where there is one. All invariants; no outside source."""

import pytest

from coachlib.errors import InputError
from coachlib.records import Student
from coachlib.world.bowler import Bowler


@pytest.mark.parametrize(
    ("alias", "shown"), [("", "Ilta Koivu"), ("Number 7", "Number 7"), ("  ", "Ilta Koivu")]
)
def test_shown_name(alias: str, shown: str) -> None:
    student = Student("Ilta Koivu", alias=alias, bowler=Bowler(name="old", hand="left"))
    assert student.shown_name == shown
    assert student.as_bowler == Bowler(name=shown, hand="left")


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"name": ""}, r"name is ''; expected a text of 1 to 80 letters\."),
        ({"name": "   "}, r"name is '   '; expected a text of 1 to 80 letters\."),
        ({"name": "x" * 81}, r"expected a text of 1 to 80 letters\. Type a text of that length\."),
        ({"name": "Ilta", "bowler": "left"}, r"bowler is 'left'; expected a Bowler\. Make one with Bowler"),
        ({}, r"name is missing; Student needs a text of 1 to 80 letters"),
    ],
)
def test_wrong_fields_are_told(fields: dict[str, object], told: str) -> None:
    with pytest.raises(InputError, match=told):
        Student(**fields)  # type: ignore[arg-type]
