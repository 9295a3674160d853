"""Belief: particles, their lanes, the table of lines, and what the balls of a session say about both."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import coachlib as cl
from coachlib.coaching.advice.line_values import strike_on_lanes
from coachlib.coaching.belief import line_table as lines_module
from coachlib.coaching.belief.cause import blame, verdict_of_blame
from coachlib.coaching.belief.filter import LEFT_OUT, believe, update_by_balls
from coachlib.coaching.belief.lane_films import KNOTS, ground_of_lanes, start_m
from coachlib.coaching.belief.likelihood import joint_likelihood, likelihoods_of, predicted_of
from coachlib.coaching.belief.line_table import (
    COARSE_AXES,
    LAYDOWN_BOARDS,
    SLOPE_BOARDS,
    THROWN,
    cells_at,
    tabulate,
)
from coachlib.coaching.belief.parameters import BeliefNumbers
from coachlib.coaching.belief.particles import N_OF_LANE, draw_particles, laydown_boards, slope_boards
from coachlib.coaching.belief.strikes import ALL_LAYDOWNS, line_strike_chances, spread_boards
from coachlib.coaching.belief.table_cache import ball_table, belief_setting, is_ready, particles_of
from coachlib.physics.motion import BOARD_M, ground_of
from coachlib.physics.scatter import scattered
from coachlib.units import ft_to_boards
from coachlib.world.lane import ARRIVAL_CLASSES, POCKET_BOARD
from coachlib.world.levers import laydown_board, line_shift_boards
from coachlib.world.line import after_move
from coachlib.world.release import Release, release_on_line

FEW = BeliefNumbers(n_particles=64)
CERTAIN = BeliefNumbers(
    n_particles=4,
    film_log_mean=0.0,
    film_log_sd=0.0,
    length_sd_ft=0.0,
    ramp_sd_boards=0.0,
    wet_log_sd=0.0,
    dry_log_sd=0.0,
    speed_sd_mph=0.0,
    revs_sd_frac=0.0,
    rotation_sd_deg=0.0,
    offset_sd_boards=0.0,
    aim_sd_boards=0.0,
    walk_sd_frac=0.0,
)
BOWLER, BALL, HOUSE = cl.load_bowler("club_right"), cl.load_ball("hybrid_2000"), cl.load_pattern("house_41")
LINE = cl.Line(24, 12)


@pytest.fixture(scope="module")
def certain():
    """Return the one lane and bowler that were declared, and where all their lines end."""
    particles = draw_particles(BOWLER, HOUSE, False, CERTAIN)
    return particles, tabulate(particles, BALL, HOUSE, BOWLER.hand)


@pytest.fixture(scope="module")
def few():
    """Return a small belief of the demo's bowler."""
    return belief_setting(BOWLER, HOUSE, FEW)


def played(*shots, line=LINE, **fields):
    session = cl.Session(bowler=BOWLER, ball=BALL, pattern=HOUSE, line=line, **fields)
    for shot in shots:
        session = cl.observe(session, shot)
    return session


# --- particles


def test_particles_are_the_same_each_time_and_lie_around_what_was_said():
    one, other = (draw_particles(BOWLER, HOUSE, False, BeliefNumbers()) for _ in range(2))
    np.testing.assert_array_equal(one.normal, other.normal)
    assert np.mean(one.speed_mph) == pytest.approx(BOWLER.speed_mph, abs=0.02)
    middle = np.subtract(*np.quantile(one.rev_rate_rpm, (0.8413, 0.1587)))  # one spread to either side
    assert middle == pytest.approx(2.0 * 0.06 * BOWLER.rev_rate_rpm, rel=0.05)


def test_what_is_not_known_is_spread_wider():
    known = draw_particles(BOWLER, HOUSE, False, BeliefNumbers())
    asked = draw_particles(cl.Bowler(), HOUSE, True, BeliefNumbers())
    for name in ("speed_mph", "rev_rate_rpm", "axis_rotation_deg", "film_frac", "length_ft"):
        assert np.std(getattr(asked, name)) > 1.3 * np.std(getattr(known, name)), name


@pytest.mark.parametrize("walk", ["slide", "walk"])
@pytest.mark.parametrize(
    "move", [cl.Move(2, 1), cl.Move(3, 2), cl.Move(1, 1), cl.Move(-2, -1), cl.Move(0, 1)]
)
def test_a_move_shifts_every_particles_straight_line_as_the_lever_says(walk, move):
    # limiting case: no friction, derived in coachlib.world.levers
    bowler = dataclasses.replace(BOWLER, walk=walk)
    particles = draw_particles(bowler, HOUSE, False, CERTAIN)
    boards = []
    for line in (LINE, after_move(LINE, move)):
        laydown = laydown_boards(particles, bowler, line)
        assert laydown == pytest.approx(laydown_board(line, bowler), abs=1e-12)
        boards.append(laydown + 4.0 * slope_boards(particles, laydown, line))
    expected = line_shift_boards(move, 60.0, walk, LINE.target_ft, bowler.stance_ft)
    assert boards[1] - boards[0] == pytest.approx(expected, abs=1e-12)


# --- films and lines


def test_a_lane_that_is_as_its_sheet_says_is_the_ground_of_the_sheet(certain):
    particles, _ = certain
    ground = ground_of_lanes(particles, slice(0, 2), HOUSE, "left")
    sheet = ground_of(HOUSE, "left").film_um[:, 1:-1]
    for lane, first_m in enumerate(start_m(2)):
        first = round(first_m / BOARD_M) + 1
        np.testing.assert_allclose(
            ground.film_um[:, first : first + 39], sheet, atol=1e-12, err_msg=str(lane)
        )


def test_longer_oil_and_oil_farther_in_lie_there():
    particles = draw_particles(BOWLER, HOUSE, False, BeliefNumbers(n_particles=8))
    longest, innermost = int(np.argmax(particles.length_ft)), int(np.argmax(particles.ramp_boards))
    films = ground_of_lanes(particles, slice(0, 8), HOUSE, "right").film_um.reshape(120, 8, -1)
    assert films.shape[2] == KNOTS
    ends = [np.flatnonzero(films[:, lane].any(axis=1)).max() for lane in range(8)]
    assert ends[longest] == max(ends) > min(ends)
    outside = films[:60, :, KNOTS // 2 - 12].sum(axis=0) / particles.film_frac
    assert np.argmin(outside) == innermost


def thrown_one_by_one(laydown, slope):
    """Throw lines of the declared bowler one by one on the lane as the sheet has it."""
    release = Release(
        laydown_board=laydown.ravel(),
        launch_deg=np.degrees(np.arctan(slope.ravel() / ft_to_boards(15.0))),
        speed_mph=BOWLER.speed_mph,
        rev_rate_rpm=BOWLER.rev_rate_rpm,
        axis_rotation_deg=BOWLER.axis_rotation_deg,
        axis_tilt_deg=BOWLER.axis_tilt_deg,
    )
    return cl.simulate(release, BALL, HOUSE, BOWLER.hand)


def test_the_table_holds_what_the_march_throws_one_by_one(certain):
    _, table = certain
    laydown, slope = np.meshgrid(LAYDOWN_BOARDS, SLOPE_BOARDS, indexing="ij")
    path = thrown_one_by_one(laydown, slope)
    gutter, arrival, entry = (
        one.reshape(laydown.shape) for one in (path.gutter, path.arrival_board, path.entry_deg)
    )
    for lane in range(4):
        thrown = (lane, slice(None), THROWN)
        np.testing.assert_array_equal(table.gutter_frac[thrown] > 0.5, gutter[:, THROWN])
        kept = ~gutter[:, THROWN]
        assert kept.sum() > 150
        for column, marched in ((table.arrival_board, arrival), (table.entry_deg, entry)):
            np.testing.assert_allclose(column[thrown][kept], marched[:, THROWN][kept], atol=1e-4)


def test_lines_between_those_thrown_come_in_where_the_march_says(certain):
    _, table = certain
    laydown, slope = np.meshgrid(LAYDOWN_BOARDS, SLOPE_BOARDS[1::2], indexing="ij")
    path = thrown_one_by_one(laydown, slope)
    assert np.mean((table.gutter_frac[0][:, 1::2].ravel() > 0.5) == path.gutter) > 0.99
    near_pins = ~path.gutter & (np.abs(path.arrival_board - POCKET_BOARD) < 4.0)
    assert near_pins.sum() > 40
    off_boards = table.arrival_board[0][:, 1::2].ravel() - path.arrival_board
    off_deg = table.entry_deg[0][:, 1::2].ravel() - path.entry_deg
    # far less than what an eye can tell
    assert np.sqrt(np.mean(off_boards[near_pins] ** 2)) < CERTAIN.arrival_sd_boards / 9.0
    assert (
        np.abs(off_deg[near_pins]).max() < 1e-4
    )  # who rolls before the pins has a heading given by the release


def test_the_table_is_the_same_in_blocks_of_any_size(monkeypatch):
    particles = draw_particles(BOWLER, HOUSE, False, BeliefNumbers(n_particles=8))
    whole = tabulate(particles, BALL, HOUSE, "right")
    monkeypatch.setattr(lines_module, "LANES_A_BLOCK", 3)
    pieces = tabulate(particles, BALL, HOUSE, "right")
    np.testing.assert_allclose(pieces.arrival_board, whole.arrival_board, atol=1e-5)
    np.testing.assert_allclose(pieces.per_mph, whole.per_mph, atol=1e-3)


def test_one_mph_is_one_to_three_boards_on_the_lines_that_people_play(certain):
    # published band, FACTS: "1 mph is about 2 boards" (trade articles); the sign: faster arrives lighter
    particles, table = certain
    laydown = laydown_boards(particles, BOWLER, LINE)[:, None]
    slope = slope_boards(particles, laydown[:, 0], LINE)[:, None]
    per_mph = cells_at(particles.row, laydown, slope, COARSE_AXES).read(table.per_mph)
    assert np.all((per_mph < -1.0) & (per_mph > -3.5))


def test_reading_between_grid_points_is_linear_and_stops_at_the_edge():
    plane = (2.0 * LAYDOWN_BOARDS[:, None] - 3.0 * SLOPE_BOARDS + 1.0)[None].astype(np.float32)
    laydown, slope = np.array([[5.3, 20.0, 60.0]]), np.array([[-3.2, 1.1, 40.0]])
    read = cells_at(np.zeros(1, dtype=int), laydown, slope).read(plane)
    expected = 2.0 * np.array([5.3, 20.0, 39.0]) - 3.0 * np.array([-3.2, 1.1, 7.0]) + 1.0
    np.testing.assert_allclose(read[0], expected, atol=1e-4)


@pytest.mark.parametrize("line", [cl.Line(24, 12), cl.Line(22, 9), cl.Line(28, 15), cl.Line(30, 17)])
def test_strike_chances_agree_with_balls_thrown_at_random(certain, line):
    # a second, independent way to the same number: 4,096 scattered balls
    particles, table = certain
    strikes = line_strike_chances(table, spread_boards(table, BOWLER), BOWLER.arrow_sd_boards, BALL.weight_lb)
    laydown = laydown_boards(particles, BOWLER, line)[:, None]
    slope = slope_boards(particles, laydown[:, 0], line)[:, None]
    looked_up = cells_at(particles.row, laydown, slope).read(strikes)[0, 0]
    meant = release_on_line(BOWLER, float(laydown[0, 0]), line.target_board)
    path = cl.simulate(scattered(meant, BOWLER, 4096), BALL, HOUSE, BOWLER.hand, keep_path=False)
    kept = ~path.gutter
    struck = cl.strike_prob(
        np.clip(path.arrival_board[kept], 0, 40),
        path.entry_deg[kept],
        path.speed_at_pins_mph[kept],
        BALL.weight_lb,
    )
    assert looked_up == pytest.approx(struck.sum() / 4096, abs=0.025)


# --- seeing


def test_something_of_each_kind_is_always_seen(few):
    looks, made = predicted_of(few, BALL, LINE), ball_table(few, BALL)
    classes = sum(
        likelihoods_of(looks, cl.Shot(arrival=name), few, made, looks.usual_turn_ft)["arrival"]
        for name in ARRIVAL_CLASSES
    )
    floor = few.numbers.class_floor_prob
    np.testing.assert_allclose(classes, 8 * floor + 1.0 - floor, rtol=1e-6)
    assert joint_likelihood(looks, {}).sum(axis=(1, 2)) == pytest.approx(1.0)
    never = cl.Shot(crossed_board=1, arrival="crossover", leave=(1, 7, 10), motion="roll_out", speed_mph=24.0)
    for name, values in likelihoods_of(looks, never, few, made, looks.usual_turn_ft).items():
        assert np.all(values >= 0.0), name
        assert values.max() > 0.0, name


def test_a_lane_that_dries_ball_by_ball_comes_in_higher(few):
    # common practice, no source: with games played the ball hooks sooner and comes in high
    fresh, later, much_later, latest = (
        predicted_of(few, BALL, LINE, n_balls) for n_balls in (0, 10, 40, 200)
    )
    slower = dataclasses.replace(BOWLER, speed_mph=BOWLER.speed_mph - 10 * few.numbers.drying_mph)
    thrown = predicted_of(belief_setting(slower, HOUSE, few.numbers), BALL, LINE)
    risen, expected = later.meant_board - fresh.meant_board, thrown.meant_board - fresh.meant_board
    assert np.all(risen > 0.0)
    assert risen.mean() == pytest.approx(expected.mean(), rel=0.1)
    np.testing.assert_array_equal(latest.arrival_board, much_later.arrival_board)


def test_where_no_drying_is_told_every_ball_finds_the_same_lane():
    still = belief_setting(BOWLER, HOUSE, dataclasses.replace(FEW, drying_mph=0.0))
    first, later = predicted_of(still, BALL, LINE), predicted_of(still, BALL, LINE, 10)
    np.testing.assert_array_equal(later.arrival_board, first.arrival_board)


def test_all_but_a_little_of_the_belief_is_carried_by_some_particles(few):
    rows, weights = believe(played(*[HIGH] * 4), few).effective_particles()
    whole = believe(played(*[HIGH] * 4), few).weights
    assert len(rows) < len(whole)
    assert weights.sum() == pytest.approx(1.0)
    assert whole[rows].sum() >= 1.0 - LEFT_OUT
    assert believe(played(), few).effective_particles()[0].size == len(whole)
    alike = dataclasses.replace(believe(played(), few), weights=np.full(1024, 1.0 / 1024))
    assert alike.effective_particles()[0].size == 1024


def test_lines_on_a_dried_lane_are_worth_the_same_whatever_else_is_asked(few):
    lines, rows = (cl.Line(24, 12), cl.Line(25, 12), cl.Line(33, 17), cl.Line(12, 6)), np.array([3, 8, 40])
    together = strike_on_lanes(few, BALL, lines, rows, 0.6)
    alone = [strike_on_lanes(few, BALL, (line,), rows, 0.6)[:, 0] for line in lines]
    np.testing.assert_allclose(together, np.stack(alone, axis=1), atol=1e-12)
    assert np.abs(together - strike_on_lanes(few, BALL, lines, rows)).max() > 0.01


@pytest.mark.parametrize("feet", [2, 9, 24, 43, 45])
def test_some_laydown_boards_of_a_dried_lane_are_read_as_all_of_them_are(few, monkeypatch, feet):
    lines, rows = (cl.Line(feet, 12), cl.Line(feet, 14)), np.arange(8)
    some = strike_on_lanes(few, BALL, lines, rows, 0.6)
    monkeypatch.setattr("coachlib.coaching.advice.line_values.laydowns_around", lambda laydown: ALL_LAYDOWNS)
    np.testing.assert_allclose(some, strike_on_lanes(few, BALL, lines, rows, 0.6), atol=1e-12)


def test_what_was_not_seen_is_left_out(few):
    looks, made = predicted_of(few, BALL, LINE), ball_table(few, BALL)
    assert set(likelihoods_of(looks, cl.Shot(leave=(4,)), few, made, looks.usual_turn_ft)) == {"leave"}


# --- replay

HIGH = cl.Shot(crossed_board=12, arrival=19.5, leave=(4,))
LIGHT = cl.Shot(crossed_board=12, arrival="light", leave=(2, 8))


def meant(session, setting):
    return blame(believe(session, setting)).meant_board


def test_high_balls_on_target_make_the_lane_high_and_light_ones_light(few):
    assert meant(played(*[HIGH] * 3), few) > meant(played(*[LIGHT] * 3), few) + 1.5


def test_a_belief_is_the_same_whether_kept_or_replayed(few, monkeypatch):
    session = played(HIGH, LIGHT, HIGH)
    kept = believe(session, few)
    monkeypatch.setattr(
        "coachlib.coaching.belief.filter._KNOWN", type(update_by_balls.__globals__["_KNOWN"])()
    )
    np.testing.assert_array_equal(believe(session, few).weights, kept.weights)


def test_undo_gives_the_belief_of_before_back(few):
    session = played(HIGH, HIGH)
    again = cl.undo(cl.observe(session, LIGHT))
    np.testing.assert_array_equal(believe(again, few).weights, believe(session, few).weights)


def test_spare_balls_and_notes_teach_nothing(few):
    session = played(HIGH)
    more = cl.observe(session, cl.Shot(leave=(), is_spare=True))
    noted = played(dataclasses.replace(HIGH, note="towel on the rack"))
    for other in (more, noted):
        np.testing.assert_array_equal(believe(other, few).weights, believe(session, few).weights)


def test_old_balls_fade(few):
    early, late = played(HIGH, *[LIGHT] * 6), played(*[LIGHT] * 6, HIGH)
    assert meant(late, few) > meant(early, few)


def test_lanes_of_a_pair_share_the_bowler_and_not_the_oil():
    many = belief_setting(BOWLER, HOUSE, BeliefNumbers(n_particles=512))  # few cannot hold both apart
    fast = cl.Shot(crossed_board=12, arrival="pocket", speed_mph=17.5)
    here = played(*[fast] * 5, lane="7")
    there = cl.change(here, lane="8")
    particles, fresh = particles_of(many), believe(played(), many)
    told = {name: believe(one, many) for name, one in {"7": here, "8": there}.items()}
    for one in told.values():
        assert one.weights @ particles.speed_mph > fresh.weights @ particles.speed_mph + 0.1
    assert told["8"].balls == ()
    lane = particles.normal[:, :N_OF_LANE]
    after_move = {name: np.linalg.norm((one.weights - fresh.weights) @ lane) for name, one in told.items()}
    assert after_move["8"] < 0.3 * after_move["7"]
    assert told["8"].n_effective > told["7"].n_effective


def test_fresh_oil_forgets_the_lane(few):
    worn = cl.change(played(*[HIGH] * 3), games_on_lane=2.0)
    assert len(believe(worn, few).balls) == 3
    assert believe(cl.change(worn, games_on_lane=0.0), few).balls == ()


@pytest.mark.parametrize(
    ("shot", "odd"),
    [
        (cl.Shot(crossed_board=5, arrival="nose", leave=(10,)), {"crossing", "arrival"}),
        (cl.Shot(crossed_board=12, arrival="crossover", leave=(1, 2, 10)), {"arrival", "leave"}),
        (cl.Shot(crossed_board=12, arrival="pocket", leave=()), {""}),
        (cl.Shot(leave=(4,)), {""}),
    ],
)
def test_an_observation_that_does_not_fit_is_named_and_the_rest_still_counts(few, shot, odd):
    belief = believe(played(shot), few)
    assert belief.odd in odd
    assert belief.weights.sum() == pytest.approx(1.0)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.builds(
            cl.Shot,
            crossed_board=st.floats(0, 40) | st.none(),
            arrival=st.floats(0, 40) | st.sampled_from(ARRIVAL_CLASSES),
            leave=st.sampled_from([(), (10,), (1, 2, 4), tuple(range(1, 11)), (7, 10)]) | st.none(),
            speed_mph=st.floats(8, 25) | st.none(),
            breakpoint_ft=st.floats(10, 60) | st.none(),
        ),
        min_size=1,
        max_size=4,
    )
)
def test_no_ball_however_odd_empties_the_belief(shots):
    belief = believe(played(*shots), belief_setting(BOWLER, HOUSE, FEW))
    assert np.all(np.isfinite(belief.weights))
    assert belief.n_effective >= 1.0
    told = blame(belief)
    assert 0.0 <= told.bowler_prob <= 1.0
    assert verdict_of_blame(told) in ("bowler", "lane", "both", "direction known", "too early")


def test_two_hundred_balls_are_no_trouble(few):
    belief = believe(played(*[HIGH, LIGHT] * 100), few)
    assert belief.n_balls == 200
    assert math.isclose(belief.weights.sum(), 1.0)


# --- cause


def test_a_miss_that_explains_the_result_is_the_bowlers_and_a_hit_that_went_high_is_the_lanes(few):
    good = [cl.Shot(crossed_board=12, arrival=17.5, leave=())] * 4
    pulled = blame(believe(played(*good, cl.Shot(crossed_board=14, arrival=21.0)), few))
    hooked = blame(believe(played(*[cl.Shot(crossed_board=12, arrival=20.5)] * 4), few))
    assert pulled.bowler_prob > 0.6 > 0.3 > hooked.bowler_prob
    assert hooked.key_observation
    assert blame(believe(played(), few)) is None


# --- setting


def test_a_table_is_kept_and_is_the_same_read_back(monkeypatch):
    setting = belief_setting(BOWLER, HOUSE, BeliefNumbers(n_particles=8))
    monkeypatch.setattr("coachlib.coaching.belief.table_cache._TABLES", {})
    made = ball_table(setting, BALL)
    monkeypatch.setattr("coachlib.coaching.belief.table_cache._TABLES", {})
    assert is_ready(setting, BALL)
    read = ball_table(setting, BALL)
    for field in dataclasses.fields(made.lines):
        np.testing.assert_array_equal(getattr(read.lines, field.name), getattr(made.lines, field.name))


def test_the_ball_in_the_hand_stays_at_hand_whatever_else_is_asked(monkeypatch):
    setting = belief_setting(BOWLER, HOUSE, BeliefNumbers(n_particles=4))
    monkeypatch.setattr("coachlib.coaching.belief.table_cache._TABLES", {})
    held = ball_table(setting, BALL)
    for weight_lb in range(8, 16):
        ball_table(setting, dataclasses.replace(BALL, weight_lb=float(weight_lb), grit=1000.0))
        assert ball_table(setting, BALL) is held


def test_names_of_people_change_no_table():
    setting = belief_setting(BOWLER, HOUSE, FEW)
    assert belief_setting(dataclasses.replace(BOWLER, name="Ada", pain="thumb"), HOUSE, FEW) is setting


def test_an_unknown_pattern_is_a_usual_house_with_wide_spreads():
    setting = belief_setting(BOWLER, None, FEW)
    assert setting.is_guessed
    assert setting.pattern.has_film


def test_the_table_is_made_with_a_word_on_how_far_it_is():
    told = []
    particles = draw_particles(BOWLER, HOUSE, False, BeliefNumbers(n_particles=64))
    tabulate(particles, BALL, HOUSE, "right", told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0
