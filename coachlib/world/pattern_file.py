"""Patterns as files: a table of bands, foot by foot and board by board.

::

    # name: house_41
    # kind: house
    # length_ft: 41
    # note: invented
    from_ft,to_ft,boards_1_7,board_8,boards_9_31,board_32,boards_33_39
    0,2,0.4,2.1,4.4,2.1,0.4
    2,5,…

One row is a stretch of the lane with its mean film in µm; bands may differ in length. Boards are counted from
the lane's right edge. Bands and boards must follow each other without gap and without overlap.
"""

import itertools
import math
from pathlib import Path
from typing import Any, Literal, NoReturn, get_args

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import DataFileError
from coachlib.files import Row, read_notes, read_table
from coachlib.units import N_BOARDS
from coachlib.world.array_field import MOST_FILM_UM

PatternKind = Literal["house", "flat", "other"]
_LENGTHS = ("from_ft", "to_ft")
_KINDS: tuple[PatternKind, ...] = get_args(PatternKind)
_FINEST_FT, _COARSEST_FT = 0.25, 10.0
_TAIL_FT = 1.0
_CARRIED_UM = 0.5
"""Past the oil's end balls may have carried this much; more is a wrong length [µm]."""


def read_bands(path: Path) -> dict[str, Any]:
    """Return the fields of the pattern in a file of bands, laid out as this module says.

    Raises
    ------
    DataFileError
        Naming file, row and column: film that is negative or no number, a gap or an overlap between bands or
        boards, a length that is not where the oil ends, a missing note.
    """
    rows = read_table(path)
    if not rows:
        _fail(path, "", "holds no band", "at least one", "Add rows below the head")
    columns = [column for column in rows[0].cells if column not in _LENGTHS]
    widths = _widths(path, columns)
    edges_ft = _edges(path, rows)
    film_um = np.array([[_film(path, row, column) for column in columns] for row in rows])
    notes = read_notes(path)
    step_ft = _common_step(path, edges_ft)
    times = [round((end - start) / step_ft) for start, end in edges_ft]
    if notes.get("kind") not in _KINDS:
        found = f"is {notes.get('kind', '')!r}"
        _fail(path, "note kind", found, f"one of {', '.join(_KINDS)}", "Add a line '# kind: house'")
    return {
        "name": notes.get("name", path.stem),
        "kind": notes["kind"],
        "length_ft": _length(path, notes, edges_ft, film_um),
        "step_ft": step_ft,
        "film_um": np.repeat(np.repeat(film_um, widths, axis=1), times, axis=0),
    }


def _length(
    path: Path, notes: dict[str, str], edges_ft: list[tuple[float, float]], film_um: NDArray[np.float64]
) -> float:
    """Return the declared length, which must be where the oil ends, traces aside."""
    declared = _number(path, "note length_ft", notes.get("length_ft", ""))
    most_um = film_um.max(axis=1)
    oiled_ft = max((edges_ft[row][1] for row in np.flatnonzero(most_um > 0.0)), default=0.0)
    thick_ft = max((edges_ft[row][1] for row in np.flatnonzero(most_um > _CARRIED_UM)), default=0.0)
    if not thick_ft - _TAIL_FT <= declared <= oiled_ft:
        found = f"is {declared:g}, but the last band with much film ends at {thick_ft:g} ft"
        _fail(path, "note length_ft", found, "where the oil ends", "Mend the note or the bands")
    return declared


def _common_step(path: Path, edges_ft: list[tuple[float, float]]) -> float:
    """Return a stretch that every band is a multiple of, as long as the film allows."""
    quarters = [(start / _FINEST_FT, end / _FINEST_FT) for start, end in edges_ft]
    if any(abs(place - round(place)) > 1e-9 for place in itertools.chain(*quarters)):
        expected = f"multiples of {_FINEST_FT} ft"
        _fail(path, "columns from_ft, to_ft", "hold finer steps", expected, "Round them")
    step_ft = math.gcd(*(round(end - start) for start, end in quarters)) * _FINEST_FT
    while step_ft > _COARSEST_FT:
        step_ft /= 2.0
    return step_ft


def _widths(path: Path, columns: list[str]) -> list[int]:
    """Return over how many boards each column, named `board_8` or `boards_9_31`, reaches."""
    boards = []
    for column in columns:
        word, *numbers = column.split("_")
        if (
            word not in ("board", "boards")
            or len(numbers) not in (1, 2)
            or not all(map(str.isdecimal, numbers))
        ):
            _fail(path, f"column {column}", "is no board", "board_8 or boards_9_31", "Rename it")
        boards.append((int(numbers[0]), int(numbers[-1])))
    due = 1
    for first, last in boards:
        if first != due or last < first:
            fault = "overlap" if first < due else "leave a gap"
            _fail(path, f"columns at board {due}", fault, f"the next to begin with {due}", "Mend the head")
        due = last + 1
    if due != N_BOARDS + 1:
        _fail(path, "columns", f"end at board {due - 1}", f"boards 1 to {N_BOARDS}", "Mend the head")
    return [last - first + 1 for first, last in boards]


def _edges(path: Path, rows: list[Row]) -> list[tuple[float, float]]:
    """Return where each band begins and ends [ft]; they follow each other from the foul line."""
    missing = [column for column in _LENGTHS if column not in rows[0].cells]
    if missing:
        _fail(path, f"column {missing[0]}", "is missing", "from_ft and to_ft", "Add it to the head")
    edges_ft = []
    for row in rows:
        place = f"row {row.number}, column"
        start, end = (_number(path, f"{place} {name}", row.cells[name]) for name in _LENGTHS)
        if end <= start:
            _fail(path, f"{place} to_ft", f"is {end:g}", f"more than {start:g} ft", "Mend the row")
        edges_ft.append((start, end))
    before = 0.0
    for row, (start, end) in zip(rows, edges_ft, strict=True):
        if start != before:
            found = f"is {start:g} and {'overlaps the band before' if start < before else 'leaves a gap'}"
            place = f"row {row.number}, column from_ft"
            _fail(path, place, found, f"{before:g} ft", "Bands follow each other from 0 ft")
        before = end
    return edges_ft


def _film(path: Path, row: Row, column: str) -> float:
    place = f"row {row.number}, column {column}"
    film_um = _number(path, place, row.cells[column])
    if not 0.0 <= film_um <= MOST_FILM_UM:
        fix = "Measure again; if it is mL or units, convert it"
        _fail(path, place, f"is {film_um:g}", f"0 to {MOST_FILM_UM:g} um of film", fix)
    return film_um


def _number(path: Path, place: str, cell: str) -> float:
    try:
        number = float(cell)
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        _fail(path, place, f"is {cell!r}", "a number", "Fill it in, with a point for decimals")
    return number


def _fail(path: Path, place: str, found: str, expected: str, fix: str) -> NoReturn:
    message = f"{path.name}{', ' * bool(place)}{place}: {found}; expected {expected}. {fix}."
    raise DataFileError(message)
