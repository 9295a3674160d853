"""Reading the hit from the pins that stay: on which side of the pocket it was, and when the pins do not say.

Two voices answer. The rule of thumb knows what usually leaves which pins
(:mod:`coachlib.coaching.session.ball_reading`). The simulated rack is asked the other way round: of balls
that come in around the pocket and leave these pins, how many came from where. Where the two differ both are
right.

Not modelled: as in :mod:`coachlib.physics.pins.carry`; what a ball through the nose leaves is its weak spot.
"""

import dataclasses
import functools
from collections.abc import Sequence
from typing import Final

import numpy as np

from coachlib.coaching.session.ball_reading import SIDE_OF_CLASS, PocketSide, side_of
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.leave_forecast import whole_counts
from coachlib.coaching.simulation.outcomes import N_TWENTY
from coachlib.coaching.simulation.paths import line_paths
from coachlib.errors import InputError
from coachlib.physics.pins.carry import LeaveProbs, leave_probs
from coachlib.study.questions.asker import starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.question import Accepted, Choice, Level, Question, QuestionScene
from coachlib.study.questions.what_changes import CAME_IN, HOUSE_PATTERNS, coming_in
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import POCKET_BOARD, arrival_class
from coachlib.world.pins import checked_pins, leave_name
from coachlib.world.shot import Shot

Pins = tuple[int, ...]

SPREAD_BOARDS: Final = 1.6
"""How far around the pocket the balls come in among which a leave is looked for (our guess, sd) [boards]."""

SURE_SHARE, FAIRLY_SURE_SHARE = 0.65, 0.85
"""From this share on a side is told from the pins alone; below the second one it is no fault to wait."""

ALSO_SHARE = 0.3
"""A side that so many of the balls came from is half correct."""

CANNOT_TELL: Final = "cannot tell"
_BOARDS: Final = np.arange(13.0, 24.01, 0.25)

_PLAIN: tuple[Pins, ...] = ((4,), (4, 7), (5,), (5, 8), (10,), ())
_HARDER: tuple[Pins, ...] = (*_PLAIN, (7,), (4, 7, 9), (6, 10))
_HARDEST: tuple[Pins, ...] = ((8,), (7,), (5, 7), (8, 10), (4, 7, 9), (6, 10), (3, 6, 10), (10,), ())
LEAVES: Final[dict[Level, tuple[Pins, ...]]] = {
    "lever": _PLAIN,
    "oil": _PLAIN,
    "wear": _HARDER,
    "thin": _HARDEST,
}
"""Pins left by level, own frame: clear ones first, later those on which rule and rack differ."""

_SIDES: Final[dict[PocketSide, str]] = {
    "high": "high: too much of the head pin",
    "pocket": "in the pocket",
    "light": "light: too little of the head pin",
}
_DID: Final[dict[PocketSide, str]] = {
    "high": "came in high",
    "pocket": "hit the pocket",
    "light": "came in light",
}
_USUALLY: Final[dict[PocketSide, str]] = {"high": "high", "pocket": "in the pocket", "light": "light"}
_PATTERNS: Final = (*HOUSE_PATTERNS, "flat_42")


def hit_from_pins(case: Case, leave: Sequence[int] | None = None, pattern: str = "") -> Question:
    """Return the question where a ball hit, of which only the pins left are known.

    Parameters
    ----------
    leave : sequence of int, optional
        Pins left in the own frame, none for a strike; drawn by the level if left out.
    pattern : str
        The oil, by its name in the data: it says at which angle the ball comes in; drawn if left out.
    """
    pins = case.pick(LEAVES[case.level]) if leave is None else checked_pins(leave)
    start = starting_session(case.bowler, pattern=pattern or case.pick(_PATTERNS))
    now = _near(start, CAME_IN["pocket"])
    shares = side_shares(now, pins)
    best = max(shares, key=lambda side: shares[side])
    is_sure = shares[best] >= SURE_SHARE
    seen = Shot(leave=pins)
    scene = QuestionScene(now, now_drawn="lines", next_drawn="nothing", seen=seen)
    after = _near(start, likeliest_board(now, pins)) if is_sure else None
    return case.question(
        scene=scene,
        prompt=f"{_left_words(pins, case.hand)} Nothing else was seen. Where did your ball hit?",
        ask=(
            *(Choice(side, text) for side, text in _SIDES.items()),
            Choice(CANNOT_TELL, "the pins alone cannot tell"),
        ),
        accepts=_accepts(pins, shares, best if is_sure else CANNOT_TELL),
        answer_text=_answer_text(best if is_sure else CANNOT_TELL),
        why=_why(pins, shares),
        reveal=_reveal(scene, after),
        changes_text="Had you seen the ball cross your target, or meet the head pin, you would know more.",
        source="Simulated rack; rule of thumb",
        skills=("reading",),
    )


def side_shares(session: Session, leave: Pins) -> dict[PocketSide, float]:
    """Return from which side of the pocket the balls come that leave some pins, as shares that sum to 1.

    Parameters
    ----------
    session : Session
        Who throws; the angle and the speed at the pins are those of the session's own ball.
    leave : tuple of int
        Pins left, own frame.

    Raises
    ------
    InputError
        If none of the simulated balls leaves these pins.
    """
    weights = _weights(session, leave)
    if not weights.sum() > 0:
        message = f"leave is {list(leave)}; expected pins that a ball near the pocket leaves. Choose others."
        raise InputError(message, {"leave": message})
    sides = [SIDE_OF_CLASS[arrival_class(float(board))] for board in _BOARDS]
    of_side = {side: sum(w for w, one in zip(weights, sides, strict=True) if one == side) for side in _SIDES}
    return {side: float(weight / weights.sum()) for side, weight in of_side.items()}


def likeliest_board(session: Session, leave: Pins) -> float:
    """Return on which board a ball that leaves some pins most likely hit, to half a board [board]."""
    return round(2 * float(_BOARDS[int(np.argmax(_weights(session, leave)))])) / 2


def rule_side(leave: Pins) -> PocketSide | None:
    """Return the side that the rule of thumb reads from some pins left; None where it knows none."""
    return side_of(Shot(leave=leave))


def _weights(session: Session, leave: Pins) -> np.ndarray:
    """Return how often a ball hits each board and leaves these pins, not normalised."""
    paths = line_paths(session, session.line)
    entry_deg, speed_mph = float(paths.path.entry_deg[0]), float(paths.path.speed_at_pins_mph[0])
    rows = _rack(round(entry_deg, 1), round(speed_mph, 1), paths.ball_weight_lb)
    around = np.exp(-0.5 * ((_BOARDS - POCKET_BOARD) / SPREAD_BOARDS) ** 2)
    return np.array([row.get(frozenset(leave), 0.0) for row in rows]) * around


@functools.lru_cache(maxsize=64)
def _rack(entry_deg: float, speed_mph: float, weight_lb: float) -> tuple[LeaveProbs, ...]:
    found = leave_probs(_BOARDS, entry_deg, speed_mph, weight_lb)
    assert isinstance(found, tuple)
    return found


def _accepts(pins: Pins, shares: dict[PocketSide, float], best: str) -> tuple[Accepted, ...]:
    """Return what counts: the rack's answer, the rule's, and by half what often happens too."""
    accepts = [Accepted(best)]
    ruled = rule_side(pins)
    counts = _counts(shares)
    if ruled is not None and ruled != best:
        words = (
            f"Rule of thumb: {_USUALLY[ruled]}. On the simulated rack {counts[ruled]} of 20 {_DID[ruled]}."
        )
        accepts.append(Accepted(ruled, 1.0, words))
    for side, share in shares.items():
        if side not in (best, ruled) and share >= ALSO_SHARE:
            accepts.append(Accepted(side, 0.5, f"It happens: {counts[side]} of 20 {_DID[side]}."))
    if best != CANNOT_TELL and shares[_as_side(best)] < FAIRLY_SURE_SHARE:
        told = _as_side(best)
        accepts.append(
            Accepted(CANNOT_TELL, 0.5, f"A careful answer. But {counts[told]} of 20 {_DID[told]}.")
        )
    return tuple(accepts)


def _counts(shares: dict[PocketSide, float]) -> dict[PocketSide, int]:
    return dict(zip(shares, whole_counts(list(shares.values()), N_TWENTY), strict=True))


def _as_side(name: str) -> PocketSide:
    return next(side for side in _SIDES if side == name)


def _why(pins: Pins, shares: dict[PocketSide, float]) -> str:
    counts = sorted(_counts(shares).items(), key=lambda one: -one[1])
    parts = [f"{n} {_DID[side]}" for side, n in counts if n]
    listed = parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"
    what = "strikes" if not pins else f"balls that leave {'it' if len(pins) == 1 else 'them'}"
    return f"Of twenty {what}, {listed}."


def _left_words(pins: Pins, hand: Hand) -> str:
    return "You strike." if not pins else f"You leave the {leave_name(own_pins(pins, hand))}."


def _answer_text(best: str) -> str:
    texts = {"high": "High", "pocket": "In the pocket", "light": "Light"}
    return texts.get(best, "The pins alone cannot tell")


def _near(start: Session, board: float) -> Session:
    """Return the session on a line that hits a board; on its own line where none nearby does."""
    try:
        return coming_in(start, board)
    except InputError:
        return start


def _reveal(scene: QuestionScene, after: Session | None) -> QuestionScene:
    if after is None:
        return dataclasses.replace(scene, now_drawn="balls")
    return dataclasses.replace(scene, next=after, now_drawn="nothing", next_drawn="balls")
