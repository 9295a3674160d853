"""A lane to draw on: boards and feet as thin lines on white, for paper and pencil, as plain SVG.

The lane lies across the page, its left on top as seen from behind the bowler; boards carry the numbers of the
bowler's own side. Boards are stretched, feet are not, and the page says by how much.
"""

import html
from collections.abc import Sequence

from coachlib.units import BOARD_IN
from coachlib.views.font import STACK
from coachlib.world.hand import Hand, checked_hand, inside_side
from coachlib.world.lane import (
    ARROW_BOARDS,
    ARROWS_FT,
    FIRST_BOARD,
    HEAD_PIN_FT,
    HIGH_EDGE_BOARD,
    LAST_BOARD,
    LOW_EDGE_BOARD,
    POCKET_BOARD,
)

FOOT_PX, BOARD_PX = 10.0, 4.6
LEFT_PX, TOP_PX, RIGHT_PX, BOTTOM_PX = 30.0, 14.0, 62.0, 16.0
WIDTH_PX = LEFT_PX + HEAD_PIN_FT * FOOT_PX + RIGHT_PX
HEIGHT_PX = TOP_PX + (HIGH_EDGE_BOARD - LOW_EDGE_BOARD) * BOARD_PX + BOTTOM_PX
TICKS_FT = (15, 30, 45, 60)
STRETCH = BOARD_PX / BOARD_IN * 12 / FOOT_PX
"""How many times too wide a board is drawn."""

Drawn = tuple[str, Sequence[tuple[float, float]]]
"""A line on the lane: ``dashed`` or ``solid``, and its places as feet and board."""


def lane_svg(hand: Hand, name: str, lines: Sequence[Drawn] = ()) -> str:
    """Return a lane to draw on, as an ``<svg>`` in black, white and grey.

    Parameters
    ----------
    hand : {"right", "left"}
        Whose boards.
    name : str
        What the picture is, for who cannot see it.
    lines : sequence of (str, places), optional
        Lines drawn already, ``dashed`` or ``solid``, each place as (feet, board) in the own frame.
    """
    hand = checked_hand(hand)
    arrows = [
        _arrow(along_px(at_ft), across_px(board, hand))
        for at_ft, board in zip(ARROWS_FT, ARROW_BOARDS, strict=True)
    ]
    parts = [*_boards(hand), *_feet(), *arrows, *_ends(hand)]
    parts += [_line(hand, kind, places) for kind, places in lines]
    box = f"0 0 {WIDTH_PX:g} {HEIGHT_PX:g}"
    style = f'font-family="{STACK}" font-size="9"'
    label = html.escape(name, quote=True)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{label}" viewBox="{box}" {style}>'
        + "".join(parts)
        + "</svg>"
    )


def across_px(board: float, hand: Hand) -> float:
    """Return how far below the top of the picture a board lies: the bowler's left is on top."""
    from_top = HIGH_EDGE_BOARD - board if hand == "right" else board - LOW_EDGE_BOARD
    return round(TOP_PX + from_top * BOARD_PX, 2)


def along_px(at_ft: float) -> float:
    """Return how far from the left of the picture a distance lies."""
    return round(LEFT_PX + at_ft * FOOT_PX, 2)


def _boards(hand: Hand) -> list[str]:
    parts = []
    for board in range(FIRST_BOARD, LAST_BOARD + 1):
        y, is_fifth = across_px(board, hand), board % 5 == 0
        grey, width = ("#777", 0.8) if is_fifth else ("#bbb", 0.4)
        parts.append(_rule(along_px(0), y, along_px(HEAD_PIN_FT), y, grey, width))
        if is_fifth:
            parts += [_word(along_px(0) - 4, y + 3, str(board), "end")]
            parts += [_word(along_px(HEAD_PIN_FT) + 4, y + 3, str(board), "start")]
    return parts


def _feet() -> list[str]:
    top, bottom = TOP_PX, HEIGHT_PX - BOTTOM_PX
    parts = []
    for at_ft in range(5, int(HEAD_PIN_FT), 5):
        x, is_named = along_px(at_ft), at_ft in TICKS_FT
        parts.append(_rule(x, top, x, bottom, "#555" if is_named else "#ccc", 0.8, is_named))
    words = [(at_ft, f"{at_ft} ft") for at_ft in TICKS_FT] + [(0, "foul line")]
    return parts + [_word(along_px(at_ft), bottom + 11, text, "middle") for at_ft, text in words]


def _ends(hand: Hand) -> list[str]:
    top, bottom = TOP_PX, HEIGHT_PX - BOTTOM_PX
    far, pocket = along_px(HEAD_PIN_FT), across_px(POCKET_BOARD, hand)
    left = LAST_BOARD if inside_side(hand) == "left" else FIRST_BOARD
    return [
        *(_rule(along_px(0), y, far, y, "#000", 1.2) for y in (top, bottom)),
        _rule(along_px(0), top, along_px(0), bottom, "#000", 2.5),
        _rule(far, top, far, bottom, "#000", 1.2),
        _rule(far - 6, pocket, far + 18, pocket, "#000", 1.6),
        _word(far + 21, pocket + 3, "pocket", "start"),
        _word(along_px(2), top - 4, f"bowler's left · board {left}", "start"),
    ]


def _line(hand: Hand, kind: str, places: Sequence[tuple[float, float]]) -> str:
    points = " ".join(f"{along_px(at_ft):g},{across_px(board, hand):g}" for at_ft, board in places)
    dash = ' stroke-dasharray="7 4"' if kind == "dashed" else ""
    return f'<polyline points="{points}" fill="none" stroke="#000" stroke-width="2"{dash}/>'


def _rule(
    x1: float, y1: float, x2: float, y2: float, grey: str, width: float, is_dotted: bool = False
) -> str:
    dash = ' stroke-dasharray="1.5 3"' if is_dotted else ""
    place = f'x1="{x1:g}" y1="{y1:g}" x2="{x2:g}" y2="{y2:g}"'
    return f'<line {place} stroke="{grey}" stroke-width="{width:g}"{dash}/>'


def _arrow(x: float, y: float) -> str:
    return f'<path d="M{x - 4:g} {y - 3:g}L{x + 4:g} {y:g}L{x - 4:g} {y + 3:g}Z" fill="#444"/>'


def _word(x: float, y: float, text: str, anchor: str) -> str:
    return f'<text x="{x:g}" y="{y:g}" text-anchor="{anchor}">{html.escape(text)}</text>'
