"""Things from rows of a file: the balls and bowlers of the library, and what is said of a wrong cell."""

import pytest

import coachlib as cl
from coachlib.files import read_notes, read_table
from coachlib.world.row_reader import thing_from_row

HEAD = "name,cover,grit,is_polished,weight_lb,note\n"


def written(tmp_path, text):
    path = tmp_path / "own.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_row_becomes_a_thing_and_empty_cells_the_default(tmp_path):
    path = written(tmp_path, HEAD + "mine,pearl,,yes,14,worn a little\n")
    assert thing_from_row(cl.Ball, path, "mine") == cl.Ball(
        "mine", cover="pearl", is_polished=True, weight_lb=14.0
    )


def test_wrong_cell_names_file_row_and_column(tmp_path):
    path = written(tmp_path, "# a note: first\n" + HEAD + "mine,pearl,1000,no,17,\n")
    with pytest.raises(
        cl.DataFileError, match=r"own.csv, row 3, column weight_lb: weight_lb is 17.0; expected 6 to 16 lb"
    ):
        thing_from_row(cl.Ball, path, "mine")


def test_unknown_column(tmp_path):
    path = written(tmp_path, "name,colour\nmine,red\n")
    with pytest.raises(cl.DataFileError, match=r"own.csv, row 2, column colour: colour is no field of Ball"):
        thing_from_row(cl.Ball, path, "mine")


def test_row_with_a_cell_too_many(tmp_path):
    with pytest.raises(
        cl.DataFileError, match=r"own.csv, row 2: 3 cells; expected as many as the header, 2. Mend"
    ):
        read_table(written(tmp_path, "name,cover\nmine,pearl,1000\n"))


def test_empty_file(tmp_path):
    with pytest.raises(cl.DataFileError, match=r"own.csv is empty; expected a header"):
        read_table(written(tmp_path, ""))


def test_notes(tmp_path):
    path = written(tmp_path, "# kind: house\n# no colon\n#length_ft:41\nname\nmine\n")
    assert read_notes(path) == {"kind": "house", "length_ft": "41"}
    assert [row.number for row in read_table(path)] == [5]


def test_shipped_bowlers():
    bowlers = [cl.load_bowler(name) for name in cl.bowler_names()]
    assert len(bowlers) == 8
    assert {bowler.hand for bowler in bowlers} == {"left", "right"}
    assert {bowler.walk for bowler in bowlers} == {"slide", "walk"}
    assert any(bowler.is_two_handed for bowler in bowlers)
    assert min(bowler.age_years for bowler in bowlers) < 18 < 65 < max(bowler.age_years for bowler in bowlers)
    assert (
        min(bowler.rev_rate_rpm for bowler in bowlers)
        < 200
        < 500
        < max(bowler.rev_rate_rpm for bowler in bowlers)
    )
