"""One question, asked alike in a lesson, a drill, a class and on paper: what is shown, what counts as right.

Nothing is drawn here. A scene says who throws what from where and what of it is seen; whoever draws throws
the same balls. Left and right stand in the texts only, as the one who is asked sees them.
"""

import dataclasses
from typing import Literal, get_args

from coachlib.coaching.session.session import Session
from coachlib.errors import InputError, checked_number
from coachlib.world.shot import Shot

Level = Literal["lever", "oil", "wear", "thin"]
"""What a case needs: geometry alone, the oil too, its wear too, or a lane with little room."""

LEVELS: tuple[Level, ...] = get_args(Level)
Drawn = Literal["balls", "lines", "nothing"]
"""What is drawn of a line: its simulated balls, its straight aim, or neither."""

Measure = Literal["board", "boards", "ft", "count"]
"""What a number is: a board of the lane, a distance in boards or feet, or a count of twenty balls."""

Answer = str | float


@dataclasses.dataclass(frozen=True)
class Choice:
    """One of the answers to choose from: its name in the code, and what is read."""

    id: str
    text: str


@dataclasses.dataclass(frozen=True)
class NumberAsk:
    """A number to say.

    Parameters
    ----------
    measure : str
        What the number is.
    low, high, step, start : float
        From where to where, in which steps, and where the bet stands first. [unit of `measure`]
    at_ft : float or None
        Where on the lane a board is asked for; None where the bet is not drawn on the lane. [ft]
    """

    measure: Measure
    low: float
    high: float
    step: float
    start: float
    at_ft: float | None = None


@dataclasses.dataclass(frozen=True)
class Accepted:
    """An answer that counts.

    Parameters
    ----------
    answer : str or float
        The name of a choice, or a number.
    credit : float
        1 for a correct answer, 0.5 for one that is half correct.
    why : str
        Why it counts, or only by half; empty where the question's own reason says it.
    within : float
        How far a number may be off. [unit of the question's number]
    """

    answer: Answer
    credit: float = 1.0
    why: str = ""
    within: float = 0.0


@dataclasses.dataclass(frozen=True)
class QuestionScene:
    """What is to be seen of a lane, before the bet or after it.

    Parameters
    ----------
    now : Session
        Who throws which ball on which oil, on its own line.
    next : Session or None
        The same after what the question changes; None where nothing does.
    now_drawn, next_drawn : {"balls", "lines", "nothing"}
        What is drawn of the two.
    seen : Shot or None
        A ball that was seen, drawn where it crossed and as it left the pins.
    cross_ft, cross_board : float or None
        Where two drawn lines cross, to be marked. [ft], [board]
    rows : tuple of str
        Balls that were seen, in words, first one first.
    now_strikes, next_strikes : int or None
        How many of the twenty drawn balls are told as strikes, where a text names a count of more balls;
        None: as many as their own chances sum to.
    """

    now: Session
    next: Session | None = None
    now_drawn: Drawn = "balls"
    next_drawn: Drawn = "lines"
    seen: Shot | None = None
    cross_ft: float | None = None
    cross_board: float | None = None
    rows: tuple[str, ...] = ()
    now_strikes: int | None = None
    next_strikes: int | None = None


@dataclasses.dataclass(frozen=True)
class Question:
    """One question with its answer.

    Parameters
    ----------
    kind, level, seed : str, str, int
        What :func:`coachlib.study.questions.ask.make_question` made it from.
    scene : QuestionScene
        What is shown before the bet.
    prompt : str
        What is asked.
    ask : NumberAsk or tuple of Choice
        A number to say, or answers to choose from.
    accepts : tuple of Accepted
        Every answer that can be defended, the best one first.
    answer_text : str
        The answer in a few words.
    why : str
        One sentence: the reason, with its rule or sum.
    reveal : QuestionScene
        What is shown after the bet.
    changes_text : str
        What would have changed the answer.
    source : str
        Where the answer comes from: a formula, a rule with its grade, or the simulation.
    skills : tuple of str
        What is learned.
    """

    kind: str
    level: Level
    seed: int
    scene: QuestionScene
    prompt: str
    ask: NumberAsk | tuple[Choice, ...]
    accepts: tuple[Accepted, ...]
    answer_text: str
    why: str
    reveal: QuestionScene
    changes_text: str = ""
    source: str = ""
    skills: tuple[str, ...] = ()

    @property
    def answer(self) -> Answer:
        """The best answer."""
        return self.accepts[0].answer

    @property
    def choices(self) -> tuple[Choice, ...]:
        """The answers to choose from; none where a number is asked for."""
        return () if isinstance(self.ask, NumberAsk) else self.ask


@dataclasses.dataclass(frozen=True)
class Marked:
    """How good an answer was.

    Parameters
    ----------
    credit : float
        1 correct, 0.5 half correct, 0 not.
    why : str
        Why.
    off : float or None
        How far a number was from the answer, `+` above it; None for a choice. [unit of the number]
    """

    credit: float
    why: str
    off: float | None = None


def mark(question: Question, answer: Answer) -> Marked:
    """Return how good an answer is: the best credit of all that it meets.

    Raises
    ------
    InputError
        If it is none of the choices, or no number of the range that was asked for.
    """
    off = None
    if isinstance(question.ask, NumberAsk):
        given = _checked_bet(question.ask, answer)
        off = given - float(question.answer)
        met = [one for one in question.accepts if abs(given - float(one.answer)) <= one.within + 1e-9]
    else:
        given_id = _checked_choice(question.choices, answer)
        met = [one for one in question.accepts if one.answer == given_id]
    best = max(met, key=lambda one: one.credit, default=Accepted("", 0.0))
    return Marked(best.credit, best.why or question.why, off)


def _checked_bet(ask: NumberAsk, answer: Answer) -> float:
    unit = {"board": "", "boards": "boards", "ft": "ft", "count": "of twenty"}[ask.measure]
    return checked_number("answer", answer, ask.low, ask.high, unit, "Choose a number in this range.")


def _checked_choice(choices: tuple[Choice, ...], answer: Answer) -> Answer:
    if answer not in [choice.id for choice in choices]:
        listed = ", ".join(choice.text for choice in choices)
        message = f"answer is {answer!r}; expected one of: {listed}. Choose one of these."
        raise InputError(message, {"answer": message})
    return answer
