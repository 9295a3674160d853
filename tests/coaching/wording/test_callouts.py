"""How boards, moves and lines are called out, for either hand."""

import pytest

import coachlib as cl
from coachlib.coaching.wording.callouts import count_text, line_text, move_text, side_text, with_sides
from coachlib.world.parsing import board_text, boards_text


@pytest.mark.parametrize(
    ("boards", "text"),
    [(2, "2"), (0.5, "½"), (-1.5, "1½"), (0, "0"), (10, "10"), (12.25, "12¼"), (12.3, "12.3")],
)
def test_boards(boards, text):
    assert boards_text(boards) == text


@pytest.mark.parametrize(
    ("move", "right", "left"),
    [
        (cl.Move(2, 1), "2 and 1 left", "2 and 1 right"),
        (cl.Move(-1, -1), "1 and 1 right", "1 and 1 left"),
        (cl.Move(1, 0), "Feet 1 left, eyes stay", "Feet 1 right, eyes stay"),
        (cl.Move(0, -0.5), "Feet stay, eyes ½ right", "Feet stay, eyes ½ left"),
        (cl.Move(1, -1), "Feet 1 left, eyes 1 right", "Feet 1 right, eyes 1 left"),
        (cl.Move(speed_mph=-0.5), "Half a mph slower", "Half a mph slower"),
        (cl.Move(target_ft=10), "Look 10 ft farther", "Look 10 ft farther"),
        (cl.Move(ball="weaker"), "Weaker ball", "Weaker ball"),
        (cl.Move(), "Stay", "Stay"),
    ],
)
def test_moves(move, right, left):
    assert move_text(move, "right") == right
    assert move_text(move, "left") == left


def test_lines():
    assert line_text(cl.Line(24, 12.5)) == "Feet 24, target 12½"
    assert line_text(cl.Line(24, 9, 30)) == "Feet 24, target 9 at 30 ft"


def test_a_board_keeps_its_sign():
    assert [board_text(board) for board in (-1.5, 12, -0.001)] == ["−1½", "12", "0"]


def test_sides_turn_with_the_hand():
    assert [side_text(1, hand) for hand in ("right", "left")] == ["left", "right"]
    assert [side_text(-1, hand) for hand in ("right", "left")] == ["right", "left"]


def test_a_text_is_turned_with_its_pins_and_numbers():
    text = "{inside} of the {pin_10}, after {patience}, at {exit_board}"
    numbers = {"patience": 3.0, "exit_board": 9.5}
    assert with_sides(text, "right", numbers) == "left of the 10, after three, at 9½"
    assert with_sides(text, "left", numbers) == "right of the 7, after three, at 9½"


def test_small_counts_are_letters():
    assert [count_text(value) for value in (2, 7, 2.5)] == ["two", "7", "2½"]
