"""The paper on which the printed lane is drawn: its scales, and one layer of marks or words on it.

One axis runs along: feet up to the head-pin plane, from there on the deck in true shape, written in the feet
it takes up on paper; between the two stand the dots of simulated balls. Boards run across in the own frame,
and that axis is turned for the bowler's hand.
"""

import textwrap
from typing import Any

from coachlib.units import BOARD_IN
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.views.lane.scene_words import deck_text
from coachlib.views.theme import INK2, SMALL_PX, WOOD, Rows, alt, layer
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD

BOARD_PX, FOOT_PX = 5.8, 5.8
INCH_PX = BOARD_PX / BOARD_IN
APPROACH_FT, FRONT_IN = 17.0, 11.0  # on paper: room for the feet, and for a ball before the head pin
TOP_BOARDS, ROW_BOARDS = 5.0, 3.2  # beyond the lane's edges, for words
NOTE_FROM_BOARDS, NOTE_ROW_BOARDS, FOOT_BOARDS = 6.6, 3.0, 0.9
LETTER_PX = 7.0  # width of a letter of the small type, for breaking lines: DejaVu Sans, the widest we met
STRIP_PX = 60.0  # for the dots of one line
END_FROM_FT, END_FOOT_PX, END_MARGIN_PX = 40.0, 18.3, 34.0  # the last 20 ft, as a view of its own


class LanePaper:
    """The paper of one scene: a layer on it needs only what is drawn and how it looks.

    Parameters
    ----------
    scene : LaneScene
        Its hand turns the boards; simulated balls need room for their dots.
    is_end : bool, default False
        The last 20 ft instead of the whole lane.
    """

    def __init__(self, scene: LaneScene, is_end: bool = False) -> None:
        self.hand: Hand = scene["hand"]
        self.is_end = is_end
        self.from_ft = END_FROM_FT if is_end else 0.0
        self.foot_px = END_FOOT_PX if is_end else FOOT_PX
        self.left_ft = self.from_ft - END_MARGIN_PX / END_FOOT_PX if is_end else -APPROACH_FT
        self.strip_px = 2 * STRIP_PX if scene["played"]["path"] is not None else 0.0
        self.end_ft = self.deck_ft(scene["pit_behind_in"])
        self.top_boards = TOP_BOARDS + (ROW_BOARDS if scene["simulated_text"] else 0.0)
        self.width_px = round((self.end_ft - self.left_ft) * self.foot_px)
        self.n_letters = round(self.width_px / LETTER_PX)
        self.deck_lines = [
            (line["name"], text)
            for line in scene["deck"]
            for text in textwrap.wrap(deck_text(line), self.n_letters)
        ]
        """What is likely to stay, each line with the name of its line: now, next or none."""
        self.note_lines = self._note_lines(scene)
        n_lines = len(self.deck_lines) + len(self.note_lines)
        self.bottom_boards = NOTE_FROM_BOARDS + (n_lines - 1) * NOTE_ROW_BOARDS + FOOT_BOARDS
        across_boards = HIGH_EDGE_BOARD - LOW_EDGE_BOARD + self.top_boards + self.bottom_boards
        self.height_px = round(across_boards * BOARD_PX)

    def _note_lines(self, scene: LaneScene) -> list[str]:
        """Return what must be said below, in lines that the paper is wide enough for."""
        times = INCH_PX * 12 / self.foot_px
        stretch = (
            f"{'From 40' if self.is_end else 'Up'} to 60 ft a board is drawn {times:.0f} times too wide."
        )
        if not self.strip_px:
            return [scene["note"], stretch]
        note = " ".join(filter(None, [scene["sheet_text"], scene["note"], stretch]))
        return textwrap.wrap(note, self.n_letters)

    def deck_ft(self, behind_in: float) -> float:
        """Return where on the axis along something at the pins is drawn, from inches behind the head pin."""
        return round(HEAD_PIN_FT + (self.strip_px + (FRONT_IN + behind_in) * INCH_PX) / self.foot_px, 2)

    def dot_ft(self, past_px: float) -> float:
        """Return where on the axis along a dot is drawn, so far past the head-pin plane."""
        return round(HEAD_PIN_FT + past_px / self.foot_px, 2)

    def beyond(self, boards: float) -> float:
        """Return the board so far beyond the edge drawn on top; a negative number: below the lower edge."""
        is_high = (self.hand == "right") == (boards > 0)
        return HIGH_EDGE_BOARD + abs(boards) if is_high else LOW_EDGE_BOARD - abs(boards)

    def draw(self, mark: str, rows: Rows, **look: Any) -> Any:
        """Return one layer of marks; rows hold x (ft), y (board), and x2, y2 or text where needed.

        Points and words before this view are left out; what has a length is cut by the picture's edge.
        """
        along_ft = [self.left_ft, self.end_ft]
        across_board = [self.beyond(-self.bottom_boards), self.beyond(self.top_boards)]
        x = alt.X("x:Q", scale=alt.Scale(domain=along_ft, nice=False, zero=False), axis=None)
        y = alt.Y("y:Q", scale=alt.Scale(domain=across_board, nice=False, zero=False), axis=None)
        channels = {"line": {"order": "x:Q"}, "image": {"url": "url:N"}}.get(mark)
        drawn = [row for row in rows if mark not in ("point", "text") or row["x"] >= self.left_ft]
        cut = {"clip": True} if self.is_end else {}
        return layer(mark, drawn, x, y, channels, **{"opacity": 1, **cut, **look})

    def write(self, rows: Rows, **look: Any) -> Any:
        """Return one layer of words."""
        return self.draw("text", rows, **{"color": INK2, "fontSize": SMALL_PX, **look})

    def write_on_lane(self, rows: Rows, **look: Any) -> list[Any]:
        """Return words with a halo of lane colour, so that a line behind them does not cross them out."""
        halo = {**look, "stroke": WOOD, "strokeWidth": 4, "strokeJoin": "round"}
        return [self.write(rows, **halo), self.write(rows, **look)]
