"""Measures and prints one line a figure, `name value unit (how)`; `make bench` runs it.

Every `bench_*.py` beside this file has `figures()`, which yields (name, value, unit, how). Names given on the
command line pick files: `python tests/benchmarks/run.py start` runs `bench_start.py` alone.
"""

import importlib
import sys
from collections.abc import Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.benchmarks.figures import picked, show


def main(wanted: Sequence[str]) -> int:
    """Run the files picked, all without a pick; 2 if a name is unknown."""
    files = Path(__file__).parent.glob("bench_*.py")
    known = sorted(path.stem.removeprefix("bench_") for path in files)
    names = picked(wanted, known, "benchmark")
    for name in names:
        for figure in importlib.import_module(f"tests.benchmarks.bench_{name}").figures():
            show(figure)
    return 0 if names else 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
