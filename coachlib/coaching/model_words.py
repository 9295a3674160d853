"""What the model says, in words: chances as counts of twenty balls, lanes as counts of ten, no percent."""

from coachlib.coaching.advice import Advice
from coachlib.coaching.callouts import (
    N_TWENTY,
    board_text,
    boards_text,
    line_text,
    move_text,
    n_of_twenty,
    of_twenty,
    side_text,
)
from coachlib.coaching.model import EQUAL_PROB, Candidate, ModelVoice
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.line import moved

LANES = 10
NEAR_POCKET_BOARDS = 0.75

_SEEN_AS = {
    "crossing": "where it crossed",
    "arrival": "where it met the pins",
    "leave": "the pins left",
    "breakpoint": "where it turned",
    "motion": "how it turned",
    "speed": "its speed",
}


def of_ten(frac: float) -> str:
    """Return a share of the believed lanes as a count of ten; never all and never none."""
    return f"{min(max(round(LANES * frac), 1), LANES - 1)} of {LANES} lanes that fit"


def chances_text(advice: Advice) -> str:
    """Return the chance before and after, on how many lanes it is better, and what stands behind it."""
    model = advice.model
    if model is None:
        return ""
    stay, behind = of_twenty(model.stay.strike_prob), _behind(advice, model)
    if advice.kind == "line" and not advice.move.is_feet_and_eyes:
        return f"About {stay} strike on this line; another target distance is not simulated. {behind}"
    if advice.kind != "line" or advice.move_strike_prob is None or advice.better_lanes_frac is None:
        return f"About {stay} strike on this line{_nothing_better(advice)}. {behind}"
    new = of_twenty(advice.move_strike_prob)
    said = f"About {new} strike instead of {stay}" if new != stay else f"About {stay} strike either way"
    return f"{said}; better on {of_ten(advice.better_lanes_frac)}. {behind}"


def model_text(advice: Advice, hand: Hand) -> str:
    """Return what the model says of the rule's move, and why the voices differ where they do."""
    model = advice.model
    if model is None or advice.reading.last is None:
        return ""
    parts = [_where_meant(advice, hand), _of_rule(advice, model, hand)]
    return " ".join(part for part in parts if part)


def cause_text(advice: Advice, hand: Hand) -> str:
    """Return whose doing the last ball was, in one sentence, and which observation told most."""
    told, cause = (None if advice.model is None else advice.model.blame), advice.cause
    if told is None or cause.bowler_prob is None:
        return ""
    side = side_text(told.meant_board - POCKET_BOARD, hand)
    verdict = {
        "bowler": "More likely the bowler than the lane",
        "lane": "More likely the lane than the bowler",
        "both": "Bowler and lane, both the same way",
        "direction known": f"Thrown as meant it misses {side}; bowler or lane is open",
        "too early": "Too early to tell bowler from lane",
    }[cause.verdict]
    most = _SEEN_AS.get(cause.told_most, "")
    return f"{verdict}. What told most: {most}." if most else f"{verdict}."


def runners_up_texts(advice: Advice, hand: Hand) -> tuple[str, ...]:
    """Return the other moves and their worth beside the advice; to stay is always among them."""
    if advice.model is None:
        return ()
    best = advice.move_strike_prob if advice.move_strike_prob is not None else advice.model.stay.strike_prob
    others = [one for one in _others(advice) if one.move != advice.move]
    changes = [one for one in advice.model.changes if one.move not in [other.move for other in others]]
    return tuple(
        f"{_named(advice, one, hand)}: {_loss(best, one.strike_prob)}" for one in (*others, *changes)
    )


def odd_text(advice: Advice, hand: Hand) -> str:
    """Return which observation of the last ball does not fit the rest, or an empty text."""
    model, last = advice.model, advice.reading.last
    if advice.is_unfit:
        return (
            "What was seen fits none of the lanes of the model: the rule of thumb answers alone. Are bowler, "
            "ball and pattern as they were told?"
        )
    if model is None or not model.odd or last is None:
        return ""
    shot = last.shot
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
        f"One thing does not fit the rest: {seen}. It was left out, so the answer is less sure. "
        "If it was a slip, correct the ball."
    )


def assumed_text(advice: Advice) -> str:
    """Return what nobody knows and what it was taken for, or an empty text."""
    if advice.model is None or not advice.model.assumed:
        return ""
    return (
        "Not known, taken as usual: "
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
    """Return why the model answers otherwise than the rule, in one clause."""
    model = advice.model
    if model is None:
        return ""
    meant = _where_meant(advice, hand)
    if advice.kind == "line" and advice.is_settled:
        side = "high" if advice.reading.side == "high" else "light"
        return f"The target was hit and it came in {side} each time: the line no longer fits."
    if advice.kind == "line":
        return (
            meant
            if "near the pocket" not in meant
            else "On the lanes that fit there is more room for a miss there."
        )
    if model.rule is None or model.rule.move.is_stay:
        return meant
    named = move_text(model.rule.move, hand).lower()
    return f"The rule would say {named}; on the lanes that fit it adds too little to be sure."


def look_for_text(advice: Advice, hand: Hand) -> str:
    """Return what to watch on the next ball where the rule does not say it."""
    if advice.kind == "line":
        return "A ball over the new target: nearer the pocket than the last ones, or not."
    missing = advice.reading.facts.get("has_crossing") is False
    note = "Note the crossing: it tells most now. " if missing else ""
    return f"{note}The same line over the same board: where it crosses and where it comes in."


def then_text(advice: Advice, hand: Hand) -> str:
    """Return what follows where the rule does not say it."""
    if advice.kind != "line":
        return "After each ball the other lines are weighed again."
    if advice.is_settled:
        too_far = "light" if advice.reading.side == "high" else "high"
        return f"Judge it after two balls on target. If they come in {too_far}, go back half."
    told = None if advice.model is None else advice.model.blame
    if told is None or abs(told.meant_board - POCKET_BOARD) < NEAR_POCKET_BOARDS:
        return "Judge it after two balls on target."
    too_far = "light" if told.meant_board > POCKET_BOARD else "high"
    return f"Judge it after two balls on target. If they come in {too_far}, go back half."


def _behind(advice: Advice, model: ModelVoice) -> str:
    """Return how many balls stand behind a chance, those that tell of the bowler alone apart."""
    if not model.n_balls:
        return "No ball stands behind it yet."
    n_here = model.n_balls - model.n_elsewhere
    if not model.n_elsewhere:
        return f"{_n_balls(n_here)} stand{'s' if n_here == 1 else ''} behind it."
    where = _elsewhere(advice)
    if n_here:
        return f"{_n_balls(n_here)} here and {model.n_elsewhere} {where} stand behind it."
    tells = "tells" if model.n_elsewhere == 1 else "tell"
    return f"{_n_balls(model.n_elsewhere)} {where} {tells} of the bowler; none was thrown here yet."


def _n_balls(n: int) -> str:
    return f"{n} ball{'' if n == 1 else 's'}"


def _elsewhere(advice: Advice) -> str:
    """Return where the balls were thrown that tell of the bowler alone."""
    session = advice.session
    n_lanes = len({seen.lane for seen in session.shots if not seen.shot.is_spare} - {session.lane})
    return ("before the fresh oil", "on the other lane")[n_lanes] if n_lanes < 2 else "on other lanes"


def _nothing_better(advice: Advice) -> str:
    model = advice.model
    if model is None or advice.reading.last is None or advice.is_gate:
        return ""
    if model.best.gain_prob <= EQUAL_PROB:
        return ", and no line within reach is clearly better"
    gain = n_of_twenty(model.best.strike_prob) - n_of_twenty(model.stay.strike_prob)
    size = "one ball" if gain == 1 else f"{gain} balls"
    return f"; another line may add {size}, but too few of the lanes that fit agree" if gain > 0 else ""


def _where_meant(advice: Advice, hand: Hand) -> str:
    told = None if advice.model is None else advice.model.blame
    if told is None:
        return ""
    off = told.meant_board - POCKET_BOARD
    if advice.is_settled and (off > 0.0) != (advice.reading.side == "high"):
        return ""
    if abs(off) < NEAR_POCKET_BOARDS:
        return "Thrown as meant, the ball now comes in near the pocket."
    half = round(abs(off) * 2) / 2
    way = "high" if off > 0 else "light"
    return f"Thrown as meant, the ball now comes in about {boards_text(half)} board{'s' * (half > 1)} {way}."


def _of_rule(advice: Advice, model: ModelVoice, hand: Hand) -> str:
    rule = model.rule
    if rule is None or rule.move == advice.move:
        return ""
    gain = n_of_twenty(rule.strike_prob) - n_of_twenty(model.stay.strike_prob)
    named = move_text(rule.move, hand).lower()
    if gain == 0:
        return f"The rule's {named} would change little: {of_twenty(rule.strike_prob)} too."
    return f"The rule's {named}: {of_twenty(rule.strike_prob)}."


def _others(advice: Advice) -> list[Candidate]:
    model = advice.model
    if model is None:
        return []
    known = [model.stay, *([model.rule] if model.rule else []), model.best, *model.runners_up]
    return list({one.move: one for one in known}.values())


def _named(advice: Advice, one: Candidate, hand: Hand) -> str:
    if one.move.is_stay:
        return "Stay"
    rule = None if advice.model is None else advice.model.rule
    if one.move.is_feet_and_eyes:
        named = f"{move_text(one.move, hand)} ({line_text(moved(advice.line, one.move)).lower()})"
    else:
        care = "it changes the body, not the line, as far as that allows"
        named = f"{move_text(one.move, hand)} on this line; {care}"
    return f"{named}, the rule of thumb" if rule is not None and one.move == rule.move else named


def _loss(best_prob: float, prob: float) -> str:
    n_balls = n_of_twenty(best_prob) - n_of_twenty(prob)
    if abs(best_prob - prob) < EQUAL_PROB and not n_balls:
        return "equal"
    way = "less" if best_prob > prob else "more"
    return f"{abs(n_balls)} of {N_TWENTY} {way}" if n_balls else f"a little {way}"
