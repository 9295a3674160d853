"""What a comparison of balls says, in sentences, each word with the number behind it."""

import math
from collections.abc import Sequence
from typing import Any

from coachlib.coaching.equipment.ball_comparison import BallOnLine, Compared
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.callouts import (
    lowered,
    move_text,
    of_twenty,
    side_text,
    strikes_beside_text,
    strikes_text,
)
from coachlib.world.hand import Hand
from coachlib.world.parsing import board_text

SKID_FT, BOARDS, TURN_DEG = 0.5, 0.5, 0.2
"""Smaller differences are not put into words (our choice): no eye sees them from behind the foul line."""


def difference_lines(compared: Sequence[Compared], hand: Hand) -> tuple[str, ...]:
    """Return what each further ball does differently from the first, and the line it wants.

    Parameters
    ----------
    compared : sequence of Compared
        From :func:`coachlib.coaching.equipment.ball_comparison.compare_balls`.
    hand : {"right", "left"}
        The bowling hand, for the sides.
    """
    first = compared[0].on_line
    if not math.isfinite(first.arrival_board):
        lost = (
            f"{first.ball.name} ends in the gutter on this line. Compare from a line that reaches the pins."
        )
        return (lost, *(_best_line(one, hand) for one in compared[1:]))
    told = tuple(
        text
        for one in compared[1:]
        for text in (_ball_line(one.on_line, first), _match_line(one, first, hand), _best_line(one, hand))
    )
    return (*told, room_line([one.on_line for one in compared], hand))


def room_line(balls: Sequence[BallOnLine], hand: Hand) -> str:
    """Return how far the target may be missed to each side with each ball, as the bowler sees the sides."""
    rooms = "; ".join(f"{one.ball.name} {_room(one, hand)}" for one in balls)
    return f"Room at the target on this line: {rooms}."


def comparison_table(compared: Sequence[Compared]) -> Any:
    """Return a table, one row a ball, every column with its unit.

    Returns
    -------
    pandas.DataFrame
        Boards own frame; chances as a count of 20 balls.
    """
    import pandas as pd

    return pd.DataFrame([_row(one.on_line) for one in compared]).set_index("ball")


def _row(one: BallOnLine) -> dict[str, str]:
    return {
        "ball": one.ball.name,
        "skid_ft": _number(one.skid_ft),
        "roll_from_ft": _number(one.roll_ft),
        "covered_boards": _number(one.covered_boards),
        "turn_deg": _number(one.turn_deg),
        "entry_deg": _number(one.entry_deg),
        "turn_board": _number(one.turn_board),
        "turn_ft": _number(one.turn_ft),
        "arrival_board": _number(one.arrival_board),
        "room_boards": f"{one.room_out_boards:.1f} out, {one.room_in_boards:.1f} in",
        "strikes": of_twenty(one.strike_prob),
    }


def _room(one: BallOnLine, hand: Hand) -> str:
    if not one.room_out_boards and not one.room_in_boards:
        return "none, a good shot misses the pocket"
    out, inside = (f"{boards:.1f}" for boards in (one.room_out_boards, one.room_in_boards))
    return f"{out} {side_text(-1.0, hand)} and {inside} {side_text(1.0, hand)}"


def _number(value: float) -> str:
    return f"{value:.1f}" if math.isfinite(value) else "none"


def _ball_line(one: BallOnLine, first: BallOnLine) -> str:
    if not math.isfinite(one.arrival_board):
        return f"{one.ball.name} ends in the gutter on this line."
    parts = [part for part in (_when(one, first), _how_much(one, first)) if part]
    if not parts and abs(one.turn_deg - first.turn_deg) < TURN_DEG:
        return f"{one.ball.name} does the same as {first.ball.name}, as far as an eye can see."
    parts.append(_how_sharp(one, first))
    slips = "" if math.isfinite(one.roll_ft) else " It still slips at the pins, so its strikes are less sure."
    return f"{one.ball.name} against {first.ball.name}: {', '.join(parts)}.{slips}"


def _when(one: BallOnLine, first: BallOnLine) -> str:
    later_ft = one.skid_ft - first.skid_ft
    if abs(later_ft) < SKID_FT:
        return ""
    word = "longer" if later_ft > 0 else "earlier"
    return f"{word} (skids {one.skid_ft:.0f} ft instead of {first.skid_ft:.0f})"


def _how_much(one: BallOnLine, first: BallOnLine) -> str:
    more_boards = one.covered_boards - first.covered_boards
    if abs(more_boards) < BOARDS:
        return ""
    word = "stronger" if more_boards > 0 else "weaker"
    return f"{word} (covers {one.covered_boards:.0f} boards instead of {first.covered_boards:.0f})"


def _how_sharp(one: BallOnLine, first: BallOnLine) -> str:
    more_deg = one.turn_deg - first.turn_deg
    if abs(more_deg) < TURN_DEG:
        return f"not more angular (turns {one.turn_deg:.1f}°, the other {first.turn_deg:.1f}°)"
    word = "more angular" if more_deg > 0 else "less angular"
    return f"{word} (turns {one.turn_deg:.1f}° instead of {first.turn_deg:.1f}°)"


def _match_line(one: Compared, first: BallOnLine, hand: Hand) -> str:
    name, match = one.on_line.ball.name, one.match
    if not match.is_close:
        nearest = _off(match.off_turn_boards, match.off_arrival_boards, hand)
        return f"No move within reach brings {name} to the turning board of {first.ball.name}: {nearest}."
    move = "the same line" if match.move.is_stay else lowered(move_text(match.move, hand))
    return (
        f"To turn at board {board_text(round(first.turn_board))} and arrive with {first.ball.name}: {move}, "
        f"about {strikes_text(match.strike_prob)}."
    )


def _best_line(one: Compared, hand: Hand) -> str:
    """Return the best line within reach and what it adds; equal counts are no gain."""
    move = "the same line" if one.best_move.is_stay else lowered(move_text(one.best_move, hand))
    best, stay = one.on_best.strike_prob, one.on_line.strike_prob
    if n_of_twenty(best) != n_of_twenty(stay):
        told = strikes_beside_text(best, stay)
    else:
        told = strikes_text(best) + ("" if one.best_move.is_stay else ", no better than the same line")
    return f"Best line within reach for {one.on_line.ball.name}: {move}, about {told}."


def _off(turn_boards: float, arrival_boards: float, hand: Hand) -> str:
    """Return where the nearest one is farthest off."""
    if not math.isfinite(arrival_boards):
        return "all end in the gutter"
    is_turn = abs(turn_boards) > abs(arrival_boards)
    boards = turn_boards if is_turn else arrival_boards
    size = board_text(round(2 * abs(boards)) / 2)
    verb = "turns" if is_turn else "arrives"
    return (
        f"the nearest {verb} {size} board{'' if abs(boards) <= 1 else 's'} too far {side_text(boards, hand)}"
    )
