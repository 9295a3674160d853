"""The three kinds of task of a clinic paper, each with the answer that the library computes for it.

Nothing here is typed in: whose doing a ball was and which move follows is the rule of thumb's own answer
(:func:`coachlib.advise` without the model), boards after a move are levers of a straight line, and what the
hook adds is a simulated ball. All in the own frame; left and right come with the words.
"""

import dataclasses
from collections.abc import Callable
from typing import ClassVar, Literal

import numpy as np

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.rules.rule import Rule
from coachlib.coaching.rules.rule_advice import Verdict
from coachlib.coaching.rules.rule_voice import move_problems
from coachlib.coaching.rules.rulebook import fired_rules, load_rulebook
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Event, Observed
from coachlib.coaching.simulation.paths import line_paths
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD
from coachlib.world.levers import board_at, laydown_board, line_shift_boards
from coachlib.world.line import Line, Move, after_move

Whose = Literal["bowler", "lane", "both", "cannot tell"]
WHOSE_OF_VERDICT: dict[Verdict, Whose] = {
    "bowler": "bowler",
    "lane": "lane",
    "both": "both",
    "direction known": "cannot tell",
    "too early": "cannot tell",
}
PREDICTED_AT_FT = (30.0, 45.0, 60.0)
"""Where the board after a move is asked for [ft]."""

EYE_BOARDS = 0.5
"""A crossing is noted to half a board: an answer must not hang on less (our guess) [boards]."""


@dataclasses.dataclass(frozen=True)
class BallsTask:
    """A task on some balls.

    Parameters
    ----------
    advice : Advice
        The rule of thumb's answer to the balls of the task.
    """

    kind: ClassVar[str]
    advice: Advice

    @property
    def session(self) -> Session:
        """The balls of the task."""
        return self.advice.session

    @property
    def n_to_weigh(self) -> int:
        """How many things a student has to weigh: balls, and what was noted of them."""
        shots = [ball.shot for ball in self.session.shots]
        names = ("crossed_board", "arrival", "leave", "motion", "speed_mph", "slide_board", "hit")
        return len(shots) + sum(any(getattr(shot, name) is not None for shot in shots) for name in names)

    @property
    def question(self) -> tuple[object, ...]:
        """All that is asked, hand aside; two tasks that ask the same are alike."""
        session = self.session
        balls = ((ball.line, ball.shot) for ball in session.shots)
        return (self.kind, session.bowler.walk, session.line, session.games_on_lane, session.place, *balls)


class ReadTask(BallsTask):
    """A shot to read: was the last ball the bowler's doing, the lane's, or can it not be told yet."""

    kind = "read"

    @property
    def answer(self) -> Whose:
        """Whose doing the last ball was."""
        return WHOSE_OF_VERDICT[self.advice.cause.verdict]

    @property
    def rule(self) -> Rule:
        """The rule that says why: where it is the lane, the one on the target hit and the wrong place."""
        fired = fired_rules(load_rulebook(), self.advice.reading.facts) if self.answer == "lane" else ()
        passing = (one.rule for one in fired if one.kind == "pass")
        return next(passing, self.advice.rule.fired[0].rule)


@dataclasses.dataclass(frozen=True)
class MoveTask(BallsTask):
    """A move to name: which one of feet and eyes follows, if any.

    Parameters
    ----------
    advice : Advice
        The rule of thumb's answer to the balls of the task.
    also_right : tuple of Move
        Moves of feet and eyes that the same rule, or another one that fires, offers too.
    """

    kind = "move"
    also_right: tuple[Move, ...] = ()

    @property
    def answer(self) -> Move:
        """The move; all zero where none follows yet."""
        return self.advice.move


@dataclasses.dataclass(frozen=True)
class PredictTask:
    """A move to predict: on which boards is the straight line after it.

    Parameters
    ----------
    session, move
        Bowler, ball, pattern and the line before the move; the feet and eyes of the move.
    is_line_given : bool
        Whether the boards of the line before the move are printed.
    hook_shift_boards : float or None
        How far the simulated ball of this bowler arrives from the one before the move, to half a board; None
        where one of the two does not arrive. [boards]
    """

    session: Session
    move: Move
    is_line_given: bool
    hook_shift_boards: float | None = None

    @property
    def new_line(self) -> Line:
        """The line after the move."""
        return after_move(self.session.line, self.move)

    @property
    def laydown_boards(self) -> tuple[float, float]:
        """Where the ball is laid down before the move and after it [board]."""
        bowler = self.session.bowler
        return laydown_board(self.session.line, bowler), laydown_board(self.new_line, bowler)

    @property
    def boards_before(self) -> tuple[float, ...]:
        """Boards of the straight line before the move, at :data:`PREDICTED_AT_FT` [board]."""
        return straight_boards(self.session.line, self.session.bowler)

    @property
    def answer(self) -> tuple[float, ...]:
        """Boards of the straight line after the move, at :data:`PREDICTED_AT_FT` [board]."""
        return straight_boards(self.new_line, self.session.bowler)

    @property
    def shifts_boards(self) -> tuple[float, ...]:
        """How far the straight line moves, at :data:`PREDICTED_AT_FT` [boards]."""
        bowler, line = self.session.bowler, self.session.line
        return tuple(
            line_shift_boards(self.move, at_ft, bowler.walk, line.target_ft, bowler.stance_ft)
            for at_ft in PREDICTED_AT_FT
        )

    @property
    def n_to_weigh(self) -> int:
        """How many things a student has to weigh: feet, eyes, the walk, the distance, the line, halves."""
        bowler, line, move = self.session.bowler, self.session.line, self.move
        return 1 + sum(
            (
                move.feet_boards != 0,
                move.target_boards != 0,
                move.feet_boards * move.target_boards < 0,
                2 * (bowler.walk == "walk"),
                2 * (line.target_ft != 15),
                2 * (not self.is_line_given),
                any(board % 1 for board in self.answer),
            )
        )

    @property
    def question(self) -> tuple[object, ...]:
        """All that is asked, hand aside; two tasks that ask the same are alike."""
        bowler = self.session.bowler
        walked = (bowler.walk, bowler.stance_ft, bowler.laydown_offset_boards)
        return ("predict", walked, self.session.line, self.move)


Task = ReadTask | PredictTask | MoveTask


def read_task(session: Session) -> ReadTask | None:
    """Return the balls of a session as a task to read, or None where the answer is not clear."""
    advice = advise(session, model_on=False)
    is_sure = bool(advice.rule.fired) and not advice.rule.against
    # Between one ball and patience the trade and this library differ: then no answer is the only right one.
    is_agreed = advice.cause.verdict != "direction known" or not advice.reading.facts.get("has_crossing")
    if not (is_sure and is_agreed and _is_clear(session, lambda one: ReadTask(one).answer)):
        return None
    return ReadTask(advice)


def move_task(session: Session) -> MoveTask | None:
    """Return the balls of a session as a task to name the move, or None where the answer is not clear."""
    advice = advise(session, model_on=False)
    is_sure = bool(advice.rule.fired) and not advice.rule.against and not advice.rule.forbidden
    is_named = advice.kind in ("stay", "watch") or _is_feet_and_eyes_alone(advice.move)
    if not (is_sure and is_named and _is_clear(session, lambda one: one.move)):
        return None
    return MoveTask(advice, _also_right(advice))


def predict_task(session: Session, move: Move, is_line_given: bool) -> PredictTask | None:
    """Return a move as a task to predict boards, or None where a line would leave lane or approach."""
    task = PredictTask(session, move, is_line_given)
    reached = (*task.boards_before, *task.answer)
    if move_problems(session, move) or not all(FIRST_BOARD <= board <= LAST_BOARD for board in reached):
        return None
    before, after = (line_paths(session, one).arrival_board for one in (session.line, task.new_line))
    if not np.isfinite([before, after]).all():
        return task
    return dataclasses.replace(task, hook_shift_boards=round(2 * (after - before)) / 2 + 0.0)


def straight_boards(line: Line, bowler: Bowler) -> tuple[float, ...]:
    """Return where a straight line is at :data:`PREDICTED_AT_FT` [board]."""
    return tuple(board_at(line, bowler, at_ft) for at_ft in PREDICTED_AT_FT)


def _is_feet_and_eyes_alone(move: Move) -> bool:
    return move.is_feet_and_eyes and move == Move(move.feet_boards, move.target_boards)


def _is_clear(session: Session, answer_of: Callable[[Advice], object]) -> bool:
    """Return whether crossings noted half a board to either side leave the answer as it is."""
    beside = (_crossed_beside(session, off_boards) for off_boards in (-EYE_BOARDS, 0.0, EYE_BOARDS))
    answers = [answer_of(advise(one, model_on=False)) for one in beside]
    return answers.count(answers[0]) == len(answers)


def _crossed_beside(session: Session, off_boards: float) -> Session:
    """Return the session with every crossing noted so far to the inside (+) or outside (-)."""

    def beside(event: Event) -> Event:
        if not isinstance(event, Observed) or event.shot.crossed_board is None:
            return event
        shot = dataclasses.replace(event.shot, crossed_board=event.shot.crossed_board + off_boards)
        return dataclasses.replace(event, shot=shot)

    return dataclasses.replace(session, events=tuple(map(beside, session.events)))


def _also_right(advice: Advice) -> tuple[Move, ...]:
    """Return the other moves of feet and eyes that the rules fired offer, best first."""
    if advice.move.is_stay:
        return ()
    fired = fired_rules(load_rulebook(), advice.reading.facts)
    offered = dict.fromkeys(move for one in fired if one.kind == "move" for move in one.moves)
    return tuple(
        move
        for move in offered
        if move != advice.move and _is_feet_and_eyes_alone(move) and not move_problems(advice.session, move)
    )
