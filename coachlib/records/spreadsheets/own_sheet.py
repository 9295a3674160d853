"""A sheet that a coach made by hand: what its columns mean is proposed, looked at, confirmed, then imported.

One line a ball. Boards are counted from the bowler's own side, pins numbered as on the lane. Nothing comes
into the log before all lines are right.
"""

import dataclasses
import hashlib
import re
from collections.abc import Mapping
from datetime import datetime
from functools import partial

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Setting, fields_of
from coachlib.errors import InputError, raise_input_errors, shown
from coachlib.records.log.entries import NewSession, Step, steps_to
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.student import Student
from coachlib.records.spreadsheets.columns import MEANINGS, setting_from_cells, shot_from_cells
from coachlib.records.spreadsheets.sheet import HandmadeSheet, Problems
from coachlib.records.spreadsheets.spreadsheet_cells import checked_cell, read_time, safe_text
from coachlib.records.students.students import Students
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

_Whose = tuple[str | None, datetime]
_SEEN = ("crossed_board", "arrival", "leave_pins")


@dataclasses.dataclass(frozen=True)
class Rest:
    """What holds for all lines of a sheet that does not say it itself.

    Parameters
    ----------
    bowler : Bowler
        Who throws; of a student, what is kept of them counts instead.
    student_key : str or None
        Whose sessions these are, where no column names the students.
    line : Line or None
        The line, where no columns tell feet and target.
    day : datetime or None
        The day, where no column tells it.
    """

    bowler: Bowler = dataclasses.field(default_factory=Bowler)
    student_key: str | None = None
    line: Line | None = None
    day: datetime | None = None


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
        words = [f"Column {column!r} is read as {name}." for name, column in self.mapping.items()]
        words += [f"Column {column!r} is left out." for column in self.unused]
        for new in self.sessions:
            n_balls = sum(kind == "shot" for kind, _ in new.steps)
            who = new.start.bowler.name or "no name"
            words.append(f"{who}, {new.started:%Y-%m-%d}: {n_balls} ball{'s' * (n_balls != 1)}.")
        return (*words, *self.problems.values())


def proposed_mapping(sheet: HandmadeSheet) -> dict[str, str]:
    """Return which column seems to mean what; to be looked at, and changed where it is wrong.

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
    logbook, sheet : Logbook, HandmadeSheet
        The students are looked up in the log; the sheet is from
        :func:`coachlib.records.spreadsheets.sheet.read_sheet`.
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
    unused = tuple(column for column in sheet.columns if column and column not in mapping.values())
    balls, problems = _balls(logbook, sheet, mapping, rest)
    sessions = () if problems else tuple(_session(*whose, seen) for whose, seen in balls.items())
    return Preview(mapping, unused, sessions, problems)


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


def _balls(
    logbook: Logbook, sheet: HandmadeSheet, mapping: Mapping[str, str], rest: Rest
) -> tuple[dict[_Whose, list[tuple[Setting, Shot]]], dict[str, str]]:
    """Return the balls of each student and day, and what is wrong by its place."""
    kept = Students(logbook)
    keys = [one.key for one in kept.listed()] if "student" in mapping else []
    students = {key: kept.get(key) for key in dict.fromkeys([*keys, *filter(None, [rest.student_key])])}
    found: dict[_Whose, list[tuple[Setting, Shot]]] = {}
    problems = Problems(sheet.name)
    for number, line in sheet.rows:
        cells = {meaning: line[column].strip() for meaning, column in mapping.items()}
        made, wrong = checked_cell(
            {"student": partial(_student, cells, students, rest), "day": partial(_day, cells, rest)}
        )
        key = made.get("student")
        bowler = students[key].as_bowler if key else rest.bowler
        known = {"bowler": bowler} | ({} if "feet_board" in cells else {"line": rest.line})
        cells |= {name: safe_text(cells[name]) for name in ("lane", "note") if name in cells}
        seen, more_wrong = checked_cell(
            {
                "setting": partial(setting_from_cells, cells, **known),
                "shot": partial(shot_from_cells, cells, bowler.hand),
            }
        )
        for meaning, message in (wrong | more_wrong).items():
            problems.add(number, message, mapping.get(meaning, ""))
        if not wrong and not more_wrong:
            found.setdefault((key, made["day"]), []).append((seen["setting"], seen["shot"]))
    return found, problems.found


def _student(cells: Mapping[str, str], students: Mapping[str, Student], rest: Rest) -> str | None:
    if "student" not in cells:
        return rest.student_key
    wanted = cells["student"].casefold()
    for key, student in students.items():
        if wanted in (student.name.casefold(), student.shown_name.casefold()):
            return key
    message = (
        f"student is {shown(cells['student'])}; expected a student of this log by name or alias. "
        "Add the student first, or mend the name."
    )
    raise InputError(message, {"student": message})


def _day(cells: Mapping[str, str], rest: Rest) -> datetime:
    return rest.day.astimezone() if "date" not in cells and rest.day else read_time("date", cells["date"])


def _session(student_key: str | None, day: datetime, balls: list[tuple[Setting, Shot]]) -> NewSession:
    """Return the balls of one bowler and day as a session; its key is a mark of what is in it."""
    held = [setting for setting, _ in balls]
    steps: list[Step] = []
    for was, (now, shot) in zip([held[0], *held], balls, strict=False):
        steps += steps_to(was, now, shot=shot)
    mark = hashlib.sha256(repr((student_key, day.isoformat(), balls)).encode()).hexdigest()[:16]
    return NewSession(mark, day, Session(**fields_of(held[0])), steps, student_key)


def _plain(head: str) -> str:
    return " ".join(re.sub(r"[_().,:\[\]-]", " ", head.lower()).split())


def _check_mapping(sheet: HandmadeSheet, mapping: Mapping[str, str], rest: Rest) -> None:
    problems: dict[str, str] = {}
    for meaning, column in mapping.items():
        given, allowed = f"column {column!r}", f"one of {', '.join(map(repr, sheet.columns))}"
        if meaning not in MEANINGS:
            given, allowed = repr(meaning), ", ".join(MEANINGS)
        elif column in sheet.columns:
            continue
        problems[meaning] = f"mapping has {given}; expected {allowed}. Choose one of these."
    has_day = "date" in mapping or rest.day is not None
    has_line = {"feet_board", "target_board"} <= set(mapping) or rest.line is not None
    needed = (
        ("date", has_day, "Map the column of the day, or give Rest(day=…)."),
        ("feet_board", has_line, "Map the columns of feet and target, or give Rest(line=…)."),
        ("crossed_board", any(name in mapping for name in _SEEN), "Map at least one of what was seen."),
    )
    for name, is_given, fix in needed:
        if not is_given:
            problems[name] = f"{name} is told by no column; expected one of {', '.join(sheet.columns)}. {fix}"
    if problems:
        raise_input_errors(problems)
