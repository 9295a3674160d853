"""What every handler of the lane side does around its step: tell what went wrong, and show all afresh."""

import functools
from collections.abc import Callable
from typing import Any, Concatenate, ParamSpec, TypeVar

from coachlib.errors import DataFileError, InputError

_Given = ParamSpec("_Given")
_Panel = TypeVar("_Panel", bound=Any)
_Step = Callable[Concatenate[_Panel, _Given], None]


def report_errors(place: str) -> Callable[[_Step[_Panel, _Given]], _Step[_Panel, _Given]]:
    """Wrap a handler: what goes wrong is told at `place` and changes nothing; what was typed stays."""

    def wrap(step: _Step[_Panel, _Given]) -> _Step[_Panel, _Given]:
        @functools.wraps(step)
        def handled(self: _Panel, /, *args: _Given.args, **kwargs: _Given.kwargs) -> None:
            with self._alone:
                self._loop.note()
                self.entry.errors, self.who.errors = {}, {}
                try:
                    step(self, *args, **kwargs)
                except (InputError, DataFileError) as error:
                    getattr(self, place).errors = getattr(error, "fields", {}) or {"form": str(error)}
                    if self.is_strict:
                        raise
                finally:
                    self.refresh()

        return handled

    return wrap
