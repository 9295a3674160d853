"""What an arrival leaves: chances from the shipped table of simulated racks.

The level of carry is uncertain by about 10 points in 100: the pins' contact numbers are not published, and
two were tuned. One factor therefore brings the carry of a professional's pocket hits to the televised 40 of
54. It multiplies every strike chance alike, so that no comparison of two arrivals changes direction with it,
and can be switched off with ``level_on=False``.
"""

from collections.abc import Iterator, Mapping
from typing import overload

import numpy as np
from numpy.typing import ArrayLike, NDArray

from coachlib.errors import checked_number
from coachlib.physics.pins.carry_file import shipped_table
from coachlib.physics.pins.carry_table import CarryTable, are_inside, table_strike_chances, weighted_shares
from coachlib.world.array_field import check_range, checked_columns
from coachlib.world.path import Path

STRIKE: frozenset[int] = frozenset()
LIMITS = {
    "arrival_board": (0.0, 40.0, "boards", "Count at the head pin from the bowler's own side; pocket 17.5."),
    "entry_deg": (-15.0, 20.0, "deg", "Positive is towards the inside."),
    "speed_mph": (1.0, 40.0, "mph", "Give the speed at the pins. If this is km/h, use units.kmh_to_mph."),
    "ball_weight_lb": (6.0, 16.0, "lb", "If this is kg, convert it with units.kg_to_lb."),
}


class LeaveProbs(Mapping[frozenset[int], float]):
    """The chance of every leave, the likeliest first; a strike is the empty set.

    Attributes
    ----------
    in_range : bool
        False where the arrival lies outside the table and its edge was read instead.
    """

    def __init__(self, chances: Mapping[frozenset[int], float], in_range: bool) -> None:
        self._chances = dict(sorted(chances.items(), key=lambda item: -item[1]))
        self.in_range = in_range

    def __getitem__(self, leave: frozenset[int]) -> float:
        return self._chances[leave]

    def __iter__(self) -> Iterator[frozenset[int]]:
        return iter(self._chances)

    def __len__(self) -> int:
        return len(self._chances)

    def __repr__(self) -> str:
        likely = ", ".join(
            f"{'-'.join(map(str, sorted(leave))) or 'strike'}: {chance:.2f}"
            for leave, chance in list(self._chances.items())[:5]
        )
        return f"LeaveProbs({likely}, … {len(self)} leaves, in_range={self.in_range})"

    @property
    def strike_prob(self) -> float:
        """The chance of a strike."""
        return self._chances.get(STRIKE, 0.0)


@overload
def leave_probs(
    arrival_board: float,
    entry_deg: float,
    speed_mph: float,
    ball_weight_lb: float = 15.0,
    *,
    level_on: bool = True,
    table: CarryTable | None = None,
) -> LeaveProbs: ...


@overload
def leave_probs(
    arrival_board: ArrayLike,
    entry_deg: ArrayLike,
    speed_mph: ArrayLike,
    ball_weight_lb: ArrayLike = 15.0,
    *,
    level_on: bool = True,
    table: CarryTable | None = None,
) -> LeaveProbs | tuple[LeaveProbs, ...]: ...


def leave_probs(
    arrival_board: ArrayLike,
    entry_deg: ArrayLike,
    speed_mph: ArrayLike,
    ball_weight_lb: ArrayLike = 15.0,
    *,
    level_on: bool = True,
    table: CarryTable | None = None,
) -> LeaveProbs | tuple[LeaveProbs, ...]:
    """Return the chance of every leave for one arrival, or for each of many.

    Parameters
    ----------
    arrival_board : float or array
        Where the ball's path crosses the head-pin plane, 60 ft, in the own frame. [board]
    entry_deg : float or array
        Its angle there, positive towards the inside. [deg]
    speed_mph : float or array
        At the pins. [mph]
    ball_weight_lb : float or array
        Weight of the ball. [lb]
    level_on : bool
        Whether the tuned level factor is applied; True by default.
    table : CarryTable, optional
        Another table than the shipped one.

    Returns
    -------
    LeaveProbs, or tuple of them
        Sums to 1; ``in_range`` is False where the table's edge was read. For arrays one entry an arrival.

    Raises
    ------
    InputError
        If a value is no number or off the lane.

    Notes
    -----
    Valid for: a ball in full roll, 8 to 32 boards, -2 to 8 deg, 10 to 22 mph, 8 to 16 lb. Assumes rigid pins
    in a regulation pit. Not modelled: the sweep bar, worn pins, a ball that still skids.
    """
    points, shape = checked_points(arrival_board, entry_deg, speed_mph, ball_weight_lb)
    table = table or shipped_table()
    shares = _leave_shares(table, points, level_on)
    found = tuple(
        LeaveProbs(dict(zip(table.leave_sets, row.tolist(), strict=True)), bool(is_inside))
        for row, is_inside in zip(shares, are_inside(points), strict=True)
    )
    return found if shape else found[0]


def strike_prob(
    arrival_board: ArrayLike,
    entry_deg: ArrayLike,
    speed_mph: ArrayLike,
    ball_weight_lb: ArrayLike = 15.0,
    *,
    level_on: bool = True,
    table: CarryTable | None = None,
) -> NDArray[np.float64]:
    """Return the strike chance of many arrivals, given as in :func:`leave_probs` in arrays of one shape.

    Returns
    -------
    ndarray
        Of the arrays' shape; outside the table the chance at its edge.

    Raises
    ------
    InputError
        If a value is no number or off the lane.
    """
    points, shape = checked_points(arrival_board, entry_deg, speed_mph, ball_weight_lb)
    table = table or shipped_table()
    chances = table_strike_chances(table, points) * (table.level if level_on else 1.0)
    return chances.reshape(shape)


def strike_prob_of(path: Path, ball_weight_lb: float) -> NDArray[np.float64]:
    """Return the chance of a strike of each shot of a path, shape (n_shots,); 0 for a ball in the gutter.

    Parameters
    ----------
    path : Path
        Where the balls went.
    ball_weight_lb : float
        Weight of the ball. [lb]
    """
    chances = np.zeros(path.n_shots)
    arrived = ~path.gutter
    if arrived.any():
        board = np.clip(path.arrival_board[arrived], *LIMITS["arrival_board"][:2])
        entry = np.clip(path.entry_deg[arrived], *LIMITS["entry_deg"][:2])
        chances[arrived] = strike_prob(board, entry, path.speed_at_pins_mph[arrived], ball_weight_lb)
    return chances


def mean_leave_probs(
    arrival_board: ArrayLike,
    entry_deg: ArrayLike,
    speed_mph: ArrayLike,
    ball_weight_lb: ArrayLike = 15.0,
    *,
    table: CarryTable | None = None,
) -> tuple[LeaveProbs, NDArray[np.bool_]]:
    """Return the chance of every leave, averaged over those of many balls that arrive inside the table.

    Parameters
    ----------
    arrival_board, entry_deg, speed_mph, ball_weight_lb : array_like
        As in :func:`strike_prob`, but none is refused: nothing is said of a ball outside the table.
    table
        As in :func:`leave_probs`.

    Returns
    -------
    LeaveProbs, ndarray of bool
        The mean, empty where no ball is inside; and which balls are.
    """
    columns = np.broadcast_arrays(arrival_board, entry_deg, speed_mph, ball_weight_lb)
    points = np.stack([np.asarray(column, dtype=float).ravel() for column in columns], axis=1)
    points = np.nan_to_num(points, nan=-1000.0)  # a ball that did not arrive is outside
    table = table or shipped_table()
    is_inside = are_inside(points)
    if not is_inside.any():
        return LeaveProbs({}, False), is_inside
    shares = _leave_shares(table, points[is_inside])
    mean = dict(zip(table.leave_sets, shares.mean(axis=0).tolist(), strict=True))
    return LeaveProbs(mean, bool(is_inside.all())), is_inside


def sample_leaves(
    arrival_board: ArrayLike,
    entry_deg: ArrayLike,
    speed_mph: ArrayLike,
    ball_weight_lb: ArrayLike,
    uniforms: ArrayLike,
    *,
    table: CarryTable | None = None,
) -> NDArray[np.bool_]:
    """Return what each of many balls leaves, drawn with given uniform numbers.

    The strike comes first: a ball strikes exactly when its uniform number lies below its strike chance, so
    that moves thrown with the same numbers are compared fairly.

    Parameters
    ----------
    arrival_board, entry_deg, speed_mph, ball_weight_lb, uniforms : array_like
        As in :func:`strike_prob`, and one number from 0 to 1 a ball; all of one shape.
    table
        As in :func:`leave_probs`.

    Returns
    -------
    ndarray of bool
        The pins left, of the arrays' shape and ten more: pins 1 to 10.

    Raises
    ------
    InputError
        If a value is no number, off the lane, or a uniform number not from 0 to 1.
    """
    arrays = np.broadcast_arrays(arrival_board, entry_deg, speed_mph, ball_weight_lb, uniforms)
    points, shape = checked_points(*arrays[:4])
    draws = np.asarray(arrays[4], dtype=float).ravel()
    check_range("uniforms", draws, 0.0, 1.0, "", "Draw them with a numpy Generator.")
    table = table or shipped_table()
    which = np.empty(len(points), dtype=np.int64)
    for first in range(0, len(points), 2048):
        rows = slice(first, first + 2048)
        shares = _at_level(weighted_shares(table.shares, points[rows]), table.level)
        # The last sum may round to just below 1: whoever draws above it gets the last leave.
        passed = np.cumsum(shares, axis=1)[:, :-1] <= draws[rows, None]
        which[rows] = passed.sum(axis=1)
    return table.standing[which].reshape(*shape, 10)


def checked_points(*columns: ArrayLike) -> tuple[NDArray[np.float64], tuple[int, ...]]:
    """Return arrivals as an array of shape (n, 4) and the shape they came in.

    Raises
    ------
    InputError
        If a value is no number, off the lane or out of range, or the shapes do not fit.
    """
    for name, column in zip(LIMITS, columns, strict=True):
        if np.ndim(column) == 0 and not isinstance(column, np.ndarray):
            checked_number(name, column, *LIMITS[name])
    return checked_columns(LIMITS, columns)


def _leave_shares(
    table: CarryTable, points: NDArray[np.float64], level_on: bool = True
) -> NDArray[np.float64]:
    """Return the chance of each leave, shape (n, n_leaves), at arrivals that were checked."""
    shares = weighted_shares(table.shares, points)
    return _at_level(shares / shares.sum(axis=1, keepdims=True), table.level if level_on else 1.0)


def _at_level(shares: NDArray[np.float64], level: float) -> NDArray[np.float64]:
    """Return rows of chances with the strike's scaled by the level and the rest filling up to 1."""
    strike = shares[:, :1]
    rest = np.maximum(shares[:, 1:].sum(axis=1, keepdims=True), 1e-12)
    return np.hstack([level * strike, shares[:, 1:] * ((1.0 - level * strike) / rest)])
