"""The ball on the oil: what must hold whatever the law's numbers are."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics import motion
from coachlib.physics.friction import FrictionLaw, grip_of
from coachlib.physics.kernel import march
from coachlib.physics.motion import ground_of, launch_of, simulate
from coachlib.units import FT_M
from coachlib.world.oil import thinned

BALL = cl.load_ball("hybrid_2000")
HOUSE = cl.load_pattern("house_41")
RELEASE = cl.Release(24.0, -2.0, 19.0, 300.0, 45.0, 13.0)


def many(n_shots=200, seed=2):
    draw = np.random.default_rng(seed)
    return cl.Release(
        laydown_board=draw.uniform(10, 30, n_shots),
        launch_deg=draw.uniform(-4, 0.5, n_shots),
        speed_mph=draw.uniform(13, 21, n_shots),
        rev_rate_rpm=draw.uniform(100, 570, n_shots),
        axis_rotation_deg=draw.uniform(10, 85, n_shots),
        axis_tilt_deg=draw.uniform(0, 25, n_shots),
    )


def shot(release, number):
    values = {field.name: getattr(release, field.name) for field in dataclasses.fields(release)}
    return cl.Release(**{name: value[number] if value.ndim else value for name, value in values.items()})


def same(one, other):
    for field in dataclasses.fields(one):
        np.testing.assert_array_equal(getattr(one, field.name), getattr(other, field.name), field.name)


def column(path, number):
    names = [field.name for field in dataclasses.fields(path) if field.name != "along_ft"]
    return cl.Path(**{name: getattr(path, name)[..., number : number + 1] for name in names})


def test_a_usual_ball_skids_hooks_rolls_and_arrives():
    path = simulate(RELEASE, BALL, HOUSE)
    assert path.n_shots == 1
    assert 0 < path.hook_ft[0] < path.roll_ft[0] < 60
    assert path.hook_ft[0] < path.breakpoint_ft[0] < path.roll_ft[0]
    assert path.path_board[0, 0] == pytest.approx(24.0)
    assert path.path_board[-1, 0] == pytest.approx(path.arrival_board[0], abs=1e-5)
    assert path.path_board[:, 0].min() == pytest.approx(path.breakpoint_board[0], abs=0.02)
    assert path.along_ft[np.argmin(path.path_board[:, 0])] == pytest.approx(path.breakpoint_ft[0], abs=1.0)
    assert path.entry_deg[0] > 0
    assert not path.gutter[0]


def test_turn_at_the_breakpoint_is_the_path_s_own():
    # heading from the kept boards, one foot before and after; limiting case of a smooth path
    path = simulate(RELEASE, BALL, HOUSE)
    near = int(path.breakpoint_ft[0])
    boards = path.path_board[near - 1 : near + 3, 0].astype(float) * 41.5 / 39.0 / 12.0
    turns_deg = np.degrees(np.diff(np.arctan(np.diff(boards))))
    assert path.breakpoint_turn_deg_per_ft[0] == pytest.approx(turns_deg.mean(), rel=0.15)


def test_hook_begins_where_the_heading_has_turned_one_degree():
    path = simulate(RELEASE, BALL, HOUSE)
    slope = np.gradient(path.path_board[:, 0].astype(float) * 41.5 / 39.0 / 12.0)
    heading_deg = np.degrees(np.arctan(np.interp(path.hook_ft[0], path.along_ft, slope)))
    assert heading_deg == pytest.approx(-1.0, abs=0.05)


def test_column_is_the_single_shot():
    release = many(40)
    path = simulate(release, BALL, HOUSE)
    for number in range(0, 40, 7):
        same(column(path, number), simulate(shot(release, number), BALL, HOUSE))


def test_chunks_change_nothing():
    release = many(100)
    launch, ground, grip = launch_of(release, BALL), ground_of(HOUSE, "right"), grip_of(BALL)
    same(march(launch, ground, grip, 2, chunk=100), march(launch, ground, grip, 2, chunk=7))


def test_paths_kept_or_not_arrive_alike():
    kept, not_kept = (simulate(many(), BALL, HOUSE, keep_path=keep) for keep in (True, False))
    np.testing.assert_array_equal(kept.arrival_board, not_kept.arrival_board)
    assert not_kept.path_board.shape == (0, 200)


def test_mirrored_lane_and_hand_give_the_same_to_the_last_digit():
    worn = cl.load_pattern("worn_41")
    mirrored = dataclasses.replace(worn, film_um=tuple(row[::-1] for row in worn.film_um))
    right, left = simulate(many(), BALL, worn, "right"), simulate(many(), BALL, mirrored, "left")
    same(right, left)
    other_side = simulate(many(), BALL, worn, "left")
    assert not np.array_equal(right.arrival_board, other_side.arrival_board, equal_nan=True)


def test_no_friction_is_a_straight_line_at_constant_speed():
    slick = FrictionLaw(dry_coef=0.0, wet_coef=0.0, rolling_coef=0.0)
    path = simulate(RELEASE, BALL, HOUSE, law=slick)
    straight = 24.0 + np.tan(np.radians(-2.0)) * 12.0 * 39.0 / 41.5 * path.along_ft
    on_lane = straight >= 0.5
    np.testing.assert_allclose(path.path_board[on_lane, 0], straight[on_lane], atol=1e-4)
    aimed_in = simulate(dataclasses.replace(RELEASE, launch_deg=0.5), BALL, HOUSE, law=slick)
    assert aimed_in.speed_at_pins_mph[0] == pytest.approx(19.0, abs=1e-12)
    assert aimed_in.entry_deg[0] == pytest.approx(0.5, abs=1e-12)
    assert np.isnan([aimed_in.hook_ft[0], aimed_in.roll_ft[0]]).all()


def test_energy_never_grows():
    # kinetic energy of travel and spin, a unit of mass, at the lane's end of lanes of every length
    release = many(100)
    launch, grip = launch_of(release, BALL), grip_of(BALL)
    ground = ground_of(HOUSE, "right")
    spin2 = launch.spin_along_mps**2 + launch.spin_across_mps**2
    before = launch.along_mps**2 + launch.across_mps**2 + launch.kappa * spin2
    for n_steps in range(5, 121, 5):
        edges_m, film_um = ground.edges_m[: n_steps + 1], ground.film_um[:n_steps]
        landed = march(launch, dataclasses.replace(ground, edges_m=edges_m, film_um=film_um), grip)
        lost_along = launch.along_mps - landed.along_mps
        lost_across = launch.across_mps - landed.across_mps
        sliding = np.isnan(landed.roll_m)
        spin_along = launch.spin_along_mps + lost_along / launch.kappa  # friction's impulse acts on both
        spin_across = launch.spin_across_mps + lost_across / launch.kappa
        spin_along = np.where(sliding, spin_along, landed.along_mps)
        spin_across = np.where(sliding, spin_across, landed.across_mps)
        now = landed.along_mps**2 + landed.across_mps**2 + launch.kappa * (spin_along**2 + spin_across**2)
        assert (now <= before + 1e-12).all()
        before = now


@pytest.mark.parametrize("name", cl.pattern_names())
def test_half_the_step_moves_the_arrival_little(name):
    # 0.06 board is what a kinked pattern may cost against steps sixteen times finer
    release, pattern = many(300), cl.load_pattern(name)
    launch, grip = launch_of(release, BALL), grip_of(BALL)
    on_lane = ~simulate(release, BALL, pattern).gutter
    assert on_lane.sum() > 100
    boards = [
        march(launch, ground_of(pattern, "right", step_ft), grip).across_m[on_lane] / motion.BOARD_M
        for step_ft in (0.5, 1 / 32)
    ]
    assert np.abs(boards[0] - boards[1]).max() < 0.06


@pytest.mark.parametrize(
    ("change", "sign"),
    [
        ({"speed_mph": 20.0}, -1),
        ({"rev_rate_rpm": 350.0}, +1),
        ({"axis_tilt_deg": 23.0}, -1),
        ({"axis_rotation_deg": 30.0}, -1),
        ({"laydown_board": 25.0, "launch_deg": -2.6}, -1),
    ],
)
def test_which_way_the_arrival_goes(change, sign):
    before = simulate(RELEASE, BALL, HOUSE).arrival_board[0]
    after = simulate(dataclasses.replace(RELEASE, **change), BALL, HOUSE).arrival_board[0]
    assert sign * (after - before) > 0.1


def test_thinner_oil_brings_the_ball_in_higher_and_sooner():
    full, thin = (simulate(RELEASE, BALL, thinned(HOUSE, factor)) for factor in (1.0, 0.7))
    assert thin.arrival_board[0] > full.arrival_board[0] + 0.3
    assert thin.hook_ft[0] < full.hook_ft[0]


def test_surface_moves_the_turn_and_never_the_entry_once_rolled():
    balls = [dataclasses.replace(BALL, grit=grit) for grit in (500.0, 1000.0, 2000.0, 3000.0)]
    paths = [simulate(RELEASE, ball, HOUSE) for ball in balls]
    assert all(np.isfinite(path.roll_ft[0]) for path in paths)
    rolls, arrivals = [path.roll_ft[0] for path in paths], [path.arrival_board[0] for path in paths]
    assert rolls == sorted(rolls)
    assert arrivals == sorted(arrivals, reverse=True)
    for path in paths[1:]:
        assert path.entry_deg[0] == pytest.approx(paths[0].entry_deg[0], abs=1e-6)


def test_rolling_from_the_start():
    # no slip at all: spin end over end at just the speed of the ball
    radius_m = 0.5 * BALL.diameter_in * 0.0254
    release = cl.Release(20.0, 0.0, 15.0, 15.0 * 0.44704 / radius_m * 60.0 / (2.0 * np.pi), 0.0, 0.0)
    path = simulate(release, BALL, HOUSE)
    assert path.arrival_board[0] == pytest.approx(20.0, abs=1e-9)
    assert path.roll_ft[0] == pytest.approx(0.0, abs=1e-3)
    assert 14.5 < path.speed_at_pins_mph[0] < 15.0


def test_without_friction_the_feet_come_at_equal_times():
    # limiting case: 19 mph along a line 0.5 degrees off the boards, nothing slows it
    slick = FrictionLaw(dry_coef=0.0, wet_coef=0.0, rolling_coef=0.0)
    path = simulate(dataclasses.replace(RELEASE, launch_deg=0.5), BALL, HOUSE, law=slick)
    along_ftps = 19.0 * 5280.0 / 3600.0 * np.cos(np.radians(0.5))
    np.testing.assert_allclose(path.path_time_s[:, 0], path.along_ft / along_ftps, rtol=1e-6)


def test_times_grow_foot_by_foot_and_end_with_the_time_at_the_pins():
    path = simulate(many(), BALL, HOUSE)
    on_lane = path.path_time_s[:, ~path.gutter]
    assert on_lane.shape[1] > 50
    assert (on_lane[0] == 0.0).all()
    assert (np.diff(on_lane, axis=0) > 0.0).all()
    np.testing.assert_allclose(on_lane[-1], path.time_s[~path.gutter], rtol=1e-6)
    np.testing.assert_array_equal(np.isnan(path.path_time_s), np.isnan(path.path_board))


def test_feet_take_longer_until_the_ball_rolls_and_then_alike():
    # seen in the times alone: friction slows a ball that slips, a rolling one loses a tenth of a mile an hour
    path = simulate(RELEASE, BALL, HOUSE)
    feet_s = np.diff(path.path_time_s[:, 0].astype(float))
    hook, roll = int(path.hook_ft[0]), int(np.ceil(path.roll_ft[0]))
    assert roll < 58
    slowing = np.diff(feet_s)
    assert slowing[hook : roll - 2].min() > 10 * abs(slowing[roll:]).max()
    assert feet_s[roll] / feet_s[0] > 1.1


@pytest.mark.parametrize(
    ("speed_mph", "least_s", "most_s"), [(16.0, 2.5, 2.9), (18.0, 2.2, 2.6), (20.0, 2.0, 2.4)]
)
def test_a_ball_takes_as_long_as_sixty_feet_at_its_speed(speed_mph, least_s, most_s):
    # arithmetic: 60 ft at the speed of the hand are too short a time, at the speed at the pins too long a one
    path = simulate(dataclasses.replace(RELEASE, speed_mph=speed_mph), BALL, HOUSE)
    fastest_s, slowest_s = (
        60.0 / (mph * 5280.0 / 3600.0) for mph in (speed_mph, float(path.speed_at_pins_mph[0]))
    )
    assert fastest_s < path.time_s[0] < slowest_s
    assert least_s < path.time_s[0] < most_s


def test_rotation_is_counted_from_the_direction_of_travel():
    # limiting case: the launch turns the whole release, so the turn from launch to entry stays the same
    # once it rolls: here the rolled turn is exact mechanics
    release = cl.Release([20.0, 16.0, 8.0], [-3.0, -2.0, -1.0], 15.0, 150.0, 60.0, 13.0)
    path = simulate(release, BALL, thinned(HOUSE, 0.3))
    assert np.isfinite(path.roll_ft).all()
    turns = path.entry_deg - release.launch_deg
    assert turns[0] > 3.0
    assert turns == pytest.approx(np.full(3, turns[0]), abs=1e-6)


def test_gutter_is_an_outcome():
    path = simulate(cl.Release([24.0, 8.0, 37.0], [-2.0, -6.0, 2.0], 19.0, 300.0, 45.0, 13.0), BALL, HOUSE)
    assert path.gutter.tolist() == [False, True, True]
    for name in "arrival_board entry_deg speed_at_pins_mph time_s hook_ft roll_ft breakpoint_ft".split():
        assert np.isnan(getattr(path, name)[1:]).all(), name
    lost = np.isnan(path.path_board)
    assert not lost[:, 0].any()
    assert lost[-1, 1:].all()
    assert not lost[0].any()
    assert (np.diff(lost.astype(int), axis=0) >= 0).all()  # what is in the gutter stays there


def test_a_ball_that_leaves_and_hooks_back_stays_in_the_gutter():
    release = cl.Release(3.0, -2.5, 18.0, 300.0, 60.0, 10.0)
    landed = march(launch_of(release, BALL), ground_of(HOUSE, "right"), grip_of(BALL))
    assert landed.across_m[0] / motion.BOARD_M > 0.5
    assert landed.turn_across_m[0] / motion.BOARD_M < 0.5
    path = simulate(release, BALL, HOUSE)
    assert path.gutter[0]
    assert np.isnan(path.path_board[-1, 0])


def test_no_breakpoint_where_the_launch_makes_it_meaningless():
    release = cl.Release(16.0, [-0.5, -1.5, 0.5], 19.0, 300.0, 45.0, 13.0)
    path = simulate(release, BALL, cl.load_pattern("flat_42"))
    assert np.isfinite(path.breakpoint_ft).tolist() == [False, True, False]
    assert np.isfinite(path.breakpoint_turn_deg_per_ft).tolist() == [False, True, False]


def test_mean_speed_and_board_at():
    path = simulate(RELEASE, BALL, HOUSE)
    assert path.mean_speed_mph[0] == pytest.approx(60.0 / path.time_s[0] * 3600.0 / 5280.0)
    assert path.board_at(15.0)[0] == pytest.approx(path.path_board[15, 0])
    assert path.board_at(15.5)[0] == pytest.approx(path.path_board[15:17, 0].mean(), abs=1e-5)
    assert path.board_at(60.0)[0] == pytest.approx(path.arrival_board[0], abs=1e-5)


def test_film_of_a_step_is_its_mean():
    rough = cl.OilPattern.from_film(np.vstack([np.full((1, 39), 2.0), np.full((40, 39), 1.0)]), 1.0)
    coarse = ground_of(rough, "right", 4.0)
    assert coarse.film_um[0] == pytest.approx(np.full(41, 1.25))
    assert ground_of(rough, "right", 0.5).film_um[:, 5].sum() * 0.5 == pytest.approx(42.0)
    assert coarse.edges_m[-1] == pytest.approx(60.0 * FT_M)


def test_ten_million_shots_at_once():
    release = cl.Release(np.full(10_000_000, 24.0), -2.0, 19.0, 300.0, 45.0, 13.0)
    problem = r"10000000 shots; expected 1 to 2000000 shots. Throw them in parts"
    with pytest.raises(cl.InputError, match=problem):
        simulate(release, BALL, HOUSE, keep_path=False)
    with pytest.raises(cl.InputError, match=r"1 to 200000 shots with paths. Pass keep_path=False"):
        simulate(release, BALL, HOUSE)


def test_a_pattern_without_film_and_an_unknown_hand_are_refused():
    problem = r"'x' has no film, only length and kind; expected a film.*load_pattern"
    with pytest.raises(cl.InputError, match=problem):
        simulate(RELEASE, BALL, cl.OilPattern("x", 40.0))
    with pytest.raises(cl.InputError, match="hand is 'both'"):
        simulate(RELEASE, BALL, HOUSE, "both")


def test_a_ball_that_stops_is_an_error_not_an_answer():
    stuck = FrictionLaw(dry_coef=0.24, wet_coef=0.24, rolling_coef=0.9)
    problem = r"shot 0 with 3.57\d* m/s .*stopped before 60.0 ft; expected a ball"
    with pytest.raises(cl.ModelError, match=problem):
        simulate(dataclasses.replace(RELEASE, speed_mph=8.0, launch_deg=0.0), BALL, HOUSE, law=stuck)
