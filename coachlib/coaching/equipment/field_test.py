"""A field test of two balls: what logged shots can tell apart, and how many shots would.

Arrivals are compared by means with Welch's interval, strikes by Fisher's exact test. A dozen shots seldom
tells two balls apart; the sheet says so, and how many shots would. Balls are to be thrown in turn: the
lane changes while one throws, and whoever throws all of one ball first has measured the lane.

Not corrected for: misses of the target, which make the spread; a drift of the lane within a turn.

References
----------
.. [1] B. L. Welch, "The generalization of Student's problem when several different population variances are
   involved", Biometrika 34 (1947) 28-35; in scipy.stats.
.. [2] R. A. Fisher's exact test; in scipy.stats. Number of shots: the usual two-sample formula with 5 %
   error and 80 % power, any textbook of statistics.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.session.lane_history import lane_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.errors import InputError, checked_number, checked_thing

LEAST_SHOTS = 3
SURE_FRAC, POWER_FRAC = 0.95, 0.80
WORTH_BOARDS = 1.0
"""A difference of arrival that a coach would move for (our choice) [boards]."""

MOST_SHOTS = 100_000


@dataclasses.dataclass(frozen=True)
class TestedBall:
    """What was logged with one ball.

    Parameters
    ----------
    name : str
        The ball.
    n_arrivals : int
        First balls whose arrival was seen.
    arrival_board, arrival_sd_boards : float
        Their mean and spread. [board], [boards]
    n_leaves, n_strikes : int
        First balls whose pins were seen, and strikes among them.
    """

    name: str
    n_arrivals: int
    arrival_board: float
    arrival_sd_boards: float
    n_leaves: int
    n_strikes: int


@dataclasses.dataclass(frozen=True)
class BallTest:
    """What the shots with two balls can tell.

    Parameters
    ----------
    first, second : TestedBall
        In the order of their first shots.
    difference_boards : float
        Arrival of the second less the first, + inside. [boards]
    low_boards, high_boards : float
        Where the true difference lies in 95 of 100 such tests. [boards]
    n_each_needed : int
        Shots with each ball that would show a difference of one board, 4 times in 5.
    strike_prob_value : float or None
        How often strikes as different as these come from equal balls; None where pins were not seen.
    n_each_for_strikes : int or None
        Shots with each ball that would show the strikes' difference as seen, 4 times in 5; None where
        none was seen.
    is_in_turn : bool
        Whether the balls were thrown in turn; else the lane may be what differs.
    """

    first: TestedBall
    second: TestedBall
    difference_boards: float
    low_boards: float
    high_boards: float
    n_each_needed: int
    strike_prob_value: float | None
    n_each_for_strikes: int | None
    is_in_turn: bool

    @property
    def is_told_apart(self) -> bool:
        """Whether the arrivals differ by more than chance."""
        return self.low_boards > 0.0 or self.high_boards < 0.0


def field_test(session: Session) -> BallTest:
    """Return what a session's shots with two balls on the present line and lane can tell.

    Parameters
    ----------
    session : Session
        Shots for a spare and on other lines or lanes do not count.

    Raises
    ------
    InputError
        If not exactly two balls were thrown there, or one of them fewer than three times with the arrival
        seen.
    """
    on_lane = lane_balls(checked_thing("session", session, Session))
    shots = [shot for shot in on_lane if shot.line == session.line and shot.ball is not None]
    order = [shot.ball.name for shot in shots if shot.ball is not None]
    names = list(dict.fromkeys(order))
    if len(names) != 2:
        known = ", ".join(names) or "none"
        message = f"session has shots with {len(names)} known balls on this line and lane: {known}; expected "
        raise InputError(message + "2. Throw both from the same line, and change the ball in the session.")
    places = [[place for place, name in enumerate(order) if name == one] for one in names]
    by_name = zip(names, places, strict=True)
    tested = [_tested(name, [shots[place] for place in some]) for name, some in by_name]
    balls, arrivals = zip(*tested, strict=True)
    apart = abs(float(np.mean(places[0])) - float(np.mean(places[1])))
    pooled_sd = np.sqrt(np.mean([boards.var(ddof=1) for boards in arrivals]))
    low, high = _interval(*arrivals)
    return BallTest(
        first=balls[0],
        second=balls[1],
        difference_boards=balls[1].arrival_board - balls[0].arrival_board,
        low_boards=low,
        high_boards=high,
        n_each_needed=shots_needed(float(pooled_sd), WORTH_BOARDS),
        strike_prob_value=_strike_chance(*balls),
        n_each_for_strikes=_shots_for_strikes(*balls),
        is_in_turn=apart <= 0.2 * len(order),  # both balls' mean place in the order is about the same
    )


def shots_needed(sd_boards: float, difference_boards: float) -> int:
    """Return how many shots with each ball show a difference of arrival, 4 times in 5.

    Parameters
    ----------
    sd_boards : float
        Spread of the arrivals of one ball. [boards]
    difference_boards : float
        What is to be shown. [boards]
    """
    sd_boards = checked_number("sd_boards", sd_boards, 0, 40, "boards")
    difference_boards = checked_number("difference_boards", difference_boards, 0.01, 40, "boards")
    return _capped(2.0 * (_both_normals() * sd_boards / difference_boards) ** 2)


def order_of_shots(n_each: int, names: Sequence[str], seed: int = 0) -> tuple[str, ...]:
    """Return the order in which to throw two balls: pairs, in each pair at random which comes first."""
    n_each = round(checked_number("n_each", n_each, 1, 200, "shots"))
    if len(names) != 2:
        message = f"names has {len(names)} names; expected 2. Test two balls at a time."
        raise InputError(message, {"names": message})
    swap = np.random.default_rng(seed).random(n_each) < 0.5
    return tuple(name for is_swapped in swap for name in (names[::-1] if is_swapped else names))


def _tested(name: str, shots: Sequence[Observed]) -> tuple[TestedBall, NDArray[np.float64]]:
    """Return what was logged with one ball, and its arrivals."""
    boards = [board for ball in shots if (board := ball.shot.arrival_board) is not None]
    if len(boards) < LEAST_SHOTS:
        message = (
            f"{name} has {len(boards)} shots with an arrival on this line; expected at least {LEAST_SHOTS}. "
        )
        raise InputError(message + "Throw more and note where they arrive.")
    leaves = [ball.shot.leave for ball in shots if ball.shot.leave is not None]
    arrivals = np.array(boards, dtype=float)
    mean, sd = float(arrivals.mean()), float(arrivals.std(ddof=1))
    return TestedBall(name, len(boards), mean, sd, len(leaves), leaves.count(())), arrivals


def _interval(first: NDArray[np.float64], second: NDArray[np.float64]) -> tuple[float, float]:
    """Return Welch's interval for second less first; the difference itself where nothing spreads."""
    from scipy.stats import ttest_ind

    if first.std() == second.std() == 0.0:
        difference = float(second.mean() - first.mean())
        return difference, difference
    found = ttest_ind(second, first, equal_var=False).confidence_interval(SURE_FRAC)
    return float(found.low), float(found.high)


def _strike_chance(first: TestedBall, second: TestedBall) -> float | None:
    from scipy.stats import fisher_exact

    if not first.n_leaves or not second.n_leaves:
        return None
    counts = [[one.n_strikes, one.n_leaves - one.n_strikes] for one in (first, second)]
    return float(fisher_exact(counts).pvalue)


def _shots_for_strikes(first: TestedBall, second: TestedBall) -> int | None:
    if not first.n_leaves or not second.n_leaves:
        return None
    one, other = first.n_strikes / first.n_leaves, second.n_strikes / second.n_leaves
    if one == other:
        return None
    spread = one * (1.0 - one) + other * (1.0 - other)
    return _capped(_both_normals() ** 2 * spread / (one - other) ** 2)


def _both_normals() -> float:
    """Return the two normal quantiles of error and power together: 1.96 and 0.84."""
    from scipy.special import ndtri

    return float(ndtri(0.5 + SURE_FRAC / 2.0) + ndtri(POWER_FRAC))


def _capped(n_shots: float) -> int:
    return int(min(max(LEAST_SHOTS, np.ceil(n_shots)), MOST_SHOTS))
