"""One line of a sheet made by hand: who, when, on which line, and what was seen."""

import dataclasses
import functools
import hashlib
import re
from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Setting
from coachlib.errors import InputError, checked_number, raise_input_errors, shown
from coachlib.records.log.entries import NewSession, Step
from coachlib.records.log.logbook import Logbook
from coachlib.records.spreadsheets.setting_changes import FIELDS, changes_between
from coachlib.records.spreadsheets.sheet import HandmadeSheet, Problems
from coachlib.records.spreadsheets.spreadsheet_cells import checked_cell, read_cell
from coachlib.records.students.students import Students
from coachlib.units import kmh_to_mph, mph_to_kmh
from coachlib.world.bowler import Bowler
from coachlib.world.hand import own_pins
from coachlib.world.lane import ARRIVAL_CLASSES, CENTRE_BOARD
from coachlib.world.line import Line
from coachlib.world.parsing import read_pins
from coachlib.world.shot import Shot

_NUMBERS = ("crossed_board", "breakpoint_board", "breakpoint_ft")
SPEED_LIMITS_MPH = (8.0, 25.0)
"""Those of :data:`coachlib.world.bowler.SpeedMph`; a test compares them. [mph]"""
_LINE = ("feet_board", "target_board", "target_ft")
_DATE = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})")


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


class RowReader:
    """Reads the lines of a sheet and collects what is wrong with them."""

    def __init__(
        self, logbook: Logbook, sheet: HandmadeSheet, mapping: Mapping[str, str], rest: Rest
    ) -> None:
        self.mapping, self.rest, self.problems = mapping, rest, Problems(sheet.name)
        students = Students(logbook)
        listed = students.listed() if "student" in mapping else ()
        self._students = {one.key: students.get(one.key) for one in listed}
        if rest.student_key is not None:
            self._students[rest.student_key] = students.get(rest.student_key)
        self._balls: dict[tuple[str | None, datetime], list[tuple[Setting, Shot]]] = {}
        for number, cells in sheet.rows:
            self._read(number, {meaning: cells[column].strip() for meaning, column in mapping.items()})

    def sessions(self) -> tuple[NewSession, ...]:
        """Return what was read: a session for each student and day."""
        return tuple(_session(student, day, balls) for (student, day), balls in self._balls.items())

    def _read(self, number: int, cells: Mapping[str, str]) -> None:
        made, wrong = checked_cell({"student": lambda: self._student(cells), "day": lambda: self._day(cells)})
        student = made.get("student")
        bowler = self._students[student].as_bowler if student else self.rest.bowler
        more, more_wrong = checked_cell(
            {"setting": lambda: self._setting(cells, bowler), "shot": lambda: _shot(cells, bowler)}
        )
        for meaning, message in (wrong | more_wrong).items():
            self.problems.add(number, message, self.mapping.get(meaning, ""))
        if not wrong and not more_wrong:
            self._balls.setdefault((student, made["day"]), []).append((more["setting"], more["shot"]))

    def _student(self, cells: Mapping[str, str]) -> str | None:
        if "student" not in cells:
            return self.rest.student_key
        wanted = cells["student"].casefold()
        for key, student in self._students.items():
            if wanted in (student.name.casefold(), student.shown_name.casefold()):
                return key
        message = (
            f"student is {shown(cells['student'])}; expected a student of this log by name or alias. "
            "Add the student first, or mend the name."
        )
        raise InputError(message, {"student": message})

    def _day(self, cells: Mapping[str, str]) -> datetime:
        if "date" not in cells and self.rest.day is not None:
            return self.rest.day.astimezone()
        return _day(cells["date"])

    def _setting(self, cells: Mapping[str, str], bowler: Bowler) -> Setting:
        line = self.rest.line if "feet_board" not in self.mapping else None
        made, problems = checked_cell(
            {"line": lambda: line or _line(cells), "lane": lambda: _lane(cells, bowler)}
        )
        if problems:
            raise_input_errors(problems)
        return Setting(bowler=bowler, line=made["line"], lane=made["lane"])


def _session(student_key: str | None, day: datetime, balls: list[tuple[Setting, Shot]]) -> NewSession:
    """Return the balls of one bowler and day as a session; its key is a mark of what is in it."""
    now = balls[0][0]
    held = {name: getattr(now, name) for name in FIELDS}
    steps: list[Step] = []
    for setting, shot in balls:
        changes = changes_between(now, setting)
        steps += [("change", changes)] if changes else []
        steps.append(("shot", {"shot": shot}))
        now = setting
    mark = hashlib.sha256(repr((student_key, day.isoformat(), balls)).encode()).hexdigest()[:16]
    return NewSession(mark, day, Session(**held), steps, student_key)


def _shot(cells: Mapping[str, str], bowler: Bowler) -> Shot:
    makers = _number_makers(_NUMBERS, cells) | {
        "speed_mph": lambda: _speed_mph(cells),
        "arrival": lambda: _arrival(cells.get("arrival", "")),
        "leave_pins": lambda: _leave(cells.get("leave_pins", ""), bowler),
        "is_spare": lambda: read_cell("is_spare", cells.get("is_spare", ""), bool) or False,
    }
    values, problems = checked_cell(makers)
    fields = {"leave" if name == "leave_pins" else name: value for name, value in values.items()}
    try:
        shot = Shot(**fields, note=cells.get("note", ""))
    except InputError as error:
        is_alone = not problems
        for name, message in error.fields.items():
            if is_alone or fields.get(name) is not None:
                problems["leave_pins" if name == "leave" else name] = message
    if problems:
        raise_input_errors(problems)
    return shot


def _line(cells: Mapping[str, str]) -> Line:
    values, problems = checked_cell(_number_makers(_LINE, cells))
    if problems:
        raise_input_errors(problems)
    return Line(**{name: value for name, value in values.items() if value is not None})


def _lane(cells: Mapping[str, str], bowler: Bowler) -> str:
    lane = {"lane": cells["lane"]} if cells.get("lane") else {}
    return Session(bowler=bowler, line=Line(CENTRE_BOARD, CENTRE_BOARD), **lane).lane  # type: ignore[arg-type]


def _number_makers(names: Iterable[str], cells: Mapping[str, str]) -> dict[str, Callable[[], Any]]:
    return {name: functools.partial(read_cell, name, cells.get(name, ""), float) for name in names}


def _speed_mph(cells: Mapping[str, str]) -> float | None:
    speed_mph: float | None = read_cell("speed_mph", cells.get("speed_mph", ""), float)
    speed_kmh: float | None = read_cell("speed_kmh", cells.get("speed_kmh", ""), float)
    if speed_mph is not None or speed_kmh is None:
        return speed_mph
    low, high = (round(mph_to_kmh(limit), 2) for limit in SPEED_LIMITS_MPH)
    return kmh_to_mph(checked_number("speed_kmh", speed_kmh, low, high, "km/h", "Is this in mph?"))


def _arrival(cell: str) -> Any:
    named = cell.lower().replace(" ", "_")
    return named if named in ARRIVAL_CLASSES else read_cell("arrival", cell, float)


def _leave(cell: str, bowler: Bowler) -> tuple[int, ...] | None:
    try:
        pins = read_pins(cell)
    except InputError as error:
        raise InputError(str(error), {"leave_pins": str(error)}) from error
    return None if pins is None else own_pins(pins, bowler.hand)


def _day(cell: str) -> datetime:
    found = _DATE.fullmatch(cell)
    text = f"{found[3]}-{found[2]:0>2}-{found[1]:0>2}" if found else cell
    try:
        return datetime.fromisoformat(text).astimezone()
    except ValueError as error:
        message = f"date is {shown(cell)}; expected a day such as 2024-10-01 or 1.10.2024. Write it that way."
        raise InputError(message, {"date": message}) from error
