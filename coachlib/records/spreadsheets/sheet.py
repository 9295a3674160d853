"""A spreadsheet saved as text: its columns and rows, whatever parts them, and wrong cells told by place."""

import csv
import dataclasses
import io
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from coachlib.errors import DataFileError, InputError

MOST_BYTES = 20_000_000
"""A larger file is no hand-made sheet."""

_SEPARATORS = ",;\t"


@dataclasses.dataclass(frozen=True)
class HandmadeSheet:
    """A sheet as it stands in its file.

    Parameters
    ----------
    name : str
        The file's name.
    columns : tuple of str
        What stands in the first line, without blanks at the ends.
    rows : tuple of (int, mapping)
        The line's number in a spreadsheet, the head being 1, and its cells by column; empty lines are left
        out, and cells that a short line lacks are empty.
    """

    name: str
    columns: tuple[str, ...]
    rows: tuple[tuple[int, Mapping[str, str]], ...]


class Problems:
    """What is wrong in a sheet, collected so that all of it is told at once.

    Parameters
    ----------
    sheet_name : str
        The file's name, first word of each message.
    """

    def __init__(self, sheet_name: str) -> None:
        self.sheet_name = sheet_name
        self.found: dict[str, str] = {}

    def add(self, row: int, message: str, column: str = "") -> None:
        """Note what is wrong in a row, or in one of its cells."""
        place = f"{self.sheet_name}, row {row}" + (f", column {column}" if column else "")
        self.found.setdefault(place, f"{place}: {message}")

    @contextmanager
    def at(self, row: int) -> Iterator[None]:
        """Note an :class:`InputError` raised inside at a row; its fields are the columns."""
        try:
            yield
        except InputError as error:
            for column, message in (error.fields or {"": str(error)}).items():
                self.add(row, message, column)

    def finish(self) -> None:
        """Raise what was found, if anything: all of it, a line each.

        Raises
        ------
        InputError
            Its fields are the places.
        """
        if self.found:
            message = "\n".join([*self.found.values(), "Nothing was added to the log."])
            raise InputError(message, self.found)


def read_sheet(path: Path) -> HandmadeSheet:
    """Return a sheet from a file of text with commas, semicolons or tabs between cells.

    Parameters
    ----------
    path : Path
        UTF-8, or the older encoding that some spreadsheet programs still write on western systems.

    Raises
    ------
    DataFileError
        If it cannot be opened, is too large, is no text, has no head, or two columns of one name.
    """
    path = Path(path)
    text = _text(path)
    separator = max(_SEPARATORS, key=text.partition("\n")[0].count)
    try:
        lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator))
    except csv.Error as error:
        message = f"{path.name} cannot be read ({error}); expected a sheet saved as CSV. Save it again."
        raise DataFileError(message) from error
    columns = _columns(path, lines)
    rows = [
        (number, dict(zip(columns, [*cells, *[""] * len(columns)], strict=False)))
        for number, cells in enumerate(lines[1:], start=2)
        if any(cell.strip() for cell in cells)
    ]
    _check_widths(path, lines, len(columns))
    return HandmadeSheet(path.name, columns, tuple(rows))


def _text(path: Path) -> str:
    try:
        n_bytes = path.stat().st_size
        if n_bytes > MOST_BYTES:
            message = f"{path.name} has {n_bytes} bytes; expected at most {MOST_BYTES}. Split the sheet."
            raise DataFileError(message)
        content = path.read_bytes()
    except OSError as error:
        message = f"{path.name} could not be opened ({error.strerror}); expected a CSV file. Check its place."
        raise DataFileError(message) from error
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        pass
    try:
        return content.decode("cp1252")
    except UnicodeDecodeError as error:
        message = (
            f"{path.name} is no text (byte {error.start}); expected a CSV file. "
            "In the spreadsheet program choose to save as CSV, UTF-8."
        )
        raise DataFileError(message) from error


def _columns(path: Path, lines: list[list[str]]) -> tuple[str, ...]:
    columns = [cell.strip() for cell in lines[0]] if lines else []
    while columns and not columns[-1]:
        columns.pop()
    if not any(columns):
        message = f"{path.name} has no head; expected the names of the columns in line 1. Add them."
        raise DataFileError(message)
    twice = sorted({name for name in columns if columns.count(name) > 1 and name})
    if twice:
        message = (
            f"{path.name} has column {twice[0]!r} twice; expected each name once. Rename one of the two."
        )
        raise DataFileError(message)
    return tuple(columns)


def _check_widths(path: Path, lines: list[list[str]], n_columns: int) -> None:
    for number, cells in enumerate(lines[1:], start=2):
        if any(cell.strip() for cell in cells[n_columns:]):
            message = (
                f"{path.name}, row {number} has {len(cells)} cells; expected at most {n_columns}, one a "
                "column. Put a text with the separator in it in quotes, or name the further columns."
            )
            raise DataFileError(message)
