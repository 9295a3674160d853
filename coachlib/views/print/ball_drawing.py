"""One ball drawn from above on an upright lane, in black on white: what was noted of it, and nothing else.

The lane runs up the page, its left on the left as the bowler sees it. Up to the pins boards are stretched and
feet are not; the pins stand in true shape. No oil, no number but the target's board.
"""

import html

from coachlib.coaching.session.ball_reading import arrival_board
from coachlib.coaching.session.setting import Observed
from coachlib.units import BOARD_IN
from coachlib.world.hand import Hand
from coachlib.world.lane import (
    ARROW_BOARDS,
    ARROWS_FT,
    DOT_BOARDS,
    DOTS_FT,
    HEAD_PIN_FT,
    HIGH_EDGE_BOARD,
    LOW_EDGE_BOARD,
)
from coachlib.world.levers import laydown_board
from coachlib.world.parsing import board_text
from coachlib.world.pins import ALL_PINS, pin_board, pin_ft

BOARD_PX, FOOT_PX = 5.0, 8.4
INCH_PX = BOARD_PX / BOARD_IN
GUTTER_PX, TOP_PX, FRONT_PX = 8.0, 14.0, 30.0
LANE_PX = (HIGH_EDGE_BOARD - LOW_EDGE_BOARD) * BOARD_PX
DECK_PX = (max(map(pin_ft, ALL_PINS)) - HEAD_PIN_FT) * 12.0 * INCH_PX
WIDTH_PX = LANE_PX + 2 * GUTTER_PX + 44.0
FOUL_PX = TOP_PX + DECK_PX + FRONT_PX + HEAD_PIN_FT * FOOT_PX
HEIGHT_PX = FOUL_PX + 66.0
PIN_IN, BALL_IN = 4.75, 8.55  # widths of pin and ball
_WAY_LOOKS = ('stroke="#fff" stroke-width="9"', 'stroke="#000" stroke-width="4.5"')
BENDS_FT = 36.0  # where the drawn curve leaves the straight line; the real place was not seen


def ball_svg(ball: Observed, stood: tuple[int, ...], name: str, feet: str) -> str:
    """Return a ball drawn from what was noted of it, as an ``<svg>`` in black, white and grey.

    Parameters
    ----------
    ball : Observed
        The ball; where crossing and arrival were noted its way is drawn through both.
    stood : tuple of int
        The pins that stood before it, own frame.
    name : str
        The picture in words, for who cannot see it.
    feet : str
        What stands beside the foot, e.g. ``Lea’s feet``; taken as plain text.
    """
    hand = ball.setting.bowler.hand
    parts = [*_lane(hand), *_pins(hand, stood, ball.shot.leave)]
    if not ball.shot.is_spare:  # where feet and target were for a spare is not noted
        parts += [*_way(hand, ball), *_feet(hand, ball, feet)]
    label = html.escape(name, quote=True)
    box = f"0 0 {WIDTH_PX:g} {HEIGHT_PX:g}"
    return f'<svg role="img" aria-label="{label}" viewBox="{box}" font-size="15">{"".join(parts)}</svg>'


def way_boards(ball: Observed) -> list[tuple[float, float]]:
    """Return the places that a ball's way is drawn through, as feet and board; none where it was not noted.

    From the hand over the board it crossed to where it met the pins. A spare ball's way is not noted.
    """
    shot, line = ball.shot, ball.line
    arrived = arrival_board(shot)
    if shot.is_spare or shot.crossed_board is None or arrived is None:
        return []
    start = laydown_board(line, ball.setting.bowler)
    slope = (shot.crossed_board - start) / line.target_ft
    bend = start + slope * BENDS_FT
    bend = min(max(bend, LOW_EDGE_BOARD + 1.5), HIGH_EDGE_BOARD - 1.5)
    return [(0.0, start), (line.target_ft, shot.crossed_board), (BENDS_FT, bend), (HEAD_PIN_FT, arrived)]


def _x(board: float, hand: Hand) -> float:
    across = HIGH_EDGE_BOARD - board if hand == "right" else board - LOW_EDGE_BOARD
    return round(GUTTER_PX + 2.0 + across * BOARD_PX, 2)


def _y(at_ft: float) -> float:
    if at_ft <= HEAD_PIN_FT:
        return round(FOUL_PX - at_ft * FOOT_PX, 2)
    return round(TOP_PX + DECK_PX - (at_ft - HEAD_PIN_FT) * 12.0 * INCH_PX, 2)


def _lane(hand: Hand) -> list[str]:
    left, right = GUTTER_PX + 2.0, GUTTER_PX + 2.0 + LANE_PX
    top, end = TOP_PX - 10.0, _y(HEAD_PIN_FT)
    gutters = [
        f'<rect x="{x:g}" y="{top:g}" width="{GUTTER_PX:g}" height="{FOUL_PX - top:.2f}" fill="#ddd"/>'
        for x in (left - GUTTER_PX, right)
    ]
    boards = [_rule(_x(board, hand), end, _x(board, hand), FOUL_PX, "#ccc", 1.0) for board in ARROW_BOARDS]
    arrows = [
        f'<path d="M{_x(board, hand) - 4:g} {_y(at_ft):g}h8l-4 -10z" fill="#333"/>'
        for at_ft, board in zip(ARROWS_FT, ARROW_BOARDS, strict=True)
    ]
    dots = [
        f'<circle cx="{_x(board, hand):g}" cy="{_y(DOTS_FT):g}" r="1.6" fill="#333"/>' for board in DOT_BOARDS
    ]
    return [*gutters, *boards, *arrows, *dots, _rule(left, FOUL_PX, right, FOUL_PX, "#000", 3.0)]


def _pins(hand: Hand, stood: tuple[int, ...], left: tuple[int, ...] | None) -> list[str]:
    """Return the pins: dashed where felled, filled where left, plain where that was not noted."""
    looks = {pin: 'fill="#fff" stroke="#000"' for pin in stood}
    if left is not None:
        looks = dict.fromkeys(stood, 'fill="#fff" stroke="#555" stroke-dasharray="3 3"')
        looks |= {pin: 'fill="#000" stroke="#000"' for pin in left if pin in looks}
    size = f'r="{PIN_IN / 2 * INCH_PX:.2f}" stroke-width="1.4"'
    return [
        f'<circle cx="{_x(pin_board(pin), hand):g}" cy="{_y(pin_ft(pin)):g}" {size} {look}/>'
        for pin, look in looks.items()
    ]


def _way(hand: Hand, ball: Observed) -> list[str]:
    places = way_boards(ball)
    target_x, target_y = _x(ball.line.target_board, hand), _y(ball.line.target_ft)
    shape = f"M{target_x:g} {target_y - 9:g}l9 9l-9 9l-9 -9z"
    mark = f'<path d="{shape}" fill="#000" stroke="#fff" stroke-width="2"/>'
    is_right = target_x > GUTTER_PX + 0.65 * LANE_PX
    side, anchor = (-1, "end") if is_right else (1, "start")
    word_x = target_x + side * 16
    lead = _rule(target_x + side * 6, target_y - 8, word_x + side * 4, target_y - 38, "#000", 1.2)
    look = f'text-anchor="{anchor}" font-weight="700" stroke="#fff" stroke-width="4" paint-order="stroke"'
    text = f"board {board_text(ball.line.target_board)}"
    word = f'<text x="{word_x:g}" y="{target_y - 42:g}" {look}>{text}</text>'
    if not places:
        return [mark, lead, word]
    (start, crossed, bend, end) = [(_x(board, hand), _y(at_ft)) for at_ft, board in places]
    radius = BALL_IN / 2 * INCH_PX
    end = (end[0], round(end[1] + radius, 2))
    way = f"M{_at(start)}L{_at(crossed)}Q{_at(bend)} {_at(end)}"
    halo, line = (f'<path d="{way}" fill="none" {look}/>' for look in _WAY_LOOKS)
    look = f'r="{radius:.2f}" fill="#fff" stroke="#000" stroke-width="3.5"'
    circle = f'<circle cx="{end[0]:g}" cy="{end[1]:g}" {look}/>'
    return [halo, line, circle, mark, lead, word]


def _at(place: tuple[float, float]) -> str:
    return f"{place[0]:g} {place[1]:g}"


def _feet(hand: Hand, ball: Observed, text: str) -> list[str]:
    x = min(max(_x(ball.line.feet_board, hand), 12.0), WIDTH_PX - 12.0)
    y = FOUL_PX + 14.0
    sole = (
        f'<path d="M{x - 8:g} {y + 6:g}c0 -12 16 -12 16 0c0 8 -3 12 -3 18c0 8 2 8 2 12c0 12 -15 12 -15 0'
        f'c0 -4 2 -5 2 -12c0 -6 -2 -10 -2 -18z"/>'
    )
    is_left = x > WIDTH_PX / 2
    at, anchor = (x - 16, "end") if is_left else (x + 16, "start")
    word = f'<text x="{at:g}" y="{y + 28:g}" text-anchor="{anchor}">{html.escape(text, quote=True)}</text>'
    return [sole, word]


def _rule(x1: float, y1: float, x2: float, y2: float, colour: str, width: float) -> str:
    return f'<path d="M{x1:g} {y1:g}L{x2:g} {y2:g}" stroke="{colour}" stroke-width="{width:g}" fill="none"/>'
