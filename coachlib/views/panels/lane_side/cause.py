"""The cause of a miss as a bracket between bowler and lane."""

from typing import Any

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.rules.rule_advice import Verdict

PLACES = ("bowler", "", "cannot tell", "", "lane")
"""The five places between bowler and lane, with the words that stand under them."""

LEANING_PROB = 0.6
"""From so much on one side the bracket of an open cause lies on that side (our guess)."""
SURE_PROB = 0.9
"""From so much on it covers one place instead of two (our guess)."""


def cause_view(advice: Advice) -> dict[str, Any] | None:
    """Return the bracket between bowler and lane; None where nothing can be said.

    Parameters
    ----------
    advice : Advice
        The answer.

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
