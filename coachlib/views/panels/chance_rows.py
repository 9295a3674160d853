"""Chances as rows of twenty balls, now and then, and the cause as a bracket between bowler and lane."""

from typing import Any

from coachlib.coaching.advice import Advice
from coachlib.coaching.belief.cause import Verdict
from coachlib.coaching.callouts import move_text, n_of_twenty
from coachlib.coaching.model import Candidate
from coachlib.world.hand import Hand
from coachlib.world.line import Move

PLACES = ("bowler", "", "cannot tell", "", "lane")
"""The five places between bowler and lane, with the words that stand under them."""

LEANING_PROB = 0.6
"""From so much on one side the bracket of an open cause lies on that side (our guess)."""
SURE_PROB = 0.9
"""From so much on it covers one place instead of two (our guess)."""


def chance_rows(advice: Advice, hand: Hand) -> list[dict[str, Any]]:
    """Return the rows of twenty balls that belong to an answer; none without the model.

    Parameters
    ----------
    advice : Advice
        The answer to a ball.
    hand : {"right", "left"}
        Whose left and right.

    Returns
    -------
    list of dict
        ``words``, ``n`` of twenty, ``is_then`` for the line advised, ``note``.
    """
    model = advice.model
    if model is None:
        return []
    if advice.reading.last is None:
        return line_rows(advice)
    rows = [_row("stay", model.stay)]
    has_rule = model.rule is not None and model.rule.move not in (Move(), advice.move)
    if has_rule and model.rule is not None:
        rows.append(_row(f"rule: {_named(model.rule, hand)}", model.rule, beside=model.stay))
    taken = _taken(advice)
    if advice.kind == "line" and taken is not None:
        named = _named(taken, hand)
        rows.append(_row(f"model: {named}" if has_rule else named, taken, is_then=True, beside=model.stay))
    elif advice.kind != "line" and model.best.move not in (Move(), model.rule and model.rule.move):
        rows.append(_row(_named(model.best, hand), model.best, beside=model.stay))
    return rows


def line_rows(advice: Advice) -> list[dict[str, Any]]:
    """Return the one row of what the line being played is worth; none without the model."""
    return [] if advice.model is None else [_row("this line", advice.model.stay)]


def cause_look(advice: Advice) -> dict[str, Any] | None:
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


def _taken(advice: Advice) -> Candidate | None:
    """Return the candidate of the line advised."""
    model = advice.model
    known = () if model is None else (model.best, model.rule)
    return next((one for one in known if one is not None and one.move == advice.move), None)


def _row(
    words: str, one: Candidate, *, is_then: bool = False, beside: Candidate | None = None
) -> dict[str, Any]:
    n = n_of_twenty(one.strike_prob)
    is_equal = beside is not None and n == n_of_twenty(beside.strike_prob)
    return {"words": words, "n": n, "is_then": is_then, "note": "equal" if is_equal else ""}


def _named(one: Candidate, hand: Hand) -> str:
    return move_text(one.move, hand).lower()
