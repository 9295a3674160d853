"""The panel of two balls: choices, words, picture, and errors that leave the picture as it was."""

import dataclasses
import re

import pytest

import coachlib as cl
from coachlib.coaching.equipment.ball_comparison import compare_balls
from coachlib.views.panels.compare_balls.compare_balls import (
    AS_IT_IS,
    DRAWN,
    POLISHED,
    SURFACES,
    CompareBalls,
    care_html,
    lane_px,
    picture_html,
    with_surface,
    words_html,
)

FIRST = cl.load_ball("hybrid_2000")
SESSION = cl.Session(
    bowler=cl.load_bowler("club_left"), line=cl.Line(29, 16), ball=FIRST, pattern=cl.load_pattern("house_41")
)


@pytest.fixture(scope="module")
def panel():
    return CompareBalls(SESSION)


def test_it_shows_two_balls_without_a_press(panel):
    assert (panel.first.value, panel.surface.value) == ("hybrid_2000", AS_IT_IS)
    assert panel.second.value != "hybrid_2000"
    assert panel.picture.value.count('role="img"') == 1
    assert "Both from feet 29, target 16." in panel.words.value
    assert panel.problem.value == ""


def test_a_choice_is_thrown_at_once_and_the_same_choice_shows_the_same(panel):
    panel.second.value = "pearl_polished"
    first = panel.words.value
    assert "pearl polished against hybrid 2000: longer" in first
    panel.surface.value = "500 grit"
    assert "pearl polished, 500 grit against hybrid 2000: earlier" in panel.words.value
    panel.surface.value = AS_IT_IS
    assert panel.words.value == first


def test_a_surface_comes_with_its_cautions(panel):
    assert panel.care.value == ""
    for surface in ("500 grit", POLISHED):
        told = care_html(SESSION, surface)
        assert "mask and eye protection" in told
        assert "check the local rule" in told
    panel.surface.value = "500 grit"
    assert panel.care.value == care_html(SESSION, "500 grit")
    panel.surface.value = AS_IT_IS
    assert panel.care.value == ""
    assert "Scoring has started" in care_html(cl.change(SESSION, scoring_started=True), "500 grit")


def test_every_control_has_a_name(panel):
    names = [panel.first.description, panel.second.description, panel.surface.description]
    assert len(set(names)) == 3
    assert all(names)


@pytest.mark.parametrize("surface", SURFACES)
def test_each_surface_is_put_on(surface):
    ball = with_surface(FIRST, surface)
    if surface in (AS_IT_IS, "2000 grit"):
        assert ball == FIRST
    else:
        assert ball.name == f"hybrid_2000, {surface}"
        assert ball.is_polished is (surface == POLISHED)


def test_an_error_is_said_and_the_picture_stays():
    panel = CompareBalls(SESSION)
    before = panel.picture.value
    panel.session = dataclasses.replace(SESSION, pattern=None)
    panel.second.value = "urethane_500"
    assert "pattern is not known" in panel.problem.value
    assert panel.picture.value == before
    panel.session = SESSION
    panel.second.value = "solid_1000"
    assert panel.problem.value == ""


def test_names_from_outside_are_text_and_no_html():
    odd = dataclasses.replace(FIRST, name="<b>odd</b>")
    compared = compare_balls(SESSION, [FIRST, odd])
    assert "<b>" not in words_html(SESSION, compared) + picture_html(SESSION, compared, "line", 0)


def test_sides_are_the_bowler_s():
    words = words_html(SESSION, compare_balls(SESSION, [FIRST, cl.load_ball("solid_1000")]))
    assert "2 and 1 right" in words
    assert "Room at the target on this line: hybrid 2000 1.4 left and 1.2 right" in words


def test_what_is_drawn_can_be_chosen_without_a_throw(panel):
    panel.second.value, before = "solid_1000", panel.compared
    thrown, pictures = panel.compared, set()
    for drawn in DRAWN:
        panel.drawn.value = drawn
        pictures.add(panel.picture.value)
    assert panel.compared is thrown is not before
    assert len(pictures) == 3
    panel.drawn.value = next(iter(DRAWN))


def test_the_picture_is_as_wide_as_the_panel_allows(panel):
    assert [lane_px(px) for px in (0, 1000, 780)] == [(620, False), (620, False), (520, False)]
    assert [lane_px(px) for px in (652, 286, 100)] == [(582, True), (216, True), (200, True)]
    panel.edge.width_px = 280
    narrow = panel.picture.value
    panel.edge.width_px = 900
    assert panel.picture.value != narrow
    assert float(re.search(r'<svg[^>]* width="([\d.]+)"', narrow)[1]) <= 290


def test_something_else_than_a_session_is_told():
    with pytest.raises(cl.InputError, match="session"):
        CompareBalls("hybrid_2000")
