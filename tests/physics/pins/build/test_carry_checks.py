"""The shipped checks of the simulator: read whole, and errors that name file and row."""

import itertools
from typing import NamedTuple

import pytest

from coachlib.errors import DataFileError
from coachlib.files import read_records
from coachlib.physics.pins.build.carry_checks import ball_way, ball_ways, step_checks
from coachlib.world.pins import ALL_PINS


def test_each_step_halves_the_one_before_and_the_last_gain_is_within_its_error():
    checks = step_checks()
    assert len({check.n_racks for check in checks}) == 1
    for before, after in itertools.pairwise(checks):
        assert after.step_ms * 2 == pytest.approx(before.step_ms)
        assert after.gain_pct == pytest.approx(after.strike_pct - before.strike_pct, abs=0.011)
    # what the recipe for the simulator asks for: the last halving moves less than its error can tell
    assert abs(checks[-1].gain_pct) < 2 * checks[-1].gain_se_pct


def test_the_ball_hits_the_head_pin_first_and_leaves_between_the_gutters():
    ways = ball_ways()
    assert len(ways) == len({(way.arrival_board, way.entry_deg) for way in ways}) > 10
    for way in ways:
        assert way.hits[0] == 1
        assert set(way.hits) <= set(ALL_PINS)
        assert 0.5 < way.exit_board < 39.5
        assert 0.0 < way.hits_frac <= 1.0


def test_an_arrival_that_was_not_thrown_is_refused_with_those_that_were():
    assert ball_way(17.5, 4.0).arrival_board == 17.5
    with pytest.raises(DataFileError, match=r"arrival is 3 at 4 deg; expected one of 16 at 0, .*Choose one"):
        ball_way(3.0, 4.0)


class Counted(NamedTuple):
    step_ms: float
    n_racks: int


def test_a_cell_that_is_no_number_names_file_and_row(tmp_path):
    path = tmp_path / "a.csv"
    path.write_text("# note: x\nstep_ms,n_racks\n0.2,8\n0.1,many\n")
    with pytest.raises(DataFileError, match=r"a\.csv, row 4: .*'many'; expected the numbers as shipped"):
        read_records(path, Counted, "the numbers as shipped. Install again.")
    with pytest.raises(DataFileError, match=r"a\.csv, row 3: 'strikes'; expected the numbers"):
        read_records(path, Counted, "the numbers as shipped. Install again.", n_racks="strikes")
