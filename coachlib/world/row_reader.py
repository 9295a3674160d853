"""Turning one row of a data file into a thing; used by balls and bowlers."""

from pathlib import Path
from typing import Any, TypeVar

from coachlib.errors import DataFileError, InputError, checked_choice
from coachlib.files import Row, read_table

_Thing = TypeVar("_Thing")
_NOTE = "note"


def thing_from_row(kind: type[_Thing], path: Path, name: str) -> _Thing:
    """Return the thing whose row has that name; empty cells keep the thing's default.

    Raises
    ------
    InputError
        Listing the names, if the file has no such row.
    DataFileError
        Naming file, row and column, if a cell is wrong.
    """
    rows = {row.cells["name"]: row for row in read_table(path)}
    row = rows[checked_choice("name", name, tuple(rows))]
    values = {column: _value(cell) for column, cell in row.cells.items() if cell and column != _NOTE}
    try:
        return kind(**values)
    except InputError as error:
        raise DataFileError(_placed(path, row, error)) from error


def _value(cell: str) -> Any:
    """Return a cell as yes or no, a number or a text, whichever it looks like."""
    if cell in ("yes", "no"):
        return cell == "yes"
    try:
        return float(cell)
    except ValueError:
        return cell


def _placed(path: Path, row: Row, error: InputError) -> str:
    places = [
        f"{path.name}, row {row.number}, column {field}: {text}" for field, text in error.fields.items()
    ]
    return "\n".join(places) or f"{path.name}, row {row.number}: {error}"
