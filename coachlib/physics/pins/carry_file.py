"""The files of carry table and racks: compressed, with a schema number and a checksum of what they hold."""

import functools
import hashlib
import io
import zipfile
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import DataFileError
from coachlib.files import data_path, read_bytes, write_whole
from coachlib.physics.pins.carry_table import GRID_SHAPE, SCHEMA, CarryTable


def write_table(table: CarryTable, path: Path) -> None:
    """Write a table with its checksum; counts below four thousandths of a rack are dropped."""
    scale = float(table.counts.max()) / 65_535
    whole = np.rint(table.counts / scale).astype(np.uint16)
    whole[table.counts < 0.004] = 0
    node, leave = np.nonzero(whole)
    arrays = {
        "schema": np.array(table.schema),
        "leaves": table.leaves.astype(np.uint16),
        "n_per_node": np.bincount(node, minlength=len(whole)).astype(np.uint16),
        "leave": leave.astype(np.uint16),
        "count": whole[node, leave],
        "overall_frac": table.overall_frac,
        "numbers": np.array([scale, table.pull_racks, table.level, table.n_racks]),
        "settings": np.frombuffer(table.settings.encode(), dtype=np.uint8),
    }
    write_whole(path, packed(arrays))


def packed(arrays: dict[str, NDArray[Any]]) -> bytes:
    """Return arrays as one compressed file with a checksum of what they hold."""
    sealed = arrays | {"checksum": np.frombuffer(_checksum(arrays), dtype=np.uint8)}
    buffer = io.BytesIO()
    np.savez_compressed(buffer, allow_pickle=False, **sealed)
    return buffer.getvalue()


def _checksum(arrays: dict[str, NDArray[Any]]) -> bytes:
    digest = hashlib.sha256()
    for name in sorted(arrays):
        if name != "checksum":
            digest.update(name.encode())
            digest.update(np.ascontiguousarray(arrays[name]).tobytes())
    return digest.digest()


def read_carry_table(path: Path) -> CarryTable:
    """Return the table of a file.

    Raises
    ------
    DataFileError
        If the file is no carry table, is cut short, was altered, or has a newer layout.
    """
    arrays = read_packed(path)
    if "n_per_node" not in arrays:
        message = f"{path.name} holds no carry table; expected the file as shipped. Install coachlib again."
        raise DataFileError(message)
    scale, pull_racks, level, n_racks = arrays["numbers"].tolist()
    counts = np.zeros((int(np.prod(GRID_SHAPE)), len(arrays["leaves"])), dtype=np.float32)
    node = np.repeat(np.arange(len(counts)), arrays["n_per_node"])
    counts[node, arrays["leave"]] = arrays["count"] * np.float32(scale)
    leaves, settings = arrays["leaves"].astype(np.int64), arrays["settings"].tobytes().decode()
    overall_frac = arrays["overall_frac"]
    return CarryTable(SCHEMA, leaves, counts, overall_frac, pull_racks, level, int(n_racks), settings)


def read_packed(path: Path) -> dict[str, NDArray[Any]]:
    """Return the arrays of a file written by :func:`packed`.

    Raises
    ------
    DataFileError
        If the file is cut short, was altered, or has a newer layout.
    """
    as_shipped = "expected the file as shipped. Install coachlib again."
    try:
        with np.load(io.BytesIO(read_bytes(path)), allow_pickle=False) as archive:
            arrays = {name: archive[name] for name in archive.files}
    except (OSError, ValueError, EOFError, zipfile.BadZipFile, AttributeError) as error:
        message = f"{path.name} is cut short or damaged; {as_shipped}"
        raise DataFileError(message) from error
    schema = int(arrays.get("schema", np.array(-1)))
    if schema > SCHEMA:
        message = f"{path.name} has schema {schema}; expected at most {SCHEMA}. Install a newer coachlib."
        raise DataFileError(message)
    if schema != SCHEMA or _checksum(arrays) != arrays.get("checksum", np.array(())).tobytes():
        message = f"{path.name} does not match its checksum; {as_shipped}"
        raise DataFileError(message)
    return arrays


@functools.cache
def shipped_table() -> CarryTable:
    """Return the table that comes with the library, read once."""
    return read_carry_table(data_path("carry_table.npz"))
