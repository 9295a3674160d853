"""The march down the lane: one batched kernel for one shot or a million.

The ball is rigid, its inertia the same about every axis, its friction Coulomb's: the force points against
the slip of the contact point, and that direction never changes while the ball slides. On a step with
constant friction the path is therefore an exact parabola. A step looks the film up at its own middle, so
that the march is of second order.

With `W` the integral of the friction's acceleration over time, everything along the slide is a function of
it: velocity ``v = v0 - u W`` and slip ``|u0| - (1 + 1/kappa) W``. So "the heading has turned by one degree",
"the ball is farthest out" and "the ball rolls" are three values of `W` that are known before the ball moves;
a step compares `W` with the next of them and works only on the few shots that just passed it. A rolling ball
is the same formula with its own heading as direction and the rolling resistance as friction, so no step asks
which shots roll.

Layout: one contiguous array a quantity, shots in chunks that fit the processor's cache, everything in place.
Internally accelerations and times carry factors of 2 and 1/2 that would otherwise cost a pass each.
"""

import dataclasses
import math

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import ModelError
from coachlib.physics.friction import Grip
from coachlib.physics.kinematics import Floats, Ground, Landed, Launch
from coachlib.units import FT_M

CHUNK = 16384
"""Most shots that march together; smaller chunks cost more, see `make bench`, motion_chunk."""

_APART = 72
"""Unused numbers between two arrays, so that the cache does not put both into the same places."""

HOOK_RAD = np.radians(1.0)
"""The hook begins where the heading has turned this far from the launch (our definition) [rad]."""


def march(launch: Launch, ground: Ground, grip: Grip, row_every: int = 0, chunk: int = CHUNK) -> Landed:
    """March every shot over the ground.

    Parameters
    ----------
    launch : Launch
        The shots.
    ground : Ground
        The film.
    grip : Grip
        Friction of this ball.
    row_every : int, default 0
        Keep place across and time at every so-many-th edge; 0 keeps none.
    chunk : int
        Shots that march together; changes the speed, not the result.

    Raises
    ------
    ModelError
        If a shot stops before the last edge.
    """
    n_shots, n_steps = launch.across_m.size, len(ground.edges_m) - 1
    shape = (n_steps // row_every + 1 if row_every else 0, n_shots)
    landed = Landed(
        **{name: np.full(n_shots, np.nan) for name in _RESULTS},
        rows_m=np.empty(shape, dtype=np.float32),
        rows_s=np.empty(shape, dtype=np.float32),
    )
    table = _Table(ground, grip)
    size = math.ceil(n_shots / math.ceil(n_shots / chunk))  # of one size: a small rest costs like a full one
    work = _Work(size)
    for first in range(0, n_shots, size):
        _March(launch, landed, slice(first, min(first + size, n_shots)), table, work).run(row_every)
    if not np.isfinite(landed.time_s).all():
        shot = int(np.flatnonzero(~np.isfinite(landed.time_s))[0])
        message = (
            f"shot {shot} with {launch.along_mps[shot]:g} m/s at the foul line stopped before "
            f"{ground.edges_m[-1] / FT_M:.1f} ft; expected a ball that reaches the pins. Throw it faster."
        )
        raise ModelError(message)
    return landed


_RESULTS = tuple(field.name for field in dataclasses.fields(Landed) if not field.name.startswith("rows"))


class _Work:
    """The buffers of one chunk, made once."""

    def __init__(self, size: int) -> None:
        self.floats = np.empty((len(_March.__annotations__), size + _APART))[:, :size]
        self.whole = np.empty(size, dtype=np.intp)
        self.flag = np.empty(size, dtype=bool)


class _Table:
    """Ground and grip, rewritten as what a step multiplies and adds."""

    def __init__(self, ground: Ground, grip: Grip) -> None:
        film = ground.film_um / grip.half_film_um
        self.slope = np.zeros_like(film)
        self.slope[:, :-1] = np.diff(film, axis=1)
        self.base = film - self.slope * np.arange(film.shape[1])
        self.has_film = [bool(row.any()) for row in film]
        self.edges_m, self.steps_m = ground.edges_m, np.diff(ground.edges_m)
        self.per_knot = 1.0 / ground.knot_m
        self.grip = grip
        self.has_track = grip.track_frac > 0.0
        half = np.exp(-self.steps_m / (2.0 * grip.wipe_ft * FT_M))
        self.keep, self.take = half, grip.track_frac * (1.0 - half)


class _March:
    """One chunk of shots on its way; names without unit are SI."""

    across: Floats
    along: Floats
    along_new: Floats
    energy: Floats
    side: Floats
    side_new: Floats
    half_time: Floats
    used: Floats
    due: Floats
    dry: Floats
    wet: Floats
    place: Floats
    film: Floats
    pull: Floats
    time: Floats
    kick: Floats
    track: Floats
    to_along: Floats
    to_side: Floats

    def __init__(self, launch: Launch, landed: Landed, part: slice, table: _Table, work: _Work) -> None:
        self.landed, self.part, self.table = landed, part, table
        n_shots = part.stop - part.start
        floats = work.floats[:, :n_shots]
        for name, buffer in zip(_March.__annotations__, floats, strict=True):
            setattr(self, name, buffer)
        self.whole, self.flag = work.whole[:n_shots], work.flag[:n_shots]
        self._start(launch)

    def _start(self, launch: Launch) -> None:
        part, gravity, grip = self.part, launch.gravity_mps2, self.table.grip
        self.across[:], self.along[:] = launch.across_m[part], launch.along_mps[part]
        self.side[:] = launch.across_mps[part]
        self.energy[:] = self.along**2
        self.half_time[:] = self.used[:] = self.track[:] = 0.0
        dry, wet = (
            coef[part] if isinstance(coef, np.ndarray) else coef for coef in (grip.dry_coef, grip.wet_coef)
        )
        self.dry[:] = 2.0 * gravity * (dry - wet)
        self.wet[:] = 2.0 * gravity * wet
        self.rolling = gravity * grip.rolling_coef
        slip_along = self.along - launch.spin_along_mps[part]
        slip_side = self.side - launch.spin_across_mps[part]
        slip = np.hypot(slip_along, slip_side)
        with np.errstate(invalid="ignore"):
            self.to_along[:] = np.where(slip > 0.0, slip_along / slip, 1.0)
            self.to_side[:] = np.where(slip > 0.0, slip_side / slip, 0.0)
        self.events = self._events(slip * launch.kappa / (1.0 + launch.kappa))
        self.due[:] = self.events.min(axis=0)

    def _events(self, roll: Floats) -> Floats:
        """Return W where the heading has turned 1 degree, where it is straight, and where the ball rolls."""
        bent = np.tan(np.arctan2(self.side, self.along) + HOOK_RAD)
        with np.errstate(divide="ignore", invalid="ignore"):
            hook = (self.side - bent * self.along) / (self.to_side - bent * self.to_along)
            turn = np.where(self.side < 0.0, self.side / self.to_side, np.inf)
        reached = [np.where((event >= 0.0) & (event <= roll), event, np.inf) for event in (hook, turn)]
        return np.stack([*reached, roll])

    def run(self, row_every: int) -> None:
        """March from the first edge to the last and hand the results over."""
        if row_every:
            self._keep_row(0)
        with np.errstate(invalid="ignore", divide="ignore"):
            for step in range(len(self.table.steps_m)):
                self._advance(step)
                if row_every and (step + 1) % row_every == 0:
                    self._keep_row((step + 1) // row_every)
        self.landed.across_m[self.part] = self.across
        self.landed.along_mps[self.part] = self.along
        self.landed.across_mps[self.part] = self.side
        self.landed.time_s[self.part] = 2.0 * self.half_time

    def _keep_row(self, row: int) -> None:
        self.landed.rows_m[row, self.part] = self.across
        np.multiply(self.half_time, 2.0, out=self.landed.rows_s[row, self.part])

    def _advance(self, step: int) -> None:
        """Do one step: friction at its middle, then the exact arc."""
        length = self.table.steps_m[step]
        self._pull(step, length)
        pull, time, kick = self.pull, self.time, self.kick
        np.multiply(pull, self.to_along, out=kick)
        kick *= length
        self.energy -= kick
        np.sqrt(self.energy, out=self.along_new)
        np.add(self.along, self.along_new, out=time)
        np.divide(length, time, out=time)
        pull *= time
        np.multiply(pull, self.to_side, out=kick)
        np.subtract(self.side, kick, out=self.side_new)
        np.add(self.side, self.side_new, out=kick)
        kick *= time
        self.across += kick
        self.half_time += time
        self.used += pull
        self.along, self.along_new = self.along_new, self.along
        self.side, self.side_new = self.side_new, self.side
        np.greater(self.used, self.due, out=self.flag)
        if self.flag.any():
            self._pass_events(np.flatnonzero(self.flag), step, length)

    def _pull(self, step: int, length: float) -> None:
        """Put twice the friction's acceleration at the middle of the step into `pull`."""
        table, pull, film = self.table, self.pull, self.film
        if table.has_film[step]:
            self._look_up(step, length)
        elif table.has_track:
            film[:] = 0.0
        else:
            np.add(self.dry, self.wet, out=pull)
            return
        if table.has_track:
            self._add_track(table.keep[step], table.take[step])
        np.multiply(film, film, out=pull)
        pull += 1.0
        np.divide(self.dry, pull, out=pull)
        pull += self.wet

    def _look_up(self, step: int, length: float) -> None:
        """Put the film at the middle of the step, over the half film, into `film`."""
        table, place, film = self.table, self.place, self.film
        np.divide(self.side, self.along, out=film)
        film *= 0.5 * length * table.per_knot
        np.multiply(self.across, table.per_knot, out=place)
        place += film
        np.copyto(self.whole, place, casting="unsafe")
        np.take(table.slope[step], self.whole, out=film, mode="clip")
        film *= place
        np.take(table.base[step], self.whole, out=place, mode="clip")
        film += place

    def _add_track(self, keep: float, take: float) -> None:
        """Add the oil in the ball's own track, which follows the film met, as it is at the step's middle."""
        film, track, place = self.film, self.track, self.place
        np.multiply(film, take, out=place)
        track *= keep
        track += place
        film += track
        track *= keep
        track += place

    def _pass_events(self, shots: NDArray[np.intp], step: int, length: float) -> None:
        """Note the events that these shots passed within the step; those that now roll finish it rolling."""
        start_m = self.table.edges_m[step]
        for kind, note in enumerate((self._note_hook, self._note_turn, self._start_rolling)):
            passed = shots[self.used[shots] > self.events[kind, shots]]
            if passed.size:
                arc = _Arc(self, passed, self.events[kind, passed])
                note(passed, arc, start_m, length)
                self.events[kind, passed] = np.inf
        hook, turn, roll = (event[shots] for event in self.events)
        self.due[shots] = np.minimum(np.minimum(hook, turn), roll)

    def _note_hook(self, shots: NDArray[np.intp], arc: "_Arc", start_m: float, _length: float) -> None:
        self.landed.hook_m[self.part][shots] = start_m + arc.ahead

    def _note_turn(self, shots: NDArray[np.intp], arc: "_Arc", start_m: float, _length: float) -> None:
        self.landed.turn_m[self.part][shots] = start_m + arc.ahead
        self.landed.turn_across_m[self.part][shots] = arc.across
        self.landed.turn_rad_per_m[self.part][shots] = -arc.pull * self.to_side[shots] / arc.along**2

    def _start_rolling(self, shots: NDArray[np.intp], arc: "_Arc", start_m: float, length: float) -> None:
        self.landed.roll_m[self.part][shots] = start_m + arc.ahead
        speed = np.hypot(arc.along, arc.side)
        self.to_along[shots], self.to_side[shots] = arc.along / speed, arc.side / speed
        self.dry[shots], self.wet[shots] = 0.0, 2.0 * self.rolling
        rest = length - arc.ahead
        self.energy[shots] = arc.along**2 - 2.0 * self.rolling * self.to_along[shots] * rest
        self.along[shots] = np.sqrt(self.energy[shots])
        time = 2.0 * rest / (arc.along + self.along[shots])
        self.side[shots] = arc.side - self.rolling * self.to_side[shots] * time
        self.across[shots] = arc.across + 0.5 * (arc.side + self.side[shots]) * time
        self.half_time[shots] += 0.5 * (arc.time + time) - self.time[shots]
        self.events[:, shots] = np.inf


class _Arc:
    """The state of some shots within the step just done, where W reached a given value."""

    def __init__(self, now: _March, shots: NDArray[np.intp], value: Floats) -> None:
        time = 2.0 * now.time[shots]
        self.pull = now.pull[shots] / time
        gained = value - (now.used[shots] - now.pull[shots])
        self.time = gained / self.pull
        to_along, to_side = now.to_along[shots], now.to_side[shots]
        along, side = now.along_new[shots], now.side_new[shots]
        self.ahead = (along - 0.5 * to_along * gained) * self.time
        before = now.across[shots] - (now.side[shots] + side) * now.time[shots]
        self.across = before + (side - 0.5 * to_side * gained) * self.time
        self.along, self.side = along - to_along * gained, side - to_side * gained
