"""Simulated balls as numbers and short words for a scene, and what the picture must say about them."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.simulation.leave_forecast import likely_leaves, standing_text
from coachlib.coaching.simulation.outcomes import N_TWENTY
from coachlib.coaching.simulation.paths import N_BALLS, LinePaths, known_film, line_paths
from coachlib.coaching.wording.arrival_words import arrival_text, contact_in, half_text, is_at_head_pin
from coachlib.coaching.wording.callouts import side_text
from coachlib.errors import InputError, ModelError
from coachlib.views.lane.oil_tint import oil_image, oil_to_ft
from coachlib.views.lane.scene_parts import Breakpoint, DeckLine, DrawnPath, OilTint
from coachlib.world.hand import Hand
from coachlib.world.lane import HIGH_EDGE_BOARD, LOW_EDGE_BOARD, POCKET_BOARD
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.parsing import board_text

if TYPE_CHECKING:
    from coachlib.coaching.session.session import Session

DOT_BOARDS = 1.4
"""Arrivals within so many boards stand in one row of dots; the middle row is the pocket."""

NAMES = ("now", "next")
_LOW_ROW = -int((POCKET_BOARD - LOW_EDGE_BOARD) / DOT_BOARDS)
_HIGH_ROW = int((HIGH_EDGE_BOARD - POCKET_BOARD) / DOT_BOARDS)
BELIEVED = "Simulated on likely lanes, with this bowler’s own misses; the thick line is their middle."
"""The caption of balls drawn from what is believed."""

OTHERS_HEAD = "Balls that do not strike, simulated:"


def thrown_on(session: "Session", lines: Sequence[Line]) -> tuple[list[LinePaths], str]:
    """Return the balls of a session on some lines, and why there are none.

    Parameters
    ----------
    session : Session
        Without a pattern there are none, and no reason needs to be told.
    lines : sequence of Line
        Either all of them get balls or none, so that a picture never mixes two kinds of line.

    Returns
    -------
    list of LinePaths, str
        One entry a line and an empty text, or no entry and the reason.
    """
    if session.pattern is None:
        return [], ""
    try:
        return [line_paths(session, line) for line in lines], ""
    except (InputError, ModelError) as error:
        return [], str(error)


def drawn_paths(thrown: Sequence[LinePaths]) -> list[DrawnPath]:
    """Return the balls of one line or two, ready to be drawn."""
    n_lines = len(thrown)
    return [drawn_path(paths, _count_text(paths.n_strikes, i, n_lines)) for i, paths in enumerate(thrown)]


def drawn_path(paths: LinePaths, count_text: str = "") -> DrawnPath:
    """Return the balls of one line, ready to be drawn; `count_text` tells how many of them strike."""
    arrivals, meant = paths.arrivals_board, paths.arrival_board
    return {
        "meant_board": _on_lane(paths.meant_board),
        "balls_board": [_on_lane(ball) for ball in paths.balls_board.T],
        "dots": _dots(arrivals, [outcome.kind == "strike" for outcome in paths.outcomes]),
        "n_lost": N_BALLS - int(np.isfinite(arrivals).sum()),
        "n_strikes": paths.n_strikes,
        "count_text": count_text,
        "contact": [rounded(meant), rounded(contact_in(meant))] if is_at_head_pin(meant) else None,
        "arrival_text": arrival_text(meant),
        "breakpoint": _breakpoint(paths),
    }


def _count_text(n_strikes: int, number: int, n_lines: int) -> str:
    """Return how many of twenty strike, as the label of a column of dots: the last one says of how many."""
    name = f"{NAMES[number]} " if n_lines > 1 else ""
    return f"{name}{n_strikes}{f' of {N_TWENTY}' if number == n_lines - 1 else ''}"


def drawn_oil(pattern: OilPattern | None) -> OilTint | None:
    """Return the film as a picture; None where nothing is known of it."""
    film = known_film(pattern)
    return None if film is None else {"image": oil_image(film), "to_ft": rounded(oil_to_ft(film))}


def shift_text(shift_boards: float, hand: Hand) -> str:
    """Return a shift as the bowler sees it: ``2 left``, ``½ right``, or ``same`` below .05 board."""
    if abs(shift_boards) < 0.05:
        return "same"
    return f"{board_text(abs(shift_boards))} {side_text(shift_boards, hand)}"


def simulated_shift_text(thrown: Sequence[LinePaths], hand: Hand) -> str:
    """Return how far the ball as meant arrives from the one of the first line, to half a board."""
    arrivals = [paths.arrival_board for paths in thrown]
    if len(arrivals) < 2 or not all(map(is_at_head_pin, arrivals)):
        return ""
    return shift_text(round(2 * (arrivals[1] - arrivals[0])) / 2, hand)


def drawn_deck(thrown: Sequence[LinePaths], hand: Hand) -> list[DeckLine]:
    """Return what the drawn balls of each line leave that do not strike."""
    names = NAMES if len(thrown) > 1 else ("",)
    told = [standing_text(likely_leaves(paths), hand) for paths in thrown]
    lines = zip((OTHERS_HEAD, ""), names, told, strict=False)  # no line where nothing is thrown
    return [{"head": head, "name": name, "text": text} for head, name, text in lines]


def deck_text(line: DeckLine) -> str:
    """Return a line of the deck as one text."""
    return " ".join(filter(None, (line["head"], line["name"], line["text"])))


def simulated_note(thrown: Sequence[LinePaths]) -> str:
    """Return what a picture of balls thrown on the oil sheet must say: what is drawn, and what is lost."""
    is_known = "speed" not in dict(thrown[0].assumed)
    speed = f" at {thrown[0].speed_mph:.1f}".removesuffix(".0") + " mph" if is_known else ""
    parts = [
        f"Simulated on the oil sheet, not on balls seen: each thin line and each dot is one ball, "
        f"{N_BALLS} a line{speed}; the thick line is a good shot, the dotted one its aim.",
        *assumed_words(thrown[0].assumed),
        *_lost_words([int(np.isnan(paths.arrivals_board).sum()) for paths in thrown]),
    ]
    return " ".join(parts)


def path_words(path: DrawnPath) -> str:
    """Return one simulated line in words, for who cannot see it."""
    turn = path["breakpoint"]
    parts = [f"{turn['text']} at {turn['at_ft']:.0f} ft"] if turn else []
    parts.append(f"{'arrives' if path['contact'] else 'ends'} {path['arrival_text']}")
    parts.append(f"{path['n_strikes']} of {N_BALLS} strike")
    return f"simulated, {', '.join(parts)}"


def rounded(number: float) -> float:
    """Return a number to .01, so that another processor's last digit changes no picture; never -0.0."""
    return round(float(number), 2) + 0.0


def assumed_words(assumed: Sequence[tuple[str, str]]) -> list[str]:
    """Return what is unknown and what it was taken for, in one sentence."""
    if not assumed:
        return []
    unknown, taken = ([pair[i] for pair in assumed] for i in (0, 1))
    return [f"{_listed(unknown).capitalize()} unknown: drawn for {_listed(taken)}."]


def _lost_words(n_lost: Sequence[int]) -> list[str]:
    if not any(n_lost):
        return []
    if len(n_lost) == 1:
        return [f"Into the gutter: {n_lost[0]} of {N_BALLS}."]
    played, following = n_lost
    return [f"Into the gutter: {played} of {N_BALLS} on the line played, {following} on the next."]


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _on_lane(boards: NDArray[np.float32]) -> list[float]:
    """Return a path's boards, one a foot, up to where the ball left the lane."""
    return [rounded(board) for board in boards[np.isfinite(boards)].tolist()]


def _dots(arrivals_board: NDArray[np.float64], strikes: Sequence[bool]) -> list[list[float]]:
    """Return where each arrival's dot stands: a board, its place in the row there, and whether it strikes.

    Strikes come first in their row; every row's middle lies on the lane.
    """
    arrived = np.flatnonzero(np.isfinite(arrivals_board)).tolist()
    placed = [
        (
            min(max(round((float(arrivals_board[i]) - POCKET_BOARD) / DOT_BOARDS), _LOW_ROW), _HIGH_ROW),
            not strikes[i],
        )
        for i in arrived
    ]
    rows = sorted(placed)
    ranks = [sum(other[0] == row[0] for other in rows[:i]) for i, row in enumerate(rows)]
    return [
        [rounded(POCKET_BOARD + row * DOT_BOARDS), float(rank), float(not is_left)]
        for (row, is_left), rank in zip(rows, ranks, strict=True)
    ]


def _breakpoint(paths: LinePaths) -> Breakpoint | None:
    at_ft, board = paths.breakpoint_ft, paths.breakpoint_board
    if not np.isfinite(at_ft):
        return None
    return {"at_ft": rounded(at_ft), "board": rounded(board), "text": f"breakpoint {half_text(board)}"}
