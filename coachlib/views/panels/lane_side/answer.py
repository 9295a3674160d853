"""The answer block: what is said, in the order in which it is needed, and what may be pressed."""

import dataclasses
from typing import Any

import anywidget
import traitlets

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.session.arrivals import last_line_that_worked
from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.advice_text import Said
from coachlib.coaching.wording.callouts import line_text, lowered
from coachlib.coaching.wording.care_words import GO_ON
from coachlib.coaching.wording.changes_words import runners_up_texts, voices_text
from coachlib.views.panels.lane_side.cause import cause_view
from coachlib.views.panels.shared.parts import PANELS, joined
from coachlib.views.panels.shared.typed import written_number
from coachlib.world.line import Line

BIG = "First move after practice: your biggest decision. Take your time."
OF_PLAN = "This is the starting line for this oil. By rule of thumb alone:"
OF_RULE = "By rule of thumb:"
BEFORE = "Tap where it crossed, how it hit and the pins left. Then press “Read this shot”."


class AnswerBlock(anywidget.AnyWidget):
    """The answer in large type; `look` holds its words, see :func:`answer_view`.

    Parameters
    ----------
    look : dict
        What is said and drawn.
    waiting : str
        What is said while the model is not ready, or why it will not be.
    """

    _esm = joined("shared/parts.js", "lane_side/answer.js")
    _css = PANELS / "lane_side/answer.css"

    look = traitlets.Dict().tag(sync=True)
    waiting = traitlets.Unicode().tag(sync=True)


class Grounds(anywidget.AnyWidget):
    """The small print under the answer.

    Parameters
    ----------
    look : dict
        As the answer's, see :func:`answer_view`.
    trend : dict
        See :func:`coachlib.views.panels.shared.trend.trend_view`.
    """

    _esm = joined("shared/parts.js", "lane_side/cause.js", "shared/trend.js", "lane_side/grounds.js")

    look = traitlets.Dict().tag(sync=True)
    trend = traitlets.Dict().tag(sync=True)


def before_view(
    session: Session, advice: Advice, said: Said, watch_for: str = "", is_planned: bool = False
) -> dict[str, Any]:
    """Return what stands there before a ball: the line, its worth, how to start, what to take care of.

    Parameters
    ----------
    session : Session
        As it stands.
    advice : Advice
        Its answer before the ball.
    said : Said
        The same in words.
    watch_for : str
        What to look for after a move.
    is_planned : bool
        Whether the line is the starting line that was found for this pattern.
    """
    headline = line_text(session.line)
    cautions = [caution for caution in said.cautions if caution not in said.general]
    look_for = "" if watch_for else said.look_for
    begin = " ".join(part for part in (said.then, look_for) if part)
    then = said.then and f"{OF_PLAN if is_planned else OF_RULE} {lowered(begin)}"
    start = {"then": then, "source": grade_words(advice), "rule": said.rule, "stops": said.stops}
    start = start if said.then else {}
    return start | {
        "chances": said.chances,
        "assumed": said.assumed,
        "back": _back(session),
        "kind": "before",
        "label": f"Lane {session.lane}, ready for ball {len(session.shots) + 1}",
        "headline": headline,
        "sentence": BEFORE,
        "look_for": watch_for or ("" if said.then else said.look_for),
        "cautions": cautions,
        "general": list(said.general),
        "notes": list(said.notes),
        "summary": " ".join(
            filter(None, [f"{headline}. {BEFORE}", said.chances, then, *cautions, *said.general])
        ),
    }


def answer_view(session: Session, advice: Advice, said: Said, is_settled: bool = False) -> dict[str, Any]:
    """Return the words of an answer and the choices that go with it.

    Parameters
    ----------
    session : Session
        Its last event is the ball that was read.
    advice : Advice
        The answer.
    said : Said
        The same in words.
    is_settled : bool
        Whether the choice to stay was pressed already.
    """
    hand, last = session.bowler.hand, advice.reading.last
    is_move = advice.new_line != session.line
    big = BIG if advice.is_big else ""
    return dataclasses.asdict(said) | {
        "kind": _kind(advice),
        "label": _label(session, advice),
        "big": big,
        "voices": voices_text(advice, hand),
        "cause": cause_view(advice),
        "cause_words": said.cause,
        "odd_ball": last.number if said.odd and last else None,
        "runners_up": runners_up_texts(advice, hand),
        "back": _back(session),
        "general": (),  # told before the first ball alone
        "spare": "",  # told where the spare is asked for
        "source": grade_words(advice),
        "summary": f"{big} {said.summary}".strip(),
        "choices": _choices(session.line, advice.new_line) if is_move and not is_settled else [],
    }


def stopped_view(session: Session, advice: Advice, said: Said) -> dict[str, Any]:
    """Return the words of an answer that is stopped for pain, before a ball as after one.

    As :func:`answer_view`, without a line, a chance or a way back.
    """
    return dataclasses.asdict(said) | {
        "kind": "stop",
        "label": f"Lane {session.lane}, before ball {len(session.shots) + 1}",
        "cause": None,
        "source": grade_words(advice),
        "choices": [button("go_on_with_pain", GO_ON)],
    }


def grade_words(advice: Advice) -> str:
    """Return how well founded the rules behind an answer are, without their names; empty where none fired."""
    grades = dict.fromkeys(one.rule.grade for one in advice.rule.fired)
    return f"How sure the rule is: {', '.join(grades)}." if grades else ""


def _choices(line: Line, new_line: Line) -> list[dict[str, Any]]:
    stay = f"Stay on {written_number(line.feet_board)}, {written_number(line.target_board)}"
    return [
        button("move", f"Move: {lowered(line_text(new_line))}", is_main=True),
        button("stay", stay),
    ]


def button(action: str, words: str, *, is_main: bool = False) -> dict[str, Any]:
    """Return one button under the answer: the panel's handler it calls, what it says, and if it is filled."""
    return {"action": action, "words": words, "is_main": is_main}


def _back(session: Session) -> str:
    """Return the words on the button that goes back to the last line that worked; empty where none does."""
    line = last_line_that_worked(session)
    return (
        ""
        if line in (None, session.line)
        else f"Back to the last line that worked: {lowered(line_text(line))}"
    )


def _label(session: Session, advice: Advice) -> str:
    number = advice.reading.last.number if advice.reading.last else len(session.shots)
    label = f"Ball {number}, lane {session.lane}"
    is_spare = bool(session.shots) and session.shots[-1].shot.is_spare
    return f"{label}. Its spare is logged too" if is_spare else label


def _kind(advice: Advice) -> str:
    """Return which rule stands at the left: before, move, stay, watch or bowler."""
    if advice.kind == "stay":
        return "bowler" if advice.cause.verdict == "bowler" else "stay"
    return "watch" if advice.kind == "watch" else "move"
