"""The log's file: where it lies, how it is made, opened and guarded, and its errors in plain words.

One SQLite file, readable by its owner alone. A connection lives for one call, so two open notebooks, a killed
kernel or a forked child never share one. A commit has been handed to the disk (write-ahead log, full
synchronisation) before the call returns. Other files for their owner's eyes only are written here too.
"""

import os
import secrets
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

import platformdirs

from coachlib.errors import DataFileError
from coachlib.records.log.schema import OURS, SCHEMA, lift, number_in

BUSY_S = 20.0
"""How long a writer waits for another one. [s]"""

_CHECKOUT = Path(__file__).resolve().parents[3]
_SCRATCH = "build"  # ignored by git, emptied by `make clean`
_SET_ASIDE = (
    "Nothing in it was changed. Move the file elsewhere, or let Logbook().set_aside() rename it; "
    "then a new log starts."
)
_TROUBLES = {
    sqlite3.SQLITE_FULL: (
        "has no room left on its disk; expected room for one more event. "
        "Nothing new was kept, what was logged before is safe. Free some space and try again."
    ),
    sqlite3.SQLITE_BUSY: (
        f"was held by another program for more than {BUSY_S:g} s; expected it to be free. "
        "Nothing new was kept. Close the other program and try again."
    ),
    sqlite3.SQLITE_READONLY: (
        "cannot be opened for writing; expected a file in a folder you may write to. Nothing new was kept. "
        "Give yourself the right to write there, or set COACHLIB_DATA to another folder."
    ),
    sqlite3.SQLITE_IOERR: (
        "could not be read or written by the disk; expected a disk that works. Nothing new was kept. "
        "Check the disk, or set COACHLIB_DATA to a folder on another one."
    ),
}
_SAME = {
    sqlite3.SQLITE_LOCKED: sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_PROTOCOL: sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_CANTOPEN: sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_PERM: sqlite3.SQLITE_READONLY,
}


def default_path() -> Path:
    """Return the log's place: in the folder `COACHLIB_DATA` names, else in the user's own data folder."""
    named = os.environ.get("COACHLIB_DATA")
    return (Path(named) if named else _own_folder()) / "logbook.sqlite"


@contextmanager
def opened(path: Path) -> Iterator[sqlite3.Connection]:
    """Open the log, made first if missing.

    Raises
    ------
    DataFileError
        If the file is damaged, another program's, of a newer schema, or cannot be read or written.
    """
    try:
        _lay(path)
        with closing(sqlite3.connect(path, timeout=BUSY_S, isolation_level=None)) as db:
            _check_or_make(db, path)
            yield db
    except OSError as error:
        message = f"log {path} {_TROUBLES[sqlite3.SQLITE_READONLY]} ({error.strerror})"
        raise DataFileError(message) from error
    except sqlite3.Error as error:
        raise DataFileError(_in_words(path, error)) from error


@contextmanager
def writing(path: Path) -> Iterator[sqlite3.Connection]:
    """Open the log for one change: all of it is on disk afterwards, or none of it."""
    with opened(path) as db:
        db.execute("BEGIN IMMEDIATE")
        yield db
        db.execute("COMMIT")  # where this is not reached, closing takes everything back


def set_aside(path: Path) -> Path:
    """Rename the log and what belongs to it, never over another file, and return its new place."""
    n = 1
    while (aside := path.with_name(f"{path.stem}.aside-{n}{path.suffix}")).exists():
        n += 1
    try:
        for tail in ("-wal", "-shm", ""):
            if (part := path.with_name(path.name + tail)).exists() or not tail:
                part.rename(aside.with_name(aside.name + tail))
    except OSError as error:
        message = (
            f"log {path} could not be renamed ({error.strerror}); expected a file in a folder you may write "
            "to. Move it by hand."
        )
        raise DataFileError(message) from error
    return aside


def write_private(path: Path, content: bytes) -> Path:
    """Write a file that only its owner may read, in the place of an older one of that name.

    Parameters
    ----------
    path : Path
        Where; its folder is made if missing.
    content : bytes
        All of it.

    Raises
    ------
    DataFileError
        If it lies inside the library's source, or cannot be written; then an older file stays as it was.
    """
    _keep_out_of_checkout(path, "file")
    beside = path.with_name(f"{path.name}.{secrets.token_hex(4)}.new")
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        beside.replace(path)
    except OSError as error:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        message = (
            f"file {path} could not be written ({error.strerror}); expected room in a folder you may write "
            "to. Nothing was written. Choose another place."
        )
        raise DataFileError(message) from error
    return path


def _own_folder() -> Path:
    return platformdirs.user_data_path("coachlib", appauthor=False)


def _lay(path: Path) -> None:
    """Make folder and file where missing, and keep both for their owner's eyes."""
    _keep_out_of_checkout(path)
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    if path.parent == _own_folder() and path.parent.stat().st_mode & 0o077:
        path.parent.chmod(0o700)
    if not path.exists():
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
    elif path.is_file() and path.stat().st_mode & 0o077:
        path.chmod(0o600)


def _keep_out_of_checkout(path: Path, noun: str = "log") -> None:
    """Raise for a place inside the library's own source, from where it could be published by mistake."""
    place = path.resolve()
    is_checkout = (_CHECKOUT / "pyproject.toml").is_file() and place.is_relative_to(_CHECKOUT)
    if is_checkout and not place.is_relative_to(_CHECKOUT / _SCRATCH):
        message = (
            f"{noun} {path} lies inside the library's source; expected a folder elsewhere, since it keeps "
            "people's data. Choose a folder of your own; for the log leave the path out."
        )
        raise DataFileError(message)


def _check_or_make(db: sqlite3.Connection, path: Path) -> None:
    version = number_in(db, "PRAGMA user_version")
    is_empty = not version and not number_in(db, "SELECT count(*) FROM sqlite_master")
    if not is_empty and number_in(db, "PRAGMA application_id") != OURS:
        message = f"log {path} is another program's database; expected a log of this library. {_SET_ASIDE}"
        raise DataFileError(message)
    if version > SCHEMA:
        message = (
            f"log {path} is of schema {version}; expected {SCHEMA}, the newest this version reads. "
            f"Update coachlib. {_SET_ASIDE}"
        )
        raise DataFileError(message)
    if version < SCHEMA:
        lift(db)
    for pragma in ("synchronous = FULL", "secure_delete = ON", "foreign_keys = ON"):
        db.execute(f"PRAGMA {pragma}")
    try:
        db.execute("PRAGMA journal_mode = WAL")
    except sqlite3.OperationalError as error:
        if _code(error) != sqlite3.SQLITE_BUSY:  # busy: another notebook is making the log and will do it
            raise


def _code(error: sqlite3.Error) -> int:
    return getattr(error, "sqlite_errorcode", sqlite3.SQLITE_ERROR) & 0xFF


def _in_words(path: Path, error: sqlite3.Error) -> str:
    code = _code(error)
    trouble = _TROUBLES.get(_SAME.get(code, code))
    if trouble is None:
        trouble = f"is damaged ({error}); expected a log of this library. {_SET_ASIDE}"
    return f"log {path} {trouble}"
