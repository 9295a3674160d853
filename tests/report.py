"""Says at the end of `make test` what was skipped and why, and counts all runs together."""

import sys
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

RUNS = ("browser", "notebooks", "unit")


def main(folder: Path) -> int:
    """Print the report on the result files in `folder`; 1 if a run is missing or empty, or nothing passed."""
    runs = {
        path.stem: list(ElementTree.parse(path).iter("testcase")) for path in sorted(folder.glob("*.xml"))
    }
    cases = [case for run in runs.values() for case in run]
    marks = [mark for case in cases if (mark := case.find("skipped")) is not None]
    reasons = Counter(mark.get("message", "no reason given") for mark in marks)
    n_failed = sum(case.find("failure") is not None or case.find("error") is not None for case in cases)
    n_passed = len(cases) - n_failed - len(marks)
    lines = [f"skipped {n}: {reason}" for reason, n in sorted(reasons.items())] or ["nothing was skipped"]
    print(*lines, f"{n_passed} passed, {n_failed} failed, {len(marks)} skipped", sep="\n")
    is_whole = all(runs.get(name) for name in RUNS)
    return 0 if is_whole and n_passed and not n_failed else 1


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
