"""What a comparison of balls says, in sentences, each word with the number behind it."""

import math
from collections.abc import Sequence
from typing import Any

from coachlib.coaching.equipment.ball_comparison import BallOnLine, Compared
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.coaching.wording.callouts import (
    lowered,
    move_text,
    of_twenty,
    side_text,
    strikes_beside_text,
    strikes_text,
)
from coachlib.coaching.wording.names import short_name
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
        lost = f"{_name(first)} ends in the gutter on this line. Compare from a line that reaches the pins."
        return (lost, *(_best_line(one, hand) for one in compared[1:]))
    rooms = ". ".join(f"{_name(one.on_line)}: {_room(one.on_line, hand)}" for one in compared)
    return (
        *(
            text
            for one in compared[1:]
            for text in (_ball_line(one.on_line, first), _match_line(one, first, hand), _best_line(one, hand))
        ),
        f"Miss room at the target on this line. {rooms}.",
    )


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
    numbers = {
        "skid_ft": one.skid_ft,
        "roll_from_ft": one.roll_ft,
        "covered_boards": one.covered_boards,
        "turn_deg": one.turn_deg,
        "entry_deg": one.entry_deg,
        "turn_board": one.turn_board,
        "turn_ft": one.turn_ft,
        "arrival_board": one.arrival_board,
    }
    return {
        "ball": _name(one),
        **{name: f"{value:.1f}" if math.isfinite(value) else "none" for name, value in numbers.items()},
        "room_boards": f"{one.room_out_boards:.1f} out, {one.room_in_boards:.1f} in",
        "strikes": of_twenty(one.strike_prob),
    }


def _room(one: BallOnLine, hand: Hand) -> str:
    if not one.room_out_boards and not one.room_in_boards:
        return "none, a good shot misses the pocket"
    out, inside = (f"{boards:.1f}" for boards in (one.room_out_boards, one.room_in_boards))
    return f"{out} {side_text(-1.0, hand)} and {inside} {side_text(1.0, hand)}"


def _ball_line(one: BallOnLine, first: BallOnLine) -> str:
    if not math.isfinite(one.arrival_board):
        return f"{_name(one)} ends in the gutter on this line."
    later_ft, more_boards = one.skid_ft - first.skid_ft, one.covered_boards - first.covered_boards
    more_deg, parts = one.turn_deg - first.turn_deg, []
    if not math.isfinite(later_ft):
        parts += _never_turning(one, first)
    elif not abs(later_ft) < SKID_FT:
        skids = f"skids {one.skid_ft:.0f} ft instead of {first.skid_ft:.0f}"
        parts.append(f"{'longer' if later_ft > 0 else 'earlier'} ({skids})")
    if not abs(more_boards) < BOARDS:
        covers = f"covers {one.covered_boards:.0f} boards instead of {first.covered_boards:.0f}"
        parts.append(f"{'stronger' if more_boards > 0 else 'weaker'} ({covers})")
    if abs(more_deg) < TURN_DEG:
        if not parts:
            return f"{_name(one)} does the same as {_name(first)}, as far as an eye can see."
        parts.append(f"not more angular (turns {one.turn_deg:.1f}°, the other {first.turn_deg:.1f}°)")
    else:
        turns = f"turns {one.turn_deg:.1f}° instead of {first.turn_deg:.1f}°"
        parts.append(f"{'more' if more_deg > 0 else 'less'} angular ({turns})")
    slips = "" if math.isfinite(one.roll_ft) else " It still slips at the pins, so its strikes are less sure."
    return f"{_name(one)} against {_name(first)}: {', '.join(parts)}.{slips}"


def _never_turning(one: BallOnLine, first: BallOnLine) -> list[str]:
    """Return what is said where a ball never turns: then there is no length of its skid to tell."""
    if math.isfinite(one.skid_ft):
        return [f"turns (after {one.skid_ft:.0f} ft, {_name(first)} never does)"]
    return [f"never turns ({_name(first)} after {first.skid_ft:.0f} ft)"] * math.isfinite(first.skid_ft)


def _match_line(one: Compared, first: BallOnLine, hand: Hand) -> str:
    name, match = _name(one.on_line), one.match
    if not match.is_close:
        nearest = _off(match.off_turn_boards, match.off_arrival_boards, hand)
        return f"No move within reach makes {name} turn where {_name(first)} does: {nearest}."
    move = "the same line" if match.move.is_stay else lowered(move_text(match.move, hand))
    return (
        f"To turn at board {board_text(round(first.turn_board))} and hit where {_name(first)} hits: {move}, "
        f"about {strikes_text(match.strike_prob)}."
    )


def _best_line(one: Compared, hand: Hand) -> str:
    """Return the best line within reach and what it adds; equal counts are no gain."""
    move = "the same line" if one.best_move.is_stay else lowered(move_text(one.best_move, hand))
    best, stay = one.on_best.strike_prob, one.on_line.strike_prob
    if n_of_twenty(best) != n_of_twenty(stay):
        chance = strikes_beside_text(best, stay)
    else:
        chance = strikes_text(best) + ("" if one.best_move.is_stay else ", no better than the same line")
    return f"Best line within reach for {_name(one.on_line)}: {move}, about {chance}."


def _off(turn_boards: float, arrival_boards: float, hand: Hand) -> str:
    """Return where the nearest one is farthest off."""
    if not math.isfinite(arrival_boards):
        return "all end in the gutter"
    is_turn = abs(turn_boards) > abs(arrival_boards)
    boards = turn_boards if is_turn else arrival_boards
    size = f"{half_text(abs(boards))} board{'' if abs(boards) <= 1 else 's'}"
    return f"the nearest {'turns' if is_turn else 'hits'} {size} too far {side_text(boards, hand)}"


def _name(one: BallOnLine) -> str:
    return short_name(one.ball.name)
