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


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"[settings]\npatience = four\n", r"club.toml: invalid value \(at line 2, .*expected valid TOML"),
        (
            'title = "größer"'.encode("latin-1"),
            r"club.toml: byte 11 is no UTF-8; expected text saved as UTF-8",
        ),
        (None, r"club.toml: could not be opened .*Check its name and place"),
    ],
)
def test_toml_that_cannot_be_read_names_file_and_fault(tmp_path, content, message):
    path = tmp_path / "club.toml"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(DataFileError, match=message):
        read_toml(path)


def test_toml_that_is_a_folder(tmp_path):
    with pytest.raises(DataFileError, match="could not be opened"):
        read_toml(tmp_path)
