"""A name is found however it is written, and taken out where it may be. All invariants; no outside source."""

import html
import json
import urllib.parse
import zipfile
from pathlib import Path

import pytest

from coachlib.records import Logbook, Student, Students
from coachlib.records.log import store
from coachlib.records.students.traces import blank, clear_notebook, n_found, places

NAME = 'Åke "Ö" Koivu'


@pytest.mark.parametrize(
    "content",
    [
        NAME.encode(),
        json.dumps(NAME).encode(),
        json.dumps(NAME, ensure_ascii=False).encode(),
        f"<b>{html.escape(NAME)}</b>".encode(),
        urllib.parse.quote(NAME).encode(),
        b"\x00" + NAME.encode("utf-16-le") + b"\x00",
    ],
)
def test_found_however_it_is_written(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "x.txt"
    path.write_bytes(content)
    assert n_found(path, [NAME]) == 1
    blank(path, [NAME])
    assert n_found(path, [NAME]) == 0
    assert len(path.read_bytes()) == len(content)


def test_part_of_another_word_is_not_the_name(tmp_path: Path) -> None:
    path = tmp_path / "x.txt"
    path.write_text("Marks on the lane. Mark, and MARK, and Märk")
    assert n_found(path, ["Mark"]) == 1
    blank(path, ["Mark"])
    assert path.read_text() == "Marks on the lane. xxxx, and MARK, and Märk"


def test_found_in_a_database_beside_any_byte(tmp_path: Path) -> None:
    logbook = Logbook(tmp_path / "logbook.sqlite")
    Students(logbook).add(Student("Ilta"))
    assert sum(n_found(place.path, ["Ilta"]) for place in places(logbook.path)) >= 1


def test_found_in_an_archive_and_in_a_file_name(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "x.zip", "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("sessions.csv", "a,Ilta,b\n" * 100)
    assert b"Ilta" not in (tmp_path / "x.zip").read_bytes()
    assert n_found(tmp_path / "x.zip", ["Ilta"]) == 100
    (tmp_path / "for Ilta.txt").write_text("")
    assert n_found(tmp_path / "for Ilta.txt", ["Ilta"]) == 1


def test_nothing_to_search_finds_nothing(tmp_path: Path) -> None:
    (tmp_path / "x.txt").write_text("anything")
    assert n_found(tmp_path / "x.txt", []) == 0


def _notebook(path: Path) -> None:
    output = {"output_type": "stream", "name": "stdout", "text": ["Ilta, ball 7\n"]}
    cells = [
        {
            "cell_type": "code",
            "execution_count": 1,
            "source": ["x = 1\n", "x"],
            "outputs": [],
            "metadata": {},
        },
        {"cell_type": "code", "execution_count": 2, "source": "cl.x", "outputs": [output], "metadata": {}},
        {
            "cell_type": "code",
            "execution_count": 3,
            "source": ["Bowler('Ilta')"],
            "outputs": [],
            "metadata": {},
        },
        {"cell_type": "markdown", "source": "For Ilta and Iltanen", "metadata": {}},
    ]
    metadata = {"widgets": {"state": {"name": "Ilta"}}, "language_info": {"name": "python"}}
    content = {"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}
    path.write_text(json.dumps(content))


def test_notebook_loses_outputs_and_widgets_that_hold_the_name(tmp_path: Path) -> None:
    path = tmp_path / "x.ipynb"
    _notebook(path)
    clear_notebook(path, ["Ilta"], blank_typed=False)
    notebook = json.loads(path.read_text())
    assert [cell.get("execution_count") for cell in notebook["cells"]] == [1, None, 3, None]
    assert notebook["cells"][1]["outputs"] == []
    assert notebook["metadata"] == {"language_info": {"name": "python"}}
    assert n_found(path, ["Ilta"]) == 2
    clear_notebook(path, ["Ilta"], blank_typed=True)
    assert n_found(path, ["Ilta"]) == 0
    sources = [cell["source"] for cell in json.loads(path.read_text())["cells"]]
    assert sources == [["x = 1\n", "x"], "cl.x", ["Bowler('(erased)')"], "For (erased) and Iltanen"]


def test_places_are_those_around_the_log(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    live, cache, kernel = tmp_path / "live" / "notebooks", tmp_path / "cache", tmp_path / "kernel"
    files = {
        "log": tmp_path / "data" / "logbook.sqlite",
        "set-aside log": tmp_path / "data" / "logbook.aside-1.sqlite",
        "notebook": live / "kept" / "x.ipynb",
        "beside the notebooks": live.with_name("notebooks-2") / ".jupyter" / "server.log",
        "cache": cache / "pins" / "x.npz",
        "kernel history": kernel / "profile_default" / "history.sqlite",
        "copy": tmp_path / "data" / "out" / "sessions.csv",
    }
    for path in files.values():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("x")
    monkeypatch.setattr("coachlib.records.students.traces.live_folder", lambda: live)
    monkeypatch.setattr("platformdirs.user_cache_path", lambda *_, **__: cache)
    monkeypatch.setenv("IPYTHONDIR", str(kernel))
    monkeypatch.setattr(store, "default_path", lambda: files["log"])
    assert {place.kind: place.path for place in places(files["log"])} == files
    monkeypatch.setattr(store, "default_path", lambda: tmp_path / "elsewhere.sqlite")
    assert "copy" not in {place.kind for place in places(files["log"])}
    more = places(files["log"], [tmp_path / "data" / "out"])
    assert files["copy"] in {place.path for place in more}
