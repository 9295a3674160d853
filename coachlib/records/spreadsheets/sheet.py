"""A spreadsheet saved as text: its columns and rows, whatever parts them, and wrong cells told by place."""

import dataclasses
import io
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from coachlib.errors import DataFileError, InputError

MOST_BYTES = 20_000_000
"""A larger file is no hand-made sheet."""

MOST_LETTERS = 131_072
"""A cell with more is no cell: a quote mark was never closed."""

_SEPARATORS = ",;\t"
_SPARE = 8
"""So many cells behind the head's last one may stand in a line as long as they are empty."""
_WIDE = re.compile(r"Expected (\d+) fields in line (\d+), saw (\d+)")


SheetRow = tuple[int, Mapping[str, str]]
"""A line's number in a spreadsheet, the head being 1, and its cells by column."""


@dataclasses.dataclass(frozen=True)
class HandmadeSheet:
    """A sheet as it stands in its file.

    Parameters
    ----------
    name : str
        The file's name.
    columns : tuple of str
        What stands in the first line, without blanks at the ends.
    rows : tuple of SheetRow
        Empty lines are left out, and cells that a short line lacks are empty.
    """

    name: str
    columns: tuple[str, ...]
    rows: tuple[SheetRow, ...]


class Problems:
    """What is wrong in a sheet, collected so that all of it is told at once behind the file's name."""

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
    head = next(_lines(path, text, nrows=1), ())
    columns = _columns(path, head)
    rows = []
    for number, line in enumerate(_lines(path, text, names=range(len(head) + _SPARE)), start=1):
        n_cells = max((place for place, cell in enumerate(line, start=1) if cell.strip()), default=0)
        if n_cells > len(columns):
            raise _too_wide(path, number, n_cells, len(columns))
        if max(map(len, line)) > MOST_LETTERS:
            raise _unreadable(path, f"field larger than {MOST_LETTERS} letters in row {number}")
        if n_cells and number > 1:
            rows.append((number, dict(zip(columns, line, strict=False))))
    return HandmadeSheet(path.name, columns, tuple(rows))


def _lines(path: Path, text: str, **more: Any) -> Iterator[tuple[str, ...]]:
    """Return the cells of each line; those that a short line lacks are empty."""
    import pandas as pd

    separator = max(_SEPARATORS, key=text.partition("\n")[0].count)
    how = {"sep": separator, "header": None, "index_col": False, "skip_blank_lines": False, **more}
    try:
        lines = pd.read_csv(io.StringIO(text, newline=""), dtype=str, keep_default_na=False, **how)
    except pd.errors.EmptyDataError:
        return
    except pd.errors.ParserError as error:
        wide = _WIDE.search(str(error))
        if wide:
            raise _too_wide(path, int(wide[2]), int(wide[3]), int(wide[1]) - _SPARE) from error
        raise _unreadable(path, str(error).rpartition("error: ")[2].strip()) from error
    yield from lines.itertuples(index=False, name=None)


def _unreadable(path: Path, why: str) -> DataFileError:
    message = f"{path.name} cannot be read ({why}); expected a sheet saved as CSV. Save it again."
    return DataFileError(message)


def _too_wide(path: Path, number: int, n_cells: int, n_columns: int) -> DataFileError:
    return DataFileError(
        f"{path.name}, row {number} has {n_cells} cells; expected at most {n_columns}, one a column. "
        "Put a text with the separator in it in quotes, or name the further columns."
    )


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
    with suppress(UnicodeDecodeError):
        return content.decode("utf-8-sig")
    try:
        return content.decode("cp1252")
    except UnicodeDecodeError as error:
        message = (
            f"{path.name} is no text (byte {error.start}); expected a CSV file. "
            "In the spreadsheet program choose to save as CSV, UTF-8."
        )
        raise DataFileError(message) from error


def _columns(path: Path, head: tuple[str, ...]) -> tuple[str, ...]:
    names = [cell.strip() for cell in head]
    columns = names[: max((place for place, name in enumerate(names, start=1) if name), default=0)]
    if not columns:
        message = f"{path.name} has no head; expected the names of the columns in line 1. Add them."
        raise DataFileError(message)
    twice = sorted({name for name in columns if columns.count(name) > 1 and name})
    if twice:
        message = (
            f"{path.name} has column {twice[0]!r} twice; expected each name once. Rename one of the two."
        )
        raise DataFileError(message)
    return tuple(columns)
