"""Chances of leaves: what must hold for any table, on a small one made here, and the shipped file's door."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import coachlib as cl
from coachlib.errors import DataFileError, InputError
from coachlib.files import data_path
from coachlib.physics.pins.build import arrival_sampling as design
from coachlib.physics.pins.build.carry_build import Smoothing, build_table, held_out_log_loss, ordered_leaves
from coachlib.physics.pins.build.carry_ship import read_shipped_racks
from coachlib.physics.pins.carry import STRIKE, leave_probs, mean_leave_probs, sample_leaves, strike_prob
from coachlib.physics.pins.carry_file import packed, read_carry_table, read_packed, shipped_table, write_table
from coachlib.physics.pins.carry_table import pocket_carry_frac

N_RACKS = 32_768
TEN_PIN, SEVEN_PIN = 1 << 9, 1 << 6


def made_up_racks():
    """Return arrivals and leaves of an invented law: strikes near 17.5, else a 10 outside or a 7 inside."""
    points = design.arrival_points(0, N_RACKS, 2)
    chance = np.exp(-0.5 * ((points[:, 0] - 17.5) / 1.0) ** 2)
    strikes = np.random.default_rng(1).random(N_RACKS) < chance
    return points, np.where(strikes, 0, np.where(points[:, 0] < 17.5, TEN_PIN, SEVEN_PIN))


@pytest.fixture(scope="module")
def table():
    return build_table(*made_up_racks(), settings='{"seed": 2}')


BOARDS, ANGLES = st.floats(0, 40), st.floats(-15, 20)
SPEEDS, WEIGHTS = st.floats(1, 40), st.floats(6, 16)


@given(BOARDS, ANGLES, SPEEDS, WEIGHTS, st.booleans())
def test_chances_sum_to_one_and_none_is_negative(table, board, angle, speed, weight, level_on):
    chances = leave_probs(board, angle, speed, weight, level_on=level_on, table=table)
    assert sum(chances.values()) == pytest.approx(1.0, abs=1e-6)
    assert min(chances.values()) >= 0.0
    assert set(chances) == {frozenset(), frozenset({10}), frozenset({7})}


@given(st.floats(8, 31.99), st.floats(-2, 7.99), st.floats(10, 21.99), st.floats(8, 15.99))
def test_a_thousandth_of_a_unit_changes_little(table, board, angle, speed, weight):
    here = strike_prob(board, angle, speed, weight, table=table)
    near = np.array([board, angle, speed, weight])[:, None] + 0.001 * np.eye(4)
    assert np.abs(strike_prob(*near, table=table) - here).max() < 0.005


def test_outside_the_table_its_edge_is_read_and_said(table):
    inside = leave_probs(8.0, 8.0, 22.0, 8.0, table=table)
    outside = leave_probs(7.0, 9.0, 25.0, 7.0, table=table)
    assert inside.in_range
    assert not outside.in_range
    assert dict(outside) == dict(inside)


def test_a_batch_equals_single_balls_and_keeps_its_shape(table):
    boards = np.array([[15.0, 17.5, 19.0], [20.0, 9.3, 31.0]])
    batch = strike_prob(boards, 4.3, 17.0, 14.0, table=table)
    assert batch.shape == boards.shape
    for board, chance in zip(boards.ravel(), batch.ravel(), strict=True):
        assert leave_probs(board, 4.3, 17.0, 14.0, table=table).strike_prob == pytest.approx(chance, abs=1e-6)


def test_on_a_grid_point_the_counts_are_read(table):
    number = np.ravel_multi_index((38, 3, 2, 3), (97, 6, 4, 5))  # board 17.5, 4 deg, 18 mph, 14 lb
    read = strike_prob(17.5, 4.0, 18.0, 14.0, level_on=False, table=table)
    assert read == pytest.approx(table.shares[number, 0], abs=1e-6)


def test_samples_follow_the_chances_and_strike_below_the_strike_chance(table):
    draws = (np.arange(20_000) + 0.5) / 20_000
    left = sample_leaves(18.2, 5.0, 17.0, 15.0, draws, table=table)
    chances = leave_probs(18.2, 5.0, 17.0, 15.0, table=table)
    assert left.shape == (20_000, 10)
    assert np.array_equal(~left.any(axis=1), draws < chances[STRIKE])
    assert left[:, 6].mean() == pytest.approx(chances[frozenset({7})], abs=1e-3)


def test_the_mean_over_many_balls_is_the_mean_of_each_and_leaves_out_who_is_outside(table):
    boards = [15.0, 17.5, 19.0]
    mean, is_inside = mean_leave_probs(boards, 4.3, 17.0, 14.0, table=table)
    single = [leave_probs(board, 4.3, 17.0, 14.0, table=table) for board in boards]
    for leave, chance in mean.items():
        assert chance == pytest.approx(np.mean([one[leave] for one in single]), abs=1e-6)
    assert is_inside.all()
    assert mean.in_range
    part, is_inside = mean_leave_probs([*boards, 39.0, np.nan], 4.3, 17.0, 14.0, table=table)
    assert is_inside.tolist() == [True, True, True, False, False]
    assert dict(part) == pytest.approx(dict(mean))
    assert not part.in_range
    nothing, _ = mean_leave_probs([39.0], 4.3, 17.0, 14.0, table=table)
    assert len(nothing) == 0


def test_the_level_scales_every_strike_chance_alike_and_can_be_off(table):
    lowered = dataclasses.replace(table, level=0.8)
    boards = np.linspace(8, 32, 200)
    on = strike_prob(boards, 5.0, 17.0, 15.0, table=lowered)
    off = strike_prob(boards, 5.0, 17.0, 15.0, level_on=False, table=lowered)
    assert on == pytest.approx(0.8 * off, rel=1e-9)
    assert np.array_equal(np.argsort(on), np.argsort(off))


def test_the_level_meets_the_televised_carry():
    # 40 strikes of 54 pocket hits: J. Thomas, column, seen second-hand.
    points, bits = made_up_racks()
    built = build_table(points, np.where(np.abs(points[:, 0] - 17.5) < 2.0, 0, bits))
    assert built.level < 1.0
    assert built.level * pocket_carry_frac(built) == pytest.approx(40 / 54, abs=1e-6)


def test_the_smoothed_chance_is_near_the_law_it_was_made_from(table):
    boards = np.array([15.5, 16.5, 17.5, 18.5, 19.5])
    law = np.exp(-0.5 * (boards - 17.5) ** 2)
    found = strike_prob(boards, 4.0, 16.0, 13.0, level_on=False, table=table)
    assert np.abs(found - law).max() < 0.12  # about 50 racks count at a point: one sd is 0.07


def test_wider_smoothing_than_the_pocket_loses_on_racks_not_seen():
    racks = made_up_racks()
    narrow = held_out_log_loss(*racks, Smoothing())
    assert narrow < held_out_log_loss(*racks, Smoothing(board_boards=3.0))
    assert narrow < 0.8


def test_leaves_are_ordered_strike_first_then_common():
    leaves, which = ordered_leaves(np.array([512, 512, 64, 0, 512]))
    assert leaves.tolist() == [0, 512, 64]
    assert which.tolist() == [1, 1, 2, 0, 1]
    assert ordered_leaves(np.array([64]))[0].tolist() == [0, 64]


def test_a_table_written_and_read_is_the_same_table(table, tmp_path):
    write_table(table, tmp_path / "t.npz")
    again = read_carry_table(tmp_path / "t.npz")
    assert again.settings == table.settings
    assert np.array_equal(again.leaves, table.leaves)
    assert again.shares == pytest.approx(table.shares, abs=0.02)
    assert again.n_racks == N_RACKS


def test_a_truncated_and_an_altered_table_are_refused(table, tmp_path):
    path = tmp_path / "t.npz"
    write_table(table, path)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(DataFileError, match=r"t\.npz is cut short or damaged; .* as shipped\. Install"):
        read_carry_table(path)
    path.write_bytes(whole)
    arrays = read_packed(path)
    arrays["count"] = arrays["count"] + np.uint16(1)
    with path.open("wb") as stream:
        np.savez_compressed(stream, **arrays)
    with pytest.raises(DataFileError, match=r"t\.npz does not match its checksum; .* as shipped"):
        read_carry_table(path)


def test_a_newer_table_and_another_file_are_refused(tmp_path):
    (tmp_path / "new.npz").write_bytes(packed({"schema": np.array(2)}))
    problem = r"new\.npz has schema 2; expected at most 1\. Install a newer coachlib"
    with pytest.raises(DataFileError, match=problem):
        read_carry_table(tmp_path / "new.npz")
    (tmp_path / "other.npz").write_bytes(packed({"schema": np.array(1)}))
    with pytest.raises(DataFileError, match=r"other\.npz holds no carry table"):
        read_carry_table(tmp_path / "other.npz")
    with pytest.raises(DataFileError, match=r"gone\.npz is cut short or damaged"):
        read_carry_table(tmp_path / "gone.npz")


@pytest.mark.parametrize(
    ("arrival", "match"),
    [
        ((41.0, 5.0, 17.0, 15.0), r"arrival_board is 41\.0; expected 0 to 40 boards\. Count at the head pin"),
        ((17.5, 5.0, -1.0, 15.0), r"speed_mph is -1\.0; expected 1 to 40 mph\. Give the speed at the pins"),
        ((17.5, 50.0, 17.0, 15.0), r"entry_deg is 50\.0; expected -15 to 20 deg"),
        ((17.5, 5.0, 17.0, 3.0), r"ball_weight_lb is 3\.0; expected 6 to 16 lb\. If this is kg"),
        ((float("nan"), 5.0, 17.0, 15.0), r"arrival_board is nan; expected 0 to 40 boards"),
    ],
)
def test_an_impossible_arrival_is_refused(table, arrival, match):
    with pytest.raises(InputError, match=match):
        leave_probs(*arrival, table=table)
    with pytest.raises(InputError, match=match):
        strike_prob(*([value] for value in arrival), table=table)


def test_text_wrong_shapes_and_wrong_draws_are_refused(table):
    with pytest.raises(InputError, match=r"arrival_board is 'pocket'; expected 0 to 40 boards"):
        leave_probs("pocket", 5.0, 17.0, 15.0, table=table)
    with pytest.raises(InputError, match="have the shapes"):
        strike_prob([17.5, 18.0], [1.0, 2.0, 3.0], 17.0, table=table)
    with pytest.raises(InputError, match=r"uniforms is 1\.5; expected 0 to 1"):
        sample_leaves(17.5, 5.0, 17.0, 15.0, [0.5, 1.5], table=table)


class TestShipped:
    """The table that comes with the library."""

    def test_it_is_small_and_says_what_it_was_made_of(self):
        sizes = [data_path(name).stat().st_size for name in ("carry_table.npz", "carry_racks.npz")]
        assert sum(sizes) < 2_000_000
        table = shipped_table()
        assert '"pin_deck_restitution": 0.65' in table.settings
        assert table.n_racks >= 120_000
        assert 0.85 <= table.level <= 1.0

    def test_the_racks_beside_it_give_the_same_table(self):
        racks = read_shipped_racks()
        again = build_table(racks.points, racks.standing_bits)
        assert again.shares == pytest.approx(shipped_table().shares, abs=0.02)
        assert again.level == pytest.approx(shipped_table().level, abs=1e-9)

    def test_no_leave_has_lost_its_chance(self):
        chances = leave_probs(17.5, 5.0, 17.0)
        assert len(chances) > 100
        assert min(chances.values()) > 0.0
        assert next(iter(chances)) == STRIKE


def test_arrays_give_the_leaves_of_each_arrival_as_alone():
    boards = [16.0, 17.5, 19.0]
    together = cl.leave_probs(boards, 4.0, 17.0)
    assert isinstance(together, tuple)
    for board, found in zip(boards, together, strict=True):
        alone = cl.leave_probs(board, 4.0, 17.0)
        assert dict(found) == pytest.approx(dict(alone), abs=1e-12)
        assert found.in_range
    assert cl.strike_prob(17.5, 4.0, 17.0) == pytest.approx(together[1].strike_prob, abs=1e-6)
