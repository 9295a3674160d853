"""A lesson: one idea in a chain of questions, read from a file of its own.

The file holds what a teacher writes; the questions, their answers and their pictures are made afresh.
"""

import dataclasses
import functools
from pathlib import Path
from typing import Annotated, Any

from coachlib.coaching.wording.callouts import with_sides
from coachlib.errors import DataFileError, InputError, checked_choice
from coachlib.files import data_path, read_toml
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import Level, Question
from coachlib.validation import Letters, Limits, thing
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand

_Text = Annotated[str, Letters(600)]
_Line = Annotated[str, Letters(300, least=1)]

LESSONS = (
    "reading_a_shot",
    "two_and_one",
    "parallel_moves",
    "target_and_breakpoint",
    "miss_room",
    "speed",
    "hand",
    "oil_and_wear",
    "two_balls",
    "surface",
    "the_bag",
)
"""Every lesson in the order in which a newcomer takes them."""


@thing
class LessonStep:
    """One question of a lesson.

    Parameters
    ----------
    kind, level, seed, options
        What :func:`coachlib.study.questions.ask.make_question` makes it from.
    on_the_lane : str
        What the answer means on the lane, one sentence.
    short : str
        The question in a few words, for the list at the end.
    prompt, why : str
        The teacher's own words in place of the question's; may be empty.
    wrong_idea : str
        The idea that the picture undoes, in one line; may be empty.
    """

    kind: Annotated[str, Letters(40, least=1)]
    on_the_lane: _Line
    short: Annotated[str, Letters(70, least=1)]
    level: Level = "oil"
    seed: int = 0
    options: dict[str, Any] | None = None
    prompt: _Text = ""
    why: _Text = ""
    wrong_idea: _Text = ""

    def question(self, bowler: Bowler | None = None) -> Question:
        """Return the question as this learner sees it; an InputError if kind or options are unknown."""
        return make_question(self.kind, self.level, self.seed, bowler, **(self.options or {}))


@thing
class DrillQuestion:
    """A question that comes back in the drills after a lesson, with numbers of its own.

    Parameters
    ----------
    kind, level, options
        As of :class:`LessonStep`; the seed is the drill's.
    """

    kind: Annotated[str, Letters(40, least=1)]
    level: Level = "oil"
    options: dict[str, Any] | None = None

    def question(self, seed: int, bowler: Bowler | None = None) -> Question:
        """Return the question with numbers drawn by this seed."""
        return make_question(self.kind, self.level, seed, bowler, **(self.options or {}))


@thing
class Lesson:
    """One idea, asked for step by step.

    Parameters
    ----------
    id : str
        Its file.
    title : str
        The question it answers.
    goal : str
        What the learner can do after it.
    minutes : float
        About how long it takes. [minutes]
    steps : tuple of LessonStep
        The questions, in order.
    recap : str
        What the learner can say now, in their own voice.
    tonight : str
        What to try on the lane.
    caution : str
        What to take care of; stands before the first question, may be empty.
    drills : tuple of DrillQuestion
        Three questions that come back.
    """

    id: Annotated[str, Letters(40, least=1)]
    title: Annotated[str, Letters(80, least=1)]
    goal: _Line
    minutes: Annotated[float, Limits(5, 20, "minutes")]
    steps: tuple[LessonStep, ...]
    recap: _Line
    tonight: _Line
    drills: tuple[DrillQuestion, ...]
    caution: _Text = ""

    def questions(self, bowler: Bowler | None = None) -> tuple[Question, ...]:
        """Return all questions as a learner reads them, in the lesson's own words where it has some."""
        return tuple(self.question(number, bowler) for number in range(len(self.steps)))

    def question(self, number: int, bowler: Bowler | None = None) -> Question:
        """Return one question, the first one has number 0; own words are about the usual learner alone."""
        learner, step = bowler or usual_learner(), self.steps[number]
        question = step.question(learner)
        if not is_usual(learner):
            return question
        prompt, why = (self.words(text, learner.hand) for text in (step.prompt, step.why))
        return dataclasses.replace(question, prompt=prompt or question.prompt, why=why or question.why)

    def words(self, text: str, hand: Hand) -> str:
        """Return a text of the lesson as this hand reads it: sides and pins filled in."""
        return with_sides(text, hand, {})


@functools.cache
def load_lesson(name: str) -> Lesson:
    """Return a lesson that comes with the library.

    Raises
    ------
    InputError
        Listing the lessons, if there is no such lesson.
    DataFileError
        If its file is damaged: naming the file and the field.
    """
    checked_choice("lesson", name, LESSONS)
    return read_lesson(data_path(f"lessons/{name}.toml"))


def read_lesson(path: Path) -> Lesson:
    """Return the lesson of a file laid out as ours.

    Parameters
    ----------
    path : Path
        TOML with the fields of :class:`Lesson`, a ``[[steps]]`` table a question and three ``[[drills]]``.

    Raises
    ------
    DataFileError
        If it cannot be read, a field is wrong, or a question cannot be made.
    """
    table = read_toml(path)
    try:
        steps = tuple(LessonStep(**one) for one in table.pop("steps", []))
        drills = tuple(DrillQuestion(**one) for one in table.pop("drills", []))
        minutes = float(table.pop("minutes", 0))
        lesson = Lesson(id=path.stem, steps=steps, drills=drills, minutes=minutes, **table)
        for text in _texts(lesson):
            lesson.words(text, "right")
    except (InputError, TypeError, KeyError, ValueError) as error:
        message = f"{path.name}: {error}. Restore the file, or mend that field."
        raise DataFileError(message) from error
    return lesson


def is_usual(bowler: Bowler) -> bool:
    """Return whether a learner is the one the lessons' own words are written for, either hand."""
    return bowler == usual_learner(bowler.hand)


def _texts(lesson: Lesson) -> list[str]:
    own = [lesson.goal, lesson.recap, lesson.tonight, lesson.caution]
    return own + [
        text
        for step in lesson.steps
        for text in (step.on_the_lane, step.short, step.prompt, step.why, step.wrong_idea)
    ]
