"""Names gathered under one roof from many rooms, each loaded when it is first asked for."""

import importlib
from collections.abc import Mapping
from typing import Any


def places_of(rooms: Mapping[str, str]) -> dict[str, str]:
    """Return the module or package of each name, from the names of each, parted by spaces."""
    return {name: room for room, names in rooms.items() for name in names.split()}


def load_from(places: Mapping[str, str], roof: str, name: str) -> Any:
    """Return what has a name from its room; where the room is a package it may be a module of it.

    Parameters
    ----------
    places : mapping of str to str
        From :func:`places_of`.
    roof : str
        The module that is asked, for the message.
    name : str
        What is asked for.

    Raises
    ------
    AttributeError
        If the roof has no such name.
    """
    if name not in places:
        message = f"module {roof!r} has no attribute {name!r}; expected one of {', '.join(sorted(places))}"
        raise AttributeError(message)
    room = importlib.import_module(places[name])
    return getattr(room, name) if hasattr(room, name) else importlib.import_module(f"{room.__name__}.{name}")
