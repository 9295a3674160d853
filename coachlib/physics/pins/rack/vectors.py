"""Compiled arithmetic on triples (along the lane, towards the inside, up), and how the simulator is compiled.

Compiling needs the optional extra ``pins``; its cache is keyed by the simulator's own source.
"""

import hashlib
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import numpy as np
import platformdirs
from numpy.typing import NDArray

from coachlib.files import read_bytes

_Function = TypeVar("_Function", bound=Callable[..., Any])
Vector = tuple[float, float, float]
Array = NDArray[np.float64]
Whole = NDArray[np.int64]

MISSING_EXTRA = (
    "The pin simulator needs Numba, which is not installed; expected the extra 'pins'. "
    "Install it with pip install 'coachlib[pins]'; the carry table and everything else work without it."
)

try:
    import numba
except ImportError as error:
    raise ImportError(MISSING_EXTRA) from error


def _source_key() -> str:
    """Return a short text that changes when any file of the simulator changes."""
    digest = hashlib.sha256(numba.__version__.encode())
    for path in sorted(Path(__file__).parent.glob("*.py")):
        digest.update(read_bytes(path))
    return digest.hexdigest()[:16]


_CACHE = Path(platformdirs.user_cache_dir("coachlib", appauthor=False)) / "pins" / _source_key()


def compiled(function: _Function) -> _Function:
    """Return `function` compiled on its first call; later sessions read it from the user's cache folder.

    Numba's own cache looks at one file only and would keep a caller whose callee was changed.
    """
    config: Any = numba.config
    before, config.CACHE_DIR = config.CACHE_DIR, str(_CACHE)
    try:
        compiler: Any = numba.njit(cache=True, nogil=True, error_model="numpy")
        return compiler(function)
    finally:
        config.CACHE_DIR = before


@compiled
def row(bodies: Array, column: int, index: int) -> Vector:
    """Return the triple of a body that starts at a column."""
    return bodies[index, column], bodies[index, column + 1], bodies[index, column + 2]


@compiled
def add_to(bodies: Array, column: int, index: int, scale: float, a: Vector) -> None:
    """Add `scale` times a triple to the triple of a body that starts at a column."""
    bodies[index, column] += scale * a[0]
    bodies[index, column + 1] += scale * a[1]
    bodies[index, column + 2] += scale * a[2]


@compiled
def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


@compiled
def cross(a: Vector, b: Vector) -> Vector:
    """Return the vector product."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


@compiled
def plus(a: Vector, scale: float, b: Vector) -> Vector:
    """Return ``a + scale * b``."""
    return a[0] + scale * b[0], a[1] + scale * b[1], a[2] + scale * b[2]


@compiled
def length(a: Vector) -> float:
    """Return the length of a triple."""
    return math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])
