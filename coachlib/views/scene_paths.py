"""Simulated balls as numbers and short words for a scene, and what the picture must say about them."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.callouts import board_text, side_text
from coachlib.coaching.deck import RACK_WORDS, deck_words, likely_leaves
from coachlib.coaching.paths import N_BALLS, LinePaths, known_film, line_paths
from coachlib.errors import InputError, ModelError
from coachlib.views.oil_tint import oil_image, oil_to_ft
from coachlib.views.scene_parts import Breakpoint, DeckLine, DrawnPath, OilTint
from coachlib.world.hand import Hand
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern

if TYPE_CHECKING:
    from coachlib.coaching.session import Session

DOT_BOARDS = 0.6
"""Arrivals within so many boards stand in one row of dots."""


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


def drawn_path(paths: LinePaths) -> DrawnPath:
    """Return the balls of one line, ready to be drawn."""
    arrivals, meant = paths.arrivals_board, paths.arrival_board
    arrived = arrivals[np.isfinite(arrivals)]
    return {
        "meant_board": _on_lane(paths.meant_board),
        "balls_board": [_on_lane(ball) for ball in paths.balls_board.T],
        "dots": _dots(arrived),
        "n_lost": N_BALLS - len(arrived),
        "arrival_board": rounded(meant) if np.isfinite(meant) else None,
        "arrival_text": half_text(meant) if np.isfinite(meant) else "",
        "breakpoint": _breakpoint(paths),
    }


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
    if len(arrivals) < 2 or not np.isfinite(arrivals).all():
        return ""
    return shift_text(round(2 * (arrivals[1] - arrivals[0])) / 2, hand)


def drawn_deck(thrown: Sequence[LinePaths], hand: Hand) -> list[DeckLine]:
    """Return what the balls of each line are likely to leave: the simulated rack's word, in twenties."""
    names = ("now", "then") if len(thrown) > 1 else ("",)
    heads = (f"{RACK_WORDS}, of {N_BALLS} such balls:", "")
    told = [deck_words(likely_leaves(paths), hand) for paths in thrown]
    lines = zip(heads, names, told, strict=False)  # no line where nothing is thrown
    return [{"head": head, "name": name, "text": text} for head, name, text in lines]


def deck_text(line: DeckLine) -> str:
    """Return a line of the deck as one text."""
    return " ".join(filter(None, (line["head"], line["name"], line["text"])))


def half_text(board: float) -> str:
    """Return a simulated board to the half that can be told apart: ``17½``."""
    return board_text(round(2 * board) / 2)


def simulated_note(thrown: Sequence[LinePaths]) -> str:
    """Return what a picture of simulated balls must say: what is drawn, for what, and what is lost."""
    is_known = "speed" not in dict(thrown[0].assumed)
    speed = f" at {thrown[0].speed_mph:.1f}".removesuffix(".0") + " mph" if is_known else ""
    parts = [
        f"Simulated, not measured: each thin line and each dot is one ball, {N_BALLS} a line{speed}; "
        "the thick line is the ball as meant, the dotted one its aim.",
        *_assumed_words(thrown[0].assumed),
        *_lost_words([int(np.isnan(paths.arrivals_board).sum()) for paths in thrown]),
    ]
    return " ".join(parts)


def path_words(path: DrawnPath) -> str:
    """Return one simulated line in words, for who cannot see it."""
    turn = path["breakpoint"]
    parts = [f"{turn['text']} at {turn['at_ft']:.0f} ft"] if turn else []
    arrival = path["arrival_text"]
    parts.append(f"arrives at {arrival}" if arrival else "ends in the gutter")
    return f"simulated, {', '.join(parts)}"


def rounded(number: float) -> float:
    """Return a number to .01, so that another processor's last digit changes no picture; never -0.0."""
    return round(float(number), 2) + 0.0


def _assumed_words(assumed: Sequence[tuple[str, str]]) -> list[str]:
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


def _dots(arrivals_board: NDArray[np.float64]) -> list[list[float]]:
    """Return where each arrival's dot stands: a board, and its place in the row there."""
    rows = np.round(np.sort(arrivals_board) / DOT_BOARDS).astype(int).tolist()
    return [[rounded(row * DOT_BOARDS), float(rows[:i].count(row))] for i, row in enumerate(rows)]


def _breakpoint(paths: LinePaths) -> Breakpoint | None:
    at_ft, board = paths.breakpoint_ft, paths.breakpoint_board
    if not np.isfinite(at_ft):
        return None
    return {"at_ft": rounded(at_ft), "board": rounded(board), "text": f"breakpoint {half_text(board)}"}
