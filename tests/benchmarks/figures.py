"""What all measuring shares: a figure, how long work takes, and how figures are printed."""

import os
import platform
import time
from collections.abc import Callable, Iterable, Sequence

Figure = tuple[str, float, str, str]
"""Name, value, unit, how."""


def elapsed_s(work: Callable[..., object], *given: object) -> float:
    """Return how long it takes to call `work`."""
    start_s = time.perf_counter()
    work(*given)
    return time.perf_counter() - start_s


def picked(wanted: Sequence[str], known: Iterable[str], what: str) -> Sequence[str]:
    """Return the names picked, all without a pick; none, and says so, if one is unknown."""
    names = list(known)
    unknown = sorted(set(wanted) - set(names))
    if unknown:
        print(f"{what} is {', '.join(unknown)}; expected of {', '.join(names)}. Leave it out to run all.")
        return ()
    print(f"# {platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    return wanted or names


def show(figure: Figure) -> None:
    """Print one line: `name value unit (how)`."""
    name, value, unit, how = figure
    print(f"{name} {value:.4g} {unit} ({how})", flush=True)
