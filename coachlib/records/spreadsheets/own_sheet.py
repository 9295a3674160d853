"""A sheet that a coach made by hand: what its columns mean is proposed, looked at, confirmed, then imported.

One line a ball. Boards are counted from the bowler's own side, pins numbered as on the lane. Nothing comes
into the log before all lines are right.
"""

import dataclasses
import re
from collections.abc import Mapping

from coachlib.errors import InputError, raise_input_errors
from coachlib.records.log.entries import NewSession
from coachlib.records.log.logbook import Logbook
from coachlib.records.spreadsheets.own_rows import Rest, RowReader
from coachlib.records.spreadsheets.sheet import HandmadeSheet

MEANINGS: dict[str, tuple[str, ...]] = {
    "student": ("student", "name", "bowler", "who"),
    "date": ("date", "day", "when"),
    "lane": ("lane", "lane no", "lane number"),
    "feet_board": ("feet", "feet board", "stance", "stood", "stand", "start board"),
    "target_board": ("target", "target board", "eyes", "aim", "looked at"),
    "target_ft": ("target ft", "target distance", "target distance ft"),
    "crossed_board": ("crossed", "crossed board", "over", "rolled over", "board at arrows"),
    "arrival": ("arrival", "arrived", "pocket", "at the pins", "entry board"),
    "leave_pins": ("leave", "left", "pins left", "leave pins", "pins standing", "standing"),
    "speed_mph": ("speed", "speed mph", "mph"),
    "speed_kmh": ("speed km/h", "speed kmh", "km/h", "kmh", "kph"),
    "breakpoint_board": ("breakpoint", "breakpoint board", "turned at board"),
    "breakpoint_ft": ("breakpoint ft", "turned at ft", "breakpoint distance"),
    "is_spare": ("spare", "is spare", "spare ball", "second ball"),
    "note": ("note", "notes", "remark", "remarks", "comment", "comments"),
}
"""What a column may mean, and how its head may be written; the first word of the list is the usual one."""

_SEEN = ("crossed_board", "arrival", "leave_pins")


@dataclasses.dataclass(frozen=True)
class Preview:
    """How a sheet would be read, to be looked at before anything is kept.

    Parameters
    ----------
    mapping : mapping of str to str
        The sheet's column for each meaning.
    unused : tuple of str
        Columns that mean nothing here; what stands in them is left out.
    sessions : tuple of NewSession
        What would come into the log; empty where something is wrong.
    problems : mapping of str to str
        What is wrong, by its place; not empty means that nothing can be imported.
    """

    mapping: Mapping[str, str]
    unused: tuple[str, ...]
    sessions: tuple[NewSession, ...]
    problems: Mapping[str, str]

    @property
    def words(self) -> tuple[str, ...]:
        """What a person should look at, a sentence each."""
        said = [f"Column {column!r} is read as {name}." for name, column in self.mapping.items()]
        said += [f"Column {column!r} is left out." for column in self.unused]
        for new in self.sessions:
            n_balls = sum(kind == "shot" for kind, _ in new.steps)
            who = new.start.bowler.name or "no name"
            said.append(f"{who}, {new.started:%Y-%m-%d}: {n_balls} ball{'s' * (n_balls != 1)}.")
        return (*said, *self.problems.values())


def proposed_mapping(sheet: HandmadeSheet) -> dict[str, str]:
    """Return which column seems to mean what; to be looked at, and changed where it is wrong.

    Parameters
    ----------
    sheet : Sheet
        From :func:`coachlib.records.spreadsheets.sheet.read_sheet`.

    Returns
    -------
    dict of str to str
        The sheet's column by meaning, see :data:`MEANINGS`; a meaning that no column has is missing.
    """
    heads = {_plain(column): column for column in sheet.columns if column}
    found: dict[str, str] = {}
    for meaning, names in MEANINGS.items():
        column = next((heads[name] for name in (_plain(meaning), *map(_plain, names)) if name in heads), None)
        if column is not None and column not in found.values():
            found[meaning] = column
    return found


def preview(
    logbook: Logbook, sheet: HandmadeSheet, mapping: Mapping[str, str] | None = None, rest: Rest | None = None
) -> Preview:
    """Return how a sheet would be read; nothing is kept.

    Parameters
    ----------
    logbook : Logbook
        Where the students are looked up.
    sheet : Sheet
        From :func:`coachlib.records.spreadsheets.sheet.read_sheet`.
    mapping : mapping, optional
        The sheet's column by meaning; by default as :func:`proposed_mapping` sees it.
    rest : Rest, optional
        What the sheet does not say.

    Raises
    ------
    InputError
        If the mapping names an unknown meaning or column, or something needed is told nowhere.
    """
    mapping = proposed_mapping(sheet) if mapping is None else dict(mapping)
    rest = rest or Rest()
    _check_mapping(sheet, mapping, rest)
    reader = RowReader(logbook, sheet, mapping, rest)
    unused = tuple(column for column in sheet.columns if column and column not in mapping.values())
    sessions = () if reader.problems.found else reader.sessions()
    return Preview(mapping, unused, sessions, reader.problems.found)


def import_own_sheet(logbook: Logbook, seen: Preview) -> tuple[str, ...]:
    """Put a sheet into the log as it was seen in its preview, and return the keys of its sessions.

    Raises
    ------
    InputError
        With all that is wrong, by row and column, or for a session that is in the log already; then nothing
        was added.
    """
    if seen.problems:
        raise InputError("\n".join([*seen.problems.values(), "Nothing was added to the log."]), seen.problems)
    return logbook.add(seen.sessions)


def _plain(head: str) -> str:
    return " ".join(re.sub(r"[_().,:\[\]-]", " ", head.lower()).split())


def _check_mapping(sheet: HandmadeSheet, mapping: Mapping[str, str], rest: Rest) -> None:
    problems: dict[str, str] = {}
    for meaning, column in mapping.items():
        if meaning not in MEANINGS:
            problems[meaning] = (
                f"mapping has {meaning!r}; expected {', '.join(MEANINGS)}. Choose one of these."
            )
        elif column not in sheet.columns:
            listed = ", ".join(map(repr, sheet.columns))
            problems[meaning] = (
                f"mapping has column {column!r}; expected one of {listed}. Choose one of these."
            )
    for name, is_told, fix in (
        (
            "date",
            "date" in mapping or rest.day is not None,
            "Map the column of the day, or give Rest(day=…).",
        ),
        (
            "feet_board",
            {"feet_board", "target_board"} <= set(mapping) or rest.line is not None,
            "Map the columns of feet and target, or give Rest(line=…).",
        ),
        ("crossed_board", any(name in mapping for name in _SEEN), "Map at least one of what was seen."),
    ):
        if not is_told:
            problems[name] = f"{name} is told by no column; expected one of {', '.join(sheet.columns)}. {fix}"
    if problems:
        raise_input_errors(problems)
