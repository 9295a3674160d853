"""The scan of all lines: what is offered, what is best, and how far that can be trusted."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.levers import fits_problems, laydown_board
from coachlib.coaching.plan_scan import (
    FILM_FRACS,
    IN_POCKET_BOARDS,
    N_FINE_BALLS,
    NOISE_PROB,
    ROOM_FRAC,
    best_line,
    films_of,
    meant_path,
    playable_lines,
    room_of,
    strike_chances,
)
from coachlib.coaching.trials import meant_release
from coachlib.coaching.usual_start import usual_lines, usual_start
from coachlib.physics.scatter import scattered
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, POCKET_BOARD
from tests.planned import mirrored, plan_of, session_of

TIE_PROB = 0.01
"""What another set of as many balls may change, well under NOISE_PROB."""


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
    together = strike_chances(session, lines, [session.pattern], 64)
    alone = np.hstack([strike_chances(session, [line], [session.pattern], 64) for line in lines])
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
    assert strike_chances(session, [line], [session.pattern], 256)[0, 0] == pytest.approx(expected, abs=1e-12)


def test_a_ball_in_the_gutter_never_strikes():
    bowler = dataclasses.replace(
        cl.load_bowler("senior_right"), axis_rotation_deg=0.0, axis_rotation_sd_deg=0.0, arrow_sd_boards=0.1
    )
    session = dataclasses.replace(session_of("senior_right"), bowler=bowler)
    assert strike_chances(session, [cl.Line(12.0, 2.0)], [session.pattern], 32).tolist() == [[0.0]]


def test_the_line_found_is_not_beaten_by_another_usual_one():
    # every line thrown with as many balls: the quick first look missed none
    session = session_of("high_rev_left")
    found = best_line(session)
    start = usual_start(session.bowler, session.ball, session.pattern)
    lines = usual_lines(start, playable_lines(session.bowler, 15.0), session.bowler)
    assert len(lines) > 30
    others = strike_chances(session, lines, films_of(session.pattern), N_FINE_BALLS).mean(axis=0)
    in_pocket = np.abs(meant_path(session, lines).arrival_board - POCKET_BOARD) <= IN_POCKET_BOARDS
    assert found.strike_prob > others[in_pocket].max() - NOISE_PROB
    assert found.strike_prob > ROOM_FRAC * others.max()
    assert found.line in [line for line, is_in in zip(lines, in_pocket, strict=True) if is_in]


def test_another_set_of_balls_changes_a_comparison_by_no_more_than_a_tie():
    # 8 sets of balls: the spread of the difference of two equal lines is well under what is called equal
    session = session_of("club_right", "flat_42")
    pair = [cl.Line(18.0, 9.0), cl.Line(23.0, 13.0)]
    off = []
    for seed in range(8):
        chances = strike_chances(
            dataclasses.replace(session, seed=seed), pair, films_of(session.pattern), N_FINE_BALLS
        )
        off.append(float(np.diff(chances.mean(axis=0))[0]))
    assert 0.0005 < np.std(off, ddof=1) < TIE_PROB


def test_the_films_are_the_sheet_and_one_to_either_side():
    pattern = cl.load_pattern("house_41")
    assert FILM_FRACS[0] < FILM_FRACS[1] == 1.0 < FILM_FRACS[2]
    assert [film.volume_ml / pattern.volume_ml for film in films_of(pattern)] == pytest.approx(FILM_FRACS)


def test_a_line_is_judged_on_a_thinner_and_a_thicker_film_too():
    session = session_of("high_rev_left")
    found = best_line(session)
    expected = strike_chances(session, [found.line], films_of(session.pattern), N_FINE_BALLS)[:, 0]
    assert found.film_probs == pytest.approx(expected.tolist(), abs=1e-12)
    assert found.strike_prob == pytest.approx(expected.mean(), abs=1e-12)
    assert len({round(chance, 6) for chance in found.film_probs}) == 3  # the films do differ


def test_room_is_where_most_of_the_chance_is_kept_and_ends_where_it_is_not():
    session, line = session_of(), plan_of().line
    room = room_of(session, line)

    def kept(feet, eyes):
        shifted = cl.Line(line.feet_board + feet, line.target_board + eyes)
        chances = strike_chances(session, [line, shifted], films_of(session.pattern), N_FINE_BALLS)
        told = chances.mean(axis=0)
        return told[1] >= ROOM_FRAC * told[0] and not fits_problems(shifted, session.bowler)

    assert kept(-room.parallel_out_boards, -room.parallel_out_boards)
    assert not kept(-room.parallel_out_boards - 1.0, -room.parallel_out_boards - 1.0)
    assert kept(room.parallel_in_boards, room.parallel_in_boards)
    assert not kept(room.parallel_in_boards + 1.0, room.parallel_in_boards + 1.0)
    assert kept(0.0, -room.aim_out_boards)
    assert not kept(0.0, -room.aim_out_boards - 0.5)
    assert kept(0.0, room.aim_in_boards)
    assert not kept(0.0, room.aim_in_boards + 0.5)


def test_room_ends_at_the_approach():
    bowler = dataclasses.replace(cl.load_bowler("club_right"), feet_low_board=20.0, feet_high_board=24.0)
    session = dataclasses.replace(session_of("club_right", "flat_42"), bowler=bowler)
    room = room_of(session, cl.Line(22.0, 12.0))
    assert room.parallel_in_boards <= 2.0
    assert room.parallel_out_boards <= 2.0
    assert max(room.parallel_in_boards, room.parallel_out_boards) == 2.0  # it would go on else


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
