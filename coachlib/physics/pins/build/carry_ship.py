"""Make the shipped files from a folder of racks: the carry table, and the racks themselves.

``python -m coachlib.physics.pins.build.carry_ship --racks build/carry --out data`` writes ``carry_table.npz``
and ``carry_racks.npz``. The second holds what every rack left, so that anybody can count for themselves.
"""

import argparse
import dataclasses
import json
import sys
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import DataFileError, InputError
from coachlib.files import data_path, read_json, write_whole
from coachlib.physics.pins.build import arrival_sampling as design
from coachlib.physics.pins.build import sweep
from coachlib.physics.pins.build.carry_build import Smoothing, build_table, held_out_log_loss
from coachlib.physics.pins.carry_file import packed, read_packed, write_table
from coachlib.physics.pins.carry_table import SCHEMA

LEAST_RACKS = 1000


@dataclasses.dataclass(frozen=True)
class Racks:
    """Racks thrown: number in the design, arrival, what was left, and whether all had come to rest."""

    index: NDArray[np.int64]
    points: NDArray[np.float64]
    standing_bits: NDArray[np.int64]
    is_settled: NDArray[np.bool_]
    settings: dict[str, Any]


def racks_of_folder(folder: Path) -> Racks:
    """Return the racks of a sweep's folder.

    Raises
    ------
    InputError
        If it holds too few to make a table of.
    """
    rows = sweep.read_thrown_racks(folder)
    if len(rows) < LEAST_RACKS:
        problem = f"--racks is {str(folder)!r} with {len(rows)} racks; expected at least {LEAST_RACKS}."
        problem += f" Throw more: python -m coachlib.physics.pins.build.sweep --out {folder}"
        raise InputError(problem)
    settings = read_json(folder / "settings.json")
    points = _points(rows[:, 0], settings["seed"])
    return Racks(rows[:, 0], points, rows[:, 1], rows[:, 2].astype(bool), settings | {"n_racks": len(rows)})


def _points(index: NDArray[np.int64], seed: int) -> NDArray[np.float64]:
    return design.arrival_points(0, int(index[-1]) + 1, seed)[index]


def write_racks(racks: Racks, path: Path) -> None:
    """Write what every rack left, with settings and a checksum; arrivals follow from the design's seed."""
    arrays = {
        "schema": np.array(SCHEMA),
        "index_step": np.diff(racks.index, prepend=0).astype(np.uint32),
        "last_point": racks.points[-1],
        "standing_bits": racks.standing_bits.astype(np.uint16),
        "is_settled": np.packbits(racks.is_settled),
        "settings": np.frombuffer(json.dumps(racks.settings).encode(), dtype=np.uint8),
    }
    write_whole(path, packed(arrays))


def read_shipped_racks(path: Path | None = None) -> Racks:
    """Return the racks behind the shipped table, or those of another file.

    Raises
    ------
    DataFileError
        If the file is cut short, was altered, or has a newer layout.
    """
    arrays = read_packed(path or data_path("carry_racks.npz"))
    settings = json.loads(arrays["settings"].tobytes())
    index = np.cumsum(arrays["index_step"], dtype=np.int64)
    points = _points(index, settings["seed"])
    if not np.allclose(points[-1], arrays["last_point"]):
        message = (
            "carry_racks.npz: this SciPy draws other Sobol points; expected the same. Use another version."
        )
        raise DataFileError(message)
    settled = np.unpackbits(arrays["is_settled"], count=len(index)).astype(bool)
    return Racks(index, points, arrays["standing_bits"].astype(np.int64), settled, settings)


def ship(racks: Racks, folder: Path, smoothing: Smoothing) -> str:
    """Write both files and return what they hold, in one line."""
    settings = json.dumps(racks.settings | {"smoothing": dataclasses.asdict(smoothing)})
    table = build_table(racks.points, racks.standing_bits, smoothing, settings)
    write_table(table, folder / "carry_table.npz")
    write_racks(racks, folder / "carry_racks.npz")
    sizes = [(folder / name).stat().st_size // 1000 for name in ("carry_table.npz", "carry_racks.npz")]
    return (
        f"{table.n_racks} racks, {len(table.leaves)} leaves, {racks.is_settled.mean():.3f} came to rest, "
        f"level {table.level:.3f}, table {sizes[0]} kB, racks {sizes[1]} kB in {folder}"
    )


def compare_smoothings(racks: Racks) -> list[str]:
    """Return one line a smoothing with its held-out log-loss, the shipped one first."""
    chosen = Smoothing()
    others = [
        dataclasses.replace(chosen, **{field.name: factor * getattr(chosen, field.name)})
        for field in dataclasses.fields(Smoothing)
        for factor in (0.6, 1.7)
    ]
    return [
        f"{held_out_log_loss(racks.points, racks.standing_bits, smoothing):.4f} {smoothing}"
        for smoothing in (chosen, *others)
    ]


def main(arguments: list[str] | None = None) -> int:
    """Run from the command line; return 2 where the racks cannot be used, with the reason."""
    parser = argparse.ArgumentParser(
        prog="python -m coachlib.physics.pins.build.carry_ship", description=__doc__
    )
    parser.add_argument("--racks", type=Path, default=Path("build/carry"), help="folder of the sweep")
    parser.add_argument("--out", type=Path, default=Path("data"), help="folder for the two files")
    parser.add_argument(
        "--compare", action="store_true", help="compare smoothings by held-out log-loss instead"
    )
    options = parser.parse_args(arguments)
    try:
        racks = racks_of_folder(options.racks)
    except (InputError, DataFileError) as error:
        sys.stderr.write(f"{error}\n")
        return 2
    lines = compare_smoothings(racks) if options.compare else [ship(racks, options.out, Smoothing())]
    sys.stdout.write("\n".join([*lines, ""]))
    return 0


if __name__ == "__main__":
    sys.exit(main())
