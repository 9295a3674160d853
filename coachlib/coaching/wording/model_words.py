"""What the simulation says, in words: counts of twenty balls, lanes as counts of ten, no percent."""

import dataclasses
from statistics import fmean

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.advice.decision import N_LANES_SHOWN, shows_most
from coachlib.coaching.advice.model_voice import ModelVoice
from coachlib.coaching.rules.rule_advice import SHORT_RULE
from coachlib.coaching.session.ball_reading import is_gutter_ball, side_of
from coachlib.coaching.session.lane_history import boards_on_target
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.arrival_words import NEAR_POCKET_BOARDS
from coachlib.coaching.wording.callouts import To, lowered, move_text, strikes_beside_text, strikes_text
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.parsing import board_text, boards_text
from coachlib.world.shot import Shot

LEAVES = "E"
"""The section of the rules that answer the pins left, after one ball too."""

AGAIN = "We'll look again after the next ball."
"""What follows where nothing else does."""

SHEET_APART_BOARDS = 1.0
"""Balls over the target that came in so far from what is believed are told instead of it (our guess)."""

FIRST_HIT_BOARD, LAST_HIT_BOARD = 13.7, 22.5
"""Outside of these a ball misses the head pin or is past it: no number of boards is told."""

_OBSERVATIONS = {
    "crossing": "where it crossed",
    "arrival": "where it hit",
    "leave": "the pins left",
    "breakpoint": "where it turned",
    "motion": "how it turned",
    "speed": "its speed",
}


def of_ten(frac: float) -> str:
    """Return a share of the believed lanes as a count of ten; never all and never none."""
    return f"{_n_of_ten(frac)} in {N_LANES_SHOWN} likely lanes"


def _n_of_ten(frac: float) -> int:
    return min(max(round(N_LANES_SHOWN * frac), 1), N_LANES_SHOWN - 1)


def is_of_rule(advice: Advice) -> bool:
    """Return whether the rule's own words fit the answer: nobody contradicts it, or a gate holds."""
    if advice.model is None or advice.is_gate or advice.reading.last is None:
        return True
    is_same = advice.agree is True and (advice.kind != "line" or advice.move == advice.rule.move)
    return is_same or advice.kind not in ("stay", "watch", "line")


def names_rules_move(advice: Advice) -> bool:
    """Return whether :func:`why_text` names the rule's move as it is."""
    rule, move = (None if advice.model is None else advice.model.rule), advice.rule.move
    return advice.kind != "line" and rule is not None and rule.move == move and not move.is_stay


# what an answer is worth


def chances_text(advice: Advice) -> str:
    """Return the chance before and after, on how many lanes it is better, and how many balls it rests on."""
    model, advised = advice.model, advice.advised
    if model is None or not advice.is_counted:
        return ""
    stay, basis = model.stay.strike_prob, _basis(advice, model)
    if advice.kind == "line" and not advice.move.is_feet_and_eyes:
        return f"About {strikes_text(stay)} on this line. Another target distance is not simulated. {basis}"
    if advised is None or advised.move.is_stay:
        return f"About {strikes_text(stay)} on this line{_nothing_better(advice, model)}. {basis}"
    frac = advised.better_lanes_frac
    better = f" Better on {of_ten(frac)}." if shows_most(frac) else ""
    return f"About {strikes_beside_text(advised.strike_prob, stay, 'about the same as now')}.{better} {basis}"


def _basis(advice: Advice, model: ModelVoice) -> str:
    """Return how many balls a chance is based on, those that tell of the bowler alone apart."""
    n_elsewhere, n_here = model.n_elsewhere, model.n_balls - model.n_elsewhere
    if not model.n_balls:
        return "No ball thrown yet."
    if not n_elsewhere:
        return f"Based on {_n_balls(n_here)} on this lane."
    session = advice.session
    n_lanes = len({ball.lane for ball in session.first_balls} - {session.lane})
    where = ("before the fresh oil", "on the other lane", "on other lanes")[min(n_lanes, 2)]
    if n_here:
        return f"Based on {_n_balls(n_here)} here and {n_elsewhere} {where}."
    return f"Based on {_n_balls(n_elsewhere)} {where}, none here yet."


def _n_balls(n: int) -> str:
    return f"{n} first ball{'' if n == 1 else 's'}"


def _nothing_better(advice: Advice, model: ModelVoice) -> str:
    if advice.reading.last is None or advice.is_gate:
        return ""
    gain = n_of_twenty(model.best.strike_prob) - n_of_twenty(model.stay.strike_prob)
    if gain <= 0:
        return ", and no line within reach is clearly better"
    return f". Another line may add {gain}, but on too few of the likely lanes to be sure"


def model_text(advice: Advice, hand: Hand) -> str:
    """Return what a good shot does now, and what the rule's move would be worth."""
    model = advice.model
    if model is None or advice.reading.last is None or not advice.is_counted:
        return ""
    good_shot, rule = where_meant_text(advice), model.rule
    if rule is None or rule.move == advice.move:
        return good_shot
    is_same = n_of_twenty(rule.strike_prob) == n_of_twenty(model.stay.strike_prob)
    chance = "the same as staying" if is_same else strikes_text(rule.strike_prob)
    return (
        f"{good_shot} With the rule of thumb, {lowered(move_text(rule.move, hand))}: about {chance}.".strip()
    )


# whose doing it was, and what does not fit


def cause_text(advice: Advice, to: To = "bowler") -> str:
    """Return whose doing the last ball was, in one sentence, and which observation told it best."""
    blame, cause = (None if advice.model is None else advice.model.blame), advice.cause
    if blame is None or cause.bowler_prob is None:
        return ""
    if cause.verdict == "bowler" and advice.reading.facts.get("is_missed") is not True:
        return "Probably the speed or the slide foot, not the line."
    who = "you" if to == "bowler" else "the bowler"
    n = _n_of_ten(cause.bowler_prob if cause.verdict == "bowler" else 1.0 - cause.bowler_prob)
    about = f" (about {n} in {N_LANES_SHOWN})" if n > N_LANES_SHOWN / 2 else ""
    side = _side(blame.meant_board - POCKET_BOARD)
    verdict = {
        "bowler": f"Probably {who}, not the lane{about}",
        "lane": f"Probably the lane{about}",
        "both": f"Both {who} and the lane, to the same side",
        "direction known": f"It comes in {side}. Too early to say whether that is {who} or the lane",
        "too early": f"Too early to say whether it is {who} or the lane",
    }[cause.verdict]
    best = _OBSERVATIONS.get(cause.key_observation, "")
    return f"{verdict}. Best clue: {best}." if best else f"{verdict}."


def odd_text(advice: Advice, hand: Hand) -> str:
    """Return which observation of the last ball does not fit the rest, or an empty text."""
    model, last = advice.model, advice.reading.last
    if advice.is_unfit:
        return (
            "Nothing we can simulate matches what you saw, so this is rule of thumb only. "
            "Check bowler, ball and pattern."
        )
    if model is None or not model.odd or last is None or is_gutter_ball(last.shot):
        return ""
    shot = last.shot
    if model.odd == "leave" and _is_usual_leave(shot):
        return ""
    if model.odd == "arrival" and advice.reading.facts.get("is_missed"):
        return ""  # the miss accounts for it: the answer has said so
    met = shot.arrival if isinstance(shot.arrival, str) else f"board {board_text(shot.arrival or 0.0)}"
    values = {
        "crossing": "" if shot.crossed_board is None else f"board {board_text(shot.crossed_board)}",
        "arrival": met,
        "leave": "-".join(map(str, own_pins(shot.leave or (), hand))) or "a strike",
        "breakpoint": "" if shot.breakpoint_ft is None else f"{shot.breakpoint_ft:g} ft",
        "motion": (shot.motion or "").replace("_", " "),
        "speed": "" if shot.speed_mph is None else f"{shot.speed_mph:g} mph",
    }
    return (
        f"One thing does not fit the other balls: {_OBSERVATIONS[model.odd]} ({values[model.odd]}). We left "
        "it out, so the answer is less sure. If it was a slip, correct the ball."
    )


def _is_usual_leave(shot: Shot) -> bool:
    """Return whether coaches know the pins left as those of a ball from that side, however rare they are."""
    side = side_of(dataclasses.replace(shot, arrival=None))
    return side in ("high", "light") and side == side_of(shot)


def assumed_text(advice: Advice) -> str:
    """Return what was not entered and what we assume for it, or an empty text."""
    unknown = "" if advice.model is None else ", ".join(map(" ".join, advice.model.assumed))
    return f"Not entered, so we assumed: {unknown}." if unknown else ""


# where the rule of thumb does not say it


def why_text(advice: Advice, hand: Hand) -> str:
    """Return why the simulation answers otherwise than the rule, in one clause."""
    model = advice.model
    if model is None:
        return ""
    rule = None if model.rule is None else lowered(move_text(model.rule.move, hand))
    if advice.kind == "line" and advice.is_settled:
        # how it came in is said before it; where counts are shown the two sizes are told beside them
        why = (
            "The last move fell short."
            if advice.rule.rule_ids[:1] == (SHORT_RULE,)
            else "This line no longer finds the pocket."
        )
        is_less = model.rule is not None and model.rule.move.size_boards > advice.move.size_boards
        is_named = is_less and not advice.is_counted
        return f"{why} Rule of thumb: {rule}, but from these balls less looks better." if is_named else why
    if advice.kind == "line":
        observed = _observed_off_boards(advice)
        if observed is not None and abs(observed) >= NEAR_POCKET_BOARDS:
            return f"Good shots came in {_side(observed)}."
        off_pocket = "" if _sheet_text(advice) else _off_pocket_text(advice)
        return off_pocket or "There you have more miss room."
    if advice.rule.move.is_stay or rule is None:
        return where_meant_text(advice)
    is_one_look = model.n_balls - model.n_elsewhere < 2
    too_little = "one ball is too little" if is_one_look else "the gain is too small"
    of_leave = " for this leave" if advice.rule.fired and advice.rule.fired[0].rule.section in LEAVES else ""
    return f"Rule of thumb{of_leave}: {rule}, but {too_little} to be sure."


def paper_text(advice: Advice) -> str:
    """Return why a move that points the other way on paper is right all the same; empty for other moves."""
    move = advice.move
    if advice.kind != "line" or advice.model is None or not advice.is_counted or not move.feet_boards:
        return ""
    oil = "into more oil" if move.feet_boards > 0 else "onto drier boards"
    if move.feet_boards == move.target_boards:
        return f"Same angle, but {oil}."
    more_eyes = abs(move.target_boards) > abs(move.feet_boards) and move.feet_boards * move.target_boards > 0
    return f"A flatter angle, but {oil}." if more_eyes else ""


def look_for_text(advice: Advice) -> str:
    """Return what to watch on the next ball where the rule does not say it."""
    if advice.kind == "line":
        return "Hit the new target: does it finish closer to the pocket?"
    missing = advice.reading.facts.get("has_crossing") is False
    note = "Note where it crosses, the best clue now. " if missing else ""
    return f"{note}Same line, over the target: where does it hit?"


def then_text(advice: Advice) -> str:
    """Return what follows where the rule does not say it."""
    if advice.kind != "line":
        return AGAIN
    off = _meant_off_boards(advice)
    if advice.is_settled or advice.reading.side in ("high", "light"):
        off = 1.0 if advice.reading.side == "high" else -1.0
    elif off is None or abs(off) < NEAR_POCKET_BOARDS:
        return "Judge it after two balls on target."
    return f"Judge it after two balls on target. If both come in {_side(-off)}, go back half."


# where a good shot comes in now, as believed, beside what the balls over the target showed


def where_meant_text(advice: Advice) -> str:
    """Return where a good shot comes in now, as believed; what balls over the target showed is first."""
    off = _meant_off_boards(advice)
    if off is None:
        return ""
    in_pocket = "A good shot now finds the pocket." if abs(off) < NEAR_POCKET_BOARDS else ""
    return _sheet_text(advice) or in_pocket or _off_pocket_text(advice)


def _side(off_boards: float) -> str:
    return "high" if off_boards > 0 else "light"


def _meant_off_boards(advice: Advice) -> float | None:
    """Return how far off the pocket a good shot comes in now, as believed [boards]."""
    blame = None if advice.model is None else advice.model.blame
    return None if blame is None else blame.meant_board - POCKET_BOARD


def _observed_off_boards(advice: Advice) -> float | None:
    """Return how far off the pocket the last two or three balls over the target came in; None below two."""
    boards = boards_on_target(advice.session)[-3:]
    return fmean(boards) - POCKET_BOARD if len(boards) >= 2 else None


def _sheet_text(advice: Advice) -> str:
    """Return that the oil sheet expects another ball than was seen; empty where the two go together."""
    off, observed = _meant_off_boards(advice), _observed_off_boards(advice)
    if off is None:
        return ""
    if observed is None or abs(off - observed) < SHEET_APART_BOARDS:
        facts, side, observed = advice.reading.facts, advice.reading.side, 0.0
        on_other = {"high": off < 0, "light": off > 0, "pocket": abs(off) >= 1.5}.get(str(side), False)
        if abs(off) < NEAR_POCKET_BOARDS or facts.get("is_on_target") is not True or not on_other:
            return ""
    return f"By the oil sheet it should come in {'higher' if off > observed else 'lighter'} than it did."


def _off_pocket_text(advice: Advice) -> str:
    """Return how a good shot comes in that does not find the pocket."""
    off = _meant_off_boards(advice) or 0.0
    is_against = advice.is_settled and (off > 0.0) != (advice.reading.side == "high")
    if abs(off) < NEAR_POCKET_BOARDS or is_against:
        return ""
    if not FIRST_HIT_BOARD <= POCKET_BOARD + off <= LAST_HIT_BOARD:
        return f"A good shot now {'misses' if off < 0 else 'goes past'} the head pin."
    half = round(abs(off) * 2) / 2
    return f"A good shot now hits {boards_text(half)} board{'s' * (half > 1)} {_side(off)}."
