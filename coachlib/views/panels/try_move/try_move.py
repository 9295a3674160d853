"""Try a move of feet and eyes: slide it and see where line and ball go, for both ways of walking."""

import dataclasses
from typing import Any, cast

import anywidget
import ipywidgets
import traitlets

from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.callouts import side_text
from coachlib.views.lane.scene import simulated_scene
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.views.panels.shared.lane_picture import LanePicture
from coachlib.views.panels.shared.panel import Panel, report_errors
from coachlib.views.panels.shared.parts import PANELS, styled
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler, Walk
from coachlib.world.hand import HANDS, Hand
from coachlib.world.line import Line, Move, after_move
from coachlib.world.oil import OilPattern
from coachlib.world.parsing import board_text


class MoveSliders(anywidget.AnyWidget):
    """The sliders for feet and eyes, ``+`` inside, and the choice of walk.

    `hand` turns the sliders, so that their left end is the bowler's left; `texts` are the words beside each
    control and the answer below, or `errors` say why the move cannot be, under ``form``.
    """

    _esm = PANELS / "try_move/try_move.js"
    _css = styled("try_move/try_move.css")

    hand = traitlets.Enum(HANDS, default_value="right").tag(sync=True)
    feet_boards = traitlets.Float(0.0).tag(sync=True)
    target_boards = traitlets.Float(0.0).tag(sync=True)
    walk = traitlets.Enum(("slide", "walk"), default_value="slide").tag(sync=True)
    texts = traitlets.Dict().tag(sync=True)
    errors = traitlets.Dict().tag(sync=True)


class TryMove(Panel, ipywidgets.VBox):
    """Sliders over the lane picture; each change is drawn in the browser from a new scene.

    Parameters
    ----------
    bowler : Bowler, optional
        Hand, laydown offset and stance count; the walk is chosen in the panel.
    line : Line, optional
        The line played.
    move : Move, optional
        The first move shown; a 2 and 1 inside.
    ball, pattern : optional
        With a pattern the balls of both lines are simulated; without a ball a usual one is thrown.
    """

    def __init__(
        self,
        bowler: Bowler | None = None,
        line: Line | None = None,
        move: Move | None = None,
        *,
        ball: Ball | None = None,
        pattern: OilPattern | None = None,
    ) -> None:
        self.bowler, self.line = bowler or Bowler(), line or Line(feet_board=22.0, target_board=12.0)
        self.ball, self.pattern = ball, pattern
        first = move or Move(feet_boards=2.0, target_boards=1.0)
        self.sliders = MoveSliders(
            hand=self.bowler.hand,
            feet_boards=first.feet_boards,
            target_boards=first.target_boards,
            walk=self.bowler.walk,
        )
        self.picture = LanePicture()
        super().__init__([self.sliders, self.picture])
        self.listen_to(self.sliders)
        self.sliders.observe(self._redraw, ["feet_boards", "target_boards", "walk"])
        self._redraw()

    @report_errors("sliders", "form")
    def _redraw(self, _change: Any = None) -> None:
        """Draw the move slid to, or say why it cannot be and leave the picture as it was."""
        now = self.sliders
        moves = now.feet_boards, now.target_boards
        texts = _move_words(*moves, self.bowler.hand)
        try:
            walk = cast(Walk, now.walk)
            scene = move_scene(self.bowler, self.line, *moves, walk, ball=self.ball, pattern=self.pattern)
            self.picture.show(scene)
            texts["answer"] = _answer(scene)
        finally:
            now.texts = texts


def move_scene(
    bowler: Bowler,
    line: Line,
    feet_boards: float,
    target_boards: float,
    walk: Walk,
    *,
    ball: Ball | None = None,
    pattern: OilPattern | None = None,
) -> LaneScene:
    """Return the scene of a line and of the same line after a move.

    Parameters
    ----------
    bowler, line : Bowler, Line
        Who throws, with `walk` in place of their own, and the line played.
    feet_boards, target_boards : float
        The move, ``+`` inside. [boards]
    ball, pattern : optional
        With a pattern the balls of both lines are simulated.

    Raises
    ------
    InputError
        If the move leads off the approach or off the lane.
    """
    move = Move(feet_boards=feet_boards, target_boards=target_boards)
    session = Session(dataclasses.replace(bowler, walk=walk), line, ball=ball, pattern=pattern)
    return simulated_scene(session, line, after_move(line, move))


def _move_words(feet_boards: float, target_boards: float, hand: Hand) -> dict[str, str]:
    moves = {"feet_boards": feet_boards, "target_boards": target_boards}
    return {
        name: f"{board_text(abs(boards))} {side_text(boards, hand)}" if boards else "stay"
        for name, boards in moves.items()
    }


def _answer(scene: LaneScene) -> str:
    """Return what the lever says in one sentence, and the simulated balls in another."""
    if scene["advised"] is None:
        return "Nothing moves."
    shifts = ", ".join(f"{shift['text']} at {shift['at_ft']:.0f} ft" for shift in scene["shifts"])
    simulated = f" Simulated: {scene['simulated_text']} at 60 ft." if scene["simulated_text"] else ""
    return f"On paper: {shifts}.{simulated}"
