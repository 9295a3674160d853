"""Two balls on one line: choose them and a surface, and see paths, words and the move that follows."""

import dataclasses
import html
from collections.abc import Mapping, Sequence
from typing import Any

import anywidget
import ipywidgets as W
import traitlets

from coachlib.coaching.equipment.ball_comparison import Compared, compare_balls
from coachlib.coaching.equipment.surface import USUAL_GRITS, surface_cautions
from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.ball_comparison_words import difference_lines
from coachlib.coaching.wording.callouts import line_text
from coachlib.coaching.wording.names import said_name
from coachlib.errors import checked_thing
from coachlib.views.charts.balls_chart import WIDTH_PX, On, balls_chart
from coachlib.views.panels.shared.panel import Panel, report_errors
from coachlib.views.panels.shared.parts import PANELS, styled
from coachlib.views.theme import picture_svg
from coachlib.world.ball import Ball, ball_names, load_ball, resurfaced

AS_IT_IS, POLISHED = "as it is", "polished"
SANDED = {f"{grit:.0f} grit": grit for grit in USUAL_GRITS}
SURFACES = (AS_IT_IS, *SANDED, POLISHED)
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
        self.surface = _choice("Surface of the second", SURFACES, AS_IT_IS)
        self.drawn = _choice("Lines drawn", tuple(DRAWN), next(iter(DRAWN)))
        self.edge = PanelEdge()
        self.picture, self.words, self.problem, self.care = (W.HTML() for _ in range(4))
        choices = W.Box([self.first, self.second, self.surface, self.drawn])
        choices.add_class("coach-balls-choices")
        super().__init__([self.edge, choices, self.care, self.problem, self.words, self.picture])
        self.add_class("coach-balls")
        self.listen_to()
        for control in (self.first, self.second, self.surface):
            control.observe(self._throw, "value")
        self.drawn.observe(self._draw, "value")
        self.edge.observe(self._draw, "width_px")
        self._throw()

    @report_errors("problem", "form")
    def _throw(self, _change: Any = None) -> None:
        """Throw what is chosen, or say why that cannot be and leave words and picture as they were."""
        self.care.value = care_html(self.session, self.surface.value)
        self.problem.value = "<p>Throwing …</p>"
        second = with_surface(load_ball(self.second.value), self.surface.value)
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


def with_surface(ball: Ball, surface: str) -> Ball:
    """Return the ball with a surface of :data:`SURFACES`, the surface in its name where it changed."""
    if surface == AS_IT_IS:
        return ball
    is_polished = surface == POLISHED
    sanded = resurfaced(ball, ball.grit if is_polished else SANDED[surface], is_polished)
    return ball if sanded == ball else dataclasses.replace(sanded, name=f"{ball.name}, {surface}"[:60])


def care_html(session: Session, surface: str) -> str:
    """Return what has to be said before that surface is put on; empty where the ball stays as it is."""
    if surface == AS_IT_IS:
        return ""
    cautions = surface_cautions(session, "smoother" if surface == POLISHED else "duller")
    lines = "".join(f"<li>{html.escape(caution)}</li>" for caution in cautions)
    return f'<ul class="coach-balls-care" role="status" aria-label="Cautions">{lines}</ul>'


def words_html(session: Session, compared: Sequence[Compared]) -> str:
    """Return the words on two balls as HTML, read out when they change."""
    both = f"Both from {line_text(session.line).lower()}."
    lines = [both, *difference_lines(compared, session.bowler.hand)]
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
    caption = "Thick: a good shot. Thin: twenty balls each, the same errors. Simulated, not measured."
    drawn = picture_svg(chart.to_dict())
    return f"<figure>{drawn}<figcaption>{caption}</figcaption></figure>"


def lane_px(panel_px: int) -> tuple[int, bool]:
    """Return how wide the lane is drawn in a panel, and whether the names stand over it for want of room."""
    beside = panel_px - AXIS_PX - NAMES_PX if panel_px else WIDTH_PX
    if beside >= ROOMY_PX:
        return min(beside, WIDTH_PX), False
    return min(max(panel_px - AXIS_PX, LEAST_PX), WIDTH_PX), True


def _choice(name: str, options: tuple[Any, ...], value: str) -> W.Dropdown:
    wide = {"description_width": "9em"}
    return W.Dropdown(description=name, options=options, value=value, style=wide)
