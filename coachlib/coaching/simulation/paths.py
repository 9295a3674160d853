"""Where this bowler's ball goes on this oil: the ball as meant and twenty with the bowler's own scatter.

The release follows from line and bowler: laydown and launch from the straight line through laydown and
target (:mod:`coachlib.world.levers`), speed, revs and axis from the bowler. Lines of one session are
thrown with the same twenty draws, so that two of them differ by the move and nothing else. What nobody knows
is taken as usual and listed in :attr:`LinePaths.assumed`; without a pattern nothing is simulated.

That is the pattern sheet's word, for lessons and plans: it learns from no ball. What is believed after balls
were seen is thrown by :mod:`coachlib.coaching.belief.believed_balls` and has the same shape.

Valid for and not modelled: as in :mod:`coachlib.physics.motion`. The oil is as laid: wear is not simulated.
"""

import dataclasses
import functools

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.outcomes import Arrivals, PinOutcome, outcomes_of
from coachlib.coaching.simulation.what_if import joined_releases, meant_on_line
from coachlib.errors import raise_input_errors
from coachlib.physics.motion import simulate
from coachlib.physics.pins.carry_file import shipped_table
from coachlib.physics.scatter import scattered, standard_errors
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.oil_shape import USUAL_VOLUME_ML, with_typical_film
from coachlib.world.path import Path
from coachlib.world.usual import as_usual, throws_straight

N_BALLS = 20
USUAL_BALL = Ball(name="usual")
"""What is thrown where the ball is not known: a hybrid cover at 2000 grit (common practice, no source)."""


@dataclasses.dataclass(frozen=True, eq=False)
class LinePaths:
    """Where the ball goes on one line.

    Parameters
    ----------
    path : Path
        The first shot is the ball as meant, the other twenty carry the bowler's errors.
    pattern : OilPattern
        The oil it was thrown on.
    speed_mph : float
        Meant speed at the hand. [mph]
    assumed : tuple of (str, str)
        What is not known, and what it was taken for: ``("revs", "300 rpm")``.
    ball_weight_lb : float
        Weight of the ball thrown. [lb]
    n_told : int or None
        How many of the twenty the answer tells as strikes; None: as many as their own chances sum to.
    is_believed : bool
        Whether lanes and bowler are those believed after the balls seen, and not the pattern sheet's.
    """

    path: Path
    pattern: OilPattern
    speed_mph: float
    assumed: tuple[tuple[str, str], ...] = ()
    ball_weight_lb: float = USUAL_BALL.weight_lb
    n_told: int | None = None
    is_believed: bool = False

    def __post_init__(self) -> None:
        path = self.path
        for values in (
            path.path_board,
            path.path_time_s,
            path.arrival_board,
            path.breakpoint_ft,
            path.breakpoint_board,
        ):
            values.flags.writeable = False

    @functools.cached_property
    def outcomes(self) -> tuple[PinOutcome, ...]:
        """What each of the twenty does to the pins, see :mod:`coachlib.coaching.simulation.outcomes`."""
        path = self.path
        at_pins = (path.arrival_board[1:], path.entry_deg[1:], path.speed_at_pins_mph[1:])
        return outcomes_of(Arrivals(*at_pins, self.ball_weight_lb), self.n_told)

    @property
    def n_strikes(self) -> int:
        """How many of the twenty strike."""
        return sum(outcome.kind == "strike" for outcome in self.outcomes)

    @property
    def meant_board(self) -> NDArray[np.float32]:
        """Board of the ball as meant at each foot; NaN from where it is in the gutter [board]."""
        return self.path.path_board[:, 0]

    @property
    def meant_time_s(self) -> NDArray[np.float32]:
        """Time of the ball as meant since the foul line, at each foot; NaN as its board is [s]."""
        return self.path.path_time_s[:, 0]

    @property
    def hook_ft(self) -> float:
        """Where the ball as meant begins to hook; NaN if it never does, or in the gutter [ft]."""
        return float(self.path.hook_ft[0])

    @property
    def roll_ft(self) -> float:
        """Where the ball as meant begins to roll; NaN if it slips to the pins, or in the gutter [ft]."""
        return float(self.path.roll_ft[0])

    @property
    def balls_board(self) -> NDArray[np.float32]:
        """Boards of the twenty balls at each foot, shape (61, 20) [board]."""
        return self.path.path_board[:, 1:]

    @property
    def arrival_board(self) -> float:
        """Where the ball as meant reaches the head-pin plane; NaN if it does not [board]."""
        return float(self.path.arrival_board[0])

    @property
    def arrivals_board(self) -> NDArray[np.float64]:
        """Where the twenty balls reach the head-pin plane; NaN for a ball in the gutter [board]."""
        return self.path.arrival_board[1:]

    @property
    def breakpoint_ft(self) -> float:
        """Where the ball as meant is farthest out; NaN as :class:`coachlib.Path` says [ft]."""
        return float(self.path.breakpoint_ft[0])

    @property
    def breakpoint_board(self) -> float:
        """The board there [board]."""
        return float(self.path.breakpoint_board[0])


def line_paths(session: Session, line: Line) -> LinePaths:
    """Return where the ball of a session goes on a line, whether or not it is the one being played.

    Bowler, ball, pattern and seed count. Kept by content: the same question again costs nothing.

    Raises
    ------
    InputError
        If no pattern is known, its film can not be guessed, or the ball would be laid down beside the lane.
    ModelError
        If the ball stops before the pins.
    """
    if session.pattern is None:
        message = "pattern is None; expected an oil pattern to simulate on. Give one, e.g. house_41."
        raise_input_errors({"pattern": message})
    nobody = dataclasses.replace(session.bowler, name="", pain="")  # no person's words are kept below
    paths = _thrown(nobody, line, session.ball, session.pattern, session.seed)
    if session.phase == "fresh":
        return paths
    return dataclasses.replace(paths, assumed=(*paths.assumed, ("wear of the oil", "oil as laid")))


def known_film(pattern: OilPattern | None) -> OilPattern | None:
    """Return the pattern with its own or a usual film; None where nothing can be said of the film."""
    if pattern is None or (pattern.kind == "other" and not pattern.has_film):
        return None
    return _with_film(pattern)


def get_ready() -> None:
    """Load now what the first path and its leaves would otherwise have to wait for, about a second."""
    standard_errors(N_BALLS)
    _ = shipped_table().shares


@functools.lru_cache(maxsize=32)
def _with_film(pattern: OilPattern) -> OilPattern:
    return with_typical_film(pattern)


@functools.lru_cache(maxsize=256)
def _thrown(bowler: Bowler, line: Line, ball: Ball | None, pattern: OilPattern, seed: int) -> LinePaths:
    film, taken = _with_film(pattern), as_usual(bowler, ball)
    assumed = what_is_assumed(bowler, ball, pattern)
    meant = meant_on_line(taken, line)
    release = joined_releases([meant, scattered(meant, taken, N_BALLS, seed, line.target_ft)])
    path = simulate(release, ball or USUAL_BALL, film, bowler.hand)
    return LinePaths(path, film, float(meant.speed_mph), assumed, (ball or USUAL_BALL).weight_lb)


def what_is_assumed(
    bowler: Bowler, ball: Ball | None, pattern: OilPattern | None
) -> tuple[tuple[str, str], ...]:
    """Return what is not known and what it is taken for, most telling first."""
    usual = as_usual(bowler, ball)
    rotation = "0° (a straight ball)" if throws_straight(bowler, ball) else f"{usual.axis_rotation_deg:g}°"
    taken = {
        ("speed", f"{usual.speed_mph:g} mph"): bowler.speed_mph is None,
        ("revs", f"{round((usual.rev_rate_rpm or 0.0) / 10) * 10:g} rpm"): bowler.rev_rate_rpm is None,
        ("rotation", rotation): bowler.axis_rotation_deg is None,
        ("tilt", f"{usual.axis_tilt_deg:g}°"): bowler.axis_tilt_deg is None,
        ("ball", f"a {USUAL_BALL.cover} at {USUAL_BALL.grit:g} grit"): ball is None,
        ("pattern", "a usual house pattern of 40 ft"): pattern is None,
    }
    if pattern is not None and not pattern.has_film:
        kind = "house" if pattern.kind == "other" else pattern.kind
        taken["film", f"{USUAL_VOLUME_ML:g} mL as on a usual {kind} pattern"] = True
    return tuple(one for one, is_unknown in taken.items() if is_unknown)
