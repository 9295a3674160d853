"""Sessions as a spreadsheet and back: equal, whole, and with every wrong cell told.

All invariants; no outside source. tests/records/spreadsheets/test_columns.py holds what a single line says.
"""

import csv
import dataclasses
import io
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coachlib.coaching.session.session import Session
from coachlib.errors import InputError
from coachlib.records import Logbook, Student, Students
from coachlib.records.spreadsheets.csv_log import export_sessions, import_sessions, sessions_csv
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line, Move
from coachlib.world.oil import load_pattern
from coachlib.world.shot import Shot
from tests.records.steps import CHANGE_STEPS, SHOT_STEPS

START = Session(bowler=Bowler(name="Ilta", hand="left"), line=Line(22, 11), seed=-3)
HOUSE = load_pattern("house_41")

_advice = st.builds(
    lambda feet, rules: {"kind": "line", "move": Move(feet_boards=feet), "rule_ids": rules},
    st.floats(-40, 40),
    st.lists(st.sampled_from(("A1", "C2")), unique=True),
)


@st.composite
def _sessions(draw: st.DrawFn) -> list[tuple[str, Any]]:
    found = []
    for step in draw(st.lists(SHOT_STEPS | CHANGE_STEPS, max_size=8)):
        found.append(step)
        if step[0] == "shot" and draw(st.booleans()):
            found.append(("advice", draw(_advice)))
    return found


def _logged(logbook: Logbook, *steps: tuple[str, Any], start: Session = START) -> str:
    key = logbook.start(start)
    logbook.append_all(key, steps)
    return key


@settings(max_examples=60)
@given(_sessions(), _sessions())
def test_what_is_exported_is_imported_equal(one: list[tuple[str, Any]], two: list[tuple[str, Any]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        logbook, other = Logbook(Path(folder) / "l.sqlite"), Logbook(Path(folder) / "other.sqlite")
        keys = [_logged(logbook, *steps) for steps in (one, two)]
        path = export_sessions(logbook, keys, Path(folder) / "sessions.csv")
        assert import_sessions(other, path) == (tuple(keys), ())
        for key in keys:
            assert other.story(key) == logbook.story(key)
        started = [{row.key: row.started for row in log.sessions()} for log in (logbook, other)]
        assert started[0] == started[1]
        assert sessions_csv(other, keys) == sessions_csv(logbook, keys)


def test_a_sheet_of_an_older_version_without_the_mark_of_an_entered_accuracy_is_imported(
    logbook: Logbook, other: Logbook, tmp_path: Path
) -> None:
    entered = dataclasses.replace(START, bowler=Bowler(hand="left", arrow_sd_boards=1.46))
    key = _logged(logbook, ("shot", {"shot": Shot(leave=())}), start=entered)
    path = export_sessions(logbook, [key], tmp_path / "sessions.csv")
    rows = list(csv.reader(io.StringIO(path.read_text(encoding="utf-8-sig"), newline="")))
    column = rows[0].index("bowler_is_usual_accuracy_entered")
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([row[:column] + row[column + 1 :] for row in rows])
    import_sessions(other, path)
    assert other.story(key) == logbook.story(key)


def test_imported_again_is_refused_and_nothing_is_doubled(
    logbook: Logbook, other: Logbook, tmp_path: Path
) -> None:
    keys = [_logged(logbook, ("shot", {"shot": Shot(leave=())})) for _ in range(2)]
    path = export_sessions(logbook, keys, tmp_path / "sessions.csv")
    import_sessions(other, export_sessions(logbook, keys[:1], tmp_path / "one.csv"))
    with pytest.raises(InputError, match=rf"session {keys[0]} of .* is in this log already; .* Nothing was"):
        import_sessions(other, path)
    assert [row.key for row in other.sessions()] == keys[:1]


def test_student_gets_the_sessions(logbook: Logbook, other: Logbook, tmp_path: Path) -> None:
    path = export_sessions(logbook, [_logged(logbook)], tmp_path / "sessions.csv")
    student = Students(other).add(Student("Ilta Koivu"))
    (key,) = import_sessions(other, path, student).keys
    assert [row.key for row in other.sessions(student)] == [key]


def test_alias_is_honoured(logbook: Logbook) -> None:
    students = Students(logbook)
    student = students.add(Student("Ilta Koivu"))
    key = students.start(student, Line(22, 11))
    logbook.append(key, "change", {"bowler": Bowler(name="Ilta Koivu", speed_mph=15.0)})
    assert "Ilta" in sessions_csv(logbook, [key])
    students.change(student, lambda one: dataclasses.replace(one, alias="Number 7"))
    assert "Ilta" not in sessions_csv(logbook, [key])
    assert sessions_csv(logbook, [key]).count("Number 7") == 2


def test_film_that_a_sheet_cannot_hold_is_told(logbook: Logbook, other: Logbook, tmp_path: Path) -> None:
    measured = dataclasses.replace(HOUSE, film_um=((1.0,) * 39,) * 41)
    key = _logged(logbook, start=dataclasses.replace(START, pattern=measured))
    path = export_sessions(logbook, [key], tmp_path / "sessions.csv")
    found = import_sessions(other, path)
    assert found.notes == (
        "The measured film of house_41 is not in a spreadsheet; only its length and kind came along.",
    )
    pattern = other.replay(key).pattern
    assert pattern == dataclasses.replace(measured, film_um=())


def _edited(text: str, tmp_path: Path, *edits: tuple[int, str, str]) -> Path:
    """Write an exported sheet with some cells changed: row as in a spreadsheet, column, cell."""
    lines = list(csv.DictReader(io.StringIO(text, newline="")))
    for row, column, cell in edits:
        assert column in lines[row - 2]
        lines[row - 2][column] = cell
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, list(lines[0]))
    writer.writeheader()
    writer.writerows(lines)
    path = tmp_path / "evening.csv"
    path.write_text(out.getvalue(), encoding="utf-8", newline="")
    return path


def _two_balls(logbook: Logbook) -> str:
    shots = [("shot", {"shot": Shot(crossed_board=11.0, arrival="high", leave=(4,))})] * 2
    return sessions_csv(logbook, [_logged(logbook, *shots)])


def test_every_wrong_cell_is_told_at_once_and_nothing_comes_in(
    logbook: Logbook, other: Logbook, tmp_path: Path
) -> None:
    path = _edited(_two_balls(logbook), tmp_path, *(edit for edit, _ in _WRONG))
    with pytest.raises(InputError) as raised:
        import_sessions(other, path)
    lines = str(raised.value).splitlines()
    for (row, column, _), part in _WRONG:
        place = f"evening.csv, row {row}, column {column}: "
        assert any(line.startswith(place) and part in line for line in lines)
    assert lines[-1] == "Nothing was added to the log."
    assert other.sessions() == ()


_WRONG = (
    ((2, "bowler_hand", "middle"), "expected one of 'right', 'left'"),
    ((2, "started", "yesterday"), "expected a day such as 2024-10-01 or 1.10.2024, or a date and time"),
    ((3, "crossed_board", "99"), "crossed_board is 99.0; expected 0 to 40 boards"),
    ((3, "feet_board", "many"), "expected a number"),
    ((3, "leave_pins", "49"), "Put a space between two pins"),
    ((4, "arrival_class", "lovely"), "expected a number from 0 to 40 boards, or one of 'out'"),
    ((4, "speed_mph", "27"), "If this is km/h"),
    ((4, "games_on_lane", "61"), "games_on_lane is 61.0; expected 0 to 60 games"),
)


@pytest.mark.parametrize(
    ("edit", "told"),
    [
        ((2, "row", "ball"), r"row 2, column row: row is 'ball'; expected 'start'"),
        ((3, "row", "thrown"), r"row 3, column row: row is 'thrown'; expected 'ball' or 'change'"),
        ((2, "seed", "x"), r"row 2, column seed: seed is 'x'; expected a whole number"),
        ((3, "session", "<b>"), r"row 3, column session: session is '<b>'; expected 1 to 64 letters"),
    ],
)
def test_lines_that_are_no_session(
    logbook: Logbook, other: Logbook, tmp_path: Path, edit: tuple[int, str, str], told: str
) -> None:
    path = _edited(_two_balls(logbook), tmp_path, edit)
    with pytest.raises(InputError, match=told):
        import_sessions(other, path)
    assert other.sessions() == ()


def test_advice_that_names_neither_rule_nor_move_is_one(
    logbook: Logbook, other: Logbook, tmp_path: Path
) -> None:
    import_sessions(other, _edited(_two_balls(logbook), tmp_path, (3, "advice_kind", "line")))


def test_line_edited_in_one_ball_becomes_a_change_before_it(
    logbook: Logbook, other: Logbook, tmp_path: Path
) -> None:
    path = _edited(_two_balls(logbook), tmp_path, (4, "feet_board", "24"))
    (key,) = import_sessions(other, path).keys
    assert [seen.line.feet_board for seen in other.replay(key).shots] == [22.0, 24.0]


@pytest.mark.parametrize(
    ("head", "told"),
    [
        ("feet,eyes", r"has no column session, started, row, feet_board, target_board; expected the columns"),
        ("session,started,row,feet_board,target_board,speed", r"has a column 'speed'; expected only the col"),
    ],
)
def test_sheet_of_other_columns(tmp_path: Path, logbook: Logbook, head: str, told: str) -> None:
    path = tmp_path / "evening.csv"
    path.write_text(f"{head}\n1,2\n")
    with pytest.raises(InputError, match=told):
        import_sessions(logbook, path)
