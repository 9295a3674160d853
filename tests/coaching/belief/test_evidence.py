"""Weak and strong evidence: what one ball off the mark may do, and what one or two very bad balls must.

Common practice of coaching, no source: one ball mixes lane and luck, two very bad ones over the target do
not; a ball off the mark speaks of the aim first.
"""

import pytest

import coachlib as cl

LINE = cl.Line(22, 11)
EARLY_HIGH = cl.Shot(crossed_board=11, arrival="high", motion="early")
SPLIT = (4, 6, 7, 10)


def played(*shots, bowler=None, **fields):
    session = cl.Session(bowler=bowler or cl.Bowler(), line=LINE, **fields)
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def advise(*shots, bowler=None, **fields):
    return cl.advise(played(*shots, bowler=bowler, **fields), model_on=False)


@pytest.mark.parametrize("crossed", [12.5, 9.5])
@pytest.mark.parametrize("arrival", ["nose", "high", "light", "far_light", "crossover", 23.0])
@pytest.mark.parametrize("games", [0.0, 3.0])
def test_a_ball_within_the_usual_spread_is_watched_and_nobodys_doing(crossed, arrival, games):
    advice = advise(cl.Shot(crossed_board=crossed, arrival=arrival), games_on_lane=games)
    assert (advice.kind, advice.move, advice.cause.verdict) == ("watch", cl.Move(), "too early")
    assert advice.rule.rule_ids == ("within_usual_spread",)


@pytest.mark.parametrize("leave", [(4,), (6,), (4, 9), (4, 6, 7, 10), (3, 6, 10)])
def test_no_pin_moves_the_line_after_a_ball_within_the_usual_spread(leave):
    # A lone 4 over the target acts at once; half a board off the mark it is weak evidence.
    for crossed in (12.5, 9.5):
        advice = advise(cl.Shot(crossed_board=crossed, arrival="high", leave=leave))
        assert (advice.kind, advice.move) == ("watch", cl.Move())
    assert advise(cl.Shot(crossed_board=11, arrival="high", leave=(4,))).kind == "line"


def test_a_ball_within_the_usual_spread_uses_up_no_patience():
    off = cl.Shot(crossed_board=12.5, arrival="high", motion="early")
    assert advise(EARLY_HIGH, EARLY_HIGH, off).kind == "watch"
    assert advise(EARLY_HIGH, off, off, EARLY_HIGH).kind == "watch"
    assert advise(EARLY_HIGH, off, EARLY_HIGH, EARLY_HIGH).move == cl.Move(2, 1)


def test_the_lone_four_waits_for_two_balls_after_a_move():
    moved = cl.change(played(*[EARLY_HIGH] * 3), line=cl.Line(24, 12))
    four = cl.Shot(crossed_board=12, arrival="high", leave=(4,))
    advice = cl.advise(cl.observe(moved, four), model_on=False)
    assert (advice.kind, advice.rule.rule_ids) == ("watch", ("move_perhaps_short",))


@pytest.mark.parametrize("arrival", ["nose", "crossover"])
@pytest.mark.parametrize("games", [0.0, 1.0, 2.0])
@pytest.mark.parametrize("n_before", [0, 5])
def test_one_very_high_ball_stays_on_a_lane_that_is_not_worn(arrival, games, n_before):
    pocket = cl.Shot(crossed_board=11, arrival="pocket", leave=())
    once = cl.Shot(crossed_board=11, arrival=arrival, leave=SPLIT)
    advice = advise(*[pocket] * n_before, once, games_on_lane=games - n_before / 10 if games else 0.0)
    assert (advice.kind, advice.move) == ("watch", cl.Move())


def test_across_once_on_a_worn_lane_is_half_a_move():
    pocket = cl.Shot(crossed_board=11, arrival="pocket", leave=())
    for n_before in (0, 5):
        across = advise(
            *[pocket] * n_before, cl.Shot(crossed_board=11, arrival="crossover"), games_on_lane=3.0
        )
        assert across.rule.rule_ids[0] == "severe_once"
        assert across.move == cl.Move(2, 1)
        nose = advise(*[pocket] * n_before, cl.Shot(crossed_board=11, arrival="nose"), games_on_lane=3.0)
        assert nose.move.is_stay
    off = advise(cl.Shot(crossed_board=12.5, arrival="crossover"), games_on_lane=3.0)
    assert off.move.is_stay


@pytest.mark.parametrize(("arrival", "way"), [("nose", 1), ("crossover", 1), ("far_light", -1), ("out", -1)])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_two_very_bad_balls_on_target_to_one_side_move_the_line(arrival, way, hand):
    shot = cl.Shot(crossed_board=11, arrival=arrival, motion="even")
    advice = advise(shot, shot, bowler=cl.Bowler(hand=hand))
    assert advice.kind == "line"
    assert way * advice.move.feet_boards > 0
    assert advice.is_settled
    pocket = cl.Shot(crossed_board=11, arrival="pocket")
    assert way * advise(shot, pocket, shot, bowler=cl.Bowler(hand=hand)).move.feet_boards > 0


def test_two_very_bad_balls_to_two_sides_or_off_the_mark_move_nothing():
    nose, far = (cl.Shot(crossed_board=11, arrival=name, motion="even") for name in ("nose", "far_light"))
    assert advise(nose, far).move.is_stay
    assert advise(far, nose).move.is_stay
    for arrival in ("nose", "far_light"):
        shots = [cl.Shot(crossed_board=board, arrival=arrival, motion="even") for board in (11, 12.5)]
        assert advise(*shots).move.is_stay
        assert advise(*reversed(shots)).move.is_stay
