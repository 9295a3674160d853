"""Says at the end of `make test` what was skipped and why, and counts all runs together."""

import sys
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from xml.etree import ElementTree


def main(folder: Path) -> int:
    """Print the report on the result files in `folder`; fail if a run is missing or nothing passed."""
    files = sorted(folder.glob("*.xml"))
    cases = [case for file in files for case in ElementTree.parse(file).iter("testcase")]
    skipped = Counter(_reasons(cases))
    failed = sum(case.find(kind) is not None for case in cases for kind in ("failure", "error"))
    passed = len(cases) - failed - skipped.total()
    for reason, n in sorted(skipped.items()):
        print(f"skipped {n}: {reason}")
    print("nothing was skipped" if not skipped else "", end="\n" if not skipped else "")
    print(f"{passed} passed, {failed} failed, {skipped.total()} skipped")
    return (
        0
        if passed and not failed and {file.stem for file in files} == {"unit", "browser", "notebooks"}
        else 1
    )


def _reasons(cases: Iterable[ElementTree.Element]) -> list[str]:
    """Return why each skipped test was skipped."""
    marks = [mark for case in cases if (mark := case.find("skipped")) is not None]
    return [mark.get("message", "no reason given") for mark in marks]


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
