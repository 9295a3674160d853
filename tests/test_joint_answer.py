"""Both voices together: what settles a way, what bars one, and where the rule of thumb answers alone.

Invariants of our own and common practice of coaching, no source: a ball that hit its target and came in high
sends nobody outside, one look moves nothing, the bowler's own miss stays the bowler's.
"""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.belief.replay import believe

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


def test_what_is_seen_again_is_believed():
    light = cl.Shot(crossed_board=11, arrival=14.0)
    session = played(*[light] * 6)
    assert believe(session).odd == ""
    told = cl.advise(session)
    assert told.is_unfit or told.model.blame.meant_board < 17.0


def test_where_no_lane_fits_the_rule_answers_alone_and_it_is_said():
    late = cl.Shot(crossed_board=9, arrival="far_light", motion="late")
    session = played(*[late] * 8, bowler=cl.load_bowler("club_right"), line=(18, 9))
    advice = cl.advise(session)
    alone = cl.advise(session, model_on=False)
    assert advice.is_unfit
    assert advice.model is None
    assert (advice.kind, advice.move) == (alone.kind, alone.move)
    assert "fits none of the lanes" in cl.say(advice).odd


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


def test_the_model_says_in_one_clause_why_and_what_to_see():
    model = cl.advise(played(cl.Shot(crossed_board=11, arrival="high"))).model
    assert model.reason.startswith("A good shot comes in ")
    assert model.look_for
    assert cl.advise(played()).model.reason == ""
