"""Two balls on one line: choose them and a surface, and see paths, words and the move that follows."""

import dataclasses
import html
from collections.abc import Mapping, Sequence
from typing import Any, Literal

import anywidget
import ipywidgets as W
import traitlets

from coachlib.coaching.equipment.ball_comparison import Compared, compare_balls
from coachlib.coaching.equipment.surface import surface_cautions
from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.ball_comparison_words import difference_lines
from coachlib.coaching.wording.callouts import line_text
from coachlib.coaching.wording.names import said_name
from coachlib.coaching.wording.surface_words import GRITS_HINT, resurfaced_name, surface_text
from coachlib.errors import checked_thing
from coachlib.views.charts.balls_chart import WIDTH_PX, On, balls_chart
from coachlib.views.panels.shared.panel import Panel, report_errors
from coachlib.views.panels.shared.parts import PANELS, styled
from coachlib.views.panels.shared.typed import FormReader, limits_of
from coachlib.views.theme import picture_svg
from coachlib.world.ball import Ball, ball_names, load_ball, resurfaced
from coachlib.world.surface import SURFACES, Surface, grit_word, with_surface

AS_IT_IS: Literal["as it is"] = "as it is"
Choice = Surface | Literal["as it is"]
CHOICES: tuple[Choice, ...] = (AS_IT_IS, *SURFACES)
_WIDE = {"description_width": "9em"}
DRAWN: dict[str, On] = {
    "the same line": "line",
    "matching move": "match",
    "own best lines": "best",
}
AXIS_PX, NAMES_PX, LEAST_PX, ROOMY_PX = 70, 190, 200, 460
"""Room for axis and names beside the lane; the narrowest lane, and the narrowest with names beside it."""


class PanelEdge(anywidget.AnyWidget):
    """Unseen: tells how wide the panel is, and keeps the notebook's keys away from its lists."""

    _esm = PANELS / "compare_balls/compare_balls.js"
    _css = styled("compare_balls/compare_balls.css")

    width_px = traitlets.Int(0).tag(sync=True)


class CompareBalls(Panel, W.VBox):
    """Two choices of ball and one of surface over the paths of both; each choice is thrown at once.

    Parameters
    ----------
    session : Session
        Bowler, line and pattern count; its ball, if it comes with the library, is the first choice.

    Raises
    ------
    InputError
        If it is no session.
    """

    def __init__(self, session: Session) -> None:
        self.session = checked_thing("session", session, Session)
        self.compared: tuple[Compared, ...] = ()
        names = ball_names()
        held = session.ball.name if session.ball is not None and session.ball.name in names else names[0]
        labelled = tuple((said_name(name), name) for name in names)
        other = next(name for name in names if name != held)
        self.first = _choice("First ball", labelled, held)
        self.second = _choice("Second ball", labelled, other)
        self.surface = _choice("Surface of the second", CHOICES, AS_IT_IS)
        self.grit = W.Text(description="Or a grit number", continuous_update=False, style=_WIDE)
        self.drawn = _choice("Lines drawn", tuple(DRAWN), next(iter(DRAWN)))
        self.edge = PanelEdge()
        self.picture, self.words, self.problem, self.care = (W.HTML() for _ in range(4))
        hint = W.HTML(f"<p>{html.escape(GRITS_HINT)}</p>")
        hint.add_class("coach-balls-hint")
        choices = W.Box([self.first, self.second, self.surface, self.grit, hint, self.drawn])
        choices.add_class("coach-balls-choices")
        super().__init__([self.edge, choices, self.care, self.problem, self.words, self.picture])
        self.add_class("coach-balls")
        self.listen_to()
        self._is_following = False
        for control in (self.first, self.second):
            control.observe(self._throw, "value")
        self.surface.observe(self._choose_word, "value")
        self.grit.observe(self._type_grit, "value")
        self.drawn.observe(self._draw, "value")
        self.edge.observe(self._draw, "width_px")
        self._throw()

    def _choose_word(self, _change: Any = None) -> None:
        """Take the surface chosen as a word: a number typed before does not count any longer."""
        if not self._is_following:
            self._follow(self.grit, "")
            self._throw()

    def _type_grit(self, _change: Any = None) -> None:
        """Take the grit typed, and show its word; an empty field leaves the word as it is."""
        if not self._is_following:
            grit = FormReader({"grit": self.grit.value}).number("grit", "grit", limits_of(Ball, "grit"))
            if grit is not None:
                self._follow(self.surface, grit_word(grit))
            self._throw()

    def _follow(self, control: W.DOMWidget, value: str) -> None:
        """Show in one control what the other says, without throwing twice."""
        self._is_following = True
        try:
            control.value = value
        finally:
            self._is_following = False

    @report_errors("problem", "form")
    def _throw(self, _change: Any = None) -> None:
        """Throw what is chosen, or say why that cannot be and leave words and picture as they were."""
        second = second_ball(self.second.value, self.surface.value, self.grit.value)
        self.care.value = care_html(self.session, self.surface.value)
        self.problem.value = "<p>Simulating …</p>"
        self.compared = compare_balls(self.session, [load_ball(self.first.value), second])
        self.words.value = words_html(self.session, self.compared)
        self._draw()
        self.problem.value = ""

    def show_errors(self, place: str, errors: Mapping[str, str]) -> None:
        """Show why the balls cannot be thrown."""
        self.problem.value = "".join(
            f'<p role="alert">{html.escape(message)}</p>' for message in errors.values()
        )

    def _draw(self, _change: Any = None) -> None:
        """Draw what was thrown, as wide as the panel is."""
        if self.compared:
            on = DRAWN[self.drawn.value]
            self.picture.value = picture_html(self.session, self.compared, on, self.edge.width_px)


def second_ball(name: str, surface: Choice, grit: str = "") -> Ball:
    """Return the second ball on the surface wanted, which its name says where it changed.

    Parameters
    ----------
    name : str
        One of :func:`coachlib.world.ball.ball_names`.
    surface : str
        One of :data:`CHOICES`.
    grit : str
        As typed; a number stands before the word, nothing leaves it to the word.

    Raises
    ------
    InputError
        If what was typed is no grit.
    """
    form, ball = FormReader({"grit": grit}), load_ball(name)
    number = form.number("grit", "grit", limits_of(Ball, "grit"))
    form.finish()
    now = ball if surface == AS_IT_IS else with_surface(ball, surface)
    now = now if number is None else resurfaced(ball, number)
    return ball if now == ball else dataclasses.replace(now, name=resurfaced_name(ball, now))


def care_html(session: Session, surface: Choice) -> str:
    """Return what has to be said before that surface is put on; empty where the ball stays as it is."""
    if surface == AS_IT_IS:
        return ""
    cautions = surface_cautions(session, "smoother" if surface == "polished" else "duller")
    lines = "".join(f"<li>{html.escape(caution)}</li>" for caution in cautions)
    return f'<div role="status" aria-label="Cautions"><ul class="coach-balls-care">{lines}</ul></div>'


def words_html(session: Session, compared: Sequence[Compared]) -> str:
    """Return the words on two balls as HTML, read out when they change."""
    both = f"Both from {line_text(session.line).lower()}."
    first, second = (surface_text(one.on_line.ball) for one in compared[:2])
    surfaces = f"First ball: {first}. Second ball: {second}."
    lines = [both, surfaces, *difference_lines(compared, session.bowler.hand)]
    words = "".join(f"<p>{html.escape(line)}</p>" for line in lines)
    return f'<div role="status" aria-live="polite">{words}</div>'


def picture_html(session: Session, compared: Sequence[Compared], on: On, panel_px: int) -> str:
    """Return the paths of two balls as HTML.

    Parameters
    ----------
    session : Session
        Its bowler's hand turns the picture.
    compared : sequence of Compared
        What was thrown.
    on : {"line", "match", "best"}
        Which lines are drawn.
    panel_px : int
        Width of the panel; 0 where it is not known yet. [px]
    """
    width_px, has_key = lane_px(panel_px)
    chart = balls_chart(compared, session.bowler.hand, on=on, width_px=width_px, has_key=has_key)
    caption = "Thick: a good shot. Thin: twenty balls each, with the same misses. Simulated, not measured."
    drawn = picture_svg(chart.to_dict())
    return f"<figure>{drawn}<figcaption>{caption}</figcaption></figure>"


def lane_px(panel_px: int) -> tuple[int, bool]:
    """Return how wide the lane is drawn in a panel, and whether the names stand over it for want of room."""
    beside = panel_px - AXIS_PX - NAMES_PX if panel_px else WIDTH_PX
    if beside >= ROOMY_PX:
        return min(beside, WIDTH_PX), False
    return min(max(panel_px - AXIS_PX, LEAST_PX), WIDTH_PX), True


def _choice(name: str, options: tuple[Any, ...], value: str) -> W.Dropdown:
    return W.Dropdown(description=name, options=options, value=value, style=_WIDE)
