"""What is said where care comes before the line: stop with pain, and rest where the speed has dropped.

The other cautions stand in the rulebook, section J. Grade: common practice, no source.
"""

from typing import TYPE_CHECKING, Any

from coachlib.coaching.wording.callouts import rule_name
from coachlib.world.parsing import board_text

if TYPE_CHECKING:
    from coachlib.coaching.advice.advice import Advice

STOP_HEADLINE = "Stop: rest, and have it looked at"
GO_ON = "Go on"
"""The words on the button by which a coach lets a bowler with pain go on."""

SPEED_DOWN_RULE = "speed_is_down"


def stopped_texts(advice: "Advice", to: str) -> dict[str, Any]:
    """Return the texts of an answer that is stopped for pain; all others stay empty."""
    noted = "You said" if to == "bowler" else "The bowler said"
    until = f"{'you press' if to == 'bowler' else 'the coach says'} “{GO_ON.lower()}”"
    fired, hand = advice.rule.fired[:1], advice.session.bowler.hand
    return {
        "headline": STOP_HEADLINE,
        "sentence": f"{noted} that something hurts or is numb.",
        "why": "Have a doctor or a physio look at what hurts, and a pro shop at how the ball fits: span, "
        "holes and weight.",
        "then": f"No move until {until}. Then change only feet and eyes. Keep speed, hand and weight as they "
        "are.",
        "source": ", ".join(rule_name(one.rule, hand, advice.rule.numbers) for one in fired),
        "rule": " ".join(f"{one.rule.title}. {one.rule.why}" for one in fired),
    }


def care_headline(advice: "Advice", to: str) -> str:
    """Return the headline where a rule of care holds the line; empty where none does."""
    if advice.rule.rule_ids[:1] != (SPEED_DOWN_RULE,):
        return ""
    down_mph = float(advice.reading.facts["speed_down_mph"] or 0.0)
    whose = "Your" if to == "bowler" else "The bowler’s"
    return f"{whose} speed is down {board_text(round(2.0 * down_mph) / 2.0)} mph: rest"
