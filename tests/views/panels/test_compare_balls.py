"""The panel of two balls: choices, words, picture, and errors that leave the picture as it was."""

import dataclasses
import re

import pytest

import coachlib as cl
from coachlib.coaching.equipment.ball_comparison import compare_balls
from coachlib.views.panels.compare_balls.compare_balls import (
    AS_IT_IS,
    DRAWN,
    CompareBalls,
    care_html,
    lane_px,
    picture_html,
    second_ball,
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
    panel.surface.value = "coarse"
    assert "pearl at 500 grit against hybrid 2000: earlier" in panel.words.value
    assert "First ball: medium, 2000 grit. Second ball: coarse, 500 grit." in panel.words.value
    panel.surface.value = AS_IT_IS
    assert panel.words.value == first


def test_a_surface_comes_with_its_cautions(panel):
    assert panel.care.value == ""
    for surface in ("coarse", "polished"):
        told = care_html(SESSION, surface)
        assert "mask and eye protection" in told
        assert "Check the local rule" in told
    panel.surface.value = "coarse"
    assert panel.care.value == care_html(SESSION, "coarse")
    panel.surface.value = AS_IT_IS
    assert panel.care.value == ""
    assert "Scoring has started" in care_html(cl.change(SESSION, scoring_started=True), "coarse")


def test_every_control_has_a_name(panel):
    controls = (panel.first, panel.second, panel.surface, panel.grit, panel.drawn)
    names = [control.description for control in controls]
    assert len(set(names)) == 5
    assert all(names)


@pytest.mark.parametrize(
    ("ball", "surface", "grit", "name", "now"),
    [
        ("hybrid_2000", AS_IT_IS, "", "hybrid_2000", (2000.0, False)),
        ("hybrid_2000", "medium", "", "hybrid_2000", (2000.0, False)),  # it is called so already
        ("hybrid_2000", "coarse", "", "hybrid at 500 grit", (500.0, False)),
        ("hybrid_2000", "polished", "", "polished hybrid", (2000.0, True)),
        ("pearl_polished", "fine", "", "pearl at 4000 grit", (4000.0, False)),
        ("hybrid_14lb", AS_IT_IS, "730", "hybrid of 14 lb at 730 grit", (730.0, False)),
        ("hybrid_2000", "fine", "1200", "hybrid at 1200 grit", (1200.0, False)),  # the number stands first
        ("hybrid_2000", AS_IT_IS, "2000", "hybrid_2000", (2000.0, False)),
    ],
)
def test_a_surface_is_put_on_as_a_word_or_as_any_grit(ball, surface, grit, name, now):
    found = second_ball(ball, surface, grit)
    assert (found.name, (found.grit, found.is_polished)) == (name, now)


def test_word_and_number_never_say_two_things():
    panel = CompareBalls(SESSION)
    panel.second.value = "solid_1000"
    panel.grit.value = "3500"
    assert panel.surface.value == "fine"
    assert "Second ball: fine, 3500 grit." in panel.words.value
    panel.surface.value = "polished"
    assert panel.grit.value == ""
    assert "Second ball: polished." in panel.words.value


@pytest.mark.parametrize("typed", ["50", "9000", "smooth"])
def test_what_is_no_grit_is_told_and_kept(typed):
    panel = CompareBalls(SESSION)
    before = panel.words.value, panel.picture.value
    panel.grit.value = typed
    assert "180 to 6000 grit, not " in panel.problem.value
    assert (panel.words.value, panel.picture.value) == before
    assert panel.grit.value == typed
    panel.grit.value = "1000"
    assert panel.problem.value == ""


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
    assert "Miss room at the target on this line. hybrid 2000: 1.4 left and 1.2 right" in words


def test_what_is_drawn_can_be_chosen_without_a_throw(panel):
    other = next(name for name in ("solid_1000", "urethane_500") if name != panel.second.value)
    panel.second.value, before = other, panel.compared
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
