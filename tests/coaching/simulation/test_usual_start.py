"""The line that a bowler of some style starts on, against the rulebook's printed starts."""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.plan.plan import starting_line
from coachlib.coaching.simulation.usual_start import usual_lines, usual_start
from coachlib.coaching.wording.plan_words import start_text
from coachlib.world.levers import board_at, laydown_board

LEAGUE = cl.Bowler(speed_mph=16.5, rev_rate_rpm=280.0, axis_rotation_deg=45.0, arrow_sd_boards=1.3)
HOUSE = cl.load_pattern("house_41")


def start_of(bowler: cl.Bowler, pattern: str = "house_41", ball: str = "hybrid_2000"):
    return starting_line(
        cl.Session(
            bowler=bowler, line=cl.Line(20, 10), ball=cl.load_ball(ball), pattern=cl.load_pattern(pattern)
        )
    )


@pytest.mark.parametrize(
    ("bowler", "board"),
    [
        (cl.load_bowler("low_rev_right"), 8.0),  # "near board 8, and straight"
        (LEAGUE, 10.0),  # "over the second arrow"
        (cl.load_bowler("high_rev_left"), 15.0),  # "over the third arrow"
    ],
)
def test_usual_targets_are_the_rulebooks_on_a_house_pattern(bowler: cl.Bowler, board: float) -> None:
    # data/rules.toml, house_pattern, in print (S42); oil of 40 ft is the middle
    pattern = cl.OilPattern(name="forty", length_ft=40.0, kind="house")
    assert usual_start(bowler, None, pattern).target_board == board


def test_a_league_bowler_of_280_rpm_is_not_sent_to_36_over_18() -> None:
    start = start_of(LEAGUE)
    assert abs(start.line.target_board - 10.0) <= 3.0
    assert start.line.feet_board <= 28.0
    assert abs(start.arrival_board - 17.5) <= 1.3  # a good ball finds the pocket, or all but
    assert start_text(start).count("second arrow") == 1


def test_short_oil_is_started_outside_and_long_oil_inside() -> None:
    short, house, long = (
        start_of(LEAGUE, name).line.target_board for name in ("short_36", "house_41", "long_44")
    )
    assert short < house < long


def test_a_straight_ball_starts_from_its_own_side_on_a_line_into_the_pocket() -> None:
    bowler = cl.Bowler(hand="left")
    start = start_of(bowler, ball="plastic_spare")
    assert 9.0 <= start.line.target_board <= 13.0
    assert board_at(start.line, bowler, 60.0) == pytest.approx(17.5, abs=0.7)  # geometry alone
    assert "straight" in start_text(start).lower()


def test_two_hands_start_farther_in_and_the_reason_names_the_side() -> None:
    two_handed = cl.load_bowler("two_handed_right")
    right = start_of(two_handed)
    assert right.line.target_board > start_of(LEAGUE).line.target_board + 2.0
    assert "between the third and the fourth arrow" in start_text(right)
    longer = [start_of(dataclasses.replace(two_handed, hand=hand), "long_44") for hand in ("right", "left")]
    assert "farther left than usual" in start_text(longer[0])
    assert "farther right than usual" in start_text(longer[1])


def test_where_no_usual_line_fits_the_nearest_is_taken() -> None:
    start = usual_start(LEAGUE, None, HOUSE)
    far = [cl.Line(40, 25), cl.Line(36, 21)]
    assert next(usual_lines(start, far, LEAGUE)) == [cl.Line(36, 21)]
    usual = [cl.Line(22, 11), cl.Line(40, 25)]
    assert next(usual_lines(start, usual, LEAGUE)) == [cl.Line(22, 11)]
    assert laydown_board(cl.Line(22, 11), LEAGUE) == 15.5


def test_nobody_is_started_beyond_their_comfort_board() -> None:
    careful = dataclasses.replace(cl.load_bowler("two_handed_right"), comfort_board=30.0)
    assert start_of(careful).line.feet_board <= 30.0
