"""Files for their owner's eyes only: written whole or not at all, and never inside the library's source."""

import contextlib
import os
import secrets
from pathlib import Path

from coachlib.errors import DataFileError
from coachlib.records.log.store import keep_out_of_checkout


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
    keep_out_of_checkout(path, "file")
    beside = path.with_name(f"{path.name}.{secrets.token_hex(4)}.new")
    try:
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        beside.replace(path)
    except OSError as error:
        with contextlib.suppress(OSError):
            beside.unlink(missing_ok=True)
        message = (
            f"file {path} could not be written ({error.strerror}); expected room in a folder you may write "
            "to. Nothing was written. Choose another place."
        )
        raise DataFileError(message) from error
    return path
