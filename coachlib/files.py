"""Opening of the library's own data: where it lies, how it is read, and clear errors when it is wrong."""

import json
import os
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from coachlib.errors import DataFileError


def append_lines(path: Path, lines: Iterable[str]) -> None:
    """Add lines to a text file and return when they are on disk; a torn last line is cut off first."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("ab+") as stream:
        stream.seek(0)
        content = stream.read() if _is_torn(stream) else b""
        if content:
            stream.truncate(content.rfind(b"\n") + 1)
        stream.write("".join(f"{line}\n" for line in lines).encode())
        stream.flush()
        os.fsync(stream.fileno())


def _is_torn(stream: Any) -> bool:
    """Return whether a file ends in the middle of a line; leaves the place at the start."""
    size = stream.seek(0, os.SEEK_END)
    stream.seek(max(0, size - 1))
    is_torn = size > 0 and stream.read(1) != b"\n"
    stream.seek(0)
    return is_torn


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
        content: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    except json.JSONDecodeError as error:
        message = f"{path.name}, line {error.lineno}: {error.msg}; expected JSON. Restore the file."
        raise DataFileError(message) from error
    return content


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that it is either the old one or the new one, never half of it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(path.name + ".new")
    beside.write_bytes(content)
    beside.replace(path)


def read_bytes(path: Path) -> bytes:
    """Return the content of a file."""
    return path.read_bytes()


def data_path(name: str) -> Path:
    """Return where a file of the packed data lies."""
    return Path(__file__).parents[1] / "data" / name
