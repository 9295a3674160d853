"""The oil of a hidden lane: each difference does what its name says; wear skims where balls roll."""

import dataclasses

import numpy as np
import pytest

from coachlib.study.hidden_lane.hidden_oil import (
    FOOT_BOARDS,
    HiddenWear,
    OilDifference,
    drawn_difference,
    drawn_wear,
    hidden_film_um,
    passes_over,
    worn_film_um,
)
from tests.hidden_lanes import HOUSE, mirrored, uneven

SAME = OilDifference()
FRESH_UM = hidden_film_um(HOUSE, "right", SAME)
PATH = np.linspace(20.0, 10.0, 61)[:, None]
WEAR = HiddenWear()


def film(**changes):
    return hidden_film_um(HOUSE, "right", dataclasses.replace(SAME, **changes))


def test_no_difference_is_the_sheet():
    np.testing.assert_allclose(film()[: len(HOUSE.film_um)], HOUSE.film_array_um, atol=1e-12)


def test_film_factor_is_on_every_film():
    np.testing.assert_allclose(film(film_factor=1.3), 1.3 * film(), rtol=1e-12)


def test_a_longer_pattern_ends_later():
    ends = [0.5 * (1 + np.flatnonzero(film(longer_ft=more)[:, 19] > 0.05).max()) for more in (-2.0, 0.0, 2.0)]
    assert ends == pytest.approx([ends[1] - 2.0, ends[1], ends[1] + 2.0], abs=0.5)


def test_a_ramp_farther_out_oils_the_bowlers_side_only():
    moved, same = film(ramp_out_boards=1.0), film()
    assert (moved[:60, 3:10].sum(axis=1) > same[:60, 3:10].sum(axis=1)).all()
    np.testing.assert_allclose(moved[:, 19:], same[:, 19:], atol=1e-12)


def test_a_strip_thins_its_boards_only():
    left, same = film(strip_board=10.0, strip_boards=2.0, strip_depth_frac=0.4)[75], film()[75]
    assert left[9] == pytest.approx(0.6 * same[9], rel=0.05)
    np.testing.assert_array_equal(left[13:], same[13:])


def test_drawn_lanes_differ_and_film_is_never_negative():
    films = [
        hidden_film_um(HOUSE, "right", drawn_difference(np.random.default_rng(seed))) for seed in range(12)
    ]
    assert all(one.shape == (120, 39) and one.min() >= 0.0 for one in films)
    volumes = [one.sum() for one in films]
    assert len(set(volumes)) == 12
    assert 0.5 < min(volumes) / film().sum() < 1.0 < max(volumes) / film().sum() < 1.7


def test_the_mirrored_lane_is_the_same_for_the_other_hand():
    pattern, difference = uneven(HOUSE), drawn_difference(np.random.default_rng(5))
    right = hidden_film_um(pattern, "right", difference)
    np.testing.assert_array_equal(right, hidden_film_um(mirrored(pattern), "left", difference))
    assert not np.array_equal(right, hidden_film_um(pattern, "left", difference))


def test_film_changes_only_where_balls_roll():
    passes = passes_over(PATH, 10.0)
    after = worn_film_um(FRESH_UM, passes, WEAR)
    boards = np.arange(1.0, 40.0)
    for row in (0, 40, 79, 119):
        place = np.interp(0.25 + 0.5 * row, np.arange(61.0), PATH[:, 0])
        is_far = np.abs(boards - place) >= FOOT_BOARDS
        np.testing.assert_array_equal(after[row, is_far], FRESH_UM[row, is_far])
    assert (after[:60] < FRESH_UM[:60]).any(axis=1).all()


def test_no_balls_no_wear():
    np.testing.assert_array_equal(worn_film_um(FRESH_UM, np.zeros((120, 39)), WEAR), FRESH_UM)


def test_a_ball_in_the_gutter_wears_only_as_far_as_it_rolls():
    path = PATH.copy()
    path[30:] = np.nan
    after = worn_film_um(FRESH_UM, passes_over(path, 5.0), WEAR)
    np.testing.assert_array_equal(after[60:], FRESH_UM[60:])


def test_oil_is_neither_made_nor_negative():
    passes = passes_over(PATH, 400.0)
    after = worn_film_um(FRESH_UM, passes, HiddenWear(carried_frac=0.25))
    assert after.min() >= 0.0
    assert after.sum() < FRESH_UM.sum()
    lifted = FRESH_UM.sum() - worn_film_um(FRESH_UM, passes, HiddenWear(carried_frac=0.0)).sum()
    laid = after.sum() - (FRESH_UM.sum() - lifted)
    assert 0.0 < laid <= 0.25 * lifted * 1.001  # the rest is on the balls


def test_carried_oil_comes_down_past_the_oils_end():
    after = worn_film_um(FRESH_UM, passes_over(PATH, 30.0), HiddenWear(carried_frac=0.25))
    dry = FRESH_UM.sum(axis=1) == 0.0
    assert dry.any()
    assert after[dry].sum() > 0.0


def test_thick_film_loses_a_depth_and_thin_film_a_share():
    # limiting cases of the law itself
    cells = np.zeros((120, 39))
    cells[:, 10] = 1.0
    wear = HiddenWear(depth_um=0.04, soft_um=0.7, carried_frac=0.0)
    thick = 25.0 - worn_film_um(np.full((120, 39), 25.0), cells, wear)[:, 10]
    thin = 1.0 - worn_film_um(np.full((120, 39), 1e-4), cells, wear)[:, 10] / 1e-4
    np.testing.assert_allclose(thick, 0.04, rtol=0.04)
    np.testing.assert_allclose(thin, 1.0 - np.exp(-0.04 / 0.7), rtol=1e-3)


def test_passes_add_up():
    both = np.hstack([PATH, PATH + 5.0])
    np.testing.assert_allclose(passes_over(both, 2.0), passes_over(PATH) + passes_over(PATH + 5.0))
    assert passes_over(PATH)[50].sum() == pytest.approx(FOOT_BOARDS, rel=0.05)


def test_draws():
    wears = [drawn_wear(np.random.default_rng(seed)) for seed in range(20)]
    assert wears[3] == drawn_wear(np.random.default_rng(3))
    assert len({wear.depth_um for wear in wears}) == 20
