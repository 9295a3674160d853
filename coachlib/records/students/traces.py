"""Where the name of a person may have been left behind, searched byte by byte, and how each place is cleaned.

Searched: the log with its companions, logs that were set aside, the notebooks that were run with everything
beside them, the cache, and the history that the notebook kernel keeps of typed lines.
"""

import html
import itertools
import json
import os
import re
import urllib.parse
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any, Literal, NamedTuple

import platformdirs

from coachlib.files import live_folder
from coachlib.records.log import store

FEWEST_LETTERS = 3
"""Shorter words stand by chance in any file, and are not searched."""

PlaceKind = Literal[
    "log", "set-aside log", "notebook", "beside the notebooks", "cache", "kernel history", "copy"
]
_LETTER = rb"[0-9A-Za-z_\x80-\xff]"
_TAILS = ("-wal", "-shm", "-journal")
DATABASE = b"SQLite format 3\x00"


class TracePlace(NamedTuple):
    """A file that is searched."""

    kind: PlaceKind
    path: Path


def places(log_path: Path, notebook_folders: Iterable[Path] = ()) -> tuple[TracePlace, ...]:
    """Return the files that may hold a person's name.

    Notebooks were run in the folders given, beside the usual one.
    """
    found: dict[Path, PlaceKind] = {}
    for kind, paths in _kinds(log_path, notebook_folders):
        for path in paths:
            found.setdefault(path, kind)
    return tuple(TracePlace(kind, path) for path, kind in sorted(found.items()))


def written_forms(word: str) -> tuple[bytes, ...]:
    """Return how a word may stand in a file: plain, in JSON, HTML or an address, or two bytes a letter."""
    forms = (
        word.encode(),
        json.dumps(word, ensure_ascii=False)[1:-1].encode(),
        json.dumps(word)[1:-1].encode(),
        html.escape(word).encode(),
        urllib.parse.quote(word).encode(),
        word.encode("utf-16-le"),
    )
    return tuple(dict.fromkeys(forms))


def n_found(path: Path, words: Sequence[str]) -> int:
    """Return how often words stand in a file, in its name or, of an archive, in what it holds."""
    pattern = word_pattern(words, is_whole=not is_database(path))
    forms = {form for word in words for form in written_forms(word)}
    parts = itertools.chain((path.name.encode(),), _contents(path))
    # The search is slow: tables of lines are many megabytes, and hold none of the words.
    return sum(len(pattern.findall(part)) for part in parts if any(form in part for form in forms))


def word_pattern(words: Sequence[str], *, is_whole: bool) -> re.Pattern[bytes]:
    """Return what finds words in bytes; in a database there may be a letter of the next field beside them."""
    forms = sorted({form for word in words for form in written_forms(word)}, key=len, reverse=True)
    joined = b"|".join(map(re.escape, forms)) or rb"(?!)"
    return re.compile(rb"(?<!%b)(?:%b)(?!%b)" % (_LETTER, joined, _LETTER) if is_whole else joined)


def is_database(path: Path) -> bool:
    """Return whether a file is one of SQLite, or belongs to one."""
    if path.name.endswith(_TAILS):
        return True
    with path.open("rb") as stream:
        return stream.read(len(DATABASE)) == DATABASE or ".aside-" in path.name


def blank(path: Path, words: Sequence[str]) -> None:
    """Put as many letters x in the place of each word; nothing else in the file moves."""
    pattern = word_pattern(words, is_whole=not is_database(path))
    content = path.read_bytes()
    path.write_bytes(pattern.sub(lambda found: b"x" * len(found[0]), content))


def clear_notebook(path: Path, words: Sequence[str], *, blank_typed: bool) -> None:
    """Take away outputs and widget states that hold one of the words; in typed cells, if asked, the words."""
    pattern = word_pattern(words, is_whole=True)
    notebook = json.loads(path.read_text(encoding="utf-8"))
    for cell in notebook.get("cells", []):
        if pattern.search(_as_bytes(cell.get("outputs", []))):
            cell["outputs"], cell["execution_count"] = [], None
        if blank_typed:
            cell["source"] = _blanked(cell.get("source", ""), pattern)
    if pattern.search(_as_bytes(notebook.get("metadata", {}))):
        notebook["metadata"].pop("widgets", None)
    path.write_text(json.dumps(notebook, ensure_ascii=False, indent=1), encoding="utf-8")


def _blanked(source: Any, pattern: re.Pattern[bytes]) -> Any:
    if isinstance(source, list):
        return [_blanked(line, pattern) for line in source]
    return pattern.sub(b"(erased)", str(source).encode()).decode()


def _as_bytes(part: Any) -> bytes:
    return json.dumps(part, ensure_ascii=False).encode()


def _kinds(log_path: Path, notebook_folders: Iterable[Path]) -> Iterator[tuple[PlaceKind, list[Path]]]:
    folder = log_path.parent
    logs = [log_path.with_name(log_path.name + tail) for tail in ("", *_TAILS)]
    yield "log", [path for path in logs if path.is_file()]
    yield "set-aside log", [path for path in folder.glob(f"{log_path.stem}.aside-*") if path.is_file()]
    usual = live_folder()
    for notebooks in (*usual.parent.glob(f"{usual.name}*"), *notebook_folders):
        files = _files(notebooks)
        yield "notebook", [path for path in files if path.suffix == ".ipynb"]
        yield "beside the notebooks", files
    yield "cache", _files(Path(platformdirs.user_cache_path("coachlib", appauthor=False)))
    kernel = Path(os.environ.get("IPYTHONDIR") or Path.home() / ".ipython")
    yield "kernel history", sorted(kernel.glob("profile_*/history.sqlite*"))
    if log_path == store.default_path():  # a folder of ours; one that was given may hold anything
        yield "copy", _files(folder)


def _files(folder: Path) -> list[Path]:
    return [path for path in sorted(folder.rglob("*")) if path.is_file() and not path.is_symlink()]


def _contents(path: Path) -> Iterator[bytes]:
    if path.suffix == ".zip" and zipfile.is_zipfile(path):
        with zipfile.ZipFile(path) as archive:
            for name in archive.namelist():
                yield name.encode()
                yield archive.read(name)
    else:
        yield path.read_bytes()
