"""How far somebody is in a lesson: which question, what was bet, what comes next."""

import dataclasses
import functools
from typing import Literal

from coachlib.errors import InputError
from coachlib.study.lessons.lesson import Lesson, LessonStep
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import Answer, Marked, Question, mark
from coachlib.world.bowler import Bowler

Part = Literal["lesson", "recap", "more", "done"]
"""The chain of questions, what was learned, three more questions, and the end."""

MORE_SEED = 1000
"""The three questions at the end take their numbers from seeds from here on."""


@dataclasses.dataclass(frozen=True)
class Bet:
    """What was answered, and how it was marked; `answer` is None where the question was skipped."""

    answer: Answer | None
    marked: Marked | None

    @property
    def credit(self) -> float | None:
        """1, 0.5 or 0; None where the question was skipped."""
        return None if self.marked is None else self.marked.credit


@dataclasses.dataclass(frozen=True)
class LessonPlay:
    """Where somebody is in a lesson.

    Parameters
    ----------
    lesson : Lesson
        What is taught.
    bowler : Bowler
        Whom it is asked.
    part : str
        Of the lesson.
    at : int
        The number of the question within its part, from 0.
    bets : tuple of Bet
        Of the chain so far, one a question; the last one may still be open.
    more_bets : tuple of Bet
        Of the three questions at the end.
    round : int
        How often the three questions were asked before: each time they have other numbers.
    """

    lesson: Lesson
    bowler: Bowler = dataclasses.field(default_factory=usual_learner)
    part: Part = "lesson"
    at: int = 0
    bets: tuple[Bet, ...] = ()
    more_bets: tuple[Bet, ...] = ()
    round: int = 0

    @functools.cached_property
    def question(self) -> Question | None:
        """The question that is asked now, in the lesson's own words where it has some; None where none is."""
        if self.part == "lesson":
            return self.lesson.question(self.at, self.bowler)
        if self.part == "more":
            drill = self.lesson.drills[self.at]
            return drill.question(MORE_SEED + 10 * self.round + self.at, self.bowler)
        return None

    @property
    def step(self) -> LessonStep:
        """The step of the lesson that stands now, or stood last."""
        return self.lesson.steps[min(self.at, len(self.lesson.steps) - 1)]

    @property
    def bet(self) -> Bet | None:
        """The bet on the question that is asked now; None as long as it is open."""
        bets = self.more_bets if self.part == "more" else self.bets
        return bets[self.at] if self.part in ("lesson", "more") and self.at < len(bets) else None

    @property
    def n_here(self) -> int:
        """How many questions this part has."""
        return len(self.lesson.drills if self.part in ("more", "done") else self.lesson.steps)

    def bet_on(self, answer: Answer) -> "LessonPlay":
        """Return the play after a bet; an InputError if it is no answer to the question."""
        question = self.question
        if question is None or self.bet is not None:
            message = "there is no open question; expected one. Press Next first."
            raise InputError(message)
        return self._with_bet(Bet(answer, mark(question, answer)))

    def skip(self) -> "LessonPlay":
        """Return the play with the answer shown and no bet made."""
        return self if self.bet is not None or self.question is None else self._with_bet(Bet(None, None))

    def again(self) -> "LessonPlay":
        """Return the play with the bet on this question taken back."""
        if self.part == "more":
            return dataclasses.replace(self, more_bets=self.more_bets[: self.at])
        return dataclasses.replace(self, bets=self.bets[: self.at])

    def forward(self) -> "LessonPlay":
        """Return the play at the next question, or at what follows the last one."""
        if self.question is not None and self.bet is None:
            return self
        if self.part == "recap":
            return dataclasses.replace(self, part="more", at=0, more_bets=())
        if self.part == "done":
            return dataclasses.replace(self, part="more", at=0, more_bets=(), round=self.round + 1)
        if self.at + 1 < self.n_here:
            return dataclasses.replace(self, at=self.at + 1)
        return dataclasses.replace(self, part="recap" if self.part == "lesson" else "done")

    def back(self) -> "LessonPlay":
        """Return the play at the question before, as it was left; the first one stays."""
        if self.part in ("recap", "more", "done"):
            return dataclasses.replace(self, part="lesson", at=len(self.lesson.steps) - 1)
        return dataclasses.replace(self, at=max(0, self.at - 1))

    def restart(self, bowler: Bowler | None = None) -> "LessonPlay":
        """Return the lesson from its first question, for the same learner or another one."""
        return LessonPlay(self.lesson, bowler or self.bowler)

    def _with_bet(self, bet: Bet) -> "LessonPlay":
        if self.part == "more":
            return dataclasses.replace(self, more_bets=(*self.more_bets, bet))
        return dataclasses.replace(self, bets=(*self.bets, bet))
