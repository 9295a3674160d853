"""Drills as data: what each helps with, what the student does, and how it is marked."""

import functools
from collections import Counter
from pathlib import Path
from typing import Annotated, Any, Literal, get_args

from coachlib.errors import DataFileError, InputError, checked_choice
from coachlib.files import data_path, read_toml
from coachlib.validation import Letters, Limits, thing

Need = Literal["aim", "line", "speed", "walk", "spares", "reading"]
NEEDS: tuple[Need, ...] = get_args(Need)


@thing
class Drill:
    """Something to try on the lane.

    Parameters
    ----------
    id, title : str
        Its name in the file, and as people call it.
    needs : tuple of str
        What it helps with: aim, line, speed, walk, spares or reading.
    do, marked_by : str
        What the student does; how it is marked.
    takes : str
        What it takes beside a lane.
    minutes : float
        About how long. [minutes]
    grade : str
        How well founded it is.
    caution : str
        What to take care of; may be empty.
    """

    id: Annotated[str, Letters(40, least=1)]
    title: Annotated[str, Letters(80, least=1)]
    needs: tuple[Need, ...]
    do: Annotated[str, Letters(400, least=1)]
    marked_by: Annotated[str, Letters(200, least=1)]
    takes: Annotated[str, Letters(100, least=1)]
    minutes: Annotated[float, Limits(1, 120, "minutes")]
    grade: Annotated[str, Letters(100, least=1)]
    caution: Annotated[str, Letters(300)] = ""


@functools.cache
def load_drills() -> tuple[Drill, ...]:
    """Return the drills that come with the library, in the order of the file.

    Raises
    ------
    DataFileError
        If the file is damaged: naming drill and field.
    """
    return read_drills(data_path("drills.toml"))


def read_drills(path: Path) -> tuple[Drill, ...]:
    """Return the drills of a file laid out as ours.

    Parameters
    ----------
    path : Path
        TOML with one ``[[drills]]`` table a drill.

    Raises
    ------
    DataFileError
        If it cannot be read, holds none, or one is wrong or twice there.
    """
    tables = read_toml(path).get("drills")
    if not isinstance(tables, list) or not tables:
        message = f"{path.name}: no drill; expected at least one [[drills]] table. Restore the file."
        raise DataFileError(message)
    drills = tuple(_drill(path, table) for table in tables)
    twice = sorted(name for name, n in Counter(drill.id for drill in drills).items() if n > 1)
    if twice:
        message = f"{path.name}: {', '.join(twice)} is there twice; expected each id once. Rename one."
        raise DataFileError(message)
    return drills


def drill_for(need: str, drills: tuple[Drill, ...] | None = None) -> Drill:
    """Return the first drill that helps with a need, of ours if none to choose from are given.

    Raises
    ------
    InputError
        If the need is unknown, or no drill helps with it.
    """
    checked_choice("need", need, NEEDS)
    for drill in load_drills() if drills is None else drills:
        if need in drill.needs:
            return drill
    message = f"need is {need!r}; expected one that a drill helps with. Add a drill for it."
    raise InputError(message, {"need": message})


def _drill(path: Path, table: Any) -> Drill:
    fields = {"takes" if name == "with" else str(name): value for name, value in dict(table).items()}
    if isinstance(fields.get("minutes"), int):
        fields["minutes"] = float(fields["minutes"])
    try:
        return Drill(**fields)
    except InputError as error:
        message = f"{path.name}, drill {table.get('id', '(without id)')}: {error}"
        raise DataFileError(message) from error
