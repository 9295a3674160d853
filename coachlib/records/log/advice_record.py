"""An advice as it is kept in the log beside its ball: plain numbers and words, readable without the model."""

from collections.abc import Mapping
from typing import Any

from coachlib.coaching.advice.advice import Advice

_CHANCES = ("stay_strike_prob", "move_strike_prob", "better_lanes_frac")


def advice_payload(advice: Advice, headline: str, why: str = "", ball: int | None = None) -> dict[str, Any]:
    """Return what the log keeps of an advice.

    Parameters
    ----------
    advice, headline : Advice, str
        The answer, and the few words in which it was said.
    why : str, optional
        The reason that was given, for who reads it at home.
    ball : int, optional
        The ball it answers, where that need not be the last one.

    Returns
    -------
    dict
        ``kind``, ``move``, ``rule_ids``, ``new_line``, ``headline``, ``verdict`` and ``is_big``; ``why``
        and ``ball`` where they were given; where the model spoke also ``agree``, ``n_balls``,
        ``bowler_prob``, ``stay_strike_prob``, ``move_strike_prob`` and ``better_lanes_frac``, chances as
        shown.
    """
    kept: dict[str, Any] = {
        "kind": advice.kind,
        "move": advice.move,
        "rule_ids": advice.rule.rule_ids,
        "new_line": advice.new_line,
        "headline": headline,
        "verdict": advice.cause.verdict,
        "is_big": advice.is_big,
    }
    kept |= {"why": why} if why else {}
    kept |= {} if ball is None else {"ball": ball}
    if advice.model is not None:
        chances = {"bowler_prob": advice.cause.bowler_prob}
        chances |= {name: getattr(advice, name) for name in _CHANCES}
        rounded = {name: None if share is None else round(share, 4) for name, share in chances.items()}
        kept |= {"agree": advice.agree, "n_balls": advice.model.n_balls} | rounded
    return kept


def headline_of(payload: Mapping[str, Any]) -> str:
    """Return the words in which an advice was said; empty for one kept before words were."""
    return _text(payload, "headline")


def why_of(payload: Mapping[str, Any]) -> str:
    """Return the reason that was given with an advice; empty where none was kept."""
    return _text(payload, "why")


def ball_of(payload: Mapping[str, Any], last: int) -> int:
    """Return the ball that an advice answers: the last one, where none is named."""
    ball = payload.get("ball")
    if not isinstance(ball, int) or isinstance(ball, bool):
        return last
    return ball if 1 <= ball <= last else last


def _text(payload: Mapping[str, Any], name: str) -> str:
    kept = payload.get(name)
    return kept if isinstance(kept, str) else ""
