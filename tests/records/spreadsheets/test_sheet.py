"""Sheets are read whatever parts their cells; what is none is told by name and line.

All invariants; no outside source.
"""

from pathlib import Path

import pytest

from coachlib.errors import DataFileError, InputError
from coachlib.records.spreadsheets.sheet import Problems, read_sheet

ROWS = "feet{0}note\n22{0}a\n\n23{0}ä\n"


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252"])
def test_separators_and_encodings(tmp_path: Path, separator: str, encoding: str) -> None:
    path = tmp_path / "evening.csv"
    path.write_bytes(ROWS.format(separator).encode(encoding))
    sheet = read_sheet(path)
    assert sheet.columns == ("feet", "note")
    assert sheet.rows == ((2, {"feet": "22", "note": "a"}), (4, {"feet": "23", "note": "ä"}))


def test_line_ends_inside_a_cell_stay(tmp_path: Path) -> None:
    path = tmp_path / "evening.csv"
    path.write_bytes(b'feet,note\r\n22,"a\r\nb"\r\n23,\r\n')
    assert [cells["note"] for _, cells in read_sheet(path).rows] == ["a\r\nb", ""]


def test_short_lines_are_filled(tmp_path: Path) -> None:
    path = tmp_path / "evening.csv"
    path.write_text("feet,note,speed,\n22\n")
    assert read_sheet(path).rows == ((2, {"feet": "22", "note": "", "speed": ""}),)


def test_empty_cells_behind_the_last_column_are_no_matter(tmp_path: Path) -> None:
    path = tmp_path / "evening.csv"
    path.write_text("feet;note\n22;a;;; ;\n;;;\n23;;\n")
    assert read_sheet(path).rows == ((2, {"feet": "22", "note": "a"}), (4, {"feet": "23", "note": ""}))


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", r"evening\.csv has no head; expected the names of the columns in line 1"),
        (b",,\n1,2,3\n", r"evening\.csv has no head"),
        (b"feet,feet\n1,2\n", r"evening\.csv has column 'feet' twice; expected each name once"),
        (b"feet,note\n1,2,3\n", r"evening\.csv, row 2 has 3 cells; expected at most 2, one a column"),
        (b"feet\n1\n2" + b"," * 11 + b"3\n", r"evening\.csv, row 3 has 12 cells; expected at most 1, one a"),
        (b'feet,note\n22,"a\n', r"evening\.csv cannot be read \(EOF inside string"),
        (b"feet\n\x81\x8d\n", r"evening\.csv is no text \(byte 5\); expected a CSV file"),
        (b'feet\n"' + b"x" * 200_000 + b'"\n', r"evening\.csv cannot be read \(field larger"),
    ],
)
def test_what_is_no_sheet_is_told(tmp_path: Path, content: bytes, told: str) -> None:
    path = tmp_path / "evening.csv"
    path.write_bytes(content)
    with pytest.raises(DataFileError, match=told):
        read_sheet(path)


def test_file_that_is_not_there_or_too_large(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(DataFileError, match=r"no\.csv could not be opened \(No such file"):
        read_sheet(tmp_path / "no.csv")
    (tmp_path / "large.csv").write_text("feet\n1\n")
    monkeypatch.setattr("coachlib.records.spreadsheets.sheet.MOST_BYTES", 5)
    with pytest.raises(DataFileError, match=r"large\.csv has 7 bytes; expected at most 5\. Split"):
        read_sheet(tmp_path / "large.csv")


def test_all_problems_are_told_by_their_place() -> None:
    problems = Problems("evening.csv")
    with problems.at(2):
        raise InputError("wrong", {"feet": "feet is 99", "note": "note is long"})
    with problems.at(5):
        raise InputError("nothing fits")
    with pytest.raises(InputError) as raised:
        problems.finish()
    assert str(raised.value).splitlines() == [
        "evening.csv, row 2, column feet: feet is 99",
        "evening.csv, row 2, column note: note is long",
        "evening.csv, row 5: nothing fits",
        "Nothing was added to the log.",
    ]
    assert len(raised.value.fields) == 3
    Problems("evening.csv").finish()
