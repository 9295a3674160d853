"""Measures and prints one line a figure, `name value unit (how)`; `make bench` runs it.

Every `bench_*.py` beside this file has `figures()`, which yields (name, value, unit, how). Names given on the
command line pick files: `python tests/benchmarks/run.py start` runs `bench_start.py` alone.
"""

import importlib
import os
import platform
import sys
from collections.abc import Sequence
from pathlib import Path

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent


def main(wanted: Sequence[str]) -> int:
    """Run the files picked, all without a pick; 2 if a name is unknown."""
    names = sorted(path.stem.removeprefix("bench_") for path in HERE.glob("bench_*.py"))
    unknown = sorted(set(wanted) - set(names))
    if unknown:
        print(f"benchmark is {', '.join(unknown)}; expected of {', '.join(names)}. Leave it out to run all.")
        return 2
    print(f"# {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    for name in wanted or names:
        for figure, value, unit, how in importlib.import_module(f"tests.benchmarks.bench_{name}").figures():
            print(f"{figure} {value:.4g} {unit} ({how})", flush=True)
    return 0


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    sys.exit(main(sys.argv[1:]))
