"""The twenty balls beside an answer: the number told, the lanes believed, the same for the same session.

The outside check is the sheet's own simulator: a particle that is the sheet's lane and the bowler as declared
must be thrown as ``simulate`` throws it. The leaves are looked up in the carry table again, ball by ball.
Bowlers and sessions are invented.
"""

import dataclasses

import numpy as np
import pytest

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.advice.answer_balls import HIGHER, LOWER, answer_balls, sheet_word
from coachlib.coaching.belief.believed_balls import believed_balls, meant_boards
from coachlib.coaching.belief.filter import believe
from coachlib.coaching.belief.particles import weighted_middle
from coachlib.coaching.belief.simulated_balls import N_ERRORS, throw_on_lanes
from coachlib.coaching.belief.table_cache import belief_setting, particles_of
from coachlib.coaching.session.session import Session, change, observe
from coachlib.coaching.simulation.leave_forecast import likely_leaves
from coachlib.coaching.simulation.outcomes import Arrivals, n_of_twenty
from coachlib.coaching.simulation.paths import line_paths
from coachlib.physics.motion import simulate
from coachlib.physics.pins.carry import leave_probs
from coachlib.world.ball import load_ball
from coachlib.world.bowler import Bowler, load_bowler
from coachlib.world.levers import laydown_board
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern
from coachlib.world.release import release_on_line
from coachlib.world.shot import Shot

HOUSE, HYBRID = load_pattern("house_41"), load_ball("hybrid_2000")


def as_pattern(film_um):
    return dataclasses.replace(HOUSE, film_um=tuple(map(tuple, film_um.tolist())))


# more oil on one side, so that a hand that is not turned would be seen
UNEVEN = {
    "right": as_pattern(HOUSE.film_array_um * np.linspace(0.9, 1.1, 39)),
    "left": as_pattern((HOUSE.film_array_um * np.linspace(0.9, 1.1, 39))[:, ::-1]),
}
CLUB, LINE = load_bowler("club_right"), Line(22.0, 12.0)
SEEN = {
    "nothing": (),
    "one high": (Shot(crossed_board=12.0, arrival="high"),),
    "three high": (Shot(crossed_board=12.0, arrival="high", leave=(4,)),) * 3,
    "three strikes": (Shot(crossed_board=12.0, arrival="pocket", leave=()),) * 3,
    "light and light": (Shot(crossed_board=15.0, arrival="light", leave=(5,)),) * 2,
    "far light": (Shot(crossed_board=15.0, arrival="far_light"),) * 3,
    "crossovers": (Shot(crossed_board=11.5, arrival="crossover"),) * 2,
    "a miss": (Shot(crossed_board=15.0, arrival=14.0), Shot(crossed_board=12.0, arrival=17.0)),
}
LIGHTER = Line(29.0, 15.0)


def session(shots=(), hand="right", line=None, **fields):
    line = line or (LIGHTER if shots and shots[0].crossed_board == LIGHTER.target_board else LINE)
    bowler = dataclasses.replace(CLUB, hand=hand)
    start = Session(bowler, line, ball=HYBRID, pattern=UNEVEN[hand], **fields)
    for shot in shots:
        start = observe(start, shot)
    return start


def balls_of(played):
    voice = advise(played)
    lines = [played.line] if voice.new_line == played.line else [played.line, voice.new_line]
    return voice, answer_balls(played, voice, lines).thrown


def arrivals_of(paths):
    path = paths.path
    return Arrivals(path.arrival_board[1:], path.entry_deg[1:], path.speed_at_pins_mph[1:], 15.0)


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("seen", SEEN)
def test_the_strikes_among_the_balls_are_the_count_told_and_their_own_chances_sum_to_it(seen, hand):
    voice, thrown = balls_of(session(SEEN[seen], hand))
    told = [n_of_twenty(voice.model.stay.strike_prob)]
    if len(thrown) == 2:
        told.append(n_of_twenty(voice.move_strike_prob))
    assert [paths.n_strikes for paths in thrown] == told
    for paths, n_told in zip(thrown, told, strict=True):
        assert arrivals_of(paths).strike_prob.sum() == pytest.approx(n_told, abs=0.75)
        assert len(paths.outcomes) == 20


@pytest.mark.parametrize("seen", ["three high", "far light", "crossovers"])
def test_the_leaves_are_theirs_sum_to_twenty_and_stand_in_the_carry_table_at_each_arrival(seen):
    _, thrown = balls_of(session(SEEN[seen]))
    assert thrown
    for paths in thrown:
        told, path = likely_leaves(paths), paths.path
        n_left = sum(n for _, n in told.leaves) + told.n_other
        assert told.n_strikes + n_left + told.n_gutter + told.n_past + told.n_outside == 20
        for i, outcome in enumerate(paths.outcomes, start=1):
            at_pins = (path.arrival_board[i], path.entry_deg[i], path.speed_at_pins_mph[i])
            if outcome.kind == "gutter":
                assert np.isnan(at_pins[0])
                continue
            chances = leave_probs(*map(float, at_pins), 15.0)
            if outcome.kind in ("strike", "leave"):
                assert chances[frozenset(outcome.leave)] > 0.0
            else:
                assert not chances.in_range


def test_the_same_session_gives_the_same_balls_and_another_seed_others():
    one, other = (balls_of(session(SEEN["three high"]))[1] for _ in range(2))
    for first, second in zip(one, other, strict=True):
        assert np.array_equal(first.path.path_board, second.path.path_board, equal_nan=True)
        assert first.outcomes == second.outcomes
    sown = balls_of(session(SEEN["three high"], seed=4))[1]
    assert not np.array_equal(sown[0].path.path_board, one[0].path.path_board, equal_nan=True)
    assert sown[0].n_strikes == one[0].n_strikes


@pytest.mark.parametrize("seen", ["nothing", "three high", "a miss"])
def test_a_mirrored_session_gives_the_mirrored_balls_to_the_last_digit(seen):
    right, left = (balls_of(session(SEEN[seen], hand))[1] for hand in ("right", "left"))
    for one, other in zip(right, left, strict=True):
        assert np.array_equal(one.path.path_board, other.path.path_board, equal_nan=True)
        assert one.outcomes == other.outcomes  # the own frame: pins are turned by the words


def test_both_lines_are_thrown_with_the_same_lanes_and_errors():
    belief = believe(session(SEEN["three high"]))
    same, again = believed_balls(belief, [LINE, LINE], HYBRID, [6, 6])
    assert np.array_equal(same.path.path_board, again.path.path_board, equal_nan=True)
    one, other = believed_balls(belief, [LINE, Line(24.0, 13.0)], HYBRID, [6, 7])
    # a ball that runs farther in than the others does so on both lines: same errors, same lane
    assert np.corrcoef(one.balls_board[15], other.balls_board[15])[0, 1] > 0.99


def test_a_particle_that_is_the_sheet_is_thrown_as_the_sheet_is_simulated():
    setting = belief_setting(CLUB, HOUSE)
    first = particles_of(setting).some(np.array([0]))
    as_said = dataclasses.replace(
        first,
        film_frac=np.ones(1),
        length_ft=np.zeros(1),
        ramp_boards=np.zeros(1),
        wet_frac=np.ones(1),
        dry_frac=np.ones(1),
        speed_mph=np.array([CLUB.speed_mph]),
        rev_rate_rpm=np.array([CLUB.rev_rate_rpm]),
        axis_rotation_deg=np.array([CLUB.axis_rotation_deg]),
        laydown_offset_boards=np.array([CLUB.laydown_offset_boards]),
        aim_boards=np.zeros(1),
        walk_frac=np.zeros(1),
    )
    assert CLUB.walk == "slide"
    thrown = throw_on_lanes(as_said, CLUB, [(LINE, np.zeros((1, N_ERRORS)))], HYBRID, setting.pattern)
    release = release_on_line(CLUB, laydown_board(LINE, CLUB), LINE.target_board, LINE.target_ft)
    path = simulate(release, HYBRID, setting.pattern, "right")
    assert thrown.path.path_board[:, 0] == pytest.approx(path.path_board[:, 0], abs=0.01)
    assert thrown.path.entry_deg == pytest.approx(path.entry_deg, abs=0.02)


def test_the_balls_learn_and_the_sheet_does_not():
    # on this line the sheet's lanes play far high; three strikes on target bring the middle to the pocket
    before, after = session(), session(SEEN["three strikes"])
    middles = [balls_of(played)[1][0].arrival_board for played in (before, after)]
    assert middles[0] > 21.0
    assert middles[1] == pytest.approx(17.5, abs=1.25)
    sheet = [line_paths(played, LINE).arrival_board for played in (before, after)]
    assert sheet[0] == sheet[1]
    # and where the sheet expects the pocket, balls that come in high move it high
    highs = (Shot(crossed_board=15.0, arrival="high"), Shot(crossed_board=15.0, arrival="nose"))
    low, high = (balls_of(session(shots, line=LIGHTER))[1][0].arrival_board for shots in ((), highs))
    assert abs(low - 17.5) < 1.5
    assert high > low + 1.0


def test_the_thick_line_runs_in_the_middle_of_what_is_believed():
    played = session(SEEN["three high"])
    belief = believe(played)
    middle = weighted_middle(meant_boards(belief, LINE, HYBRID), belief.weights)
    drawn = balls_of(played)[1][0]
    assert drawn.arrival_board == pytest.approx(middle, abs=0.75)
    assert np.nanmin(drawn.balls_board[30]) < drawn.meant_board[30] < np.nanmax(drawn.balls_board[30])


def test_sheet_and_balls_disagree_only_where_enough_balls_say_so():
    belief = believe(session(SEEN["three strikes"]))
    assert sheet_word(belief, LINE, HYBRID).text == HIGHER
    assert sheet_word(believe(session(SEEN["one high"])), LINE, HYBRID).text == ""
    far_in = Line(30.0, 15.0)
    high = session((Shot(crossed_board=15.0, arrival="nose"),) * 4, line=far_in)
    told = sheet_word(believe(high), far_in, HYBRID)
    assert (told.text == LOWER) == (told.sign == -1) == (told.sheet_board < told.believed_board - 1.5)
    unknown = dataclasses.replace(session(SEEN["three strikes"]), pattern=None)
    assert sheet_word(believe(unknown), LINE, HYBRID).text == ""


def test_after_fresh_oil_only_the_bowler_is_remembered():
    played = session(SEEN["three strikes"], games_on_lane=3.0)
    fresh = change(played, games_on_lane=0.0)
    assert believe(fresh).balls == ()
    assert sheet_word(believe(fresh), LINE, HYBRID).text == ""


def test_a_wild_straight_ball_is_in_the_gutter_or_past_the_pin_and_never_strikes_there():
    wild = Bowler(speed_mph=15.0, rev_rate_rpm=0.0, arrow_sd_boards=4.0)
    played = Session(wild, Line(30.0, 4.0), ball=load_ball("plastic_spare"), pattern=HOUSE)
    for paths in balls_of(played)[1]:
        arrivals = paths.arrivals_board
        for board, outcome in zip(arrivals, paths.outcomes, strict=True):
            assert (outcome.kind == "gutter") == bool(np.isnan(board))
            assert outcome.kind != "past" or not 8.0 <= board <= 32.0
