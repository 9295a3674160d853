"""A sheet made by hand: its columns are proposed, shown, and read whole or not at all.

All invariants; no outside source.
"""

from datetime import datetime
from pathlib import Path

import pytest

from coachlib.errors import InputError
from coachlib.records import Logbook, Student, Students
from coachlib.records.spreadsheets.columns import MEANINGS
from coachlib.records.spreadsheets.own_sheet import (
    Preview,
    Rest,
    import_own_sheet,
    preview,
    proposed_mapping,
)
from coachlib.records.spreadsheets.sheet import HandmadeSheet, read_sheet
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

EVENING = """Name;Date;Lane;Stance;Target;Over;Pocket;Pins left;Speed (km/h);Spare;Remarks;Shoes
Ilta;1.10.2024;7;22;11;11½;high;6;24,5;;=1+1;red
Ilta;1.10.2024;7;22;11;;;all down;;yes;;red
Number 7;2024-10-01;8;25;13,5;14;17,5;X;28;no;good one;
ilta;1.10.2024;7;24;12;12;pocket;;;;;

Ilta;8.10.2024;;24;12;12;far light;2 4;;;;
"""


@pytest.fixture
def keys(logbook: Logbook) -> tuple[str, str]:
    students = Students(logbook)
    oskari = Student("Oskari", alias="Number 7")
    return students.add(Student("Ilta", bowler=Bowler(hand="left"))), students.add(oskari)


def _sheet(tmp_path: Path, text: str = EVENING) -> HandmadeSheet:
    (tmp_path / "evening.csv").write_text(text, encoding="utf-8")
    return read_sheet(tmp_path / "evening.csv")


def test_columns_are_proposed(tmp_path: Path) -> None:
    assert proposed_mapping(_sheet(tmp_path)) == {
        "student": "Name",
        "date": "Date",
        "lane": "Lane",
        "feet_board": "Stance",
        "target_board": "Target",
        "crossed_board": "Over",
        "arrival": "Pocket",
        "leave_pins": "Pins left",
        "speed_kmh": "Speed (km/h)",
        "is_spare": "Spare",
        "note": "Remarks",
    }


@pytest.mark.parametrize("meaning", MEANINGS)
def test_every_way_of_writing_a_head_is_understood(meaning: str) -> None:
    for head in (meaning, *MEANINGS[meaning]):
        assert proposed_mapping(HandmadeSheet("x", (head.upper(), "other"), ())) == {meaning: head.upper()}


def test_preview_keeps_nothing_and_says_what_it_reads(
    logbook: Logbook, keys: tuple[str, str], tmp_path: Path
) -> None:
    seen = preview(logbook, _sheet(tmp_path))
    assert logbook.sessions() == ()
    assert seen.unused == ("Shoes",)
    assert "Column 'Stance' is read as feet_board." in seen.words
    assert "Column 'Shoes' is left out." in seen.words
    assert seen.words[-3:] == (
        "Ilta, 2024-10-01: 3 balls.",
        "Number 7, 2024-10-01: 1 ball.",
        "Ilta, 2024-10-08: 1 ball.",
    )


def test_confirmed_sheet_is_in_the_log_with_its_students(
    logbook: Logbook, keys: tuple[str, str], tmp_path: Path
) -> None:
    added = import_own_sheet(logbook, preview(logbook, _sheet(tmp_path)))
    ilta, oskari = keys
    assert {row.key for row in logbook.sessions(ilta)} | {row.key for row in logbook.sessions(oskari)} == set(
        added
    )
    first = logbook.replay(added[0])
    assert [seen.shot for seen in first.shots] == [
        Shot(crossed_board=11.5, arrival="high", leave=(4,), speed_mph=24.5 * 1000 / 1609.344, note="=1+1"),
        Shot(leave=(), is_spare=True),
        Shot(crossed_board=12.0, arrival="pocket"),
    ]
    assert [seen.line for seen in first.shots] == [Line(22, 11), Line(22, 11), Line(24, 12)]
    assert {seen.lane for seen in first.shots} == {"7"}
    second = logbook.replay(added[1])
    assert (second.bowler.name, second.lane, second.line) == ("Number 7", "8", Line(25, 13.5))
    assert second.shots[0].shot.arrival == 17.5


def test_same_sheet_again_is_refused(logbook: Logbook, keys: tuple[str, str], tmp_path: Path) -> None:
    import_own_sheet(logbook, preview(logbook, _sheet(tmp_path)))
    with pytest.raises(
        InputError, match=r"session .* of 2024-.* is in this log already; .* Nothing was added"
    ):
        import_own_sheet(logbook, preview(logbook, _sheet(tmp_path)))
    assert len(logbook.sessions()) == 3


def test_all_wrong_cells_are_told_by_row_and_column_and_nothing_comes_in(
    logbook: Logbook, keys: tuple[str, str], tmp_path: Path
) -> None:
    text = EVENING.replace("ilta;1.10.2024;7;24", "Aava;10/01/2024;7;many").replace(
        "11½;high;6", "99;tall;66"
    )
    seen = preview(logbook, _sheet(tmp_path, text.replace("28;no", "281;no")))
    assert seen.sessions == ()
    with pytest.raises(InputError) as raised:
        import_own_sheet(logbook, seen)
    told = str(raised.value).splitlines()
    for place, part in (
        ("row 2, column Pocket", "arrival is 'tall'; expected a number"),
        ("row 2, column Over", "crossed_board is 99.0; expected 0 to 40 boards"),
        ("row 2, column Pins left", "66 is no pin from 1 to 10"),
        ("row 4, column Speed (km/h)", "speed_kmh is 281.0; expected 12.87 to 40.23 km/h. Is this in mph?"),
        ("row 5, column Name", "student is 'Aava'; expected a student of this log by name or alias"),
        ("row 5, column Date", "expected a day such as 2024-10-01 or 1.10.2024"),
        ("row 5, column Stance", "feet_board is 'many'; expected a number"),
    ):
        assert any(line.startswith(f"evening.csv, {place}") and part in line for line in told), (place, told)
    assert told[-1] == "Nothing was added to the log."
    assert logbook.sessions() == ()


def test_what_the_sheet_does_not_say_is_given(
    logbook: Logbook, keys: tuple[str, str], tmp_path: Path
) -> None:
    sheet = _sheet(tmp_path, "left,comment\n7,\n,\nX,nice\n")
    rest = Rest(student_key=keys[0], line=Line(22, 11), day=datetime(2024, 10, 1, 18).astimezone())
    (key,) = import_own_sheet(logbook, preview(logbook, sheet, rest=rest))
    session = logbook.replay(key)
    assert (session.bowler.name, session.line) == ("Ilta", Line(22, 11))
    assert [seen.shot for seen in session.shots] == [Shot(leave=(10,)), Shot(leave=(), note="nice")]


@pytest.mark.parametrize(
    ("mapping", "fields"),
    [
        ({"leave_pins": "left"}, ["date", "feet_board"]),
        ({"note": "comment"}, ["crossed_board", "date", "feet_board"]),
        ({"leave_pins": "leave"}, ["date", "feet_board", "leave_pins"]),
        ({"leave": "left"}, ["crossed_board", "date", "feet_board", "leave"]),
    ],
)
def test_mapping_that_cannot_be_is_told(
    logbook: Logbook, tmp_path: Path, mapping: dict[str, str], fields: list[str]
) -> None:
    with pytest.raises(InputError) as raised:
        preview(logbook, _sheet(tmp_path, "left,comment\n7,\n"), mapping)
    assert sorted(raised.value.fields) == fields
    assert all("; expected " in message for message in raised.value.fields.values())


REST = Rest(Bowler(hand="left"), line=Line(22, 11), day=datetime(2024, 10, 1).astimezone())


def _read(logbook: Logbook, **cells: str) -> Preview:
    """Return a line of a sheet whose heads are the meanings themselves."""
    sheet = HandmadeSheet("x.csv", tuple(cells), ((2, cells),))
    return preview(logbook, sheet, {name: name for name in cells}, REST)


def _shot(logbook: Logbook, **cells: str) -> Shot:
    (new,) = _read(logbook, **cells).sessions
    shot: Shot = new.steps[-1][1]["shot"]
    return shot


@pytest.mark.parametrize(
    ("cells", "shot"),
    [
        ({"leave_pins": "7"}, Shot(leave=(10,))),
        ({"leave_pins": "X", "speed_mph": "16"}, Shot(leave=(), speed_mph=16.0)),
        ({"arrival": "Far light"}, Shot(arrival="far_light")),
        ({"arrival": "17½", "note": " good "}, Shot(arrival=17.5, note="good")),
        ({"arrival": "17", "note": "'tis so"}, Shot(arrival=17.0, note="'tis so")),
        ({"crossed_board": "11,5", "breakpoint_ft": "41"}, Shot(crossed_board=11.5, breakpoint_ft=41.0)),
    ],
)
def test_cells_become_a_ball(logbook: Logbook, cells: dict[str, str], shot: Shot) -> None:
    assert _shot(logbook, **cells) == shot


@pytest.mark.parametrize("day", ["2024-10-01", "1.10.2024", "01.10.2024"])
def test_days(logbook: Logbook, day: str) -> None:
    (new,) = _read(logbook, date=day, leave_pins="X").sessions
    assert f"{new.started:%d %m %Y}" == "01 10 2024"


@pytest.mark.parametrize("day", ["10/01/2024", "31.2.2024", "yesterday", ""])
def test_days_that_are_none_or_could_be_two(logbook: Logbook, day: str) -> None:
    (message,) = _read(logbook, date=day, leave_pins="X").problems.values()
    assert "expected a day such as 2024-10-01 or 1.10.2024" in message


@pytest.mark.parametrize(("speed_kmh", "speed_mph"), [("12.88", 8.0), ("40.23", 25.0)])
def test_limits_of_speed_are_those_of_a_shot(logbook: Logbook, speed_kmh: str, speed_mph: float) -> None:
    assert _shot(logbook, leave_pins="X", speed_kmh=speed_kmh).speed_mph == pytest.approx(speed_mph, abs=4e-3)
    beyond = _read(
        logbook, leave_pins="X", speed_kmh=str(float(speed_kmh) * (0.99 if speed_mph < 9 else 1.01))
    )
    assert "expected 12.87 to 40.23 km/h" in "".join(beyond.problems.values())
