"""The case behind one question: who is asked, how hard it may be, and what the seed draws."""

import dataclasses
from collections.abc import Sequence
from typing import Any, TypeVar

import numpy as np

from coachlib.study.questions.question import Level, Question
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand

_Any = TypeVar("_Any")


@dataclasses.dataclass(frozen=True)
class Case:
    """What a kind of question makes its question from.

    Parameters
    ----------
    kind, level, seed
        As of :class:`coachlib.study.questions.question.Question`.
    bowler : Bowler
        Who is asked.
    draw : numpy.random.Generator
        Draws whatever a lesson does not fix.
    """

    kind: str
    level: Level
    seed: int
    bowler: Bowler
    draw: np.random.Generator

    @property
    def hand(self) -> Hand:
        """The hand of who is asked."""
        return self.bowler.hand

    def pick(self, choices: Sequence[_Any]) -> _Any:
        """Return one of the choices, all equally likely."""
        return choices[int(self.draw.integers(len(choices)))]

    def question(self, **parts: Any) -> Question:
        """Return the question with these parts, under this case's kind, level and seed."""
        return Question(self.kind, self.level, self.seed, **parts)
