"""What every panel does: a message of the browser is one named action, and errors stand at their place."""

import asyncio
import contextlib
import functools
import threading
from collections.abc import Callable, Iterator, Mapping
from inspect import isfunction
from typing import Any, Concatenate, ParamSpec, TypeVar

from coachlib.errors import DataFileError, InputError, ModelError

_Given = ParamSpec("_Given")
_Panel = TypeVar("_Panel", bound="Panel")
_Step = Callable[Concatenate[_Panel, _Given], None]

_ACTIONS: set[Callable[..., None]] = set()
"""What the browser may ask for, of all panels."""


class OwnLoop:
    """The event loop of a panel's handlers, as far as there is one: widgets are touched there alone."""

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


class Panel:
    """The base of all panels.

    Its handlers are methods under :func:`report_errors`, or :func:`action` where the browser may ask for it.
    """

    is_strict = False
    """Whether errors are raised again after they were shown; for tests."""

    def listen_to(self, *widgets: Any) -> None:
        """Take the messages of these widgets; those with the trait `errors` show what goes wrong."""
        self._alone, self._loop, self._parts, self._is_in_step = threading.RLock(), OwnLoop(), widgets, False
        for widget in widgets:
            widget.on_msg(lambda _widget, message, _buffers: self.handle(message))

    def handle(self, message: Mapping[str, Any]) -> None:
        """Do what a message asks for: ``do`` names the action, the rest are its arguments."""
        given = dict(message)
        action_steps(type(self))[given.pop("do")](self, **given)

    def refresh(self) -> None:
        """Show afresh what hangs on the state; called after each step, whether it worked or not."""

    def show_errors(self, place: str, errors: Mapping[str, str]) -> None:
        """Show messages by field at one widget, named by its attribute, and none at the others."""
        for part in self._parts:
            if part.has_trait("errors"):
                part.errors = dict(errors) if part is getattr(self, place, self) else {}

    @contextlib.contextmanager
    def errors_at(self, place: str, part: str = "") -> Iterator[None]:
        """Show the errors of what is done inside; arguments as of :func:`report_errors`."""
        try:
            yield
        except (InputError, DataFileError, ModelError) as error:
            fields = {} if part else getattr(error, "fields", {})
            self.show_errors(place, fields or {part or "form": str(error)})
            if self.is_strict:
                raise


def report_errors(
    place: str = "", part: str = ""
) -> Callable[[_Step[_Panel, _Given]], _Step[_Panel, _Given]]:
    """Wrap a handler: what goes wrong is shown and changes nothing; what was typed stays.

    A handler that another one calls is a part of that one's step.

    Parameters
    ----------
    place : str
        The widget that shows it, by its attribute; the panel itself if left out.
    part : str
        Where in that widget the whole message stands; if left out, each field bears its own.
    """

    def wrap(step: _Step[_Panel, _Given]) -> _Step[_Panel, _Given]:
        @functools.wraps(step)
        def handled(self: _Panel, /, *args: _Given.args, **kwargs: _Given.kwargs) -> None:
            with self._alone:
                if self._is_in_step:
                    step(self, *args, **kwargs)
                    return
                self._loop.note()
                self.show_errors(place, {})
                self._is_in_step = True
                try:
                    with self.errors_at(place, part):
                        step(self, *args, **kwargs)
                finally:
                    self._is_in_step = False
                    self.refresh()

        return handled

    return wrap


def action(place: str = "", part: str = "") -> Callable[[_Step[_Panel, _Given]], _Step[_Panel, _Given]]:
    """Wrap a handler as :func:`report_errors` does, and let the browser ask for it by its name."""
    return lambda step: offered(report_errors(place, part)(step))


def offered(step: _Step[_Panel, _Given]) -> _Step[_Panel, _Given]:
    """Let the browser ask for a method by its name; errors shown before stay as they are."""
    _ACTIONS.add(step)
    return step


def action_steps(panel: type[Panel]) -> dict[str, Callable[..., None]]:
    """Return what the browser may ask a panel for, by name."""
    known = {name: step for kind in reversed(panel.__mro__) for name, step in vars(kind).items()}
    return {name: step for name, step in known.items() if isfunction(step) and step in _ACTIONS}
