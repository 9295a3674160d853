"""Both voices together: what settles a way, what bars one, and where the rule of thumb answers alone.

Invariants of our own and common practice of coaching, no source: a ball that hit its target and came in high
sends nobody outside, one look moves nothing, the bowler's own miss stays the bowler's.
"""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.advice.decision import EQUAL_PROB
from coachlib.coaching.belief.filter import believe
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.world.levers import outward

BOWLER = cl.Bowler(speed_mph=17.0, rev_rate_rpm=300.0, axis_rotation_deg=45.0, axis_tilt_deg=13.0)
LINES = ((22, 11), (24, 14), (26, 13))


def played(*shots, bowler=BOWLER, line=(22, 11), **setting):
    session = cl.Session(
        bowler=bowler,
        line=cl.Line(*line),
        ball=cl.load_ball("hybrid_2000"),
        pattern=cl.load_pattern("house_41"),
        **setting,
    )
    for shot in shots:
        session = cl.observe(session, shot)
    return session


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("n_balls", [1, 2])
def test_before_patience_is_over_no_move_goes_against_the_last_ball(line, n_balls):
    high = cl.Shot(crossed_board=line[1], arrival="high", motion="early")
    light = cl.Shot(crossed_board=line[1], arrival="light", motion="late")
    assert cl.advise(played(*[high] * n_balls, line=line)).move.feet_boards >= 0
    assert cl.advise(played(*[light] * n_balls, line=line)).move.feet_boards <= 0


@pytest.mark.parametrize(
    "shot", [cl.Shot(crossed_board=15), cl.Shot(leave=(10,)), cl.Shot(crossed_board=11, arrival="high")]
)
def test_one_look_moves_nothing(shot):
    advice = cl.advise(played(shot))
    assert advice.kind in ("stay", "watch")
    assert advice.move.is_stay


@pytest.mark.parametrize("line", LINES)
def test_the_eyes_never_undo_a_settled_way(line):
    high = cl.Shot(crossed_board=line[1], arrival="high", motion="even")
    advice = cl.advise(played(high, high, high, line=line))
    assert advice.is_settled
    assert advice.move.feet_boards > 0
    assert advice.move.target_boards <= advice.move.feet_boards
    assert advice.cause.verdict == "lane"


def on(line, *arrivals, off_boards=0.0, motion="even"):
    return [cl.Shot(crossed_board=line[1] + off_boards, arrival=name, motion=motion) for name in arrivals]


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("arrival", ["high", "nose", "crossover", "light", "far_light"])
@pytest.mark.parametrize("n_balls", [1, 2])
def test_nobody_is_told_to_stay_after_a_ball_on_target_that_missed_the_pocket(line, arrival, n_balls):
    advice = cl.advise(played(*on(line, *[arrival] * n_balls), line=line))
    assert advice.kind != "stay"
    said = cl.say(advice)
    assert said.headline != "Stay"
    assert "not the lane" not in said.headline
    assert advice.cause.verdict not in ("bowler", "both")


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("off_boards", [1.5, -1.5])
@pytest.mark.parametrize("arrival", ["high", "nose", "light"])
def test_a_ball_within_the_usual_spread_is_watched_with_the_model_too(line, off_boards, arrival):
    advice = cl.advise(played(*on(line, arrival, off_boards=off_boards), line=line))
    assert (advice.kind, advice.move) == ("watch", cl.Move())
    assert advice.cause.verdict not in ("bowler", "both", "lane")
    assert "within your usual spread" in cl.say(advice).sentence


def test_no_line_moves_on_a_ball_within_the_usual_spread():
    line = (22, 11)
    shots = on(line, "high", "high", motion=None) + on(line, "high", off_boards=1.5, motion=None)
    assert cl.advise(played(*shots, line=line)).move.is_stay


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize(
    ("arrivals", "way"),
    [
        (("nose", "nose"), 1),
        (("crossover", "crossover"), 1),
        (("crossover", "nose"), 1),
        (("far_light", "far_light"), -1),
        (("out", "far_light"), -1),
    ],
)
def test_two_very_bad_balls_on_target_move_the_line_whatever_it_gains(line, arrivals, way):
    advice = cl.advise(played(*on(line, *arrivals), line=line))
    assert advice.kind == "line"
    assert way * advice.move.feet_boards > 0
    one = cl.advise(played(*on(line, *arrivals[:1]), line=line))
    assert (one.kind, one.move) == ("watch", cl.Move())


@pytest.mark.parametrize("n_before", [0, 2])
def test_across_once_on_a_worn_lane_moves_the_line_with_the_model_too(n_before):
    shots = on((24, 14), *["pocket"] * n_before, "crossover")
    worn = cl.advise(played(*shots, line=(24, 14), games_on_lane=3.0))
    assert worn.rule.rule_ids[0] == "severe_once"
    assert (worn.kind, worn.move.feet_boards > 0) == ("line", True)


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("n_balls", [1, 2, 3])
def test_good_balls_in_the_pocket_move_nothing(line, n_balls):
    advice = cl.advise(played(*on(line, *["pocket"] * n_balls), line=line))
    assert (advice.kind, advice.move) in [("stay", cl.Move()), ("watch", cl.Move())]
    assert "boards high" not in cl.say(advice).summary
    if n_balls == 3:
        three = cl.advise(played(*on(line, *["pocket"] * 3, motion=None), line=line))
        assert (three.kind, cl.say(three).headline) == ("stay", "Stay")


def shows(advice):
    worths = [one for one in (advice.model.best, advice.model.rule) if one and one.move == advice.move]
    return n_of_twenty(worths[0].strike_prob) > n_of_twenty(advice.model.stay.strike_prob)


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("arrivals", [("high",) * 3, ("nose",) * 2, ("crossover",) * 2, ("far_light",) * 2])
def test_counts_are_shown_only_of_a_move_whose_gain_shows(line, arrivals):
    advice = cl.advise(played(*on(line, *arrivals), line=line))
    if advice.model is None:  # nothing simulated matches: the rule of thumb answers alone
        assert cl.say(advice).chances == ""
        return
    assert advice.kind == "line"
    assert advice.is_counted is shows(advice)
    said = cl.say(advice)
    assert ("up from" in said.chances) is advice.is_counted
    if not advice.is_counted:
        is_losing = advice.model.rule.gain_prob < -EQUAL_PROB  # then its way is gone by less
        assert (advice.move == advice.rule.move) is not is_losing
        assert outward(advice.move) == outward(advice.rule.move)
        assert (said.chances, said.model, said.runners_up) == ("", "", ())
        assert advice.move_strike_prob is advice.stay_strike_prob is advice.better_lanes_frac is None


def test_there_are_settled_moves_with_counts_and_without():
    counted = cl.advise(played(*on((24, 14), "nose", "nose"), line=(24, 14)))
    silent = cl.advise(played(*on((22, 11), "high", "high", "high"), line=(22, 11)))
    assert (counted.is_settled, counted.is_counted) == (True, True)
    assert (silent.is_settled, silent.is_counted) == (True, False)
    assert silent.move == silent.rule.move
    assert cl.say(counted).chances.startswith("About ")


@pytest.mark.parametrize(
    ("arrivals", "moves"), [(("high",) * 2, False), (("nose",) * 2, True), (("light", "pocket"), False)]
)
def test_after_a_move_nothing_moves_before_two_good_balls(arrivals, moves):
    line, new = (22, 11), (24, 12)
    session = cl.change(played(*on(line, "high", "high", "high"), line=line), line=cl.Line(*new))
    for shot in on(new, *arrivals[:1]):
        session = cl.observe(session, shot)
    assert cl.advise(session).move.is_stay
    for crossed in (13.5, 15.0):  # off the mark: no good ball, and no reason to move either
        assert cl.advise(cl.observe(session, cl.Shot(crossed_board=crossed, arrival="high"))).move.is_stay
    second = cl.advise(cl.observe(session, on(new, arrivals[1])[0]))
    assert (second.move.feet_boards > 0) is moves or second.rule.rule_ids[0] == "move_fell_short"


@pytest.mark.parametrize("model_on", [True, False])
def test_the_first_move_is_the_big_one_only_once_scoring_has_started(model_on):
    highs = on((22, 11), "high", "high", "high")
    practice = cl.advise(played(*highs), model_on=model_on)
    assert (practice.kind, practice.is_big) == ("line", False)
    scoring = played(*highs, scoring_started=True)
    assert cl.advise(scoring, model_on=model_on).is_big
    started_later = cl.change(played(*highs), scoring_started=True)
    assert cl.advise(started_later, model_on=model_on).is_big
    moved = cl.change(scoring, line=cl.Line(24, 12))
    for shot in on((24, 12), "nose", "nose"):
        moved = cl.observe(moved, shot)
    later = cl.advise(moved, model_on=model_on)
    assert (later.kind, later.is_big) == ("line", False)


def test_what_is_seen_again_is_believed():
    light = cl.Shot(crossed_board=11, arrival=14.0)
    session = played(*[light] * 6)
    assert believe(session).odd == ""
    told = cl.advise(session)
    assert told.is_unfit or told.model.blame.meant_board < 17.0


def test_where_no_lane_fits_the_rule_answers_alone_and_it_is_said():
    late = cl.Shot(crossed_board=17, arrival="far_light", motion="late")  # 20 boards off what the sheet says
    session = played(*[late] * 8, bowler=cl.load_bowler("club_right"), line=(24, 17))
    advice = cl.advise(session)
    alone = cl.advise(session, model_on=False)
    assert advice.is_unfit
    assert advice.model is None
    assert (advice.kind, advice.move) == (alone.kind, alone.move)
    assert cl.say(advice).odd.startswith("Nothing we can simulate matches what you saw")


@pytest.mark.parametrize("missed_boards", [3.0, 4.0, 5.0])
def test_a_miss_that_explains_the_result_is_the_bowlers_with_the_model_too(missed_boards):
    good = cl.Shot(crossed_board=12, arrival="pocket")
    missed = cl.Shot(crossed_board=12 + missed_boards, arrival="high")
    advice = cl.advise(played(*[good] * 4, missed, line=(24, 12)))
    assert (advice.kind, advice.cause.verdict) == ("stay", "bowler")
    assert advice.cause.bowler_prob is None or advice.cause.bowler_prob >= 0.5
    assert advice.model.odd != "crossing"


def test_no_speed_where_something_hurts_and_one_thing_for_a_young_bowler():
    nose = cl.Shot(crossed_board=11, arrival="nose")
    sore = dataclasses.replace(BOWLER, pain="wrist")
    hurt = cl.advise(played(nose, nose, nose, bowler=sore, goes_on_with_pain=True))
    assert hurt.model is None or hurt.model.changes == ()
    young = cl.advise(played(nose, nose, nose, bowler=dataclasses.replace(BOWLER, age_years=11.0)))
    assert max(abs(young.move.feet_boards), abs(young.move.target_boards)) <= 1
    assert abs(cl.line_shift_boards(young.move, at_ft=60)) < 2  # a 2-and-1 shifts it by 2
