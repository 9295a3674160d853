"""The oil on the lane: how thick the film is, board by board and foot by foot.

A pattern may be known by its length and kind alone; then it has no film, and
:func:`coachlib.world.oil_shape.with_typical_film` gives it a usual one. Film is counted from the **lane's
right edge**, as it is laid, because a pattern has no hand; :meth:`OilPattern.own_film_um` turns it.
"""

import dataclasses
import functools
import math
from pathlib import Path
from typing import Annotated

import numpy as np
from numpy.typing import ArrayLike, NDArray

from coachlib.errors import DataFileError, InputError, checked_choice, checked_number, raise_input_errors
from coachlib.files import data_path
from coachlib.units import BOARD_IN, FT_M, IN_M, N_BOARDS
from coachlib.validation import Letters, Limits, thing
from coachlib.world.array_field import FilmCheck, FilmRows, film_rows, length_problem
from coachlib.world.hand import Hand, checked_hand
from coachlib.world.pattern_file import PatternKind, read_bands

PATTERN_NAMES = tuple("house_41 house_40 house_38 flat_42 short_36 long_44 steps_39 worn_41".split())
"""The patterns that come with the library, all invented; the first is the demo's."""

_SHORTEST_FT = 20.0
_CELL_M2 = BOARD_IN * IN_M * FT_M
LengthFt = Annotated[
    float, Limits(_SHORTEST_FT, 55, "ft", "Read it off the pattern sheet; usually 32 to 47 ft.")
]


@thing
class OilPattern:
    """An oil pattern; a session without one says "I don't know".

    Parameters
    ----------
    name : str
        What it is: ``house_41``.
    length_ft : float
        Where the oil ends. [ft]
    kind : {"house", "flat", "other"}
        ``house``: much oil in the middle, little outside. ``flat``: much the same across.
    film_um : tuple of rows of 39, or ()
        Mean film of each stretch of `step_ft`, the first at the foul line, on boards 1 to 39 counted from the
        lane's right edge; () where only length and kind are known. Past the last row the lane is dry. [µm]
    step_ft : float
        Length of a stretch. [ft]
    """

    name: Annotated[str, Letters(60)]
    length_ft: LengthFt
    kind: PatternKind = "house"
    film_um: Annotated[FilmRows, FilmCheck()] = ()
    step_ft: Annotated[float, Limits(0.25, 10, "ft", "Usual are 0.5 and 1 ft.")] = 1.0

    def _problems(self) -> dict[str, str]:
        problem = length_problem(len(self.film_um), self.step_ft)
        return {"film_um": problem} if problem else {}

    @classmethod
    def from_film(
        cls, film_um: ArrayLike, step_ft: float = 1.0, name: str = "measured", kind: PatternKind = "other"
    ) -> "OilPattern":
        """Return a pattern from measured film.

        Parameters
        ----------
        film_um : array, shape (n_steps, 39)
            Mean film of each stretch, first row at the foul line, boards from the lane's right edge. [µm]
        step_ft : float, default 1
            Length of a stretch. [ft]
        name, kind : str
            As for the class; the length is where the last film ends.

        Raises
        ------
        InputError
            For another shape, no film at all, film that is negative or no number, or more than 60 ft of it.
        """
        step_ft = checked_number("step_ft", step_ft, 0.25, 10, "ft")
        measured = cls(name=name, length_ft=_SHORTEST_FT, kind=kind, film_um=film_um, step_ft=step_ft)  # type: ignore[arg-type]
        if not any(map(any, measured.film_um)):
            message = "film_um holds no film at all; expected some above 0 um. Measure a lane that has oil."
            raise_input_errors({"film_um": message})
        n_oiled = 1 + max(number for number, row in enumerate(measured.film_um) if any(row))
        return dataclasses.replace(measured, length_ft=n_oiled * step_ft)

    @property
    def has_film(self) -> bool:
        """Whether more than length and kind is known."""
        return bool(self.film_um)

    @functools.cached_property
    def film_array_um(self) -> NDArray[np.float64]:
        """The film as a read-only array, rows of `step_ft`, boards from the lane's right edge [µm]."""
        if not self.film_um:
            message = (
                f"pattern {self.name!r} has no film, only length and kind; expected a film to compute with. "
                "Load one of load_pattern, measure one, or take with_typical_film(pattern)."
            )
            raise_input_errors({"pattern": message})
        film = np.array(self.film_um)
        film.flags.writeable = False
        return film

    def own_film_um(self, hand: Hand) -> NDArray[np.float64]:
        """Return the film with boards counted from the bowler's own side [µm]."""
        film = self.film_array_um
        return film if checked_hand(hand) == "right" else film[:, ::-1]

    def with_own_film(self, film_um: NDArray[np.float64], hand: Hand, name: str) -> "OilPattern":
        """Return the pattern with another film, its boards counted from the bowler's own side."""
        film = film_um if checked_hand(hand) == "right" else film_um[:, ::-1]
        return dataclasses.replace(self, name=name, film_um=film_rows(film))

    @property
    def volume_ml(self) -> float:
        """Oil on the lane [mL]."""
        return float(self.film_array_um.sum()) * _CELL_M2 * self.step_ft  # 1 µm on 1 m² is 1 mL

    @property
    def ratio_middle(self) -> float:
        """Mean film on boards 18 to 22 over that on 3 to 7 of both sides; inf where these are dry."""
        return self._ratio(slice(17, 22), [*range(2, 7), *range(32, 37)])

    @property
    def ratio_second_arrows(self) -> float:
        """Mean film between the second arrows over that from there to the gutters: 11-29 to 1-10 and 30-39.

        References
        ----------
        .. [1] "Oil inside boards (between the second arrows) : oil outside (gutter to about board 10)", USBC,
           "Lane conditioning" page.
        """
        return self._ratio(slice(10, 29), [*range(10), *range(29, 39)])

    def ramp_boards(self, hand: Hand = "right") -> float:
        """Return how wide the rise from little to much oil is on a bowler's side [boards].

        At every distance, from 10 to 90 % of the rise, over 0.8, mean over the oil; 0 where nothing rises.
        """
        oiled = self.own_film_um(hand)[: math.ceil(self.length_ft / self.step_ft)]  # past it are only traces
        widths = [_rise_boards(row[: N_BOARDS // 2 + 1]) for row in oiled]
        return float(np.mean([width for width in widths if width > 0.0] or [0.0]))

    @property
    def rule_of_31_board(self) -> float:
        """Where the ball should leave the oil by the trade's rule: length less 31, a start only [board]."""
        return self.length_ft - 31.0

    def _ratio(self, inside: slice, outside: list[int]) -> float:
        across = self.film_array_um.mean(axis=0)
        outer = float(across[outside].mean())
        return float(across[inside].mean()) / outer if outer > 0.0 else float("inf")


def thinned(pattern: OilPattern, factor: float) -> OilPattern:
    """Return the pattern with every film times `factor`: a lane with less or more oil than its sheet."""
    factor = checked_number("factor", factor, 0, 5, "", "1 leaves the film as it is.")
    film = pattern.film_array_um * factor
    return dataclasses.replace(pattern, film_um=film_rows(film))


def pattern_names() -> tuple[str, ...]:
    """Return the names of the invented patterns that come with the library."""
    return PATTERN_NAMES


def load_pattern(name: str) -> OilPattern:
    """Return one of the invented patterns that come with the library.

    Raises
    ------
    InputError
        For an unknown name; lists the known ones.
    """
    return read_pattern(data_path(f"patterns/{checked_choice('pattern', name, PATTERN_NAMES)}.csv"))


def read_pattern(path: Path) -> OilPattern:
    """Return the pattern of a file of bands, laid out as :mod:`coachlib.world.pattern_file` says.

    Raises
    ------
    DataFileError
        Naming file, row and column of what is wrong.
    """
    fields = read_bands(path)
    try:
        return OilPattern(**fields)
    except InputError as error:
        message = f"{path.name}: {error}"
        raise DataFileError(message) from error


def _rise_boards(film_um: NDArray[np.float64]) -> float:
    """Return 10 to 90 % of the rise from the gutter to the middle over 0.8, or 0 where there is none."""
    low, high = float(film_um[0]), float(film_um[-1])
    if high <= low:
        return 0.0
    rising = np.maximum.accumulate(film_um)
    first, last = (
        float(np.interp(low + share * (high - low), rising, np.arange(rising.size))) for share in (0.1, 0.9)
    )
    return (last - first) / 0.8
