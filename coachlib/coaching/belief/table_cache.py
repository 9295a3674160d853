"""What a belief rests on: bowler, pattern, particles, and the tables of balls, made when first asked for.

Tables are kept in memory and on disk in the user's cache folder, named by their content; no person's words
are in them.
"""

import dataclasses
import functools
import hashlib
import io
import threading
from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.line_table import LineTable, tabulate
from coachlib.coaching.belief.parameters import DEFAULT_NUMBERS, BeliefNumbers
from coachlib.coaching.belief.particles import Particles, draw_particles, release_spread
from coachlib.coaching.belief.strikes import (
    Table,
    aim_sd_at_table_ft,
    line_strike_chances,
    shifted_for_wear,
    spread_boards,
)
from coachlib.coaching.simulation.paths import USUAL_BALL
from coachlib.files import cached_bytes, keep_bytes
from coachlib.physics.friction import DEFAULT_LAW
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.oil import OilPattern
from coachlib.world.oil_shape import with_typical_film
from coachlib.world.usual import with_hook_of

SCHEMA = 7
"""Raise it when a table of the same content would come out differently."""

UNKNOWN_PATTERN = OilPattern(name="not known", length_ft=40.0, kind="house")
_KEPT_TABLES, _KEPT_FILES = 6, 12
"""Tables in memory and on disk; one is 22 MB, in memory with its spread and strikes 32 MB."""


@dataclasses.dataclass(frozen=True)
class BeliefSetting:
    """What the particles are drawn around.

    Parameters
    ----------
    bowler : Bowler
        As declared, without name and words.
    pattern : OilPattern
        With film.
    is_guessed : bool
        Whether pattern or film is only a usual one.
    numbers : BeliefNumbers
        Spreads and how balls are weighed.
    more_rotation_deg : float
        How much more axis rotation than usual is thrown, for a change of hand. [deg]
    """

    bowler: Bowler
    pattern: OilPattern
    is_guessed: bool
    numbers: BeliefNumbers
    more_rotation_deg: float = 0.0


def belief_setting(
    bowler: Bowler,
    pattern: OilPattern | None,
    numbers: BeliefNumbers = DEFAULT_NUMBERS,
    ball: Ball | None = None,
) -> BeliefSetting:
    """Return what a belief of this bowler on this pattern rests on.

    An unknown pattern, or one of another kind without film, is a usual house pattern of 40 ft with wide
    spreads. Of a bowler of whom nothing is known the ball in the hand says whether they throw straight.
    """
    nobody = dataclasses.replace(with_hook_of(bowler, ball), name="", pain="")
    return _setting(nobody, pattern, numbers)


@functools.lru_cache(maxsize=32)
def _setting(bowler: Bowler, pattern: OilPattern | None, numbers: BeliefNumbers) -> BeliefSetting:
    if pattern is None or (pattern.kind == "other" and not pattern.has_film):
        length_ft = UNKNOWN_PATTERN.length_ft if pattern is None else pattern.length_ft
        pattern = dataclasses.replace(UNKNOWN_PATTERN, length_ft=length_ft)
    return BeliefSetting(bowler, with_typical_film(pattern), not pattern.has_film, numbers)


@functools.lru_cache(maxsize=8)
def particles_of(setting: BeliefSetting) -> Particles:
    """Return the particles of a setting, the same each time."""
    drawn = draw_particles(setting.bowler, setting.pattern, setting.is_guessed, setting.numbers)
    rotation_deg = np.clip(drawn.axis_rotation_deg + setting.more_rotation_deg, 0.0, 110.0)
    return dataclasses.replace(drawn, axis_rotation_deg=rotation_deg)


@dataclasses.dataclass(frozen=True, eq=False)
class BallTable:
    """The lines of one ball, and the spread of its arrivals from all but the aim on their grid [boards]."""

    lines: LineTable
    spread_boards: Table
    ball: Ball


def is_ready(setting: BeliefSetting, ball: Ball | None) -> bool:
    """Return whether a ball's table is at hand without throwing it first."""
    ball = ball or USUAL_BALL
    return (setting, ball) in _TABLES or cached_bytes(_file(_key(setting, ball))) is not None


def ball_table(
    setting: BeliefSetting, ball: Ball | None, progress: Callable[[float], None] | None = None
) -> BallTable:
    """Return the table of lines of a ball, or of a usual one; takes a second or two the first time.

    `progress` is called with the share done, 0 to 1, while the table is made.
    """
    ball = ball or USUAL_BALL
    table = _TABLES.get((setting, ball))
    if table is None:
        key = _key(setting, ball)
        lines = _from_disk(key) or _made(setting, ball, key, progress)
        table = BallTable(lines, spread_boards(lines, setting.bowler), ball)
    with _TABLES_LOCK:
        _TABLES.pop((setting, ball), None)
        _TABLES[setting, ball] = table  # the one that was asked for longest ago goes first
        while len(_TABLES) > _KEPT_TABLES:
            _TABLES.pop(next(iter(_TABLES)))
    return table


_TABLES: dict[tuple[BeliefSetting, Ball], BallTable] = {}
_TABLES_LOCK = threading.Lock()


@functools.lru_cache(maxsize=_KEPT_TABLES)
def _strikes(key: str, setting: BeliefSetting, ball: Ball, aim_sd_boards: float) -> Table:
    made = ball_table(setting, ball)
    return line_strike_chances(made.lines, made.spread_boards, aim_sd_boards, ball.weight_lb)


def strikes_of(setting: BeliefSetting, ball: Ball | None, target_ft: float) -> Table:
    """Return the strike chance of every line on every lane with a ball, the target at a distance."""
    ball = ball or USUAL_BALL
    return _strikes(_key(setting, ball), setting, ball, aim_sd_at_table_ft(setting.bowler, target_ft))


def strikes_shifted_for_wear(
    setting: BeliefSetting,
    ball: Ball | None,
    target_ft: float,
    rows: NDArray[np.intp],
    slower_mph: float,
    laydowns: slice,
) -> Table:
    """Return the same on some lanes and laydown boards, with balls as if thrown so much slower.

    Shape (n_rows, n_laydowns, 49), one row of lines for each of `laydowns` of the grid.
    """
    ball = ball or USUAL_BALL
    some = (laydowns.start, laydowns.stop)
    return _shifted_for_wear(_key(setting, ball), setting, ball, target_ft, rows.tobytes(), slower_mph, some)


@functools.lru_cache(maxsize=2)
def _shifted_for_wear(
    key: str,
    setting: BeliefSetting,
    ball: Ball,
    target_ft: float,
    rows_bytes: bytes,
    slower_mph: float,
    laydowns: tuple[int, int],
) -> Table:
    made, rows = ball_table(setting, ball), np.frombuffer(rows_bytes, dtype=np.intp)
    aim_sd_boards = aim_sd_at_table_ft(setting.bowler, target_ft)
    lines = shifted_for_wear(made.lines, rows, slower_mph, slice(*laydowns))
    spread = made.spread_boards[rows, slice(*laydowns)]
    return line_strike_chances(lines, spread, aim_sd_boards, ball.weight_lb)


def _made(
    setting: BeliefSetting, ball: Ball, key: str, progress: Callable[[float], None] | None
) -> LineTable:
    lines = tabulate(particles_of(setting), ball, setting.pattern, setting.bowler.hand, progress)
    held = io.BytesIO()
    np.savez(held, **{field.name: getattr(lines, field.name) for field in dataclasses.fields(lines)})
    keep_bytes(_file(key), held.getvalue(), most_files=_KEPT_FILES)
    return lines


def _from_disk(key: str) -> LineTable | None:
    content = cached_bytes(_file(key))
    if content is None:
        return None
    try:
        with np.load(io.BytesIO(content), allow_pickle=False) as held:
            columns = {name: held[name] for name in held.files}
        return LineTable(**columns | {"speed_at_pins_mph": float(columns["speed_at_pins_mph"])})
    except (ValueError, KeyError, TypeError, OSError):  # a torn file is made again
        return None


def _file(key: str) -> str:
    return f"lines/{key}.npz"


@functools.lru_cache(maxsize=64)
def _key(setting: BeliefSetting, ball: Ball) -> str:
    """Return a name for the content of a table: of the bowler only what leaves the hand counts."""
    digest = hashlib.sha256(f"{SCHEMA}".encode())
    numbers = dataclasses.replace(DEFAULT_NUMBERS, **_of_particles(setting.numbers))
    spread = release_spread(setting.bowler, setting.numbers)
    released = [setting.bowler.hand, setting.bowler.axis_tilt_deg, spread, setting.more_rotation_deg]
    marching = dataclasses.replace(ball, name="")
    for part in (DEFAULT_LAW, released, setting.pattern, setting.is_guessed, numbers, marching):
        digest.update(repr(part).encode())
    return digest.hexdigest()[:32]


def _of_particles(numbers: BeliefNumbers) -> dict[str, Any]:
    names = (field.name for field in dataclasses.fields(numbers))
    wanted = (name for name in names if name == "n_particles" or name.endswith(_PARTICLE_ENDS))
    return {name: getattr(numbers, name) for name in wanted}


_PARTICLE_ENDS = (
    "log_sd",
    "log_mean",
    "length_sd_ft",
    "ramp_sd_boards",
    "sd_frac",
    "tail_frac",
    "rotation_sd_deg",
    "speed_sd_mph",
)
