"""Packed data is found, and a file that cannot be read says what is wrong with it."""

import pytest

from coachlib.errors import DataFileError
from coachlib.files import cell_number, data_path, read_rows, read_toml


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
    path = tmp_path / "club.toml"
    path.write_bytes(b"[settings]\npatience = 4 # four\n")
    assert read_toml(path) == {"settings": {"patience": 4}}


def test_toml_with_a_fault_names_file_and_line(tmp_path):
    path = tmp_path / "club.toml"
    path.write_text("[settings]\npatience = four\n", encoding="utf-8")
    with pytest.raises(DataFileError, match=r"club.toml: invalid value \(at line 2, .*expected valid TOML"):
        read_toml(path)


def test_toml_that_is_missing(tmp_path):
    with pytest.raises(DataFileError, match=r"none.toml: could not be opened .*Check its name and place"):
        read_toml(tmp_path / "none.toml")


def test_toml_that_is_a_folder(tmp_path):
    with pytest.raises(DataFileError, match="could not be opened"):
        read_toml(tmp_path)


def test_toml_of_another_encoding(tmp_path):
    path = tmp_path / "club.toml"
    path.write_bytes('title = "größer"'.encode("latin-1"))
    with pytest.raises(DataFileError, match=r"club.toml: byte 11 is no UTF-8; expected text saved as UTF-8"):
        read_toml(path)


def test_rows_are_read(tmp_path):
    path = tmp_path / "balls.csv"
    path.write_text("name,grit\nmine,2000\n", encoding="utf-8")
    rows = read_rows(path)
    assert rows == [{"name": "mine", "grit": "2000"}]
    assert cell_number(path, rows[0], "grit") == 2000.0


@pytest.mark.parametrize(("content", "said"), [(None, "could not be read"), (b"name\nK\xfc", "can't decode")])
def test_rows_that_cannot_be_read(tmp_path, content, said):
    path = tmp_path / "balls.csv"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(DataFileError, match=rf"balls.csv.*{said}.*expected a table.*Check the file"):
        read_rows(path)


def test_a_row_of_another_length_is_named(tmp_path):
    path = tmp_path / "balls.csv"
    path.write_text("name,grit\nmine,2000,5\n", encoding="utf-8")
    with pytest.raises(DataFileError, match=r"balls.csv, row 2: .*expected as many as the header"):
        read_rows(path)


@pytest.mark.parametrize(("column", "value"), [("grit", "'smooth'"), ("weight_lb", "None")])
def test_a_cell_without_a_number_is_named(tmp_path, column, value):
    said = f"balls.csv, row 'mine', {column} is {value}; expected a number. Mend the cell."
    with pytest.raises(DataFileError) as caught:
        cell_number(tmp_path / "balls.csv", {"name": "mine", "grit": "smooth"}, column)
    assert str(caught.value) == said
