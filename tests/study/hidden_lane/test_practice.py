"""Hidden lanes: the same for a seed, the same errors for a ball's number, worn by balls, telling nothing."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.study.hidden_lane.hidden_bowler import ball_errors
from tests.hidden_lanes import BALL, CLUB, FLAT, HOUSE, lane

LINE = cl.Line(28.0, 16.0)


def test_same_seed_same_lane_ball_by_ball():
    one, two = lane(4), lane(4)
    assert one.start() == two.start()
    assert [one.throw(LINE) for _ in range(6)] == [two.throw(LINE) for _ in range(6)]
    np.testing.assert_array_equal(one.film_um, two.film_um)


def test_other_seeds_are_other_lanes():
    throws = [lane(seed).throw(LINE).strike_prob for seed in range(5)]
    assert len(set(throws)) == 5


def test_start_makes_the_lane_fresh_again():
    world = lane()
    first = [world.throw(LINE) for _ in range(5)]
    world.start()
    assert world.n_thrown == 0
    assert [world.throw(LINE) for _ in range(5)] == first


def test_errors_go_by_the_number_of_the_ball_whatever_line_is_played():
    one, two = lane(4, n_others=0), lane(4, n_others=0)
    other = cl.Line(30.0, 18.0)
    for _ in range(3):
        one.throw(LINE)
        two.throw(other)
    here, there = one.throw(LINE).shot, two.throw(other).shot
    assert here.speed_mph == there.speed_mph
    seen = [shot.crossed_board for shot in (here, there)]
    assert None not in seen
    assert seen[1] - seen[0] == pytest.approx(2.0, abs=0.51)  # each is rounded to the half board


def test_a_strike_is_seen_when_it_struck():
    world = lane(2)
    throws = [world.throw(LINE) for _ in range(25)]
    told = [(one.struck, one.shot.leave == ()) for one in throws if one.shot.leave is not None]
    assert len(told) > 15
    assert all(struck == seen for struck, seen in told)
    assert {struck for struck, _ in told} == {True, False}


def test_struck_as_often_as_the_chances_say():
    throws = [throw for seed in range(20) for throw in _first(lane(seed), 10)]
    chances = np.array([one.strike_prob for one in throws])
    spread = np.sqrt((chances * (1.0 - chances)).sum())
    assert abs(sum(one.struck for one in throws) - chances.sum()) < 3.5 * spread


def _first(world, n_balls):
    line = world.start().line
    return [world.throw(line) for _ in range(n_balls)]


def test_the_true_chance_is_the_mean_over_balls_as_thrown():
    # with an unworn lane and no fatigue, throwing often comes to what the judge reads
    told, thrown = [], []
    for seed in range(40):
        world = lane(seed, n_others=0)
        line = world.start().line
        told.append(world.strike_probs([line])[0])
        thrown += [world.throw(line).strike_prob for _ in range(4)]
    assert np.mean(thrown) == pytest.approx(np.mean(told), abs=3.5 * np.std(thrown) / len(thrown) ** 0.5)


def test_wear_thins_where_the_ball_rolls_and_others_wear_more():
    quiet, busy = lane(3, n_others=0), lane(3)
    fresh = quiet.film_um
    np.testing.assert_array_equal(fresh, busy.film_um)
    for _ in range(8):
        quiet.throw(LINE)
        busy.throw(LINE)
    np.testing.assert_array_equal(quiet.film_um[:, 30:], fresh[:, 30:])
    assert quiet.film_um[:60].sum() < fresh[:60].sum()
    assert busy.film_um.sum() < quiet.film_um.sum()


def test_a_worn_lane_brings_the_ball_in_higher():
    shifts = []
    for seed in range(6):
        world = lane(seed, FLAT)
        line = world.start().line
        first = world.throw(line).lane_boards
        for _ in range(38):
            world.throw(line)
        shifts.append(world.throw(line).lane_boards - first)
    assert 0.3 < np.mean(shifts) < 4.0  # with a bowler who tires; about what two moves of 2-and-1 give back


def test_parts_of_a_miss_add_up_to_the_arrival():
    world = lane(5)
    for number in range(5):
        errors = ball_errors(np.random.default_rng((5, 100, number)))
        release = world.hidden.bowler.releases([LINE], errors, number)
        arrival_board = world.surface().roll(release, BALL).arrival_board[0]
        throw = world.throw(LINE)
        assert np.isfinite(throw.lane_boards)
        assert throw.release_boards + throw.lane_boards == pytest.approx(arrival_board - 17.5, abs=1e-9)


def test_the_session_holds_only_what_was_said_and_seen():
    world = lane(5)
    session = world.start()
    assert (session.bowler, session.ball, session.pattern) == (CLUB, BALL, HOUSE)
    assert session.events == ()
    assert session.seed == 0  # the lane's own seed would give everything away
    session = cl.observe(session, world.throw(session.line).shot)
    assert session == dataclasses.replace(world.start(), events=session.events)
    assert {type(event.shot) for event in session.shots} == {cl.Shot}


def test_another_ball_rolls_differently_and_errs_the_same():
    one, two = lane(5), lane(5)
    here, there = one.throw(LINE), two.throw(LINE, cl.load_ball("plastic_spare"))
    assert there.lane_boards < here.lane_boards - 2.0
    assert here.shot.speed_mph == there.shot.speed_mph


def test_a_pattern_known_by_its_sheet_alone_gets_a_usual_film():
    world = lane(pattern=cl.OilPattern(name="sheet", length_ft=40.0))
    assert world.film_um.max() > 0.5


def test_wrong_input_and_nothing_is_thrown():
    world = lane()
    with pytest.raises(cl.InputError, match=r"line would lay the ball down on board -3.5; expected 1 to 39"):
        world.throw(cl.Line(3.0, 5.0))
    with pytest.raises(cl.InputError, match="line is 5; expected a Line"):
        world.throw(5)
    with pytest.raises(cl.InputError, match="ball is 'hybrid'; expected a Ball"):
        world.throw(LINE, "hybrid")
    assert world.n_thrown == 0
    with pytest.raises(cl.InputError, match="seed is -1; expected 0 to"):
        lane(-1)
    with pytest.raises(cl.InputError, match=r"seed is 1.5; expected a whole number"):
        lane(1.5)
    with pytest.raises(cl.InputError, match="n_others is 50; expected 0 to 20"):
        lane(n_others=50)
    with pytest.raises(cl.InputError, match="bowler is 'me'; expected a Bowler"):
        lane(bowler="me")


def test_the_other_lane_of_a_pair_has_the_same_bowler_law_and_eye_on_other_oil():
    one = lane()
    other = lane(4, pair=one)
    for name in ("bowler", "law", "eye"):
        assert getattr(other.hidden, name) == getattr(one.hidden, name)
    assert not np.array_equal(other.hidden.fresh_film_um, one.hidden.fresh_film_um)
    with pytest.raises(cl.InputError, match="pair"):
        lane(pair=3)
