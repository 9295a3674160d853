"""Whose doing the last ball was, the bowler's or the lane's, as the answer tells it."""

import dataclasses

from coachlib.coaching.advice.model_voice import (
    ModelVoice,
)
from coachlib.coaching.belief.cause import Blame, verdict_of_blame
from coachlib.coaching.rules.rule_advice import (
    RuleAnswer,
    Verdict,
    verdict_of,
)
from coachlib.coaching.rules.rulebook import Rulebook
from coachlib.world.lane import POCKET_BOARD


@dataclasses.dataclass(frozen=True)
class Cause:
    """Whose doing the last ball was.

    Parameters
    ----------
    verdict : str
        ``bowler``, ``lane``, ``both``, ``direction known`` (it misses on one side, and why cannot be told
        yet) or ``too early``.
    bowler_prob : float or None
        How likely the bowler's error moved the ball farther than the line lies off; None without the model.
    told_most : str
        The observation that told most, one of ``belief.seen.FIELDS``; empty without the model.
    """

    verdict: Verdict
    bowler_prob: float | None = None
    key_observation: str = ""


def told_cause(ruled: RuleAnswer, model: ModelVoice | None, book: Rulebook) -> Cause:
    """Return the cause to tell: the rule of thumb's verdict, and the simulation's numbers if any."""
    told = None if model is None else model.blame
    if told is None or ruled.reading.side in (None, "pocket"):
        return Cause(verdict_of(ruled.reading, book))
    verdict = _verdict(ruled, told, book)
    is_against = told.bowler_prob < 0.5 if verdict == "bowler" else told.bowler_prob > 0.5
    is_against = is_against and (ruled.is_gate or ruled.is_settled)
    return Cause(verdict) if is_against else Cause(verdict, told.bowler_prob, told.key_observation)


def _verdict(ruled: RuleAnswer, told: Blame, book: Rulebook) -> Verdict:
    """Return the belief's verdict; one ball never blames the lane; gates and a settled way hold."""
    verdict = verdict_of_blame(told)
    if ruled.is_gate or ruled.is_settled:
        return verdict_of(ruled.reading, book)
    facts = ruled.reading.facts
    is_alone = int(facts.get("n_ok") or 0) < 2
    if facts.get("is_missed") is not True and verdict in ("bowler", "both"):
        return "too early"  # the target was not missed: never the bowler's doing by the crossing
    is_high = told.meant_board > POCKET_BOARD
    if verdict in ("lane", "direction known") and is_high != (ruled.reading.side == "high"):
        return "too early"  # believed on one side, seen on the other
    return "direction known" if verdict == "lane" and is_alone else verdict
