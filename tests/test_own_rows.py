"""One line of a sheet made by hand.

All invariants; no outside source; tests/test_own_sheet.py reads whole sheets.
"""

from datetime import datetime
from pathlib import Path

import pytest

from coachlib.errors import InputError
from coachlib.records import Logbook
from coachlib.records.spreadsheets.own_rows import SPEED_LIMITS_MPH, Rest, RowReader
from coachlib.records.spreadsheets.sheet import HandmadeSheet
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

REST = Rest(Bowler(hand="left"), line=Line(22, 11), day=datetime(2024, 10, 1).astimezone())


def _read(tmp_path: Path, rest: Rest = REST, **cells: str) -> RowReader:
    sheet = HandmadeSheet("x.csv", tuple(cells), ((2, cells),))
    return RowReader(Logbook(tmp_path / "l.sqlite"), sheet, {name: name for name in cells}, rest)


def _shot(tmp_path: Path, **cells: str) -> Shot:
    (new,) = _read(tmp_path, **cells).sessions()
    shot: Shot = new.steps[-1][1]["shot"]
    return shot


@pytest.mark.parametrize(
    ("cells", "shot"),
    [
        ({"leave_pins": "7"}, Shot(leave=(10,))),
        ({"leave_pins": "X", "speed_mph": "16"}, Shot(leave=(), speed_mph=16.0)),
        ({"arrival": "Far light"}, Shot(arrival="far_light")),
        ({"arrival": "17½", "note": " good "}, Shot(arrival=17.5, note="good")),
        ({"crossed_board": "11,5", "breakpoint_ft": "41"}, Shot(crossed_board=11.5, breakpoint_ft=41.0)),
    ],
)
def test_cells_become_a_ball(tmp_path: Path, cells: dict[str, str], shot: Shot) -> None:
    assert _shot(tmp_path, **cells) == shot


@pytest.mark.parametrize("day", ["2024-10-01", "1.10.2024", "01.10.2024"])
def test_days(tmp_path: Path, day: str) -> None:
    (new,) = _read(tmp_path, date=day, leave_pins="X").sessions()
    assert f"{new.started:%d %m %Y}" == "01 10 2024"


@pytest.mark.parametrize("day", ["10/01/2024", "31.2.2024", "yesterday", ""])
def test_days_that_are_none_or_could_be_two(tmp_path: Path, day: str) -> None:
    (message,) = _read(tmp_path, date=day, leave_pins="X").problems.found.values()
    assert "expected a day such as 2024-10-01 or 1.10.2024" in message


def test_limits_of_speed_are_those_of_a_shot() -> None:
    for speed_mph in SPEED_LIMITS_MPH:
        assert Shot(leave=(), speed_mph=speed_mph).speed_mph == speed_mph
        beyond = speed_mph * 1.001 if speed_mph == max(SPEED_LIMITS_MPH) else speed_mph / 1.001
        with pytest.raises(InputError, match="expected 8 to 25 mph"):
            Shot(leave=(), speed_mph=beyond)
