"""Opening of the library's own data: where it lies, how it is read, and clear errors when it is wrong."""

import csv
import dataclasses
import json
import os
import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import Any, TypeVar, get_type_hints

from coachlib.errors import DataFileError, InputError, checked_choice, shown

_Record = TypeVar("_Record")
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


def live_folder() -> Path:
    """Return where the notebooks that are run live: `.live` in a checkout, else in the user's data folder."""
    import platformdirs

    if (_CHECKOUT.parent / "pyproject.toml").is_file():
        return _CHECKOUT.parent / ".live"
    return platformdirs.user_data_path("coachlib", appauthor=False) / "notebooks"


def read_toml(path: Path) -> dict[str, Any]:
    """Return the content of a TOML file.

    Raises
    ------
    DataFileError
        If it cannot be opened, is not UTF-8, or is no TOML; names the file and, where there is one, the line.
    """
    try:
        return tomllib.loads(path.read_bytes().decode("utf-8"))
    except OSError as error:
        problem = f"could not be opened ({error.strerror})"
        fix = "a readable file. Check its name and place."
    except UnicodeDecodeError as error:
        problem = f"byte {error.start} is no UTF-8"
        fix = "text saved as UTF-8. Save it again with that encoding."
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
    """Return the rows of a CSV file (UTF-8) with a header line; lines that begin with ``#`` are notes.

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


def read_records(path: Path, kind: type[_Record], expected: str, **columns: str) -> tuple[_Record, ...]:
    """Return a named tuple for each row, its fields read by their types.

    Parameters
    ----------
    path : Path
        As :func:`read_table` takes it.
    kind : type
        The named tuple; its fields are texts, numbers, numbers or nothing, or pins such as ``1-3-5``.
    expected : str
        What was expected and what to do, for the message.
    **columns : str
        The column of each field that has another name than it.

    Raises
    ------
    DataFileError
        As :func:`read_table`, or naming the row in which a cell is missing or no number.
    """
    hints = get_type_hints(kind)
    made = []
    for row in read_table(path):
        try:
            made.append(kind(*(_value(row.cells[columns.get(name, name)], hints[name]) for name in hints)))
        except (KeyError, ValueError) as error:
            message = f"{path.name}, row {row.number}: {error}; expected {expected}"
            raise DataFileError(message) from error
    return tuple(made)


def _value(cell: str, hint: Any) -> Any:
    if hint == tuple[int, ...]:
        return tuple(int(part) for part in cell.split("-"))
    if hint == float | None:
        return float(cell) if cell else None
    return hint(cell)


def thing_from_row(kind: type[_Record], path: Path, name: str) -> _Record:
    """Return the thing whose row of a table has that name; empty cells keep the thing's default.

    Raises
    ------
    InputError
        Listing the names, if the file has no such row.
    DataFileError
        Naming file, row and column, if a cell is wrong.
    """
    rows = {row.cells["name"]: row for row in read_table(path)}
    row = rows[checked_choice("name", name, tuple(rows))]
    try:
        return kind(**{field: _guess(cell) for field, cell in row.cells.items() if cell and field != "note"})
    except InputError as error:
        place = f"{path.name}, row {row.number}"
        wrong = [f"{place}, column {field}: {text}" for field, text in error.fields.items()]
        raise DataFileError("\n".join(wrong) or f"{place}: {error}") from error


def _guess(cell: str) -> Any:
    """Return a cell as yes or no, a number or a text, whichever it looks like."""
    if cell in ("yes", "no"):
        return cell == "yes"
    try:
        return float(cell)
    except ValueError:
        return cell


def read_notes(path: Path) -> dict[str, str]:
    """Return the ``# name: value`` lines of a CSV file."""
    lines = (line[1:].partition(":") for line in read_text(path).splitlines() if line.startswith("#"))
    return {name.strip(): value.strip() for name, mark, value in lines if mark}


def append_lines(path: Path, lines: Iterable[str]) -> None:
    """Add lines to a text file and return when they are on disk; a torn last line is cut off first."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("ab+") as stream:
        size = stream.seek(0, os.SEEK_END)
        stream.seek(max(0, size - 1))
        if size > 0 and stream.read(1) != b"\n":
            stream.seek(0)
            stream.truncate(stream.read().rfind(b"\n") + 1)
        stream.write("".join(f"{line}\n" for line in lines).encode())
        stream.flush()
        os.fsync(stream.fileno())


def whole_lines(path: Path) -> list[str]:
    """Return the finished lines of a text file; none where there is no file yet."""
    if not path.is_file():
        return []
    text = path.read_text(encoding="utf-8")
    return text[: text.rfind("\n") + 1].splitlines()


def read_json(path: Path) -> dict[str, Any]:
    """Return the content of a JSON file.

    Raises
    ------
    DataFileError
        If it is no JSON; names the file and the line.
    """
    try:
        return json.loads(path.read_text(encoding="utf-8"))
    except json.JSONDecodeError as error:
        message = f"{path.name}, line {error.lineno}: {error.msg}; expected JSON. Restore the file."
        raise DataFileError(message) from error


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that it is either the old one or the new one, never half of it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f"{path.name}.{os.getpid()}.new")
    beside.write_bytes(content)
    beside.replace(path)


def read_bytes(path: Path) -> bytes:
    """Return the content of a file."""
    return path.read_bytes()


def cached_bytes(name: str) -> bytes | None:
    """Return what :func:`keep_bytes` kept under a name in the user's cache folder, or None."""
    path = _cache_folder() / name
    try:
        content = path.read_bytes()
        os.utime(path)
    except OSError:
        return None
    return content


def keep_bytes(name: str, content: bytes, most_files: int) -> None:
    """Keep content under a name in the user's cache folder; the longest unused of its folder go.

    A cache may always be missing: where it cannot be written, nothing happens.
    """
    path = _cache_folder() / name
    try:
        write_whole(path, content)
        oldest_first = sorted(path.parent.glob(f"*{path.suffix}"), key=lambda kept: kept.stat().st_mtime)
        for old in oldest_first[: max(0, len(oldest_first) - most_files)]:
            old.unlink(missing_ok=True)
    except OSError:
        return


def _cache_folder() -> Path:
    import platformdirs

    return Path(platformdirs.user_cache_dir("coachlib", appauthor=False))
