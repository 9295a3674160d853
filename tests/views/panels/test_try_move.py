"""The sliders of a move: what a change draws and says, without a browser."""

import pytest

from coachlib.errors import InputError
from coachlib.views.lane.scene import lines_scene
from coachlib.views.panels.try_move.try_move import TryMove, move_scene
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line, Move
from coachlib.world.oil import load_pattern

LINE = Line(22.0, 12.0)


def test_it_opens_with_a_two_and_one():
    panel = TryMove(Bowler(hand="left"), LINE)
    scene = lines_scene(Bowler(hand="left"), LINE, Line(24.0, 13.0))
    assert {**panel.picture.scene, "oil": panel.picture.oil} == scene
    assert panel.sliders.texts == {
        "feet_boards": "2 right",
        "target_boards": "1 right",
        "answer": "On paper: same at 30 ft, 1 left at 45 ft, 2 left at 60 ft.",
    }


def test_sliding_draws_the_new_move_and_the_other_walk():
    panel = TryMove(Bowler(), LINE)
    panel.sliders.feet_boards, panel.sliders.target_boards = 3.0, 2.0
    assert [shift["text"] for shift in panel.picture.scene["shifts"]] == ["1 left", "same", "1 right"]
    panel.sliders.walk = "walk"
    assert [shift["text"] for shift in panel.picture.scene["shifts"]] == ["1½ left", "1 left", "½ left"]


def test_with_a_pattern_the_balls_are_simulated_for_the_walk_chosen():
    panel = TryMove(Bowler(), LINE, pattern=load_pattern("house_41"))
    slide = panel.picture.scene
    assert len(slide["advised"]["path"]["balls_board"]) == 20
    assert panel.sliders.texts["answer"].endswith(f" Simulated: {slide['simulated_text']} at 60 ft.")
    panel.sliders.walk = "walk"
    walk = panel.picture.scene
    assert walk["advised"]["path"]["meant_board"][0] == walk["advised"]["laydown_board"]
    assert walk["advised"]["path"] != slide["advised"]["path"]


def test_no_move_is_one_line():
    panel = TryMove(Bowler(), LINE, Move())
    assert panel.picture.scene["advised"] is None
    assert panel.sliders.texts == {"feet_boards": "stay", "target_boards": "stay", "answer": "Nothing moves."}


def test_a_move_off_the_lane_is_told_and_the_picture_stays():
    panel = TryMove(Bowler(), Line(22.0, 37.0), Move(feet_boards=1.0))
    before = panel.picture.scene
    panel.sliders.target_boards = 6.0
    assert panel.picture.scene == before
    assert "target_board is 43.0; expected 1 to 39 boards" in panel.sliders.errors["form"]
    panel.sliders.target_boards = 1.0
    assert panel.sliders.errors == {}
    assert panel.picture.scene["advised"]["target_board"] == 38.0


def test_the_plain_function_raises_instead():
    with pytest.raises(InputError, match="feet_board is 46"):
        move_scene(Bowler(), Line(40.0, 20.0), 6.0, 3.0, "slide")
