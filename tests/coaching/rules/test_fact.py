"""One fact: what its value may be, and how a wrong one is told."""

import pytest

from coachlib.coaching.rules.fact import choice, count, flag, number, value_problem
from coachlib.coaching.rules.vocabulary import FACTS


@pytest.mark.parametrize(
    ("name", "value"),
    [("n_ok", 2), ("err_boards", -1.5), ("is_strike", True), ("motion", "unknown"), ("leave_key", "")],
)
def test_right_values_pass(name, value):
    assert value_problem(FACTS[name], value) == ""


@pytest.mark.parametrize(
    ("fact", "value", "told"),
    [
        (number("gap_boards", "boards", "a gap"), "2", "gap_boards is '2'; expected a number of boards."),
        (count("n_balls", "balls"), True, "n_balls is True; expected a number."),
        (flag("is_wet", "wet"), 1, "is_wet is 1; expected true or false."),
        (
            choice("hand", ("right", "left"), "hand"),
            "both",
            "hand is 'both'; expected one of 'right', 'left'.",
        ),
    ],
)
def test_a_wrong_value_is_told_with_what_is_allowed(fact, value, told):
    assert value_problem(fact, value) == told
