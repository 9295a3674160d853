"""Why the answer is what it is, in one or two sentences."""

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.rules.rule_advice import BACK_RULE
from coachlib.coaching.rules.rule_voice import RuleVoice, move_problems
from coachlib.coaching.rules.rulebook import Fired
from coachlib.coaching.session.last_move import last_move
from coachlib.coaching.wording.callouts import (
    To,
    count_text,
    lowered,
    move_text,
    side_text,
    with_sides,
)
from coachlib.coaching.wording.model_words import (
    is_of_rule,
    paper_text,
    why_text,
)
from coachlib.coaching.wording.seen_words import times_text
from coachlib.world.hand import Hand, own_pins
from coachlib.world.pins import is_split

RELEASE_OFF: dict[tuple[str, ...], str] = {
    ("speed_off",): "Same line, at your usual speed",
    ("slide_board_off",): "Same line, same slide board",
}


def why_of_answer(advice: Advice, hand: Hand, to: To) -> str:
    """Return the reason, and why a move that looks wrong on paper is right."""
    return " ".join(filter(None, (_worked(advice, to), _reason(advice, hand), paper_text(advice))))


def _worked(advice: Advice, to: To) -> str:
    """Return that the last move worked, where the last of the balls that judge it hit the pocket too."""
    made = last_move(advice.session)
    if made is None or not made.is_judged or made.outcome != "worked" or advice.reading.side != "pocket":
        return ""
    is_off = advice.reading.facts.get("is_on_target") is False
    return "" if is_off else f"{'Your' if to == 'bowler' else 'The'} last move worked."


def _reason(advice: Advice, hand: Hand) -> str:
    voice = advice.rule
    if is_equipment(advice):
        return _why_equipment(advice, hand)
    if waits_to_go_back(advice):
        return "The last move went too far, but half back would lose strikes. Look again first."
    if not is_of_rule(advice):
        return why_text(advice, hand)
    if voice.forbidden:
        wanted = lowered(move_text(voice.fired[0].moves[0], hand))
        problems = move_problems(advice.session, voice.fired[0].moves[0])
        reasons = problems or tuple(reason_of_rule(one, voice, hand) for one in voice.forbidden)
        return f"Rule of thumb: {wanted}, but {lowered('. '.join(reasons)).rstrip('.')}."
    if voice.fired and is_aside(voice.fired[0]):
        return reason_of_rule(voice.fired[0], voice, hand)
    if advice.kind == "watch" and not voice.against and voice.fired and voice.fired[0].kind == "move":
        title = sentence_case(text_of_rule(voice, "title", hand))
        return f"{title} We said that already. Give it two balls and watch what it does."
    if advice.is_small and not advice.move.is_stay:
        return "One small step, about half of a grown-up's. Then throw two good balls."
    return text_of_rule(voice, "why", hand) or _why_open(advice, hand)


def waits_to_go_back(advice: Advice) -> bool:
    """Return whether the last move went too far, and half back waits since it shows a loss."""
    return advice.kind == "watch" and advice.rule.rule_ids[:1] == (BACK_RULE,)


def is_equipment(advice: Advice) -> bool:
    """Return whether the simulation's change of surface or ball is the answer, and no rule's own."""
    equipment = None if advice.model is None else advice.model.equipment
    return equipment is not None and advice.move == equipment.move != advice.rule.move


def _why_equipment(advice: Advice, hand: Hand) -> str:
    facts, motion = advice.reading.facts, advice.reading.facts.get("motion")
    if facts.get("side") == "light" and motion in ("early", "roll_out"):
        return "It turns early and dies before the pocket. No line within reach cures that."
    if motion == "skid_long":
        return "It hardly turns. No line within reach cures that."
    inside, outside = side_text(1.0, hand), side_text(-1.0, hand)
    return (
        f"Miss {inside} and it comes in light, miss {outside} and it comes in high: over/under. "
        "No line within reach cures that."
    )


def is_aside(one: Fired) -> bool:
    """Return whether a rule that moves answers "watch" here: then its reasons for moving do not hold."""
    return one.kind in ("stay", "watch") and one.rule.kind != one.kind


def _why_open(advice: Advice, hand: Hand) -> str:
    """Return why no rule asks for a move yet, where a ball missed the pocket."""
    facts, patience = advice.reading.facts, advice.rule.numbers["patience"]
    side, n_same = advice.reading.side, int(facts.get("n_same") or 0)
    if advice.reading.last is None:
        return ""
    if side is None:
        pins = ", and these pins do not show it" if facts.get("leave_key") is not None else ""
        return f"Nobody noted how it hit{pins}."
    if side == "pocket":
        return _why_pocket(advice, hand)
    if facts.get("is_missed") is True:
        if advice.cause.verdict == "bowler":
            return "The missed target explains it. Do not move for a miss that may not come back."
        return "The missed target does not explain it. One such ball can be luck: throw it again."
    if n_same >= patience:
        return f"{side.capitalize()} again and again, and no rule of thumb fits it. Watch where it turns."
    times = times_text(n_same)
    after = f"after {count_text(patience)} on the same side"
    return f"{side.capitalize()} {times}. By rule of thumb the line moves {after}, unless the pins say more."


def _why_pocket(advice: Advice, hand: Hand) -> str:
    """Return why the line stays after a pocket hit; a split from there is no praise of the ball."""
    last = advice.reading.last
    leave = (last.shot.leave if last else None) or ()
    if not is_split(leave):
        return "It hit the pocket. No reason to change anything."
    split = "-".join(str(pin) for pin in own_pins(leave, hand))
    return f"A {split} from the pocket is bad luck or a flat hit. No reason to move yet."


def text_of_rule(voice: RuleVoice, field: str, hand: Hand) -> str:
    """Return a text of the first rule that fired, as this bowler sees it; empty without one."""
    return with_sides(getattr(voice.fired[0].rule, field), hand, voice.numbers) if voice.fired else ""


def reason_of_rule(one: Fired, voice: RuleVoice, hand: Hand) -> str:
    """Return why a rule holds, as this bowler sees it."""
    return with_sides(one.text or one.rule.why, hand, voice.numbers)


def sentence_case(text: str) -> str:
    """Return a text as a sentence: a capital first, a stop last."""
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."
