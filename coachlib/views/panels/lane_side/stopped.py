"""What the answer block shows while pain stops everything: why, who looks at it, and one button to go on."""

from typing import Any

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.advice_text import To, say
from coachlib.coaching.wording.care_words import GO_ON
from coachlib.views.panels.lane_side.answer import grade_words

GO_ON_ACTION = "go_on_with_pain"


def stopped_view(session: Session, advice: Advice, to: To) -> dict[str, Any]:
    """Return the words of an answer that is stopped for pain, before a ball as after one.

    Parameters
    ----------
    session : Session
        As it stands.
    advice : Advice
        Its answer, with `is_stopped`.
    to : {"bowler", "coach"}
        Who it speaks to.

    Returns
    -------
    dict
        As :func:`coachlib.views.panels.lane_side.answer.answer_view`, without a line, a chance or a way back.
    """
    said = say(advice, to=to)
    return {
        "kind": "stop",
        "label": f"Lane {session.lane}, before ball {len(session.shots) + 1}",
        "rows": [],
        "headline": said.headline,
        "sentence": said.sentence,
        "why": said.why,
        "then": said.then,
        "cautions": list(said.cautions),
        "rule": said.rule,
        "source": grade_words(advice),
        "summary": said.summary,
        "choices": [{"action": GO_ON_ACTION, "words": GO_ON, "is_main": False}],
    }
