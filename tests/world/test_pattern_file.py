"""Files of bands: read as written, and every fault told with file, row and column."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.world.oil import read_pattern

NOTES = "# name: ours\n# kind: house\n# length_ft: 40\n# note: measured on a Tuesday: dry\n"
HEAD = "from_ft,to_ft,boards_1_7,board_8,boards_9_31,board_32,boards_33_39\n"
ROWS = "0,10,0.5,1.5,3,1.5,0.5\n10,25,0.4,1,2.5,1,0.4\n25,40,0,0.5,1,0.5,0\n"


def read(tmp_path, text):
    path = tmp_path / "ours.csv"
    path.write_text(text, encoding="utf-8")
    return read_pattern(path)


def test_bands(tmp_path):
    pattern = read(tmp_path, NOTES + HEAD + ROWS)
    film = pattern.film_array_um
    assert (pattern.name, pattern.kind, pattern.length_ft, pattern.step_ft) == ("ours", "house", 40.0, 5.0)
    assert film.shape == (8, 39)
    assert film[0].tolist() == [0.5] * 7 + [1.5] + [3.0] * 23 + [1.5] + [0.5] * 7
    assert film[:, 7].tolist() == [1.5] * 2 + [1.0] * 3 + [0.5] * 3


def test_bands_of_quarter_feet(tmp_path):
    rows = ROWS.replace("0,10,", "0,9.75,").replace("10,25,", "9.75,25,")
    assert read(tmp_path, NOTES + HEAD + rows).step_ft == 0.25


def test_one_long_band_is_cut(tmp_path):
    pattern = read(tmp_path, NOTES + HEAD + "0,40,0.5,1,2,1,0.5\n")
    assert pattern.step_ft == 10.0
    assert len(pattern.film_um) == 4


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("0.4,1,2.5", "0.4,-1,2.5", "ours.csv, row 7, column board_8: is -1; expected 0 to 30 um"),
        ("0.4,1,2.5", "0.4,,2.5", "row 7, column board_8: is ''; expected a number"),
        ("0.4,1,2.5", "0.4,nan,2.5", "row 7, column board_8: is 'nan'; expected a number"),
        ("0.4,1,2.5", "0.4,300,2.5", "row 7, column board_8: is 300; expected 0 to 30 um of film"),
        ("10,25,0.4,1,2.5,1,0.4\n", "", r"row 7, column from_ft: is 25 and leaves a gap; expected 10 ft"),
        ("10,25", "8,25", r"row 7, column from_ft: is 8 and overlaps the band before; expected 10 ft"),
        ("0,10,", "2,10,", r"row 6, column from_ft: is 2 and leaves a gap; expected 0 ft"),
        ("25,40", "25,20", r"row 8, column to_ft: is 20; expected more than 25 ft"),
        ("10,25,0.4", "10,25,0.4,0.4", r"ours.csv, row 7: 8 cells; expected as many as the header, 7"),
        ("_ft: 40", "_ft: 45", "note length_ft: is 45, but the last band with much film ends at 40 ft"),
        ("_ft: 40", "_ft: 36", "note length_ft: is 36, but the last band with much film ends at 40 ft"),
        ("# length_ft: 40\n", "", r"note length_ft: is ''; expected a number"),
        ("kind: house", "kind: hard", r"note kind: is 'hard'; expected one of house, flat, other"),
        ("board_8,", "board_9,", r"columns at board 8: leave a gap; expected the next to begin with 8"),
        ("boards_9_31", "boards_8_31", r"columns at board 9: overlap; expected the next to begin with 9"),
        ("boards_33_39", "boards_33_38", r"columns: end at board 38; expected boards 1 to 39"),
        ("board_8,", "plank_8,", r"column plank_8: is no board; expected board_8 or boards_9_31"),
        ("from_ft,", "start_ft,", "column start_ft: is no board"),
        ("0,10,", "0,10.1,", r"row 7, column from_ft: is 10 and overlaps"),
        (ROWS, "", "ours.csv: holds no band; expected at least one"),
        (ROWS, "0,10.1,0,1,3,1,0\n10.1,40,0,1,3,1,0\n", "hold finer steps; expected multiples of 0.25 ft"),
        (
            NOTES + HEAD + ROWS,
            NOTES.replace("40", "10") + HEAD + ROWS[:22] + "\n",
            "ours.csv: length_ft is 10.0; expected 20 to 55 ft",
        ),
    ],
)
def test_fault(tmp_path, old, new, message):
    text = NOTES + HEAD + ROWS
    assert old in text
    with pytest.raises(cl.DataFileError, match=message):
        read(tmp_path, text.replace(old, new, 1))


def test_traces_past_the_end_are_carried_oil(tmp_path):
    pattern = read(tmp_path, NOTES + HEAD + ROWS + "40,60,0,0.1,0.02,0,0\n")
    assert pattern.length_ft == 40.0
    assert np.count_nonzero(pattern.film_array_um[-1]) == 24


def test_file_that_is_not_there(tmp_path):
    with pytest.raises(cl.DataFileError, match=r"none.csv could not be opened"):
        read_pattern(tmp_path / "none.csv")
