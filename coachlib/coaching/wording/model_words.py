"""What the simulation says, in words: counts of twenty balls, lanes as counts of ten, no percent."""

import dataclasses

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.advice.decision import N_LANES_SHOWN, shows_most
from coachlib.coaching.advice.model_voice import ModelVoice
from coachlib.coaching.rules.rule_advice import SHORT_RULE
from coachlib.coaching.session.ball_reading import is_gutter_ball, side_of
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.arrival_words import NEAR_POCKET_BOARDS
from coachlib.coaching.wording.callouts import To, lowered, move_text, strikes_text
from coachlib.coaching.wording.good_shot_words import (
    off_pocket_text,
    seen_off_boards,
    sheet_text,
    where_meant_text,
)
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.parsing import board_text
from coachlib.world.shot import Shot

_SEEN_AS = {
    "crossing": "where it crossed",
    "arrival": "where it hit",
    "leave": "the pins left",
    "breakpoint": "where it turned",
    "motion": "how it turned",
    "speed": "its speed",
}


def of_ten(frac: float) -> str:
    """Return a share of the believed lanes as a count of ten; never all and never none."""
    return f"{min(max(round(N_LANES_SHOWN * frac), 1), N_LANES_SHOWN - 1)} in {N_LANES_SHOWN} likely lanes"


def chances_text(advice: Advice) -> str:
    """Return the chance before and after, on how many lanes it is better, and how many balls it rests on."""
    model = advice.model
    if model is None or not advice.is_counted:
        return ""
    stay, basis = model.stay.strike_prob, _basis(advice, model)
    if advice.kind == "line" and not advice.move.is_feet_and_eyes:
        return f"About {strikes_text(stay)} on this line. Another target distance is not simulated. {basis}"
    new, frac = advice.move_strike_prob, _better_frac(advice)
    if advice.move.is_stay or new is None or frac is None:
        return f"About {strikes_text(stay)} on this line{_nothing_better(advice)}. {basis}"
    counts = f"About {strikes_text(new)}, {_from(n_of_twenty(new), n_of_twenty(stay))}."
    better = f" Better on {of_ten(frac)}." if shows_most(frac) else ""
    return f"{counts}{better} {basis}"


def _better_frac(advice: Advice) -> float | None:
    """Return the share of likely lanes on which the change advised is better, whatever kind it is."""
    known = () if advice.model is None else (advice.model.best, advice.model.rule, advice.model.equipment)
    found = [one for one in known if one is not None and one.move == advice.move]
    return found[0].better_lanes_frac if found else None


def _from(new: int, stay: int) -> str:
    return f"{'up' if new > stay else 'down'} from {stay}" if new != stay else "about the same as now"


def model_text(advice: Advice, hand: Hand) -> str:
    """Return what a good shot does now, and what the rule's move would be worth."""
    model = advice.model
    if model is None or advice.reading.last is None or not advice.is_counted:
        return ""
    parts = [where_meant_text(advice), _of_rule(advice, model, hand)]
    return " ".join(part for part in parts if part)


def cause_text(advice: Advice, hand: Hand, to: To = "bowler") -> str:
    """Return whose doing the last ball was, in one sentence, and which observation told it best."""
    told, cause = (None if advice.model is None else advice.model.blame), advice.cause
    if told is None or cause.bowler_prob is None:
        return ""
    who = "you" if to == "bowler" else "the bowler"
    prob = cause.bowler_prob if cause.verdict == "bowler" else 1.0 - cause.bowler_prob
    n = min(max(round(N_LANES_SHOWN * prob), 1), N_LANES_SHOWN - 1)
    side = "high" if told.meant_board > POCKET_BOARD else "light"
    about = f" (about {n} in {N_LANES_SHOWN})" if n > N_LANES_SHOWN / 2 else ""
    is_release = cause.verdict == "bowler" and advice.reading.facts.get("is_missed") is not True
    if is_release:
        return "Probably the speed or the slide foot, and not the line."
    verdict = {
        "bowler": f"Probably {who}, not the lane{about}",
        "lane": f"Probably the lane{about}",
        "both": f"{who.capitalize()} and the lane, both to the same side",
        "direction known": f"It comes in {side}; too early to say whether that is {who} or the lane",
        "too early": f"Too early to tell {who} from the lane",
    }[cause.verdict]
    best = _SEEN_AS.get(cause.key_observation, "")
    return f"{verdict}. Best clue: {best}." if best else f"{verdict}."


def odd_text(advice: Advice, hand: Hand) -> str:
    """Return which observation of the last ball does not fit the rest, or an empty text."""
    model, last = advice.model, advice.reading.last
    if advice.is_unfit:
        return (
            "Nothing we can simulate matches these balls, so this is the rule of thumb only. "
            "Check bowler, ball and pattern."
        )
    if model is None or not model.odd or last is None or is_gutter_ball(last.shot):
        return ""
    shot = last.shot
    if model.odd == "leave" and _is_usual_leave(shot):
        return ""
    met = shot.arrival if isinstance(shot.arrival, str) else f"board {board_text(shot.arrival or 0.0)}"
    values = {
        "crossing": "" if shot.crossed_board is None else f"board {board_text(shot.crossed_board)}",
        "arrival": met,
        "leave": "-".join(map(str, own_pins(shot.leave or (), hand))) or "a strike",
        "breakpoint": "" if shot.breakpoint_ft is None else f"{shot.breakpoint_ft:g} ft",
        "motion": (shot.motion or "").replace("_", " "),
        "speed": "" if shot.speed_mph is None else f"{shot.speed_mph:g} mph",
    }
    seen = f"{_SEEN_AS[model.odd]} ({values[model.odd]})"
    return (
        f"One thing does not fit the rest: {seen}. We left it out, so the answer is less sure. "
        "If it was a slip, correct the ball."
    )


def _is_usual_leave(shot: Shot) -> bool:
    """Return whether coaches know the pins left as those of a ball from that side, however rare they are."""
    side = side_of(dataclasses.replace(shot, arrival=None))
    return side in ("high", "light") and side == side_of(shot)


def assumed_text(advice: Advice) -> str:
    """Return what nobody knows and what it was taken for, or an empty text."""
    if advice.model is None or not advice.model.assumed:
        return ""
    return (
        "Not entered, so we assumed: "
        + "; ".join(f"{what} {taken}" for what, taken in advice.model.assumed)
        + "."
    )


def is_of_rule(advice: Advice) -> bool:
    """Return whether the rule's own words fit the answer: nobody contradicts it, or a gate holds."""
    if advice.model is None or advice.is_gate or advice.reading.last is None:
        return True
    is_same = advice.agree is True and (advice.kind != "line" or advice.move == advice.rule.move)
    return is_same or advice.kind not in ("stay", "watch", "line")


def why_text(advice: Advice, hand: Hand) -> str:
    """Return why the simulation answers otherwise than the rule, in one clause."""
    model = advice.model
    if model is None:
        return ""
    if advice.kind == "line":
        return _why_settled(advice, model, hand) if advice.is_settled else _why_line(advice)
    if advice.rule.move.is_stay or model.rule is None:
        return where_meant_text(advice)
    return f"Rule of thumb: {lowered(move_text(model.rule.move, hand))}, but {_too_little(advice)}."


def names_rules_move(advice: Advice) -> bool:
    """Return whether :func:`why_text` names the rule's move as it is."""
    rule, move = (None if advice.model is None else advice.model.rule), advice.rule.move
    return advice.kind != "line" and rule is not None and rule.move == move and not move.is_stay


def _why_settled(advice: Advice, model: ModelVoice, hand: Hand) -> str:
    """Return why the line moves by another size than the rule's; how it came in is said before it.

    Where counts are shown the two sizes are told beside them, see :mod:`coachlib.coaching.wording.voices`.
    """
    rule, is_short = model.rule, advice.rule.rule_ids[:1] == (SHORT_RULE,)
    said = "The last move fell short." if is_short else "The line no longer fits."
    if rule is None or advice.is_counted or rule.move.size_boards <= advice.move.size_boards:
        return said
    named = lowered(move_text(rule.move, hand))
    return f"{said} Rule of thumb: {named}; on the likely lanes less is better."


def _why_line(advice: Advice) -> str:
    """Return why the line moves: where good shots came in, or what a good shot does by now."""
    seen = seen_off_boards(advice)
    if seen is not None and abs(seen) >= NEAR_POCKET_BOARDS:
        return f"Good shots came in {'high' if seen > 0 else 'light'}."
    off = "" if sheet_text(advice) else off_pocket_text(advice)
    return off or "On the likely lanes there is more room for a miss there."


def paper_text(advice: Advice) -> str:
    """Return why a move that points the other way on paper is right all the same; empty for other moves."""
    move = advice.move
    if advice.kind != "line" or advice.model is None or not advice.is_counted or not move.feet_boards:
        return ""
    inward = move.feet_boards > 0
    oil = "into more oil" if inward else "onto drier boards"
    if move.feet_boards == move.target_boards:
        return f"Same angle, but {oil}."
    more_eyes = abs(move.target_boards) > abs(move.feet_boards) and move.feet_boards * move.target_boards > 0
    return f"A flatter angle, but {oil}." if more_eyes else ""


def look_for_text(advice: Advice, hand: Hand) -> str:
    """Return what to watch on the next ball where the rule does not say it."""
    if advice.kind == "line":
        return "Hit the new target: does it finish closer to the pocket?"
    missing = advice.reading.facts.get("has_crossing") is False
    note = "Note where it crosses: that is the best clue now. " if missing else ""
    return f"{note}Same line, over the target: where does it hit?"


def then_text(advice: Advice, hand: Hand) -> str:
    """Return what follows where the rule does not say it."""
    if advice.kind != "line":
        return "We'll look again after the next ball."
    told = None if advice.model is None else advice.model.blame
    if advice.is_settled or advice.reading.side in ("high", "light"):
        too_far = "light" if advice.reading.side == "high" else "high"
    elif told is None or abs(told.meant_board - POCKET_BOARD) < NEAR_POCKET_BOARDS:
        return "Judge it after two balls on target."
    else:
        too_far = "light" if told.meant_board > POCKET_BOARD else "high"
    return f"Judge it after two balls on target. If they come in {too_far}, go back half."


def _too_little(advice: Advice) -> str:
    n_told = 0 if advice.model is None else advice.model.n_balls - advice.model.n_elsewhere
    return "one ball is too little to be sure" if n_told < 2 else "the gain is too small to be sure"


def _basis(advice: Advice, model: ModelVoice) -> str:
    """Return how many balls a chance is based on, those that tell of the bowler alone apart."""
    if not model.n_balls:
        return "No ball thrown yet."
    n_here = model.n_balls - model.n_elsewhere
    if not model.n_elsewhere:
        return f"Based on {_n_balls(n_here)}."
    where = _elsewhere(advice)
    if n_here:
        return f"Based on {_n_balls(n_here)} here and {model.n_elsewhere} {where}."
    return f"Based on {_n_balls(model.n_elsewhere)} {where}; none was thrown here yet."


def _n_balls(n: int) -> str:
    return f"{n} ball{'' if n == 1 else 's'}"


def _elsewhere(advice: Advice) -> str:
    """Return where the balls were thrown that tell of the bowler alone."""
    session = advice.session
    n_lanes = len({seen.lane for seen in session.first_balls} - {session.lane})
    return ("before the fresh oil", "on the other lane")[n_lanes] if n_lanes < 2 else "on other lanes"


def _nothing_better(advice: Advice) -> str:
    model = advice.model
    if model is None or advice.reading.last is None or advice.is_gate:
        return ""
    gain = n_of_twenty(model.best.strike_prob) - n_of_twenty(model.stay.strike_prob)
    if gain <= 0:
        return "; no line within reach is clearly better"
    return f"; another line may add {gain}, but too few likely lanes agree"


def _of_rule(advice: Advice, model: ModelVoice, hand: Hand) -> str:
    rule = model.rule
    if rule is None or rule.move == advice.move:
        return ""
    gain = n_of_twenty(rule.strike_prob) - n_of_twenty(model.stay.strike_prob)
    named = move_text(rule.move, hand).lower()
    if gain == 0:
        return f"The rule's {named}: about the same as staying."
    return f"The rule's {named}: about {strikes_text(rule.strike_prob)}."
