"""The search for a line: what is offered, what is best, and how far that can be trusted."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.equipment.bag import evaluate_bag
from coachlib.coaching.equipment.ball_plan import ball_plan
from coachlib.coaching.plan.plan import starting_line
from coachlib.coaching.simulation.candidate_lines import lines_nearby, moves_within_reach, playable_lines
from coachlib.coaching.simulation.line_search import (
    EQUAL_PROB,
    FILM_FRACS,
    ROOM_FRAC,
    best_line,
    films_of,
    line_chances,
    meant_path,
    most_likely,
    on_starting_line,
    starting_lines,
)
from coachlib.coaching.simulation.usual_start import usual_start
from coachlib.coaching.simulation.what_if import meant_release
from coachlib.physics.scatter import scattered
from coachlib.views.panels.lane_side.finding_start import with_starting_line
from coachlib.views.panels.lane_side.set_up_form import SetUp, set_up_answers
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, POCKET_BOARD, POCKET_HALF_BOARDS
from coachlib.world.levers import fits_problems, laydown_board
from coachlib.world.line import after_move
from coachlib.world.oil_shape import with_typical_film
from tests.planned import mirrored, plan_of, session_of

TIE_PROB = 0.01
"""What another set of as many balls may change, well under EQUAL_PROB."""


@pytest.mark.parametrize("name", ["club_right", "walker_right", "senior_right", "two_handed_right"])
def test_every_line_offered_can_be_walked_and_aimed(name):
    bowler = dataclasses.replace(cl.load_bowler(name), feet_low_board=5.0, feet_high_board=38.0)
    lines = playable_lines(bowler, 15.0)
    assert len(lines) > 100
    assert len(set(lines)) == len(lines)
    for line in lines:
        assert fits_problems(line, bowler) == ()
        assert 5.0 <= line.feet_board <= 38.0
        assert FIRST_BOARD <= laydown_board(line, bowler) <= LAST_BOARD


def test_nobody_is_sent_beyond_their_comfort_board():
    bowler = dataclasses.replace(cl.load_bowler("two_handed_right"), comfort_board=30.0)
    assert max(line.feet_board for line in playable_lines(bowler, 15.0)) == 30.0
    planned = best_line(dataclasses.replace(session_of("two_handed_right"), bowler=bowler))
    assert planned.line.feet_board <= 30.0 < plan_of("two_handed_right").line.feet_board


def test_a_bowler_whom_no_line_fits_is_told_so():
    bowler = dataclasses.replace(cl.load_bowler("club_right"), feet_low_board=1.0, feet_high_board=5.0)
    with pytest.raises(cl.InputError, match=r"feet_low_board is 1 .* expected stances .* Widen") as caught:
        playable_lines(bowler, 15.0)
    assert "feet_low_board" in caught.value.fields


def test_lines_of_a_batch_are_thrown_as_each_alone():
    session = session_of()
    lines = [cl.Line(22.0, 12.0), cl.Line(29.0, 16.0), cl.Line(45.0, 34.0)]
    together = line_chances(session, lines, [session.pattern], 64)
    alone = np.hstack([line_chances(session, [line], [session.pattern], 64) for line in lines])
    assert np.array_equal(together, alone)


def test_a_chance_is_the_mean_over_the_bowlers_own_balls():
    # two ways: the batch, and the plain simulation of one line followed by the carry table
    session, line = session_of(), cl.Line(29.0, 16.0)
    meant = meant_release(session, [line])
    path = cl.simulate(
        scattered(meant, session.bowler, 256, 0), session.ball, session.pattern, "right", keep_path=False
    )
    on = ~path.gutter
    chances = cl.strike_prob(path.arrival_board[on], path.entry_deg[on], path.speed_at_pins_mph[on], 15.0)
    expected = chances.sum() / 256
    assert line_chances(session, [line], [session.pattern], 256)[0, 0] == pytest.approx(expected, abs=1e-12)


def test_a_ball_in_the_gutter_never_strikes():
    bowler = dataclasses.replace(
        cl.load_bowler("senior_right"), axis_rotation_deg=0.0, axis_rotation_sd_deg=0.0, arrow_sd_boards=0.1
    )
    session = dataclasses.replace(session_of("senior_right"), bowler=bowler)
    assert line_chances(session, [cl.Line(12.0, 2.0)], [session.pattern], 32).tolist() == [[0.0]]


def test_the_line_found_is_not_beaten_by_another_usual_one():
    # every line thrown with as many balls: the quick first look missed none
    session = session_of("high_rev_left")
    found = best_line(session)
    lines = starting_lines(session)
    assert len(lines) > 30
    others = line_chances(session, lines, films_of(session.pattern)).mean(axis=0)
    in_pocket = np.abs(meant_path(session, lines).arrival_board - POCKET_BOARD) <= POCKET_HALF_BOARDS
    assert found.strike_prob > others[in_pocket].max() - EQUAL_PROB
    assert found.strike_prob > ROOM_FRAC * others.max()
    assert found.line in [line for line, is_in in zip(lines, in_pocket, strict=True) if is_in]


def test_another_set_of_balls_changes_a_comparison_by_no_more_than_a_tie():
    # 8 sets of balls: the spread of the difference of two equal lines is well under what is called equal
    session = session_of("club_right", "flat_42")
    pair = [cl.Line(18.0, 9.0), cl.Line(23.0, 13.0)]
    off = []
    for seed in range(8):
        chances = line_chances(dataclasses.replace(session, seed=seed), pair, films_of(session.pattern))
        off.append(float(np.diff(chances.mean(axis=0))[0]))
    assert 0.0005 < np.std(off, ddof=1) < TIE_PROB


def test_the_films_are_the_sheet_and_one_to_either_side():
    pattern = cl.load_pattern("house_41")
    assert FILM_FRACS[0] < FILM_FRACS[1] == 1.0 < FILM_FRACS[2]
    assert [film.volume_ml / pattern.volume_ml for film in films_of(pattern)] == pytest.approx(FILM_FRACS)


def test_a_line_is_judged_on_a_thinner_and_a_thicker_film_too():
    session = session_of("high_rev_left")
    found = best_line(session)
    expected = line_chances(session, [found.line], films_of(session.pattern))[:, 0]
    assert found.film_probs == pytest.approx(expected.tolist(), abs=1e-12)
    assert found.strike_prob == pytest.approx(expected.mean(), abs=1e-12)
    assert len({round(chance, 6) for chance in found.film_probs}) == 3  # the films do differ


def test_the_others_stand_apart():
    found = best_line(session_of())
    stances = [found.line.feet_board, *(line.feet_board for line, _ in found.others)]
    assert len(stances) >= 2
    assert min(abs(one - other) for i, one in enumerate(stances) for other in stances[:i]) >= 3.0
    assert [chance for _, chance in found.others] == sorted((c for _, c in found.others), reverse=True)


def test_the_mirrored_bowler_gets_the_mirrored_scan_to_the_last_digit():
    session = session_of("club_right", "worn_41")
    assert mirrored(session).pattern.film_um != session.pattern.film_um  # one side is worn
    assert best_line(mirrored(session)) == best_line(session)


def test_the_lines_to_start_on_are_liked_best_near_the_usual_target():
    session = session_of("club_right")
    usual = usual_start(session.bowler, session.ball, session.pattern)
    off = [abs(line.target_board - usual.target_board) for line in starting_lines(session)]
    assert off == sorted(off)
    assert off[0] < off[-1]


def test_of_equal_lines_the_first_is_taken():
    session = session_of()
    lines = [cl.Line(29.0, 16.0), cl.Line(29.0, 16.0, 15.0), cl.Line(24.0, 12.0)]
    found = best_line(session, lines, [session.pattern])
    chances = line_chances(session, lines, [session.pattern])[0]
    assert found.line == lines[0]
    assert chances[0] > chances[2] + 0.05  # the line in the pocket against one that is not
    assert best_line(session, lines[::-1], [session.pattern]).line == lines[0]


@pytest.mark.parametrize("lines", [[], [cl.Line(20, 12), cl.Line(20, 12, 20.0)]])
def test_lines_must_share_one_distance(lines):
    session = session_of()
    with pytest.raises(cl.InputError, match="at least one, all with the same target_ft"):
        line_chances(session, lines, [session.pattern])


def test_a_ball_that_slips_at_the_pins_makes_a_chance_that_is_not_known():
    session = dataclasses.replace(session_of(), ball=cl.load_ball("plastic_spare"))
    assert not best_line(session).is_known
    assert best_line(session_of()).is_known


def test_the_moves_within_reach_fit_and_begin_with_to_stay():
    bowler, line = cl.load_bowler("club_right"), cl.Line(6.0, 2.0)
    moves = moves_within_reach(line, bowler, 3, 2)
    assert moves[0] == (cl.Move(), line)
    assert 1 < len(moves) < 35
    assert not any(fits_problems(new, bowler, line) for _, new in moves[1:])
    assert all(after_move(line, move) == new for move, new in moves)
    assert lines_nearby(line, bowler, 3, 2)[0] == line
    assert set(lines_nearby(line, bowler, 3, 2)) == {new for _, new in moves}


def test_the_most_likely_line_is_the_top_of_a_known_hill():
    lines = lines_nearby(cl.Line(25.0, 14.0), cl.load_bowler("club_right"), 5, 3)

    def hill(some, _n):
        return np.array([-abs(line.feet_board - 27.0) - abs(line.target_board - 15.0) for line in some])

    assert most_likely(lines, hill, 32, 256, 16) == cl.Line(27.0, 15.0)


@pytest.mark.parametrize("name", ["club_right", "high_rev_left"])
def test_the_same_bowler_ball_and_oil_start_on_the_same_line_everywhere(name):
    """Plan, lane side, practice lane, lessons and the bag ask one search."""
    session = session_of(name)
    bowler, ball, pattern = session.bowler, session.ball, session.pattern
    line = cl.plan(session).line
    assert starting_line(session).line == line
    assert on_starting_line(bowler, ball, pattern).line == line
    assert cl.PracticeLane(pattern, bowler, ball, seed=5).start().line == line
    bag = evaluate_bag(bowler, [ball, cl.load_ball("plastic_spare")], [pattern])
    assert bag.best[0][0].line == line
    assert ball_plan(bowler, [ball], pattern, n_games=0.5)[0].line == line
    typed = set_up_answers(SetUp(dataclasses.replace(session.setting, bowler=bowler)))
    filled, _, _ = with_starting_line({**typed, "feet": "", "target": ""}, None)
    assert (filled["feet"], filled["target"]) == (f"{line.feet_board:g}", f"{line.target_board:g}")


@pytest.mark.parametrize("length_ft", [34.0, 38.0, 40.0])
@pytest.mark.parametrize("name", ["club_right", "high_rev_left", "low_rev_right"])
def test_nobody_is_started_through_the_nose_on_a_usual_house_pattern(name, length_ft):
    # common practice, no source: a starting line is one whose good ball finds the pocket
    pattern = with_typical_film(cl.OilPattern(name="by length", length_ft=length_ft, kind="house"))
    session = on_starting_line(cl.load_bowler(name), cl.load_ball("hybrid_2000"), pattern)
    meant = float(meant_path(session, [session.line]).arrival_board[0])
    assert abs(meant - POCKET_BOARD) <= POCKET_HALF_BOARDS + 0.01
