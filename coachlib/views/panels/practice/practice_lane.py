"""The practice panel: a game on a hidden lane, for the bowler alone.

The widgets hold nothing that matters, the game does. Every handler takes one step of the game and then the
whole panel is looked at afresh. Nothing is put into the log: its number brings a lane back.
"""

from typing import Any

import ipywidgets as W
import traitlets

from coachlib.errors import InputError
from coachlib.study.game.practice_end import PracticeEnd, practice_end
from coachlib.study.game.practice_game import PracticeGame
from coachlib.views.panels.practice.practice_form import (
    game_from,
    known_bowlers,
    line_and_ball,
    start_answers,
    throw_answers,
)
from coachlib.views.panels.practice.practice_view import (
    balls_view,
    end_view,
    practice_scene,
    seen_view,
    start_view,
    throw_view,
    waiting_view,
)
from coachlib.views.panels.shared.lane_picture import LanePicture
from coachlib.views.panels.shared.panel import Panel, action
from coachlib.views.panels.shared.parts import (
    PANELS,
    Form,
    ProgressBar,
    View,
    composed,
    joined,
    script,
    styled,
)
from coachlib.views.panels.shared.trend import trend_view
from coachlib.views.panels.shared.typed import Answers
from coachlib.world.bowler import Bowler


class PracticeStart(Form):
    """The form of a new game, and the bar of a running one; it also carries the panels' style sheet."""

    _esm = script("practice/practice_start.js")
    _css = styled("shared/style.css")


class PracticeThrow(Form):
    """The form of the next throw, and the trend of arrivals under it.

    Parameters
    ----------
    typed : dict
        What stood in the form when it was last sent: the form of a page that opens now.
    filled : dict
        What the game writes into the form, at its beginning and by an undo: ``answers``, whether the game
        ``is_new``, and a ``number`` that counts up. Nothing else may write there while somebody types.
    """

    _esm = joined("shared/parts.js", "shared/trend.js", "practice/practice_throw.js")
    _css = PANELS / "lane_side/answer.css"

    trend = traitlets.Dict().tag(sync=True)
    filled = traitlets.Dict().tag(sync=True)


class PracticeSeen(View):
    """What was seen of the last ball in large type, and the end of the game."""

    _esm = script("practice/practice_seen.js")
    _css = PANELS / "practice/practice.css"


class PracticeBalls(View):
    """The table of the balls thrown."""

    _esm = script("practice/practice_balls.js")


class PracticePanel(Panel):
    """The practice game; as the last line of a notebook cell it shows itself.

    Parameters
    ----------
    bowler : Bowler, optional
        The person themselves, first in the list of bowlers; without one the invented ones are offered.
    lane_number : int, default 1
        The lane that the form proposes.
    is_strict : bool, default False
        Raise errors again after they were shown; for tests.
    """

    def __init__(
        self, bowler: Bowler | None = None, lane_number: int = 1, *, is_strict: bool = False
    ) -> None:
        self.is_strict, self.bowlers = is_strict, known_bowlers(bowler)
        self.game: PracticeGame | None = None
        self.end: PracticeEnd | None = None
        self._n_now = 1
        self.start, self.throwing = PracticeStart(), PracticeThrow()
        self.seen, self.balls, self.lane = PracticeSeen(), PracticeBalls(), LanePicture()
        self.progress = ProgressBar("Balls played again")
        self.progress.layout.display = "none"
        self.box = composed(
            who=self.start,
            answer=W.VBox([self.seen, self.progress]),
            entry=self.throwing,
            lane=self.lane,
            shots=self.balls,
        ).add_class("coach-practice")
        self.start.typed = start_answers(self.bowlers, lane_number)
        self.listen_to(self.start, self.throwing)
        self.refresh()

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        return self.box._repr_mimebundle_(**kwargs)

    @action("start")
    def begin(self, typed: Answers) -> None:
        """Start a game from the form."""
        self.start.typed = dict(typed)
        self.game, self.end, self._n_now = game_from(typed, self.bowlers), None, 1
        self._fill(self.game, is_new=True)

    @action("start")
    def new_game(self) -> None:
        """Put the game away and show the form again, as it was filled."""
        self.game = self.end = None

    @action("throwing")
    def move(self, typed: Answers) -> None:
        """Change line or ball before the next throw, and draw it."""
        self.throwing.typed = dict(typed)
        self._game().move(*line_and_ball(typed))

    @action("throwing")
    def undo(self) -> None:
        """Take back the last change since the last ball."""
        game = self._game()
        try:
            game.undo()
        finally:
            self._fill(game)

    @action("throwing")
    def throw(self, typed: Answers, n_balls: int, n_thrown: int) -> None:
        """Throw on the line in the form; a second tap, made before `n_thrown` was another number, is none."""
        game = self._game()
        if n_thrown != game.n_thrown:
            return
        self.throwing.typed = dict(typed)
        game.move(*line_and_ball(typed))
        self._n_now = len(game.throw(n_balls))
        if game.is_over:
            self._work_out_the_end(game)

    def refresh(self) -> None:
        """Look at the game afresh and show it."""
        game = self.game
        self.start.look = start_view(game, self.bowlers, is_sure=game is None or game.is_over)
        (self.box.remove_class if game else self.box.add_class)("coach-unstarted")
        if game is None:
            return
        self.lane.show(practice_scene(game))
        self.throwing.trend, self.throwing.look = trend_view(game.session), throw_view(game)
        self.balls.look = balls_view(game)
        self.seen.look = end_view(game, self.end) if self.end else seen_view(game, self._n_now)

    def _work_out_the_end(self, game: PracticeGame) -> None:
        """Play the balls again in other ways; the bar moves while the page waits."""
        self.refresh()
        self.seen.look = waiting_view(game)
        self.progress.layout.display = ""
        try:
            self.end = practice_end(game, self.progress.step)
        finally:
            self.progress.layout.display = "none"

    def _fill(self, game: PracticeGame, *, is_new: bool = False) -> None:
        """Write what is held now into the form; only fields that somebody types in are left alone."""
        answers, number = throw_answers(game), self.throwing.filled.get("number", 0) + 1
        self.throwing.typed = answers
        self.throwing.filled = {"answers": answers, "is_new": is_new, "number": number}

    def _game(self) -> PracticeGame:
        if self.game is None:
            message = "Choose bowler, ball and oil, and press Start. No game is running."
            raise InputError(message)
        return self.game
