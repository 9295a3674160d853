"""What the last balls did, in one sentence: the target, how often, the turn, and where they came in."""

import itertools

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.session.ball_reading import is_gutter_ball, side_of
from coachlib.coaching.session.lane_history import hits_among, line_balls
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import To, count_text, side_text
from coachlib.world.hand import Hand, own_pins
from coachlib.world.parsing import boards_text

TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times", 5: "five times"}

_TURNED = {
    "early": "turned early",
    "late": "turned late",
    "skid_long": "hardly turned",
    "over_hook": "turned too sharply",
    "roll_out": "turned and died",
}


def seen_text(advice: Advice, hand: Hand, to: To = "bowler") -> str:
    """Return what the last ball of the line did, and how often it did so on target; empty before the first.

    A bowler is spoken to as "you", to a coach the bowler is named.
    """
    facts = advice.reading.facts
    if advice.reading.last is None:
        return ""
    if is_gutter_ball(advice.reading.last.shot):
        return "It ended in the gutter."
    parts = _what_it_did(advice, hand)
    if not facts.get("has_crossing"):
        return _unnoted(advice, " and ".join(parts))
    if facts.get("is_on_target") is True:
        return _on_target(advice, parts, to)
    miss, whose = float(facts["miss_boards"] or 0.0), "your" if to == "bowler" else "the bowler's"
    spread = f", within {whose} usual spread{',' * bool(parts)}" if facts.get("is_within_spread") else ""
    crossed = f"It crossed {boards_text(miss)} {side_text(miss, hand)} of the target{spread}"
    return f"{' and '.join([crossed, *parts])}."


def _on_target(advice: Advice, parts: list[str], to: To) -> str:
    who, target = "You", "your target"
    if to == "coach":
        who, target = advice.session.bowler.name.strip() or "The bowler", "the target"
    n_same, n_run = int(advice.reading.facts.get("n_same") or 0), _n_in_a_row(advice)
    side = ARRIVAL_WORDS[advice.reading.side].did if advice.reading.side else ""
    in_all = f" In all it {side} {times_text(n_same)}." if n_same > max(n_run, 1) else ""
    if n_run < 2 or advice.reading.is_arrival_from_leave:
        did = f" and it {' and '.join(parts)}" if parts else ""
        return f"{who} hit {target}{did}.{in_all}"
    each = f"it {side} {'both times' if n_run == 2 else 'each time'}"
    other = " and ".join(part for part in parts if part != side)
    last = f" The last one {other}." if other else ""
    if len(_hits(advice)) > n_run:
        return f"The last {count_text(n_run)} balls over {target} {side}.{last}{in_all}"
    return f"{who} hit {target} {times_text(n_run)} and {each}.{last}{in_all}"


def _hits(advice: Advice) -> list[Observed]:
    """Return the balls on this line that were noted to hit the target, the last one first."""
    return hits_among(line_balls(advice.session), advice.session.bowler)[::-1]


def _n_in_a_row(advice: Advice) -> int:
    """Return how many of the last balls noted to hit the target came in on this side, one after another."""
    side = advice.reading.side
    same = itertools.takewhile(lambda ball: side_of(ball.shot) == side, _hits(advice))
    return sum(1 for _ in same) if side else 0


def times_text(n: int) -> str:
    """Return how often: ``twice``, ``6 times``."""
    return TIMES.get(n, f"{n} times")


def _unnoted(advice: Advice, did: str) -> str:
    n_same = int(advice.reading.facts.get("n_same") or 0)
    times = f" {times_text(n_same)}" if n_same > 1 and did else ""
    side = ARRIVAL_WORDS[advice.reading.side].did if advice.reading.side else did
    what = f"It {side if times else did}{times}. " if did else ""
    return f"{what}Nobody noted where it crossed."


def _what_it_did(advice: Advice, hand: Hand) -> list[str]:
    """Return how the last ball turned and how it came in, as far as noted."""
    facts = advice.reading.facts
    turned = _TURNED.get(str(facts.get("motion")), "")
    arrived = facts.get("arrival_class")
    came_in = ARRIVAL_WORDS[arrived].did if arrived else ""  # type: ignore[index]
    if came_in and advice.reading.is_arrival_from_leave:
        came_in = f"{came_in}, by {_pins_left(advice, hand)}"
    return [part for part in (turned, came_in) if part]


def _pins_left(advice: Advice, hand: Hand) -> str:
    last = advice.reading.last
    pins = own_pins(last.shot.leave or (), hand) if last else ()
    return f"the {'-'.join(str(pin) for pin in pins)} left" if pins else "the strike"
