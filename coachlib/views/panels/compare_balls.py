"""Two balls on one line: choose them and a surface, and see paths, words and the move that follows."""

import dataclasses
import html
from typing import Any

import ipywidgets as W

from coachlib.coaching.balls import compare_balls
from coachlib.coaching.balls_words import difference_lines
from coachlib.coaching.callouts import line_text
from coachlib.coaching.session import Session
from coachlib.coaching.surface import USUAL_GRITS
from coachlib.errors import InputError, ModelError
from coachlib.views.balls_chart import balls_chart
from coachlib.views.theme import picture_svg
from coachlib.world.ball import Ball, ball_names, load_ball, resurfaced

AS_IT_IS, POLISHED = "as it is", "polished"
SURFACES = (AS_IT_IS, *(f"{grit:.0f} grit" for grit in USUAL_GRITS), POLISHED)


class CompareBalls(W.VBox):
    """Two choices of ball and one of surface over the paths of both; each choice is thrown at once.

    Parameters
    ----------
    session : Session
        Bowler, line and pattern count; its ball, if it comes with the library, is the first choice.
    """

    def __init__(self, session: Session) -> None:
        self.session = session
        names = ball_names()
        held = session.ball.name if session.ball is not None and session.ball.name in names else names[0]
        other = next(name for name in names if name != held)
        self.first = _choice("First ball", names, held)
        self.second = _choice("Second ball", names, other)
        self.surface = _choice("Surface of the second", SURFACES, AS_IT_IS)
        self.picture, self.words = W.HTML(), W.HTML()
        self.problem = W.HTML()
        super().__init__([self.first, self.second, self.surface, self.problem, self.words, self.picture])
        for control in (self.first, self.second, self.surface):
            control.observe(self._redraw, "value")
        self._redraw()

    def _redraw(self, _change: Any = None) -> None:
        """Throw what is chosen, or say why that cannot be and leave the picture as it was."""
        try:
            second = with_surface(load_ball(self.second.value), self.surface.value)
            words, picture = compared_html(self.session, load_ball(self.first.value), second)
        except (InputError, ModelError) as error:
            self.problem.value = f'<p role="alert">{html.escape(str(error))}</p>'
            return
        self.problem.value, self.words.value, self.picture.value = "", words, picture


def with_surface(ball: Ball, surface: str) -> Ball:
    """Return the ball with a surface of :data:`SURFACES`, the surface in its name where it changed."""
    if surface == AS_IT_IS:
        return ball
    is_polished = surface == POLISHED
    grit = ball.grit if is_polished else float(surface.removesuffix(" grit"))
    sanded = resurfaced(ball, grit, is_polished)
    return ball if sanded == ball else dataclasses.replace(sanded, name=f"{ball.name}, {surface}"[:60])


def compared_html(session: Session, first: Ball, second: Ball) -> tuple[str, str]:
    """Return the words on two balls and the picture of their paths, both as HTML.

    Raises
    ------
    InputError
        If the session's pattern is not known.
    """
    compared = compare_balls(session, [first, second])
    hand = session.bowler.hand
    lines = [f"Both from {line_text(session.line).lower()}.", *difference_lines(compared, hand)]
    words = "".join(f"<p>{html.escape(line)}</p>" for line in lines)
    chart = balls_chart(compared, hand, subtitle="Twenty balls each, the same errors; model, not measured")
    return words, picture_svg(chart.to_dict())


def _choice(name: str, options: tuple[str, ...], value: str) -> W.Dropdown:
    wide = {"description_width": "11em"}
    return W.Dropdown(description=name, options=options, value=value, style=wide)
