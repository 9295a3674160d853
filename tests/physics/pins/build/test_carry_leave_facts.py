"""Leaves where they are said to be: on a made-up table whose answer is known, and the shipped one's shape."""

import numpy as np

from coachlib.physics.pins.build import arrival_sampling as design
from coachlib.physics.pins.build.carry_build import build_table
from coachlib.physics.pins.build.carry_leave_facts import leave_facts
from coachlib.physics.pins.carry_file import shipped_table

TEN_PIN, FOUR_PIN = 1 << 9, 1 << 3


def test_a_table_that_leaves_the_10_where_it_is_said_agrees_and_no_other_does():
    points = design.arrival_points(0, 16_384, 2)
    at_ten = np.abs(points[:, 0] - 16.6) < 0.5
    far_inside = points[:, 0] > 22.0  # the 4 where nobody says it stays
    bits = np.where(at_ten, TEN_PIN, np.where(far_inside, FOUR_PIN, 0))
    verdicts = {fact.statement: fact.agrees for fact in leave_facts(build_table(points, bits))}
    assert verdicts.pop("the 10-pin, light with a good angle") is True
    assert len(verdicts) > 7
    assert set(verdicts.values()) == {False}


def test_each_row_says_where_and_with_which_error():
    for fact in leave_facts(shipped_table()):
        assert fact.expected.startswith("common at boards ")
        assert " ± " in fact.simulated
        assert "most anywhere at " in fact.simulated
