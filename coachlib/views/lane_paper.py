"""The paper on which the printed lane is drawn: its scales, and one layer of marks or words on it.

One axis runs along: feet up to the head-pin plane, from there on the deck in true shape, written in the feet
it takes up on paper. Boards run across in the own frame, and that axis is turned for the bowler's hand.
"""

from typing import Any

from coachlib.units import BOARD_IN
from coachlib.views.theme import INK2, SMALL_PX, WOOD
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD

BOARD_PX, FOOT_PX = 5.8, 6.6
INCH_PX = BOARD_PX / BOARD_IN
APPROACH_FT, FRONT_IN = 17.0, 11.0  # on paper: room for the feet, and for a ball before the head pin
TOP_BOARDS, BOTTOM_BOARDS = 5.0, 10.5  # beyond the lane's edges, for words

Row = dict[str, Any]


def deck_ft(behind_in: float) -> float:
    """Return where on the axis along something at the pins is drawn, from inches behind the head pin."""
    return round(HEAD_PIN_FT + (FRONT_IN + behind_in) * INCH_PX / FOOT_PX, 2)


class Paper:
    """The paper of one scene: a layer on it needs only what is drawn and how it looks.

    Parameters
    ----------
    hand : {"right", "left"}
        Turns the boards.
    pit_behind_in : float
        Where the paper ends, from inches behind the head pin.
    """

    def __init__(self, hand: Hand, pit_behind_in: float) -> None:
        self.hand: Hand = hand
        self.end_ft = deck_ft(pit_behind_in)
        across_boards = HIGH_EDGE_BOARD - LOW_EDGE_BOARD + TOP_BOARDS + BOTTOM_BOARDS
        self.width_px = round((APPROACH_FT + self.end_ft) * FOOT_PX)
        self.height_px = round(across_boards * BOARD_PX)

    def beyond(self, boards: float) -> float:
        """Return the board so far beyond the edge drawn on top; a negative number: below the lower edge."""
        is_high = (self.hand == "right") == (boards > 0)
        return HIGH_EDGE_BOARD + abs(boards) if is_high else LOW_EDGE_BOARD - abs(boards)

    def draw(self, mark: str, rows: list[Row], **look: Any) -> Any:
        """Return one layer of marks; rows hold x (ft), y (board), and x2, y2 or text where needed."""
        import altair as alt

        along = alt.Scale(domain=[-APPROACH_FT, self.end_ft], nice=False, zero=False)
        across = alt.Scale(
            domain=[self.beyond(-BOTTOM_BOARDS), self.beyond(TOP_BOARDS)], nice=False, zero=False
        )
        more: dict[str, Any] = {name: name for name in ("x2", "y2") if rows and name in rows[0]}
        more |= {"text": {"text": "text:N"}, "line": {"order": "x:Q"}}.get(mark, {})
        drawn = getattr(alt.Chart(alt.InlineData(values=rows)), f"mark_{mark}")(
            aria=False, **{"opacity": 1, **look}
        )
        return drawn.encode(
            alt.X("x:Q", scale=along, axis=None), alt.Y("y:Q", scale=across, axis=None), **more
        )

    def write(self, rows: list[Row], **look: Any) -> Any:
        """Return one layer of words."""
        return self.draw("text", rows, **{"color": INK2, "fontSize": SMALL_PX, **look})

    def write_on_lane(self, rows: list[Row], **look: Any) -> list[Any]:
        """Return words with a halo of lane colour, so that a line behind them does not cross them out."""
        halo = {**look, "stroke": WOOD, "strokeWidth": 4, "strokeJoin": "round"}
        return [self.write(rows, **halo), self.write(rows, **look)]
