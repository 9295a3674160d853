"""Opening of the library's own data: where it lies, how it is read, and clear errors when it is wrong."""

import csv
import dataclasses
import tomllib
from pathlib import Path
from typing import Any

from coachlib.errors import DataFileError, shown

_PACKED = Path(__file__).parent / "data"
_CHECKOUT = Path(__file__).parents[1] / "data"


def data_path(name: str) -> Path:
    """Return where a file of the packed data lies, in an installed library or in a checkout.

    Parameters
    ----------
    name : str
        Name below the data folder, with ``/`` between folders: ``rules.toml``, ``patterns/house_41.csv``.

    Raises
    ------
    DataFileError
        If the data holds no such file.
    """
    for folder in (_PACKED, _CHECKOUT):
        if (folder / name).is_file():
            return folder / name
    folder = _PACKED if _PACKED.is_dir() else _CHECKOUT
    known = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    message = (
        f"data file is {shown(name)}; expected one of {', '.join(known) or '(none is installed)'}. "
        "Check the name, or install coachlib again."
    )
    raise DataFileError(message)


def read_toml(path: Path) -> dict[str, Any]:
    """Return the content of a TOML file.

    Parameters
    ----------
    path : Path
        The file, UTF-8.

    Raises
    ------
    DataFileError
        If it cannot be opened, is not UTF-8, or is no TOML; names the file and, where there is one, the line.
    """
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except OSError as error:
        problem, fix = (
            f"could not be opened ({error.strerror})",
            "a readable file. Check its name and place.",
        )
    except UnicodeDecodeError as error:
        problem, fix = (
            f"byte {error.start} is no UTF-8",
            "text saved as UTF-8. Save it again with that encoding.",
        )
    except tomllib.TOMLDecodeError as error:
        problem, fix = str(error), "valid TOML. Mend that line: a text needs quotes, a list needs commas."
    message = f"{path.name}: {problem[0].lower()}{problem[1:]}; expected {fix}"
    raise DataFileError(message)


def read_text(path: Path) -> str:
    """Return the text of a file that comes with the library, UTF-8.

    Raises
    ------
    DataFileError
        If it cannot be opened: the library is not whole.
    """
    try:
        return path.read_text(encoding="utf-8")
    except OSError as error:
        message = (
            f"{path.name} could not be opened ({error.strerror}); expected it beside the library. "
            "Install coachlib again."
        )
        raise DataFileError(message) from error


@dataclasses.dataclass(frozen=True)
class Row:
    """One row of a table: its number in the file, counted from 1, and its cells by column, all texts."""

    number: int
    cells: dict[str, str]


def read_table(path: Path) -> list[Row]:
    """Return the rows of a CSV file with a header line; lines that begin with ``#`` are notes.

    Parameters
    ----------
    path : Path
        The file, UTF-8, comma between cells.

    Raises
    ------
    DataFileError
        If it cannot be opened, is empty, or a row has more or fewer cells than the header.
    """
    lines = [
        (number, [cell.strip() for cell in cells])
        for number, cells in enumerate(csv.reader(read_text(path).splitlines()), start=1)
        if cells and not cells[0].startswith("#")
    ]
    if not lines:
        message = f"{path.name} is empty; expected a header with column names. Restore the file."
        raise DataFileError(message)
    header = lines[0][1]
    for number, cells in lines[1:]:
        if len(cells) != len(header):
            message = f"{path.name}, row {number}: {len(cells)} cells; expected as many as the header"
            message += f", {len(header)}. Mend the row."
            raise DataFileError(message)
    return [Row(number, dict(zip(header, cells, strict=True))) for number, cells in lines[1:]]


def read_notes(path: Path) -> dict[str, str]:
    """Return the ``# name: value`` lines of a CSV file."""
    lines = (line[1:].partition(":") for line in read_text(path).splitlines() if line.startswith("#"))
    return {name.strip(): value.strip() for name, mark, value in lines if mark}
