"""What a bag and a plan say."""

import pytest

from coachlib.coaching.equipment.ball_plan import PlanStep
from coachlib.coaching.wording.bag_words import bag_lines, bag_table, plan_lines
from tests.coaching.equipment.test_bag import FIRST, LINE, made_up


@pytest.fixture
def bag():
    return made_up([[0.40, 0.20], [0.20, 0.40], [0.45, 0.45]], slips=[[0, 0], [0, 0], [1, 1]])


def test_a_bag_is_told(bag):
    told = bag_lines(bag)
    assert told[0] == "Between ball 0 and ball 1 there is a gap of more than 4 ft."
    assert told[2].startswith("ball 2 still slips at the pins somewhere")
    assert told[3] == (
        "2 of your 3 balls are enough: ball 0, ball 1. On every pattern you keep at least 95 of 100 strikes "
        "of the whole bag."
    )
    assert told[4:] == ("First out on house 41: ball 0.", "First out on house 41: ball 1.")


def test_the_table_counts_twenties_and_says_what_is_not_known(bag):
    table = bag_table(made_up([[0.40], [0.45]], slips=[[0], [1]]))
    assert list(table["house 41"]) == ["8 of 20", "?"]
    assert list(table["skid_ft"]) == ["30", "35"]


def test_a_plan_tells_start_changes_and_end():
    steps = [
        PlanStep(0.0, FIRST, LINE, 0.40, 0.40, False),
        PlanStep(0.5, FIRST, LINE, 0.35, 0.35, False),
        PlanStep(1.0, made_up([[0.4]]).balls[0], LINE, 0.45, 0.30, True),
    ]
    assert plan_lines(steps) == (
        "Start with hybrid 2000: feet 25, target 14, about 8 strikes in 20.",
        "After 1 game change from hybrid 2000 to ball 0: feet 25, target 14, about 9 strikes in 20, "
        "up from 6.",
        "After 1 game: ball 0, feet 25, target 14, about 9 strikes in 20.",
    )
    assert "No change of ball pays within ½ game." in plan_lines(steps[:2])[1]
