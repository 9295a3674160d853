"""Balls on one line: what is told of each, the matching move, and the words."""

import dataclasses
import functools
import math

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.equipment.ball_comparison import (
    EYES_REACH_BOARDS,
    FEET_REACH_BOARDS,
    BallOnLine,
    ball_on_line,
    compare_balls,
)
from coachlib.coaching.simulation.candidate_lines import lines_nearby
from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.coaching.wording.ball_comparison_words import comparison_table, difference_lines
from coachlib.coaching.wording.callouts import of_twenty
from coachlib.coaching.wording.names import short_name
from coachlib.world.hand import HANDS
from coachlib.world.line import after_move

FIRST = cl.load_ball("hybrid_2000")
DULL = dataclasses.replace(FIRST, name="dull", grit=500.0)
SMOOTH = dataclasses.replace(FIRST, name="smooth", is_polished=True)
PLASTIC = cl.load_ball("plastic_spare")
SESSION = cl.Session(
    bowler=cl.load_bowler("club_right"), line=cl.Line(29, 16), pattern=cl.load_pattern("house_41")
)
FLAT = dataclasses.replace(SESSION, line=cl.Line(22, 12), pattern=cl.load_pattern("flat_42"))


@functools.cache
def compared_on(session):
    return compare_balls(session, [FIRST, DULL, SMOOTH, PLASTIC])


@pytest.fixture
def house():
    return compared_on(SESSION)


def test_the_first_ball_matches_itself_without_a_move(house):
    match = house[0].match
    assert match.move.is_stay
    assert (match.off_turn_boards, match.off_arrival_boards) == (0.0, 0.0)
    assert match.strike_prob == house[0].on_line.strike_prob


def test_what_is_told_is_what_the_path_says(house):
    one = house[1].on_line
    path = simulate_lines(dataclasses.replace(SESSION, ball=DULL), keep_path=True)
    assert one.skid_ft == path.hook_ft[0]
    assert one.arrival_board == path.arrival_board[0]
    straight = path.path_board[0, 0] + 4.0 * (16.0 - path.path_board[0, 0])  # the lever: 60 ft over 15
    assert one.covered_boards == pytest.approx(path.arrival_board[0] - straight, abs=1e-4)
    assert one.turn_deg == pytest.approx(path.entry_deg[0] - one.launch_deg)


@pytest.mark.parametrize("session", [SESSION, FLAT])
def test_duller_goes_earlier_smoother_later_and_plastic_straightest(session):
    # published direction: coarser surface, earlier friction; plastic least friction (trade magazine "Surface
    # management"; common practice for the order of covers)
    first, dull, smooth, plastic = (one.on_line for one in compared_on(session))
    assert dull.skid_ft + 1 < first.skid_ft < smooth.skid_ft - 0.5
    assert dull.roll_ft < first.roll_ft < smooth.roll_ft
    assert plastic.covered_boards == min(one.covered_boards for one in (first, dull, smooth, plastic))
    assert math.isnan(plastic.roll_ft)


@pytest.mark.parametrize("session", [SESSION, FLAT])
def test_the_matching_move_is_about_two_and_one(session):
    # common practice, no source: a stronger ball wants 2 and 1 inside to the same breakpoint (3 and 2 or more
    # if much stronger), a weaker one as much outside; a band of one to five boards of feet
    _, dull, smooth, _ = compared_on(session)
    for one, way in ((dull, 1), (smooth, -1)):
        feet, eyes = one.match.move.feet_boards * way, one.match.move.target_boards * way
        assert one.match.is_close
        assert 1 <= feet <= 5
        assert 0 <= eyes <= 3
        assert eyes < feet


def test_the_matching_move_does_bring_the_ball_there(house):
    first, dull = house[0].on_line, house[1]
    there = ball_on_line(SESSION, DULL, dull.match.line)
    assert there.turn_board == pytest.approx(first.turn_board + dull.match.off_turn_boards)
    assert there.arrival_board == pytest.approx(first.arrival_board + dull.match.off_arrival_boards)
    assert there.strike_prob == dull.match.strike_prob == dull.on_match.strike_prob
    assert dull.on_match.line == dull.match.line != first.line
    assert dull.on_match.arrival_board == there.arrival_board


def test_the_best_line_is_not_worse_than_the_line_compared_on():
    for one in (*compared_on(SESSION), *compared_on(FLAT)):
        assert one.on_best.strike_prob > one.on_line.strike_prob - 0.03
        assert one.on_best.line == after_move(one.on_line.line, one.best_move)


def test_room_is_how_far_the_target_may_be_missed(house):
    first = house[0].on_line
    misses = np.array([-first.room_out_boards, first.room_in_boards, first.room_in_boards + 0.15])
    arrival = simulate_lines(dataclasses.replace(SESSION, ball=FIRST), misses_boards=misses).arrival_board
    assert np.abs(arrival[:2] - 17.5).max() <= 1.0 + 1e-9
    assert abs(arrival[2] - 17.5) > 1.0
    assert house[3].on_line.room_out_boards == house[3].on_line.room_in_boards == 0.0


def test_there_are_221_moves_less_what_does_not_fit():
    bowler = cl.Bowler(rev_rate_rpm=400.0)
    lines = lines_nearby(cl.Line(25, 15), bowler, FEET_REACH_BOARDS, EYES_REACH_BOARDS)
    assert lines[0] == cl.Line(25, 15)
    assert 150 < len(lines) <= 17 * 13
    at_edge = lines_nearby(cl.Line(44, 25), SESSION.bowler, FEET_REACH_BOARDS, EYES_REACH_BOARDS)
    assert at_edge[0] == cl.Line(44, 25)
    assert all(line.feet_board <= 45 for line in at_edge)


def test_the_other_hand_compares_alike():
    film = SESSION.pattern.film_array_um * np.linspace(0.8, 1.2, 39)  # uneven, so that the side matters
    seen_right, seen_left = (SESSION.pattern.with_own_film(film, hand, "uneven") for hand in HANDS)
    left = dataclasses.replace(SESSION.bowler, hand="left")
    there = compare_balls(dataclasses.replace(SESSION, bowler=left, pattern=seen_left), [FIRST, DULL])
    here = compare_balls(dataclasses.replace(SESSION, pattern=seen_right), [FIRST, DULL])
    assert seen_left != seen_right
    assert [one.match for one in there] == [one.match for one in here]
    assert [one.on_line.strike_prob for one in there] == [one.on_line.strike_prob for one in here]


def test_words_carry_their_numbers(house):
    told = difference_lines(house, "right")
    assert len(told) == 10
    assert told[-1].startswith(
        f"Miss room at the target on this line. hybrid 2000: {house[0].on_line.room_out_boards:.1f} right "
        f"and {house[0].on_line.room_in_boards:.1f} left. dull: none"
    )
    first, dull = house[0].on_line, house[1].on_line
    assert f"earlier (skids {dull.skid_ft:.0f} ft instead of {first.skid_ft:.0f})" in told[0]
    assert f"stronger (covers {dull.covered_boards:.0f} boards instead" in told[0]
    assert "not more angular (turns 5.6°, the other 5.6°)" in told[0]
    assert "left" in told[1]
    assert "longer" in told[3]
    assert "weaker" in told[6]
    assert told[6].endswith("It still slips at the pins, so its strikes are less sure.")
    assert "No move within reach" in told[7]
    assert "too far right" in told[7]


def test_equal_counts_are_called_no_better(house):
    one = house[1]

    def told(line_prob, best_prob, move):
        on_line = dataclasses.replace(one.on_line, strike_prob=line_prob)
        on_best = dataclasses.replace(one.on_best, strike_prob=best_prob)
        ball = dataclasses.replace(one, on_line=on_line, on_best=on_best, best_move=move)
        return difference_lines([house[0], ball], "right")[2]

    eyes = cl.Move(target_boards=-2)
    assert told(0.30, 0.31, eyes).endswith(
        "eyes 2 right, about 6 strikes in 20, no better than the same line."
    )
    assert told(0.30, 0.36, eyes).endswith("eyes 2 right, about 7 strikes in 20, up from 6.")
    assert told(0.30, 0.30, cl.Move()).endswith(": the same line, about 6 strikes in 20.")


def test_a_ball_in_the_gutter_is_told_and_never_a_number():
    wide = dataclasses.replace(SESSION, line=cl.Line(20, 4))
    lost = compare_balls(wide, [PLASTIC, FIRST])
    told = difference_lines(lost, "right")
    assert told[0].startswith("plastic spare ends in the gutter on this line. Compare from a line")
    assert "nan" not in " ".join(told) + comparison_table(lost).to_string()
    assert comparison_table(lost).loc["plastic spare", "arrival_board"] == "none"
    told = difference_lines(compare_balls(wide, [FIRST, PLASTIC]), "right")
    assert told[0] == "plastic spare ends in the gutter on this line."
    assert "nan" not in " ".join(told)


def test_sides_turn_with_the_hand(house):
    right, left = difference_lines(house, "right"), difference_lines(house, "left")
    swapped = [text.replace("left", "X").replace("right", "left").replace("X", "right") for text in right]
    assert swapped == list(left)
    assert swapped != list(right)


class NeverTurns(BallOnLine):
    """A ball that still skids at the pins."""

    skid_ft = math.nan


def test_a_ball_that_never_turns_is_told_as_that_and_never_as_no_number(house):
    one, dull = house[0].on_line, house[1].on_line
    other = NeverTurns(**{field.name: getattr(dull, field.name) for field in dataclasses.fields(dull)})
    never = difference_lines([house[0], dataclasses.replace(house[1], on_line=other)], "right")[0]
    assert f"never turns (hybrid 2000 after {one.skid_ft:.0f} ft)" in never
    turns = difference_lines([dataclasses.replace(house[0], on_line=other), house[0]], "right")[0]
    assert f"turns (after {one.skid_ft:.0f} ft, {short_name(other.ball.name)} never does)" in turns
    assert "nan" not in never + turns


def test_a_twin_is_told_as_such():
    twin = dataclasses.replace(FIRST, name="twin", weight_lb=14.9)
    told = difference_lines(compare_balls(SESSION, [FIRST, twin]), "right")
    assert told[0] == "twin does the same as hybrid 2000, as far as an eye can see."
    assert "the same line" in told[1]


def test_the_table_names_its_units(house):
    table = comparison_table(house)
    assert list(table.index) == ["hybrid 2000", "dull", "smooth", "plastic spare"]
    assert table.loc["plastic spare", "roll_from_ft"] == "none"
    assert table.loc["hybrid 2000", "strikes"] == of_twenty(house[0].on_line.strike_prob)
    assert all(
        name.endswith(("_ft", "_boards", "_board", "_deg")) for name in table.columns if name != "strikes"
    )


@pytest.mark.parametrize(
    ("session", "balls", "message"),
    [
        (SESSION, [FIRST], "expected a list of at least 2 balls"),
        (SESSION, "two", "expected a list of at least 2 balls"),
        (SESSION, None, "expected a list of at least 2 balls"),
        (SESSION, [FIRST, "hybrid"], "balls is 'hybrid'; expected a Ball"),
        (dataclasses.replace(SESSION, pattern=None), [FIRST, DULL], "pattern is not known"),
    ],
)
def test_it_takes_two_balls_on_a_known_pattern(session, balls, message):
    with pytest.raises(cl.InputError, match=message):
        compare_balls(session, balls)
