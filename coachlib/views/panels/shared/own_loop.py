"""Bringing news from another thread to the panel's own: widgets are touched there and nowhere else."""

import asyncio
import contextlib
from collections.abc import Callable


class OwnLoop:
    """The event loop in which the panel's handlers run, as far as there is one."""

    def __init__(self) -> None:
        self._loop: asyncio.AbstractEventLoop | None = None
        self.note()

    def note(self) -> None:
        """Remember the loop of the code that is running; without one the last known stays."""
        with contextlib.suppress(RuntimeError):
            self._loop = asyncio.get_running_loop()

    def call(self, step: Callable[[], None]) -> None:
        """Have a step done in the loop, soon; where there is none, or it is closed, nothing happens."""
        if self._loop is not None:
            with contextlib.suppress(RuntimeError):
                self._loop.call_soon_threadsafe(step)
