"""Compiling the simulator: the optional extra ``pins``, and a cache keyed by the simulator's own source."""

import hashlib
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import platformdirs

from coachlib.files import read_bytes

_Function = TypeVar("_Function", bound=Callable[..., Any])

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
        compiled_function: _Function = compiler(function)
        return compiled_function
    finally:
        config.CACHE_DIR = before
