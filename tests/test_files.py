"""Packed data is found, and a file that cannot be read says what is wrong with it."""

import pytest

from coachlib.errors import DataFileError
from coachlib.files import data_path, read_toml


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
