"""`python -m coachlib`: its options, what it says, and what it does with wrong input.

Our own promises; no outside source. The browser part is in tests/notebooks/test_open.py.
"""

import argparse
import socket
import subprocess
import sys
from pathlib import Path

import nbformat
import pytest

from coachlib import __main__ as command
from coachlib.errors import ModelError
from coachlib.opener import folder as folders
from coachlib.opener.server import Server


@pytest.fixture
def server(tmp_path: Path) -> Server:
    """Return a server that only has an address."""
    process = subprocess.Popen([sys.executable, "-c", ""])
    process.wait()
    return Server(process, tmp_path / "log", "127.0.0.1", 8890, "secret", is_app=False)


def _at(server: Server, host: str, is_app: bool = False) -> Server:
    return Server(server.process, server.log, host, server.port, server.token, is_app)


def test_unknown_notebook_lists_the_valid_ones(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "10_lane_side.ipynb").touch()
    monkeypatch.setattr(folders, "shipped_notebooks", lambda: tmp_path)
    assert command.main(["--no-browser", "--notebook", "11_lane"]) == 2
    said = capsys.readouterr().err
    assert "notebook is '11_lane.ipynb'" in said
    assert "expected one of '10_lane_side.ipynb'" in said


def test_missing_notebooks_are_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(folders, "shipped_notebooks", lambda: tmp_path)
    assert command.main(["--no-browser"]) == 2
    assert "Install coachlib again" in capsys.readouterr().err


def test_taken_port_is_said_before_anything_starts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    nbformat.write(nbformat.v4.new_notebook(), tmp_path / "10_lane_side.ipynb")
    monkeypatch.setattr(folders, "shipped_notebooks", lambda: tmp_path)
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        assert command.main(["--no-browser", "--port", str(port), "--folder", str(tmp_path / "live")]) == 2
    said = capsys.readouterr()
    assert f"port is {port}; expected a free port" in said.err
    assert "Starting" not in said.out


def test_on_this_machine_only_nothing_is_exposed(server: Server) -> None:
    said = command._where(server, "doc/tree/10_lane_side.ipynb")
    assert "http://127.0.0.1:8890/doc/tree/10_lane_side.ipynb?token=secret" in said
    assert "Careful" not in said
    assert "tablet" not in said


@pytest.mark.parametrize("host", ["0.0.0.0", "::"])
def test_listening_everywhere_names_an_address_for_the_tablet_and_the_danger(
    server: Server, host: str
) -> None:
    said = " ".join(command._where(_at(server, host, is_app=True), "").split())
    assert "On a tablet in the same network: http://" in said
    assert "read what it holds about your students" in said
    assert "not encrypted" in said


def test_a_whole_notebook_server_is_said_to_be_more_dangerous_than_the_page(server: Server) -> None:
    said = " ".join(command._where(_at(server, "0.0.0.0"), "").split())
    assert "run any program on this machine as you" in said


def test_help_names_every_option(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        command.main(["--help"])
    assert ended.value.code == 0
    said = capsys.readouterr().out
    for option in ("--app", "--notebook", "--host", "--port", "--folder", "--no-browser"):
        assert option in said


def test_a_port_taken_while_the_server_starts_is_given_up_for_another(
    server: Server, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[int] = []
    with socket.create_server(("127.0.0.1", 0)) as other:
        taken = other.getsockname()[1]

        def start(_folder: Path, _host: str, port: int, _token: str) -> Server:
            asked.append(port)
            return server

        def wait(_server: Server) -> None:
            if asked[-1] == taken:
                raise ModelError("ended by itself")

        monkeypatch.setattr(command.servers, "wait_for_server", wait)
        wanted = argparse.Namespace(host="127.0.0.1", port=None)
        assert command._answering(start, tmp_path, wanted, taken) is server
        assert len(asked) == 2
        assert asked[1] != taken
        with pytest.raises(ModelError):
            command._answering(start, tmp_path, argparse.Namespace(host="127.0.0.1", port=taken), taken)
