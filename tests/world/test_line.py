"""Lines, moves and what they print."""

import pytest

import coachlib as cl
from coachlib.world.line import after_move


@pytest.mark.parametrize(
    ("move", "printed"),
    [
        (cl.Move(), "stay"),
        (cl.Move(2, 1), "2 and 1 inside"),
        (cl.Move(-1, 0), "1 and 0 outside"),
        (cl.Move(0, 0.5), "0 and 0.5 inside"),
        (cl.Move(1, -1), "feet 1 inside, eyes 1 outside"),
        (cl.Move(speed_mph=-0.5), "0.5 mph slower"),
        (cl.Move(target_ft=10), "look 10 ft farther"),
        (cl.Move(rotation_deg=-15), "15 deg less rotation"),
        (cl.Move(surface="duller", ball="weaker"), "duller surface, weaker ball"),
        (cl.Move(3, 2, speed_mph=0.5), "3 and 2 inside, 0.5 mph faster"),
    ],
)
def test_move_prints_in_the_trades_short_form(move, printed):
    assert str(move) == printed
    assert move.is_stay == (printed == "stay")


def test_moved_line():
    assert after_move(cl.Line(22, 11), cl.Move(2, 1)) == cl.Line(24, 12)


@pytest.mark.parametrize(
    ("feet", "target", "ft", "field"),
    [
        (46, 11, 15, "feet_board"),
        (22, 0.5, 15, "target_board"),
        (22, 39.5, 15, "target_board"),
        (22, 11, 50, "target_ft"),
    ],
)
def test_lines_off_the_lane_are_refused(feet, target, ft, field):
    with pytest.raises(cl.InputError, match=f"{field} is .*expected") as caught:
        cl.Line(feet, target, ft)
    assert list(caught.value.fields) == [field]


def test_a_move_off_the_approach_is_refused_and_nothing_changes():
    line = cl.Line(44, 20)
    with pytest.raises(cl.InputError, match="feet_board is 47"):
        after_move(line, cl.Move(3, 0))
    assert line == cl.Line(44, 20)
