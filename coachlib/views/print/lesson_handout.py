"""A lesson on paper: the questions on one side, a lane to draw on, and the answers on the other.

One HTML text, black on white, no script, nothing from elsewhere. It is two pages of A4 or letter.
"""

import dataclasses

from coachlib.coaching.simulation.paths import line_paths
from coachlib.study.lessons.lesson import Lesson
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import Choice, NumberAsk, Question
from coachlib.views.print.page import filled, own_markup
from coachlib.views.print.worksheet_lane import Drawn, lane_svg
from coachlib.world.hand import Hand, checked_hand
from coachlib.world.lane import HIGH_EDGE_BOARD, LOW_EDGE_BOARD
from coachlib.world.levers import board_at, laydown_board

LETTERS = "ABCDEFGH"
ASKED = {"board": "board", "boards": "boards", "ft": "ft", "count": "of 20"}


@dataclasses.dataclass(frozen=True)
class PrintedQuestion:
    """A question as it is printed: what is asked, and on the other side what is right and why.

    Parameters
    ----------
    prompt, answer, why, on_the_lane : str
        In words.
    rows : tuple of str
        Balls that were seen.
    choices : tuple of (str, str)
        A letter and an answer; none where a number is written down.
    unit : str
        Of that number.
    letter : str
        The letter of the answer, where there are letters.
    """

    prompt: str
    rows: tuple[str, ...]
    choices: tuple[tuple[str, str], ...]
    unit: str
    letter: str
    answer: str
    why: str
    on_the_lane: str


def lesson_handout(lesson: Lesson, hand: Hand = "right") -> str:
    """Return a lesson as a handout of two pages: write it to a file and open it in a browser.

    Parameters
    ----------
    lesson : Lesson
        From :func:`coachlib.study.lessons.lesson.load_lesson`.
    hand : {"right", "left"}
        Whose left and right.

    Raises
    ------
    InputError
        If the hand is unknown.
    """
    bowler = usual_learner(checked_hand(hand))
    questions = lesson.questions(bowler)
    said = {
        name: lesson.words(getattr(lesson, name), hand) for name in ("goal", "recap", "tonight", "caution")
    }
    printed = [
        _printed(question, lesson.words(step.on_the_lane, hand))
        for question, step in zip(questions, lesson.steps, strict=True)
    ]
    number, lane = _lane_to_draw_on(questions, hand)
    return filled(
        "lesson_handout.html",
        title=lesson.title,
        who=f"For a {hand}-hander",
        questions=printed,
        lane=own_markup(lane),
        lane_number=number,
        **said,
    )


def _printed(question: Question, on_the_lane: str) -> PrintedQuestion:
    choices = tuple(zip(LETTERS, (_raised(one) for one in question.choices), strict=False))
    letters = {one.id: letter for letter, one in zip(LETTERS, question.choices, strict=False)}
    unit = ASKED[question.ask.measure] if isinstance(question.ask, NumberAsk) else ""
    return PrintedQuestion(
        question.prompt,
        question.scene.rows,
        choices,
        unit,
        letters.get(str(question.answer), ""),
        question.answer_text,
        question.why,
        on_the_lane,
    )


def _raised(choice: Choice) -> str:
    return choice.text[:1].upper() + choice.text[1:]


def _lane_to_draw_on(questions: tuple[Question, ...], hand: Hand) -> tuple[int, str]:
    """Return the number of the first question whose bet lies on the lane, or 1, and its lane."""
    on_lane = [at for at, one in enumerate(questions) if isinstance(one.ask, NumberAsk) and one.ask.at_ft]
    at = (on_lane or [0])[0]
    scene = questions[at].scene
    drawn = _path(questions[at]) if scene.now_drawn == "balls" else _aim(questions[at])
    return at + 1, lane_svg(hand, f"A lane to draw on, with the line of question {at + 1}", [drawn])


def _path(question: Question) -> Drawn:
    now = question.scene.now
    boards = line_paths(now, now.line).meant_board
    return "dashed", [(float(ft), float(board)) for ft, board in enumerate(boards) if _is_on_lane(board)]


def _aim(question: Question) -> Drawn:
    now = question.scene.now
    line, bowler = now.line, now.bowler
    places = [(float(ft), board_at(line, bowler, ft)) for ft in range(61)]
    return "dashed", [(0.0, laydown_board(line, bowler)), *(one for one in places if _is_on_lane(one[1]))]


def _is_on_lane(board: float) -> bool:
    return bool(LOW_EDGE_BOARD <= board <= HIGH_EDGE_BOARD)
