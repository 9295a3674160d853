"""Files: packed data is found, rows are read, and what cannot be read says what is wrong with it."""

import pytest

import coachlib as cl
from coachlib.errors import DataFileError
from coachlib.files import data_path, read_notes, read_table, read_toml, thing_from_row

HEAD = "name,cover,grit,is_polished,weight_lb,note\n"


def written(tmp_path, content):
    path = tmp_path / "own.csv"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path


def test_packed_data_is_found():
    assert data_path("rules.toml").read_bytes().startswith(b"# The rulebook")


def test_data_is_found_in_an_installed_library(tmp_path, monkeypatch):
    packed = tmp_path / "data"
    packed.mkdir()
    (packed / "rules.toml").write_text("[settings]", encoding="utf-8")
    monkeypatch.setattr("coachlib.files._PACKED", packed)
    assert data_path("rules.toml") == packed / "rules.toml"


def test_unknown_data_lists_what_there_is():
    with pytest.raises(DataFileError, match=r"'rulez.toml'; expected one of .*rules.toml.* Check the name"):
        data_path("rulez.toml")


def test_toml_is_read(tmp_path):
    path = written(tmp_path, "[settings]\npatience = 4 # four\n")
    assert read_toml(path) == {"settings": {"patience": 4}}


@pytest.mark.parametrize(
    ("content", "match"),
    [
        ("[settings]\npatience = four\n", r"own.csv: invalid value \(at line 2, .*expected valid TOML"),
        ('title = "größer"'.encode("latin-1"), "own.csv: byte 11 is no UTF-8; expected text saved as UTF-8"),
    ],
)
def test_toml_with_a_fault_names_file_and_place(content, match, tmp_path):
    with pytest.raises(DataFileError, match=match):
        read_toml(written(tmp_path, content))


@pytest.mark.parametrize("name", ["none.toml", "."])
def test_toml_that_is_missing_or_a_folder(name, tmp_path):
    with pytest.raises(DataFileError, match=r"could not be opened .*Check its name and place"):
        read_toml(tmp_path / name)


def test_row_becomes_a_thing_and_empty_cells_the_default(tmp_path):
    path = written(tmp_path, HEAD + "mine,pearl,,yes,14,worn a little\n")
    assert thing_from_row(cl.Ball, path, "mine") == cl.Ball(
        "mine", cover="pearl", is_polished=True, weight_lb=14.0
    )


@pytest.mark.parametrize(
    ("content", "match"),
    [
        (
            "# a note: first\n" + HEAD + "mine,pearl,1000,no,17,\n",
            "own.csv, row 3, column weight_lb: weight_lb is 17.0; expected 6 to 16 lb",
        ),
        ("name,colour\nmine,red\n", "own.csv, row 2, column colour: colour is no field of Ball"),
        ("name,cover\nmine,pearl,1000\n", "own.csv, row 2: 3 cells; expected as many as the header, 2. Mend"),
        ("", "own.csv is empty; expected a header"),
    ],
)
def test_a_wrong_row_is_told_with_file_row_and_column(content, match, tmp_path):
    with pytest.raises(DataFileError, match=match):
        thing_from_row(cl.Ball, written(tmp_path, content), "mine")


def test_notes(tmp_path):
    path = written(tmp_path, "# kind: house\n# no colon\n#length_ft:41\nname\nmine\n")
    assert read_notes(path) == {"kind": "house", "length_ft": "41"}
    assert [row.number for row in read_table(path)] == [5]
