"""Rules of thumb against the numbers their sources print.

Sources
-------
Rule of 31, several coaching pages (seen 2026; a coach's page "Exit point vs breakpoint", J. Slowinski): exit
board = length of the oil in feet - 31; printed 35 to 4, 38 to 7, 39 to 8, 40 to 9, 43 to 12, 45 to 14. Exact.
Speed chart of a coaching article: 2.0 s from foul line to pins is 20.45 mph, 2.4 s is 17.05 mph. Half of the
last digit; between them derived from 60 ft.
US Bowler, July 2012, p. 11: range of ten shots at the arrows by class (elite under 1.5 in, then 2, 3, 4, 4.5
boards). The mean range of ten normal draws is 3.0775 sd (tables of order statistics, from memory; checked
here by numbers).
"""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.units import FT_M, in_to_boards, mps_to_mph
from coachlib.world.bowler import ACCURACY_SD_BOARDS
from coachlib.world.parsing import boards_text


@pytest.mark.parametrize(
    ("length_ft", "exit_board"), [(35, 4), (38, 7), (39, 8), (40, 9), (43, 12), (45, 14)]
)
def test_rule_of_31(length_ft, exit_board):
    pattern = dataclasses.replace(cl.load_pattern("flat_42"), length_ft=length_ft)
    advice = cl.advise(cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11), pattern=pattern), model_on=False)
    assert "rule_of_31" in advice.rule.rule_ids
    assert advice.rule.numbers["exit_board"] == exit_board
    assert f"board {boards_text(exit_board)}" in cl.say(advice).then


@pytest.mark.parametrize(
    ("time_s", "speed_mph"),
    [(2.0, 20.455), (2.1, 19.481), (2.2, 18.595), (2.3, 17.787), (2.4, 17.045), (2.5, 16.364)],
)
def test_time_to_the_pins(time_s, speed_mph):
    assert mps_to_mph(60.0 * FT_M / time_s) == pytest.approx(speed_mph, abs=5e-4)


@pytest.mark.parametrize(
    ("name", "range_boards"),
    [("tour", in_to_boards(1.5)), ("220", 2.0), ("200", 3.0), ("180", 4.0), ("160", 4.5)],
)
def test_accuracy_classes_give_the_printed_range_of_ten(name, range_boards):
    draws = np.random.default_rng(31).normal(0.0, ACCURACY_SD_BOARDS[name], size=(40_000, 10))
    # the sd is rounded to .01 and the sampling error is below .01
    mean_range = np.ptp(draws, axis=1).mean()
    assert mean_range == pytest.approx(range_boards, abs=0.03)
