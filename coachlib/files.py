"""Opening of the library's own data: where it lies, how it is read, and clear errors when it is wrong."""

import csv
import tomllib
from collections.abc import Mapping
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


def read_rows(path: Path) -> list[dict[str, str]]:
    """Return the rows of a CSV file with a header line, every cell a text.

    Parameters
    ----------
    path : Path
        The file, UTF-8, comma between cells.

    Raises
    ------
    DataFileError
        If it cannot be read, or a row has more or fewer cells than the header; names file and row.
    """
    try:
        with path.open(encoding="utf-8", newline="") as lines:
            rows = list(csv.DictReader(lines))
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        reason = getattr(error, "strerror", None) or str(error)
        message = (
            f"{path.name} could not be read ({reason}); expected a table saved as UTF-8, "
            "comma between cells. Check the file, or install coachlib again."
        )
        raise DataFileError(message) from error
    for number, row in enumerate(rows, start=2):
        if None in row or None in row.values():
            n_cells = len([cell for cell in row.values() if cell is not None])
            message = (
                f"{path.name}, row {number}: {n_cells} cells; expected as many as the header. Mend the row."
            )
            raise DataFileError(message)
    return rows


def cell_number(path: Path, row: Mapping[str, str], column: str) -> float:
    """Return the number in one cell of a row of :func:`read_rows`.

    Raises
    ------
    DataFileError
        If the cell holds no number or there is no such column; names file, row and column.
    """
    try:
        return float(row[column])
    except (KeyError, ValueError) as error:
        first = next(iter(row.values()), "")
        message = (
            f"{path.name}, row {first!r}, {column} is {shown(row.get(column))}; expected a number. "
            "Mend the cell."
        )
        raise DataFileError(message) from error
