"""What balls do to the oil: where they roll it thins, some is carried, none is made."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics.motion import simulate
from coachlib.physics.wear import Thrower, WearLaw, wear_after, wear_after_games, worn
from coachlib.world.release import release_on_line

HOUSE = cl.load_pattern("house_41")
HYBRID, PLASTIC = cl.load_ball("hybrid_2000"), cl.load_ball("plastic_spare")
CLUB = Thrower(cl.load_bowler("club_right"), HYBRID, 22.0, 16.0)
FOUR = (
    CLUB,
    Thrower(cl.load_bowler("walker_right"), cl.load_ball("hybrid_14lb"), 21.0, 15.3),
    Thrower(cl.load_bowler("high_rev_left"), HYBRID, 27.0, 17.9),
    Thrower(cl.load_bowler("senior_right"), cl.load_ball("solid_1000"), 10.0, 9.3),
)


def arrival(thrower, pattern):
    release = release_on_line(thrower.bowler, thrower.laydown_board, thrower.target_board)
    return simulate(release, thrower.ball, pattern, thrower.bowler.hand)


def film(pattern):
    padded = np.zeros((120, 39))
    padded[: len(pattern.film_um)] = pattern.film_array_um
    return padded


@pytest.fixture(scope="module")
def games():
    lanes = [HOUSE]
    for more in (0.7, 0.8, 1.0, 0.5):
        lanes.append(wear_after_games(lanes[-1], FOUR, more, seed=1))
    return lanes


def test_games_bring_the_ball_in_earlier_and_higher(games):
    paths = [arrival(CLUB, lane) for lane in games]
    boards = [path.arrival_board[0] for path in paths]
    hooks = [path.hook_ft[0] for path in paths]
    assert boards == sorted(boards)
    assert hooks == sorted(hooks, reverse=True)
    assert 0.5 < boards[-1] - boards[0] < 2.0  # about a 2-and-1's worth (our guess)


def test_three_games_thin_the_busiest_strip_by_about_half(games):
    fresh, late = film(HOUSE), film(games[-1])
    left = (late[fresh > 0.2] / fresh[fresh > 0.2]).min()
    assert 0.35 < left < 0.65


def test_oil_is_neither_made_nor_negative(games):
    volumes = [lane.volume_ml for lane in games]
    assert volumes == sorted(volumes, reverse=True)
    assert all(film(lane).min() >= 0.0 for lane in games)


def test_boards_nobody_rolls_on_stay():
    after = film(wear_after(HOUSE, CLUB, 30))
    before = film(HOUSE)
    np.testing.assert_array_equal(after[:, 28:], before[:, 28:])
    assert (after[:60, 5:24].sum(axis=1) < before[:60, 5:24].sum(axis=1)).all()


def test_length_and_kind_stay_and_the_name_says_worn(games):
    assert (games[-1].length_ft, games[-1].kind, games[-1].name) == (41.0, "house", "house_41 worn")


def test_left_hander_wears_the_other_side():
    left = dataclasses.replace(CLUB, bowler=dataclasses.replace(CLUB.bowler, hand="left"))
    right_after, left_after = film(wear_after(HOUSE, CLUB, 9)), film(wear_after(HOUSE, left, 9))
    np.testing.assert_array_equal(right_after, left_after[:, ::-1])


def test_plastic_carries_and_a_flaring_ball_strips():
    strips = wear_after(HOUSE, CLUB, 27)
    carries = wear_after(HOUSE, dataclasses.replace(CLUB, ball=PLASTIC), 27)
    past_the_oil = slice(84, None)
    assert film(carries)[past_the_oil].sum() > 2 * film(strips)[past_the_oil].sum() > 0
    assert HOUSE.volume_ml - carries.volume_ml < 0.5 * (HOUSE.volume_ml - strips.volume_ml)
    assert arrival(CLUB, carries).arrival_board[0] < arrival(CLUB, HOUSE).arrival_board[0]


def test_what_is_lifted_is_laid_down_or_still_on_the_ball():
    # nothing fresh, nothing drunk: lane and balls together keep the oil
    from coachlib.physics import wear

    film_um = film(HOUSE)
    boards = np.tile(np.linspace(20.0, 12.0, 120)[:, None], (1, 5)) + np.arange(5) * 0.3
    before = film_um.sum()
    carried = wear._roll(film_um, boards, 10.0, 0.05, 1.0, 0.05)
    assert film_um.sum() < before - 0.1
    assert film_um.sum() + carried.sum() == pytest.approx(before, rel=1e-12)


def test_twice_the_balls_is_twice_in_a_row():
    # limiting case: with nothing carried the thinning by n balls is exact, one after the other or at once
    law = WearLaw(reactive_carry_frac=0.0)
    path = arrival(CLUB, HOUSE)
    once = worn(HOUSE, path, HYBRID, 8, law=law)
    twice = worn(worn(HOUSE, path, HYBRID, 4, law=law), path, HYBRID, 4, law=law)
    np.testing.assert_allclose(film(once), film(twice), atol=1e-12)


def test_no_balls_no_wear():
    np.testing.assert_array_equal(film(wear_after(HOUSE, CLUB, 0)), film(HOUSE))
    assert wear_after_games(HOUSE, FOUR, 0) == HOUSE


def test_balls_in_the_gutter_wear_only_as_far_as_they_roll():
    lost = simulate(cl.Release(8.0, -6.0, 19.0, 300.0, 45.0, 13.0), HYBRID, HOUSE)
    assert lost.gutter[0]
    after, before = film(worn(HOUSE, lost, HYBRID, 9)), film(HOUSE)
    assert (after[:4] < before[:4]).any()
    np.testing.assert_array_equal(after[40:80], before[40:80])


def test_same_seed_same_lane():
    assert wear_after_games(HOUSE, FOUR[:2], 0.4, seed=2) == wear_after_games(HOUSE, FOUR[:2], 0.4, seed=2)


def test_wrong_numbers():
    with pytest.raises(cl.InputError, match="n_games is -1; expected 0 to 30 games"):
        wear_after_games(HOUSE, FOUR, -1)
    with pytest.raises(cl.InputError, match="n_balls is 5000; expected 0 to 1000 balls"):
        wear_after(HOUSE, CLUB, 5000)
