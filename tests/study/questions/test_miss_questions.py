"""Missing the target: the lever by hand, the room against every aim tried one by one."""

import dataclasses

import numpy as np
import pytest

from coachlib.coaching.simulation.what_if import aim_rooms_boards, simulate_lines
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import starting_session, usual_learner
from coachlib.study.questions.miss_questions import most_room
from coachlib.study.questions.question import mark
from tests.study.questions.made import check_drawn


@pytest.mark.parametrize(
    ("kind", "least"), [("miss_on_paper", 6), ("hit_after_miss", 6), ("room_at_target", 3)]
)
def test_numbers_are_drawn_and_both_hands_are_asked_alike(kind, least):
    check_drawn(kind, least)


@pytest.mark.parametrize(("target_ft", "boards"), [(15.0, 4.0), (30.0, 2.0), (12.0, 5.0)])
def test_a_straight_ball_keeps_the_lever(target_ft, boards):  # limiting case: similar triangles
    question = make_question("miss_on_paper", "lever", 1, miss=1.0, target_ft=target_ft)
    assert question.answer == boards
    assert mark(question, boards + 1).credit == 0.5
    assert mark(question, boards / 2).credit == (0.5 if boards == 2 else 0)


def test_a_miss_off_the_lane_is_refused():
    with pytest.raises(InputError, match="expected one that stays on the lane"):
        make_question("miss_on_paper", miss=-6.0, target_ft=12.0)


def test_the_line_with_most_room_is_the_one_that_every_aim_finds():
    start = starting_session(usual_learner())
    found = most_room(start)
    stances = [start.line.feet_board + one for one in range(-4, 5)]
    rooms = aim_rooms_boards(start, stances)
    assert found.boards == rooms.max()
    line = found.session.line
    assert line.feet_board == stances[int(rooms.argmax())]
    assert found.low_board < line.target_board < found.high_board
    misses = np.array([found.low_board, found.high_board]) - line.target_board
    hits = simulate_lines(found.session, misses_boards=misses).arrival_board
    assert np.all(np.abs(hits - 17.5) <= 1.0 + 1e-6)
    outside = simulate_lines(found.session, misses_boards=misses + np.array([-0.15, 0.15])).arrival_board
    assert np.all(np.abs(outside - 17.5) > 1.0)


def test_on_even_oil_nothing_is_left_of_the_room():  # limiting case: the whole path turns with the aim
    start = starting_session(usual_learner())
    even = start.pattern.with_own_film(np.full_like(start.pattern.own_film_um("right"), 0.5), "right", "even")
    rooms = aim_rooms_boards(dataclasses.replace(start, pattern=even), [start.line.feet_board])
    assert rooms[0] == pytest.approx(0.5, abs=0.11)


def test_a_house_pattern_gives_back_what_a_flat_one_keeps():
    house, flat = (
        make_question("hit_after_miss", "oil", 1, miss=-1.0, pattern=name) for name in ("house_41", "flat_42")
    )
    assert "comes back" in house.why
    assert "most of the miss stays" in flat.why
    lever = house.ask.start - 4
    assert mark(house, lever).credit == 0
    assert mark(flat, flat.ask.start - 4).credit >= 0.5


def test_from_another_line_the_same_miss_costs_more():
    near, far = (
        make_question("hit_after_miss", "oil", 1, miss=-1.0, pattern="house_41", is_in_room=one)
        for one in (True, False)
    )
    assert near.ask.start - near.answer < far.ask.start - far.answer


def test_a_miss_into_the_gutter_is_refused():
    with pytest.raises(InputError, match="expected one after which the ball hits pins"):
        make_question("hit_after_miss", miss=-6.0, pattern="flat_42")
