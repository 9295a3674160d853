"""Clinic papers from seeds: ten tasks each, read the shot, predict the board, name the move, with answers.

A paper of a level has the same number and kinds of tasks whatever its seed; stories and numbers differ. The
answers are computed by the library, see :mod:`coachlib.study.questions.worksheet_tasks`. The same seed gives
the same paper; for a left-handed class it is the same paper with left and right, and the pins, turned at the
end.
"""

import dataclasses
from collections.abc import Callable
from typing import TypeVar

import numpy as np

from coachlib.coaching.session.session import Session
from coachlib.errors import ModelError, checked_choice, checked_number
from coachlib.study.questions import worksheet_stories as stories
from coachlib.study.questions.worksheet_levels import LEVELS, Level, LevelName, Moves
from coachlib.study.questions.worksheet_stories import Draw, StoryMaker
from coachlib.study.questions.worksheet_tasks import (
    MoveTask,
    PredictTask,
    ReadTask,
    Task,
    Whose,
    move_task,
    predict_task,
    read_task,
)
from coachlib.world.hand import Hand, checked_hand

MOST_PAPERS = 60
LAST_SEED = 99_999
MOST_TRIES = 400
"""So many stories are made up for one task before giving up."""

_Task = TypeVar("_Task", ReadTask, PredictTask, MoveTask)
_BallsTask = TypeVar("_BallsTask", ReadTask, MoveTask)


@dataclasses.dataclass(frozen=True)
class Worksheet:
    """One paper.

    Parameters
    ----------
    level, seed, hand
        What makes it, the number printed on it, and whose left and right it is told in.
    tasks : tuple
        First the shots to read, then the moves to name, then the boards to predict.
    """

    level: Level
    seed: int
    hand: Hand
    tasks: tuple[Task, ...]

    @property
    def n_to_weigh(self) -> int:
        """How many things a student has to weigh in all tasks together."""
        return sum(task.n_to_weigh for task in self.tasks)

    def of(self, kind: type[_Task]) -> tuple[_Task, ...]:
        """Return the tasks of one kind."""
        return tuple(task for task in self.tasks if isinstance(task, kind))


def worksheet(level: LevelName = "first", seed: int = 1, hand: Hand = "right") -> Worksheet:
    """Return one paper: four shots to read, three moves to name, three to predict.

    Parameters
    ----------
    level : {"first", "second", "third"}
        See :data:`LEVELS`.
    seed : int
        0 to 99,999; the same seed is the same paper.
    hand
        Whose left and right.

    Raises
    ------
    InputError
        If the level or the hand is unknown or the seed no such whole number.
    """
    checked_choice("level", level, LEVELS)
    made, seed = LEVELS[level], _whole("seed", seed, 0, LAST_SEED, "", "It is the number of the first paper.")
    draw = np.random.default_rng((list(LEVELS).index(level), seed))
    hand = checked_hand(hand)
    reads = [_made(draw, hand, read_task, *wanted) for wanted in made.reads]
    predicts = [_predict(draw, hand, moves) for moves in made.predicts]
    moves = [_made(draw, hand, move_task, *wanted) for wanted in made.moves]
    tasks: tuple[Task, ...] = (*_mixed(draw, reads), *_mixed(draw, moves), *_mixed(draw, predicts))
    return Worksheet(made, seed, hand, tasks)


def worksheets(
    level: LevelName = "first", n_papers: int = 20, seed: int = 1, hand: Hand = "right"
) -> tuple[Worksheet, ...]:
    """Return papers of one level, no two alike, numbered from `seed` on.

    Parameters
    ----------
    level, hand
        As for :func:`worksheet`.
    n_papers : int
        1 to 60.
    seed : int
        Number of the first paper.

    Raises
    ------
    InputError
        If there are no papers to make, too many, or :func:`worksheet` refuses.
    """
    fix = "Print a larger class in two lots, with another first number for the second."
    n_papers = _whole("n_papers", n_papers, 1, MOST_PAPERS, "papers", fix)
    first = _whole("seed", seed, 0, LAST_SEED - n_papers + 1, "", "It is the number of the first paper.")
    return tuple(worksheet(level, first + number, hand) for number in range(n_papers))


def _whole(name: str, value: object, low: int, high: int, unit: str, fix: str) -> int:
    number = checked_number(name, value, low, high, unit, fix)
    if number % 1:
        checked_number(name, str(value), low, high, f"whole {unit}".strip(), fix)  # refused: no number
    return int(number)


def _mixed(draw: Draw, tasks: list[_Task]) -> list[_Task]:
    return [tasks[int(number)] for number in draw.permutation(len(tasks))]


def _made(
    draw: Draw,
    hand: Hand,
    ask: Callable[[Session], _BallsTask | None],
    wanted: Whose | bool,
    makers: tuple[StoryMaker, ...],
) -> _BallsTask:
    """Return the first task with the wanted answer: whose doing it was, or whether a move follows."""
    for _ in range(MOST_TRIES):
        task = ask(stories.pick(draw, makers)(draw, hand))
        if task is not None:
            answer = task.answer if isinstance(task, ReadTask) else not task.answer.is_stay
            if answer == wanted:
                return task
    message = f"none of {MOST_TRIES} stories had the answer wanted; expected one of {len(makers)} kinds to."
    raise ModelError(message)


def _predict(draw: Draw, hand: Hand, moves: Moves) -> PredictTask:
    for _ in range(MOST_TRIES):
        walk, target_ft = stories.pick(draw, moves.walks), stories.pick(draw, moves.targets_ft)
        session = stories.straight_line_to_move(draw, hand, walk, target_ft)
        task = predict_task(session, stories.move_either_way(draw, moves.sizes), moves.is_line_given)
        if task is not None:
            return task
    message = f"none of {MOST_TRIES} lines stayed on the lane; expected one of the sizes {moves.sizes} to."
    raise ModelError(message)
