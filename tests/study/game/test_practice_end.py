"""The end of a practice game: the same balls other ways, and the ball where most was lost.

Our own promises; what a way of playing is worth is measured by seasons, not here. The adviser is a stand-in
that stays, so that no table of the model is needed.
"""

import dataclasses
import types

import pytest

import coachlib as cl
from coachlib.study.game.practice_end import OTHERS, Lost, PracticeEnd, practice_end
from coachlib.study.seasons.policies import NeverMove
from coachlib.study.seasons.season import play_session
from tests.hidden_lanes import BALL, CLUB, HOUSE, mirrored, uneven
from tests.study.game.test_practice_game import finished, game

POOR_LINE = cl.Line(24.0, 19.0)


def stays(session):
    """Advise to stay: the rule's move is none, the new line the old one."""
    return types.SimpleNamespace(rule=types.SimpleNamespace(move=cl.Move()), new_line=session.line)


def ended(one, **options):
    return practice_end(one, advisor=stays, **options)


def as_practised(**options):
    """Return a game thrown as never moving throws it."""
    season = play_session(NeverMove(), game(**options).fresh_lane(), 6, 2)
    return finished(game(**options), *(seen.line for seen in season.session.shots))


def test_who_never_moved_keeps_what_never_moving_keeps():
    end = ended(as_practised())
    ways = {way.name: way for way in end.ways}
    assert list(ways) == ["you", *OTHERS]
    for name in ("never move", "advice"):  # the stand-in stays
        assert dataclasses.replace(ways["you"], name=name) == ways[name]
    assert ways["oracle"].kept != ways["you"].kept


def test_kept_is_the_sum_of_the_chances_and_fell_counts_strikes():
    one = finished(game())
    you = ended(one).ways[0]
    assert you.kept == pytest.approx(sum(throw.strike_prob for throw in one.throws[2:]), abs=1e-12)
    assert you.n_fell == sum(throw.struck for throw in one.throws[2:])


def test_moves_are_counted_from_the_last_practice_ball_on():
    one = game()
    one.throw(2)
    for feet in (28.0, 28.0, 29.0):
        one.move(cl.Line(feet, 16.0))
        one.throw()
    was_moved = one.session.shots[1].line != cl.Line(28.0, 16.0)
    assert ended(finished(one)).ways[0].n_moves == was_moved + 1


def test_the_ball_where_most_was_lost_is_the_one_thrown_on_a_poor_line():
    one = game()
    start = one.session.line
    end = ended(finished(one, start, start, start, start, POOR_LINE, start))
    assert end.worst is not None
    assert (end.worst.ball_number, end.worst.line) == (5, POOR_LINE)
    assert end.worst.better_prob > end.worst.line_prob + 0.1


def test_on_every_ball_the_oracle_is_asked_on_the_lane_as_it_lay():
    end = ended(finished(game()))
    assert [one.ball_number for one in end.lost] == [3, 4, 5, 6, 7, 8]
    assert len({one.line_prob for one in end.lost}) > 1  # one line, but the lane wears


def test_a_loss_too_small_to_count_is_none():
    lost = [Lost(number, POOR_LINE, cl.Line(25.0, 19.0), 0.30, 0.34) for number in (1, 2)]
    assert PracticeEnd((), tuple(lost)).worst is None


def test_another_ball_in_the_hand_is_the_oracles_too():
    one = game()
    one.throw(2)
    one.move(ball=cl.load_ball("plastic_spare"))
    end = ended(finished(one))
    world = one.fresh_lane()
    world.start()
    for seen in one.session.shots[:2]:
        world.throw(seen.line, seen.ball)
    first = end.lost[0]
    true = world.strike_probs([first.line, first.better_line], cl.load_ball("plastic_spare"), draw=3)
    assert [first.line_prob, first.better_prob] == true.tolist()


def test_a_left_hander_on_the_mirrored_oil_ends_alike():
    oil = uneven(HOUSE)
    right = ended(finished(game(4, pattern=oil)))
    assert ended(finished(game(4, pattern=mirrored(oil), bowler=cl.load_bowler("club_left")))) == right


def test_progress_counts_every_ball_played_again():
    told = []
    ended(finished(game()), progress=lambda n_done, n_all: told.append((n_done, n_all)))
    assert told == [(number, 32) for number in range(1, 33)]  # four ways of 6 balls, and the 8 thrown


def test_before_the_last_ball_there_is_no_end():
    with pytest.raises(cl.InputError, match="expected the end of the game"):
        ended(game())


def test_the_real_advice_is_asked_unless_told_otherwise():
    end = practice_end(finished(game(8, n_scored=3)))
    assert [way.name for way in end.ways] == ["you", *OTHERS]
    assert all(0.0 <= way.kept <= 3.0 for way in end.ways)


def test_the_game_stays_as_it_is():
    one = finished(game())
    before = (one.session, one.throws)
    ended(one)
    assert (one.session, one.throws) == before
    assert (one.bowler, one.ball) == (CLUB, BALL)
