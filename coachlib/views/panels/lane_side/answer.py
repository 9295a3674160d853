"""The answer block: what is said, in the order in which it is needed, and what may be pressed."""

import dataclasses
from typing import Any

import traitlets

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.rules.rule_advice import Verdict
from coachlib.coaching.session.arrivals import last_line_that_worked
from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.advice_text import Said
from coachlib.coaching.wording.callouts import line_text, lowered
from coachlib.coaching.wording.care_words import GO_ON
from coachlib.coaching.wording.changes_words import runners_up_texts, voices_text
from coachlib.views.panels.lane_side.finding_start import is_planned, passed_start_text
from coachlib.views.panels.lane_side.lane_side_base import Shown
from coachlib.views.panels.shared.parts import PANELS, View, joined
from coachlib.views.panels.shared.typed import written_number

BIG = "First move after practice: your biggest decision. Take your time."
OF_PLAN = "This is the starting line for this oil. By rule of thumb alone:"
OF_RULE = "By rule of thumb:"
BEFORE = "Tap where it crossed, how it hit and the pins left. Then press “Read this shot”."

PLACES = ("bowler", "", "cannot tell", "", "lane")
"""The five places between bowler and lane, with the words that stand under them."""

LEANING_PROB = 0.6
"""From so much on one side the bracket of an open cause lies on that side (our guess)."""
SURE_PROB = 0.9
"""From so much on it covers one place instead of two (our guess)."""


class AnswerBlock(View):
    """The answer in large type, see :func:`answer_view`.

    Parameters
    ----------
    waiting : str
        What is said while the model is not ready, or why it will not be.
    """

    _esm = joined("shared/parts.js", "lane_side/answer.js")
    _css = PANELS / "lane_side/answer.css"

    waiting = traitlets.Unicode().tag(sync=True)


class Grounds(View):
    """The small print under the answer, and the :func:`~coachlib.views.panels.shared.trend.trend_view`."""

    _esm = joined("shared/parts.js", "lane_side/cause.js", "shared/trend.js", "lane_side/grounds.js")

    trend = traitlets.Dict().tag(sync=True)


def before_view(session: Session, advice: Advice, text: Said, shown: Shown) -> dict[str, Any]:
    """Return what stands there before a ball: the line, its worth, how to start, what to take care of.

    A line that is the starting line found for this pattern is named as that; after a move it says what to
    look for.
    """
    headline = line_text(session.line)
    cautions = [caution for caution in text.cautions if caution not in text.general]
    look_for = "" if shown.watch_for else text.look_for
    begin = lowered(" ".join(filter(None, (text.then, look_for))))
    then = text.then and f"{OF_PLAN if is_planned(session, shown.planned) else OF_RULE} {begin}"
    start = {"then": then, "source": grade_words(advice), "rule": text.rule, "stops": text.stops}
    return (start if then else {}) | {
        "chances": " ".join(
            filter(None, (text.chances, passed_start_text(session, advice, shown.passed_start)))
        ),
        "assumed": text.assumed,
        "back": _back(session),
        "kind": "before",
        "label": f"Lane {session.lane}, ready for ball {len(session.shots) + 1}",
        "headline": headline,
        "sentence": BEFORE,
        "look_for": shown.watch_for or ("" if text.then else text.look_for),
        "cautions": cautions,
        "general": list(text.general),
        "notes": list(text.notes),
        "summary": " ".join(
            filter(None, [f"{headline}. {BEFORE}", text.chances, then, *cautions, *text.general])
        ),
    }


def answer_view(session: Session, advice: Advice, text: Said, is_settled: bool = False) -> dict[str, Any]:
    """Return the words of an answer and the choices that go with it.

    The last event of the session is the ball that was read; `is_settled` says that the choice to stay was
    pressed already.
    """
    hand, last = session.bowler.hand, advice.reading.last
    line = session.line
    choices = [
        button("move", f"Move: {lowered(line_text(advice.new_line))}", is_main=True),
        button("stay", f"Stay on {written_number(line.feet_board)}, {written_number(line.target_board)}"),
    ]
    is_bowlers = advice.kind == "stay" and advice.cause.verdict == "bowler"
    big = BIG if advice.is_big else ""
    return dataclasses.asdict(text) | {
        "kind": "bowler" if is_bowlers else advice.kind if advice.kind in ("stay", "watch") else "move",
        "label": _label(session, advice),
        "big": big,
        "voices": voices_text(advice, hand),
        "cause": cause_view(advice),
        "cause_words": text.cause,
        "odd_ball": last.number if text.odd and last else None,
        "runners_up": runners_up_texts(advice, hand),
        "back": _back(session),
        "general": (),  # told before the first ball alone
        "spare": "",  # told where the spare is asked for
        "source": grade_words(advice),
        "summary": f"{big} {text.summary}".strip(),
        "choices": choices if advice.new_line != line and not is_settled else [],
    }


def stopped_view(session: Session, advice: Advice, text: Said) -> dict[str, Any]:
    """Return the words of an answer that is stopped for pain, before a ball as after one.

    As :func:`answer_view`, without a line, a chance or a way back.
    """
    return dataclasses.asdict(text) | {
        "kind": "stop",
        "label": f"Lane {session.lane}, before ball {len(session.shots) + 1}",
        "cause": None,
        "source": grade_words(advice),
        "choices": [button("go_on_with_pain", GO_ON)],
    }


def grade_words(advice: Advice) -> str:
    """Return how well founded the rules behind an answer are, without their names; empty where none fired."""
    grades = dict.fromkeys(one.rule.grade for one in advice.rule.fired)
    return f"Where the rule comes from: {', '.join(grades)}." if grades else ""


def button(action: str, words: str, *, is_main: bool = False) -> dict[str, Any]:
    """Return one button under the answer: the panel's handler it calls, what it says, and if it is filled."""
    return {"action": action, "words": words, "is_main": is_main}


def _back(session: Session) -> str:
    """Return the words on the button that goes back to the last line that worked; empty where none does."""
    line = last_line_that_worked(session)
    if line is None or line == session.line:
        return ""
    return f"Back to the last line that worked: {lowered(line_text(line))}"


def _label(session: Session, advice: Advice) -> str:
    number = advice.reading.last.number if advice.reading.last else len(session.shots)
    label = f"Ball {number}, lane {session.lane}"
    is_spare = bool(session.shots) and session.shots[-1].shot.is_spare
    return f"{label}. Its spare is logged too" if is_spare else label


def cause_view(advice: Advice) -> dict[str, Any] | None:
    """Return the bracket between bowler and lane; None where nothing can be text.

    Returns
    -------
    dict or None
        The first and the last of five places covered, which words are bold, and all of it in words.
    """
    prob = advice.cause.bowler_prob
    if prob is None:
        return None
    first, last = _covered(advice.cause.verdict, prob)
    bold = {"bowler": [0], "lane": [4], "both": [0, 4]}.get(advice.cause.verdict, [2])
    words = " and ".join(PLACES[place] for place in bold)
    return {
        "first": first,
        "last": last,
        "bold": bold,
        "places": list(PLACES),
        "alt": f"Bowler or lane: {words}",
    }


def _covered(verdict: Verdict, bowler_prob: float) -> tuple[int, int]:
    lane_prob = 1.0 - bowler_prob
    if verdict == "bowler":
        return 0, 0 if bowler_prob >= SURE_PROB else 1
    if verdict == "lane":
        return 4 if lane_prob >= SURE_PROB else 3, 4
    if verdict != "direction known":
        return 0, 4
    if max(bowler_prob, lane_prob) < LEANING_PROB:
        return 1, 3
    return (2, 4) if lane_prob > bowler_prob else (0, 2)
