"""Sessions as a spreadsheet, and back into a log: what is written is read back equal.

One line a ball, and one for the start of a session and for each change. Names are those that are shown. A
measured film of oil, and what was taken back or corrected, stay in the log; a film of the library's own
patterns comes back by its name.
"""

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Changed, Observed, Setting, fields_of
from coachlib.errors import InputError, shown
from coachlib.records.log.entries import NewSession, Step, steps_to
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.replay import Replay
from coachlib.records.log.store import write_private
from coachlib.records.spreadsheets.columns import (
    advice_cells,
    advice_from_cells,
    columns,
    has_lost_film,
    setting_cells,
    setting_from_cells,
    shot_cells,
    shot_from_cells,
)
from coachlib.records.spreadsheets.sheet import HandmadeSheet, Problems, SheetRow, read_sheet
from coachlib.records.spreadsheets.spreadsheet_cells import read_cell, read_time, together, written
from coachlib.world.hand import Hand

ROW_KINDS = ("start", "ball", "change")
HEAD = ("session", "started", "row", "ball")
TAIL = ("is_oiled", "seed")
"""Of a change: whether the lane was oiled again; of a start: the seed."""
_NEEDED = ("session", "started", "row", "feet_board", "target_board")
_MOST_KEY_LETTERS = 64


class Imported(NamedTuple):
    """What came into the log.

    Parameters
    ----------
    keys : tuple of str
        The sessions, as :meth:`coachlib.records.Logbook.replay` takes them.
    notes : tuple of str
        What could not come along, a sentence each.
    """

    keys: tuple[str, ...]
    notes: tuple[str, ...]


def export_sessions(logbook: Logbook, session_keys: Iterable[str], path: Path) -> Path:
    """Write sessions, in the order of their keys, to a file as :func:`sessions_csv`; return where it lies.

    Only its owner may read it; an older one of that name is replaced. UTF-8, commas, no cell is a formula.

    Raises
    ------
    InputError
        If there is no such session.
    DataFileError
        If the log cannot be read or the file not written.
    """
    return write_private(Path(path), sessions_csv(logbook, session_keys).encode("utf-8-sig"))


def sessions_csv(logbook: Logbook, session_keys: Iterable[str]) -> str:
    """Return sessions as the text of a CSV file; see :func:`export_sessions`."""
    keys = tuple(session_keys)
    started = {row.key: row.started for row in logbook.sessions()}
    names = (*HEAD, *columns(), *TAIL)
    text = io.StringIO(newline="")
    lines = csv.DictWriter(text, names, restval="", lineterminator="\r\n")
    lines.writeheader()
    for key, replay in zip(keys, logbook.stories(keys), strict=True):
        head = {"session": key, "started": started[key].isoformat()}
        lines.writerows(head | cells for cells in _rows(replay))
    return text.getvalue()


def import_sessions(logbook: Logbook, path: Path, student_key: str | None = None) -> Imported:
    """Put the sessions of a CSV file into the log: all of them, or none where a cell is wrong.

    Parameters
    ----------
    logbook, path : Logbook, Path
        The file as :func:`export_sessions` wrote it; columns may be left out or stand in another order.
    student_key : str, optional
        Whose sessions they are.

    Raises
    ------
    InputError
        Naming all wrong cells by row and column; or a session that is in the log already.
    DataFileError
        If the file is no sheet, or the log cannot be written.
    """
    sheet = read_sheet(path)
    _check_columns(sheet)
    by_session: dict[str, list[SheetRow]] = {}
    for number, cells in sheet.rows:
        by_session.setdefault(cells["session"].strip(), []).append((number, cells))
    problems = Problems(sheet.name)
    notes: dict[str, None] = {}
    sessions = [_read_session(key, rows, student_key, problems, notes) for key, rows in by_session.items()]
    problems.finish()
    return Imported(logbook.add(filter(None, sessions)), tuple(notes))


def _rows(replay: Replay) -> Iterator[dict[str, str]]:
    """Return a session as cells, line by line."""
    session = replay.session
    yield {"row": "start", "seed": str(session.seed)} | setting_cells(session.settings[0])
    for event in session.events:
        if isinstance(event, Changed):
            oiled = {"is_oiled": written(True)} if event.is_oiled_anew else {}
            yield {"row": "change"} | oiled | setting_cells(event.now)
        elif isinstance(event, Observed):
            yield {
                "row": "ball",
                "ball": str(event.number),
                **shot_cells(event.shot, event.setting.bowler.hand),
                **advice_cells(replay.advice.get(event.number)),
                **setting_cells(event.setting),
            }


def _read_session(
    key: str, rows: list[SheetRow], student_key: str | None, problems: Problems, notes: dict[str, None]
) -> NewSession | None:
    """Return a session from its rows; what is wrong is noted with its place, and reading goes on."""
    new: NewSession | None = None
    steps: list[Step] = []
    was: Setting | None = None
    for place, (number, cells) in enumerate(rows):
        with problems.at(number):
            made = together(_makers(key, place, cells))
            now, is_change = made["now"], made["row"] == "change"
            if place == 0:
                start = Session(**fields_of(now), seed=made["seed"])
                new = NewSession(key, made["time"], start, steps, student_key)
            is_oiled = is_change and bool(read_cell("is_oiled", cells.get("is_oiled", ""), bool))
            steps += steps_to(was or now, now, is_oiled=is_oiled, shot=made["shot"], advice=made["advice"])
            was = now
            if has_lost_film(cells):
                notes[_lost(now)] = None
    return new


def _makers(key: str, place: int, cells: Mapping[str, str]) -> dict[str, Callable[[], Any]]:
    """Return what makes the parts of a session's row, the first of which is its start."""
    kind = cells["row"].strip()
    hand: Hand = "left" if cells.get("bowler_hand") == "left" else "right"
    makers: dict[str, Callable[[], Any]] = {
        "row": lambda: _row_kind(kind, place),
        "now": lambda: setting_from_cells(cells),
        "shot": lambda: shot_from_cells(cells, hand) if kind == "ball" else None,
        "advice": lambda: advice_from_cells(cells) if kind == "ball" else None,
    }
    if place == 0:
        makers |= {
            "time": lambda: read_time("started", cells["started"]),
            "seed": lambda: _seed(cells.get("seed", "")),
            "key": lambda: _check_key(key),
        }
    return makers


def _check_key(key: str) -> None:
    if not 1 <= len(key) <= _MOST_KEY_LETTERS or not key.isascii() or not key.isalnum():
        message = (
            f"session is {shown(key)}; expected 1 to {_MOST_KEY_LETTERS} letters and digits that tell the "
            "session from all others. Give each session its own."
        )
        raise InputError(message, {"session": message})


def _row_kind(kind: str, place: int) -> str:
    if kind not in ROW_KINDS or (kind == "start") != (place == 0):
        wanted = "'start'" if place == 0 else "'ball' or 'change'"
        message = f"row is {shown(kind)}; expected {wanted}. A session is one start, then its balls."
        raise InputError(message, {"row": message})
    return kind


def _check_columns(sheet: HandmadeSheet) -> None:
    missing = [name for name in _NEEDED if name not in sheet.columns]
    if missing:
        message = (
            f"{sheet.name} has no column {', '.join(missing)}; expected the columns of an exported log. "
            "For a sheet of your own use coachlib.records.spreadsheets.own_sheet."
        )
        raise InputError(message, {"columns": message})
    unknown = [name for name in sheet.columns if name and name not in (*HEAD, *columns(), *TAIL)]
    if unknown:
        message = (
            f"{sheet.name} has a column {unknown[0]!r}; expected only the columns of an exported log. "
            "Check the spelling or take it out."
        )
        raise InputError(message, {"columns": message})


def _seed(cell: str) -> int:
    if cell.strip().lstrip("-").isdecimal():
        return int(cell)
    if cell.strip():
        message = f"seed is {shown(cell)}; expected a whole number. Leave it empty for 0."
        raise InputError(message, {"seed": message})
    return 0


def _lost(setting: Setting) -> str:
    name = setting.pattern.name if setting.pattern else ""
    return (
        f"The measured film of {written(name)} is not in a spreadsheet; only its length and kind came along."
    )
