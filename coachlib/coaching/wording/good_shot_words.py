"""Where a good shot comes in now, as believed, beside what the balls over the target said."""

from statistics import fmean

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.session.lane_history import boards_on_target
from coachlib.coaching.wording.arrival_words import NEAR_POCKET_BOARDS
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.parsing import boards_text

SHEET_APART_BOARDS = 1.0
"""Balls over the target that came in so far from what is believed are told instead of it (our guess)."""

FIRST_HIT_BOARD, LAST_HIT_BOARD = 13.7, 22.5
"""Outside of these a ball misses the head pin or is past it: no number of boards is told."""


def where_meant_text(advice: Advice) -> str:
    """Return where a good shot comes in now, as believed; what the balls over the target said comes first."""
    off = _meant_off_boards(advice)
    if off is None:
        return ""
    in_pocket = "A good shot now finds the pocket." if abs(off) < NEAR_POCKET_BOARDS else ""
    return sheet_text(advice) or in_pocket or off_pocket_text(advice)


def _meant_off_boards(advice: Advice) -> float | None:
    """Return how far off the pocket a good shot comes in now, as believed [boards]."""
    told = None if advice.model is None else advice.model.blame
    return None if told is None else told.meant_board - POCKET_BOARD


def sheet_text(advice: Advice) -> str:
    """Return that the oil sheet expects another ball than was seen; empty where the two go together."""
    off, seen = _meant_off_boards(advice), seen_off_boards(advice)
    if off is None:
        return ""
    if seen is not None and abs(off - seen) >= SHEET_APART_BOARDS:
        return f"The oil sheet expects {'higher' if off > seen else 'lighter'} than we saw."
    if abs(off) >= NEAR_POCKET_BOARDS and _is_other_side(advice, off):
        return f"The oil sheet expects {'higher' if off > 0 else 'lighter'} than we saw."
    return ""


def off_pocket_text(advice: Advice) -> str:
    """Return how a good shot comes in that does not find the pocket."""
    off = _meant_off_boards(advice) or 0.0
    if abs(off) < NEAR_POCKET_BOARDS or (
        advice.is_settled and (off > 0.0) != (advice.reading.side == "high")
    ):
        return ""
    if not FIRST_HIT_BOARD <= POCKET_BOARD + off <= LAST_HIT_BOARD:
        return f"A good shot now {'misses' if off < 0 else 'goes past'} the head pin."
    half = round(abs(off) * 2) / 2
    return (
        f"A good shot now hits {boards_text(half)} board{'s' * (half > 1)} {'high' if off > 0 else 'light'}."
    )


def _is_other_side(advice: Advice, off_boards: float) -> bool:
    """Return whether the last ball, over the target, came in on the other side than a good shot should."""
    facts, side = advice.reading.facts, advice.reading.side
    on_other = {"high": off_boards < 0, "light": off_boards > 0, "pocket": abs(off_boards) >= 1.5}
    return facts.get("is_on_target") is True and on_other.get(str(side), False)


def seen_off_boards(advice: Advice) -> float | None:
    """Return how far off the pocket the last balls over the target came in, mean of two or three [boards].

    None below two such balls on this line.
    """
    boards = boards_on_target(advice.session)[-3:]
    return fmean(boards) - POCKET_BOARD if len(boards) >= 2 else None
