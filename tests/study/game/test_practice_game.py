"""A practice game: what may be thrown and changed when, and that the same number is the same lane.

Our own promises (common practice of games, no outside source). Bowlers, balls and patterns are invented.
"""

import pytest

import coachlib as cl
from coachlib.study.game.practice_game import PracticeGame
from coachlib.study.seasons.policies import NeverMove
from coachlib.study.seasons.season import play_session
from tests.hidden_lanes import BALL, CLUB, HOUSE, mirrored, uneven

LEFT = cl.load_bowler("club_left")
OTHER_LINE = cl.Line(27.0, 15.0)


def game(seed=3, pattern=HOUSE, bowler=CLUB, n_scored=6, n_practice=2):
    return PracticeGame(pattern, bowler, BALL, seed=seed, n_scored=n_scored, n_practice=n_practice)


def finished(one, *lines):
    for line in lines:
        one.move(line)
        one.throw()
    while not one.is_over:
        one.throw(10)
    return one


def test_the_same_number_is_the_same_lane_ball_by_ball():
    assert finished(game(5), OTHER_LINE).throws == finished(game(5), OTHER_LINE).throws
    assert finished(game(5)).throws != finished(game(6)).throws


def test_everybody_gets_the_same_oil_friction_and_wear_for_a_number():
    here = game(5).fresh_lane().hidden
    there = game(5, bowler=cl.load_bowler("senior_right")).fresh_lane().hidden
    assert (here.law, here.wear) == (there.law, there.wear)
    assert (here.fresh_film_um == there.fresh_film_um).all()
    assert not (here.fresh_film_um == game(6).fresh_lane().hidden.fresh_film_um).all()


def test_a_left_hander_on_the_mirrored_oil_keeps_the_same_strikes():
    oil = uneven(HOUSE)
    right = finished(game(4, pattern=oil), OTHER_LINE)
    left = finished(game(4, pattern=mirrored(oil), bowler=LEFT), OTHER_LINE)
    assert [one.strike_prob for one in right.throws] == [one.strike_prob for one in left.throws]
    assert [one.shot for one in right.throws] == [one.shot for one in left.throws]


def test_a_game_played_like_a_season_is_that_season():
    season = play_session(NeverMove(), game().fresh_lane(), 6, 2)
    played = finished(game(), *(seen.line for seen in season.session.shots))
    assert [one.strike_prob for one in played.throws[2:]] == season.strike_prob.tolist()


def test_only_what_an_eye_sees_is_told_before_the_end():
    one = game()
    shots = one.throw()
    assert shots == tuple(seen.shot for seen in one.session.shots)
    unknown = r"with 7 balls left; expected the end of the game.*session\.shots"
    with pytest.raises(cl.InputError, match=unknown):
        _ = one.throws
    assert len(finished(one).throws) == 8


def test_ten_balls_stop_where_practice_ends_and_where_the_game_ends():
    one = game()
    assert (one.is_practice, one.n_left) == (True, 2)
    assert len(one.throw(10)) == 2
    assert (one.is_practice, one.n_left, one.session.scoring_started) == (False, 6, True)
    assert len(one.throw(10)) == 6
    assert one.is_over


def test_a_game_may_have_no_practice():
    one = game(n_practice=0)
    assert (one.is_practice, one.n_left, one.session.scoring_started) == (False, 6, True)


def test_changes_are_taken_back_until_the_ball_is_thrown():
    one = game()
    start = one.session
    one.move(OTHER_LINE)
    one.move(ball=cl.load_ball("solid_1000"))
    one.undo()
    assert (one.session.line, one.session.ball) == (OTHER_LINE, BALL)
    assert one.undo() == start


@pytest.mark.parametrize(("n_balls", "thrown"), [(0, "So far"), (1, "Since ball 1"), (2, "Since ball 2")])
def test_a_thrown_ball_stays_thrown(n_balls, thrown):
    one = game()
    for _ in range(n_balls):
        one.throw()
    before = one.session
    with pytest.raises(cl.InputError, match=f"stays thrown. {thrown} there was no change"):
        one.undo()
    assert one.session == before


def test_the_change_of_ball_is_thrown():
    one, two = game(), game()
    two.move(ball=cl.load_ball("pearl_polished"))
    assert one.throw(2) != two.throw(2)
    assert two.session.shots[-1].ball == cl.load_ball("pearl_polished")


@pytest.mark.parametrize(
    ("line", "why"), [(cl.Line(5.0, 5.0), "laydown would be board"), (cl.Line(30.0, 2.0), "aim off the lane")]
)
def test_a_line_that_does_not_fit_is_refused_and_nothing_changes(line, why):
    one = game()
    before = one.session
    with pytest.raises(cl.InputError, match=f"Choose another line than .*{why}"):
        one.move(line)
    assert (one.session, one.n_thrown) == (before, 0)


def test_after_the_last_ball_nothing_is_thrown_or_moved():
    one = finished(game())
    for step in (one.throw, one.move):
        with pytest.raises(cl.InputError, match=r"Start a new game, .* All 8 balls of this one are thrown"):
            step()


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"n_scored": 0}, "n_scored is 0; expected 1 to 200 balls"),
        ({"n_practice": -1}, "n_practice is -1; expected 0 to 20 balls"),
        ({"seed": 1.5}, "seed is 1.5; expected a whole number"),
    ],
)
def test_wrong_counts_and_numbers_are_refused(wrong, told):
    with pytest.raises(cl.InputError, match=told):
        game(**wrong)


def test_a_wrong_number_of_balls_throws_none():
    one = game()
    with pytest.raises(cl.InputError, match="n_balls is 0; expected 1 to 200 balls"):
        one.throw(0)
    assert one.n_thrown == 0
