"""The one thing to work on: figures beside their yardsticks, the farthest beyond it named, else nothing.

The classes at the arrows are published (US Bowler, July 2012, p. 11, as in test_bowler); the bounds by
chi-square, Student and Wilson against printed tables, named beside each. The data are invented.
"""

from datetime import UTC, datetime

import pytest

import coachlib as cl
from coachlib.review.trends import Count, Followed, MeasuredSpread, SessionTrend, spread, trend_of
from coachlib.review.work_on import (
    AIM_SD_BOARDS,
    SLIDE_SD_BOARDS,
    WIDER,
    finding_words,
    findings,
    work_on,
)

NO_ADVICE = Followed(0, 0, None, None, None, None)
WIDE = [2.0, -2.0] * 10
NARROW = [0.5, -0.5] * 10


def _trend(**figures):
    usual = {
        "key": "one",
        "started": datetime(2026, 9, 1, tzinfo=UTC),
        "n_balls": 20,
        "n_first_balls": 20,
        "arrow_miss_boards": None,
        "accuracy_class": None,
        "speed_mph": None,
        "arrival_err_boards": {},
        "single_pin_spares": Count(0, 0),
        "first_ball_pins": None,
        "strikes": Count(0, 0),
        "advice": NO_ADVICE,
    }
    return SessionTrend(**(usual | figures))


def test_a_wide_spread_at_the_arrows_is_named_with_a_drill_for_it():
    worth = work_on([_trend(arrow_miss_boards=spread(WIDE))])
    assert worth.is_seen
    assert worth.headline == "Hitting the target"
    assert "aim" in worth.drill.needs
    assert "2.1 boards (20 balls" in worth.why
    assert "Usual by average: 160: 1.46, 180: 1.30, 200: 0.97, 220: 0.65, tour: 0.46." in worth.why


def test_the_careful_end_of_a_spread_is_that_of_the_chi_square_tables():
    # chi-square, 19 degrees of freedom, upper 5 %: 30.144 (any printed table; from memory)
    (one,) = findings([_trend(arrow_miss_boards=spread(WIDE))])
    assert one.found == pytest.approx((80.0 / 19.0) ** 0.5)
    assert one.low == pytest.approx((80.0 / 30.144) ** 0.5, abs=1e-4)


def test_the_careful_end_of_an_arrival_is_that_of_students_t():
    # t, 9 degrees of freedom, upper 5 %: 1.833 (any printed table; from memory)
    errs = [3.0, 1.0] * 5
    (one,) = findings([_trend(arrival_err_boards={"8": spread(errs)})])
    sd = (10.0 / 9.0) ** 0.5
    assert one.low == pytest.approx(2.0 - 1.833 * sd / 10.0**0.5, abs=1e-3)
    assert (one.lane, one.is_high) == ("8", True)


def test_the_careful_end_of_missed_spares_is_wilsons():
    # E. B. Wilson (1927): (p + z²/2n ± z sqrt(pq/n + z²/4n²)) / (1 + z²/n), z = 1.6449 (from memory)
    (one,) = findings([_trend(single_pin_spares=Count(3, 10))])
    z2 = 1.6449**2
    low = (0.7 + z2 / 20 - 1.6449 * (0.21 / 10 + z2 / 400) ** 0.5) / (1 + z2 / 10)
    assert one.found == pytest.approx(0.7)
    assert one.low == pytest.approx(low, abs=1e-4)


def test_of_several_the_one_farthest_beyond_is_named():
    trend = _trend(arrow_miss_boards=spread(WIDE), arrival_err_boards={"7": spread([-4.0, -5.0] * 5)})
    assert {one.need for one in findings([trend]) if one.is_seen} == {"aim", "line"}
    worth = work_on([trend])
    assert worth.headline == "The line on lane 7: it hits light"
    assert "4.5 boards light" in worth.why


@pytest.mark.parametrize(
    ("figures", "headline"),
    [
        ({"speed_mph": spread([15.0, 17.0] * 10)}, "The same speed each time"),
        ({"drift_boards": spread([0.0, 3.0] * 10)}, "The same slide board each time"),
        ({"single_pin_spares": Count(1, 10)}, "Single pins"),
    ],
)
def test_each_figure_can_be_the_one(figures, headline):
    worth = work_on([_trend(**figures)])
    assert (worth.headline, worth.is_seen) == (headline, True)


def test_where_nothing_is_beyond_its_yardstick_that_is_said():
    worth = work_on([_trend(arrow_miss_boards=spread(NARROW), single_pin_spares=Count(9, 10))])
    assert not worth.is_seen
    assert worth.headline == "Nothing stands out"
    assert worth.why == "Work on reading the lane."
    assert "reading" in worth.drill.needs


def test_few_balls_are_not_judged():
    few = _trend(arrow_miss_boards=spread([3.0, -3.0] * 4), single_pin_spares=Count(0, 5))
    assert findings([few]) == ()
    assert "Too early to tell" in work_on([few]).why
    assert work_on([]).headline == "Nothing stands out"


def test_five_wild_crossings_are_worth_work_beside_the_class_entered():
    # an invented junior of about 160 who crossed 15, 15, 13, 18 and 6 with target 15; by a pocket calculator
    misses = spread([0.0, 0.0, -2.0, 3.0, -9.0])
    wild = _trend(arrow_miss_boards=misses, entered_sd_boards=1.46, is_accuracy_known=True)
    worth = work_on([wild])
    assert (worth.need, worth.headline, worth.is_seen) == ("aim", "Hitting the target", True)
    assert worth.figure == "a spread of 4.5 boards over 5 balls"
    assert "Accuracy entered: average about 160, 1.46, which looks like 1.6 to the eye." in worth.why
    assert "Work on it from 1.5 times that (our guess)." in worth.why
    assert "aim" in worth.drill.needs


@pytest.mark.parametrize(
    ("bowler", "words"),
    [
        (cl.Bowler(), "Accuracy: not entered, so we assume an average of about 200, 0.97,"),
        (cl.Bowler(is_usual_accuracy_entered=True), "Accuracy entered: average about 200, 0.97,"),
        (cl.Bowler(arrow_sd_boards=0.46), "Accuracy entered: tour, 0.46,"),
        (cl.Bowler(arrow_sd_boards=0.8), "Accuracy entered: 0.80,"),
    ],
)
def test_an_accuracy_is_said_to_be_entered_only_where_it_was(bowler, words):
    session = cl.Session(bowler=bowler, line=cl.Line(25, 15))
    for board in (15, 15, 13, 18, 6):
        session = cl.observe(session, cl.Shot(crossed_board=board))
    assert words in work_on([trend_of(session, {}, "", datetime(2026, 9, 1, tzinfo=UTC))]).why


@pytest.mark.parametrize(
    "figures",
    [
        {"arrow_miss_boards": spread([0.0, 0.0, 3.0, -9.0]), "entered_sd_boards": 1.46},  # four are too few
        {"arrow_miss_boards": spread([0.0, 2.0, -2.0, 2.0, -2.0]), "entered_sd_boards": 1.46},  # 1.3 times
        {"arrow_miss_boards": spread([0.0, 0.0, -2.0, 3.0, -9.0])},  # no class
    ],
)
def test_few_crossings_that_are_not_clearly_wider_are_not_judged(figures):
    assert findings([_trend(**figures)]) == ()


def test_the_aim_is_one_figure_however_it_is_judged():
    keen = _trend(arrow_miss_boards=spread(WIDE), entered_sd_boards=0.46)
    (one,) = findings([keen])
    assert (one.entered_sd_boards, one.low) == (0.46, pytest.approx(one.found / WIDER))
    (usual,) = findings([keen._replace(entered_sd_boards=1.46)])
    assert usual.entered_sd_boards is None


def test_the_spread_is_that_within_sessions_and_old_ones_do_not_count():
    # two evenings with the aim a board off to either side: the spread is that of each evening
    left, right = ([1.0 + miss for miss in NARROW], [-1.0 + miss for miss in NARROW])
    trends = [_trend(arrow_miss_boards=spread(one)) for one in (WIDE, left, right, left)]
    (one,) = findings(trends)
    assert one.n_balls == 60
    assert one.found == pytest.approx((15.0 / 57.0) ** 0.5)


def test_the_yardsticks_follow_from_what_they_are_said_to():
    assert pytest.approx((0.97**2 + 0.55**2) ** 0.5) == AIM_SD_BOARDS
    # mean range of five normals 2.326 (any table of control charts, d2; from memory)
    assert pytest.approx(2.0 / 2.326, abs=0.001) == SLIDE_SD_BOARDS


def test_each_figure_says_how_many_balls_are_behind_it():
    trend = _trend(
        arrow_miss_boards=spread(WIDE),
        speed_mph=spread([16.0, 17.0] * 10),
        drift_boards=spread([0.0, 1.0] * 10),
        arrival_err_boards={"7": spread([0.0, 1.0] * 5)},
        single_pin_spares=Count(6, 10),
    )
    words = [finding_words(one) for one in findings([trend])]
    assert len(words) == 5
    assert [" 20 " in text or "(20 " in text or "10 " in text for text in words] == [True] * 5
    assert isinstance(trend.arrow_miss_boards, MeasuredSpread)
