"""The opener's parts: the copy of the notebooks keeps a person's changes, the server is our own, cells run.

Our own promises; no outside source.
"""

import json
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import nbformat
import pytest

from coachlib.errors import InputError, ModelError
from coachlib.opener import folder as folders
from coachlib.opener import run
from coachlib.opener import server as servers

TOKEN = "a-token-for-tests"


def _notebook(path: Path, *sources: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    nbformat.write(nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(s) for s in sources]), path)
    return path


def _sources(path: Path) -> list[str]:
    return [cell.source for cell in nbformat.read(path, as_version=4).cells]


@pytest.fixture
def shipped(tmp_path: Path) -> Path:
    """Return a folder with one notebook, as shipped."""
    return _notebook(tmp_path / "shipped" / "30_moves.ipynb", "1 + 1").parent


def test_missing_notebooks_are_laid(shipped: Path, tmp_path: Path) -> None:
    assert folders.copy_notebooks(shipped, tmp_path / "live") == []
    assert _sources(tmp_path / "live" / "30_moves.ipynb") == ["1 + 1"]


def test_a_laid_notebook_is_signed_so_that_its_stored_pictures_are_shown(
    shipped: Path, tmp_path: Path
) -> None:
    folders.copy_notebooks(shipped, tmp_path / "live")
    notary = nbformat.sign.NotebookNotary(data_dir=str(tmp_path / "live" / ".jupyter" / "data"))
    laid = nbformat.read(tmp_path / "live" / "30_moves.ipynb", as_version=4)
    assert notary.check_signature(laid)
    laid.cells[0].source = "2 + 2"
    assert not notary.check_signature(laid)


def test_a_changed_copy_stays_while_the_shipped_one_is_the_same(shipped: Path, tmp_path: Path) -> None:
    folders.copy_notebooks(shipped, tmp_path / "live")
    copy = _notebook(tmp_path / "live" / "30_moves.ipynb", "my own answer")
    assert folders.copy_notebooks(shipped, tmp_path / "live") == []
    assert _sources(copy) == ["my own answer"]


def test_a_changed_copy_is_set_aside_when_a_newer_one_is_shipped(shipped: Path, tmp_path: Path) -> None:
    folders.copy_notebooks(shipped, tmp_path / "live")
    copy = _notebook(tmp_path / "live" / "30_moves.ipynb", "my own answer")
    _notebook(shipped / "30_moves.ipynb", "2 + 2")
    (kept,) = folders.copy_notebooks(shipped, tmp_path / "live")
    assert _sources(kept) == ["my own answer"]
    assert _sources(copy) == ["2 + 2"]


def test_an_untouched_copy_is_replaced_silently_even_if_it_was_run(shipped: Path, tmp_path: Path) -> None:
    folders.copy_notebooks(shipped, tmp_path / "live")
    copy = tmp_path / "live" / "30_moves.ipynb"
    ran = nbformat.read(copy, as_version=4)
    ran.cells[0].outputs = [nbformat.v4.new_output("stream", text="2")]
    nbformat.write(ran, copy)
    _notebook(shipped / "30_moves.ipynb", "2 + 2")
    assert folders.copy_notebooks(shipped, tmp_path / "live") == []
    assert _sources(copy) == ["2 + 2"]


@pytest.mark.parametrize("damage", ["", "{", "[]", '{"cells": 3}'])
def test_a_damaged_copy_is_set_aside_too(shipped: Path, tmp_path: Path, damage: str) -> None:
    folders.copy_notebooks(shipped, tmp_path / "live")
    (tmp_path / "live" / "30_moves.ipynb").write_text(damage, encoding="utf-8")
    _notebook(shipped / "30_moves.ipynb", "2 + 2")
    (kept,) = folders.copy_notebooks(shipped, tmp_path / "live")
    assert kept.read_text(encoding="utf-8") == damage


def test_a_damaged_list_of_what_was_laid_loses_nothing(shipped: Path, tmp_path: Path) -> None:
    folders.copy_notebooks(shipped, tmp_path / "live")
    _notebook(tmp_path / "live" / "30_moves.ipynb", "my own answer")
    (tmp_path / "live" / ".jupyter" / "laid.json").write_text("[3", encoding="utf-8")
    (kept,) = folders.copy_notebooks(shipped, tmp_path / "live")
    assert _sources(kept) == ["my own answer"]


def test_our_kernel_is_this_python_and_comes_before_all_others(tmp_path: Path) -> None:
    env = folders.jupyter_env(tmp_path, TOKEN)
    spec = json.loads(
        (tmp_path / ".jupyter" / "kernels" / "python3" / "kernel.json").read_text(encoding="utf-8")
    )
    assert spec["argv"][0] == sys.executable
    assert env["JUPYTER_PATH"].startswith(str(tmp_path / ".jupyter"))
    assert env["COACHLIB_LIVE"] == "1"


def test_shared_settings_and_page_are_shipped() -> None:
    settings = folders.SHARE / "config" / "labconfig" / "default_setting_overrides.json"
    assert json.loads(settings.read_text(encoding="utf-8"))
    assert (folders.SHARE / "voila" / "templates" / "coach" / "index.html.j2").is_file()


def test_free_folder_takes_the_next_one_while_a_server_runs(tmp_path: Path) -> None:
    first = tmp_path / "live"
    assert folders.free_folder(first) == first
    runtime = first / ".jupyter" / "runtime"
    runtime.mkdir(parents=True)
    sleeper = subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE)
    (runtime / f"jpserver-{sleeper.pid}.json").write_text(json.dumps({"pid": sleeper.pid}), encoding="utf-8")
    assert folders.free_folder(first) == tmp_path / "live-2"
    sleeper.communicate(b"\n")
    assert folders.free_folder(first) == first


@pytest.mark.parametrize("port", [0, -1, 65536])
def test_port_out_of_range(port: int) -> None:
    with pytest.raises(InputError, match=rf"^Leave --port out.*port is {port}; expected 1 to 65535\."):
        servers.choose_port("127.0.0.1", port)


def test_port_that_is_taken() -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        with pytest.raises(InputError, match=rf"port is {port}; expected a free port"):
            servers.choose_port("127.0.0.1", port)


def test_a_taken_port_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        monkeypatch.setattr(servers, "FIRST_PORT", other.getsockname()[1])
        chosen = servers.choose_port("127.0.0.1", None)
        assert chosen != other.getsockname()[1]
        socket.create_server(("127.0.0.1", chosen)).close()


@pytest.mark.parametrize(
    ("host", "base_url"),
    [
        ("127.0.0.1", "http://127.0.0.1:8890"),
        ("0.0.0.0", "http://127.0.0.1:8890"),
        ("::1", "http://[::1]:8890"),
        ("coach.local", "http://coach.local:8890"),
    ],
)
def test_address_on_this_machine(host: str, base_url: str, tmp_path: Path) -> None:
    process = subprocess.Popen([sys.executable, "-c", ""])
    process.wait()
    assert servers.Server(process, tmp_path, host, 8890, TOKEN, is_app=False).base_url == base_url


def test_a_server_that_ends_at_once_is_told_with_its_last_words(tmp_path: Path) -> None:
    log = tmp_path / "log"
    log.write_text("no such option\n", encoding="utf-8")
    process = subprocess.Popen([sys.executable, "-c", "raise SystemExit(3)"])
    process.wait()
    server = servers.Server(process, log, "127.0.0.1", 1, TOKEN, is_app=False)
    with pytest.raises(ModelError, match=r"ended by itself \(exit code 3\)[^$]*no such option\nStart again"):
        servers.wait_for_server(server)


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[servers.Server, Path]]:
    """Return a server on an empty folder."""
    folder = tmp_path_factory.mktemp("server")
    server = servers.start_lab(folder, "127.0.0.1", servers.any_port("127.0.0.1"), TOKEN, n_warm=0)
    try:
        servers.wait_for_server(server)
        yield server, folder
    finally:
        servers.stop(server)
        assert server.process.poll() is not None


def test_cells_run_in_our_python_and_outputs_are_stored_and_signed(
    running: tuple[servers.Server, Path],
) -> None:
    server, folder = running
    code = "import os, sys, coachlib; print(sys.executable, coachlib.__file__, os.environ['COACHLIB_LIVE'])"
    path = _notebook(folder / "good.ipynb", code)
    assert run.run_notebook(server, folder, path.name) is None
    import coachlib

    (cell,) = nbformat.read(path, as_version=4).cells
    assert cell.outputs[0].text == f"{sys.executable} {coachlib.__file__} 1\n"
    assert cell.execution_count == 1
    notary = nbformat.sign.NotebookNotary(data_dir=str(folder / ".jupyter" / "data"))
    assert notary.check_signature(nbformat.read(path, as_version=4))


def test_a_failing_cell_is_told_and_those_after_it_are_not_run(running: tuple[servers.Server, Path]) -> None:
    server, folder = running
    path = _notebook(folder / "bad.ipynb", "1 + 1", "int('two')", "3 + 3")
    problem = run.run_notebook(server, folder, path.name)
    assert problem == "ValueError: invalid literal for int() with base 10: 'two'"
    counts = [cell.execution_count for cell in nbformat.read(path, as_version=4).cells]
    assert counts == [1, 2, None]


class _Kernel:
    """A kernel that seems dead for the first asks."""

    def __init__(self, n_dead: int) -> None:
        self.n_asked, self._n_dead = 0, n_dead

    def wait_for_ready(self, timeout: float) -> None:
        self.n_asked += 1
        if self.n_asked <= self._n_dead:
            raise RuntimeError("Kernel died before replying to kernel_info")


def test_a_kernel_whose_heart_stood_still_for_a_moment_is_asked_again() -> None:
    late = _Kernel(n_dead=1)
    run.wait_for_kernel(late)  # type: ignore[arg-type]
    assert late.n_asked == 2
    dead = _Kernel(n_dead=10**6)
    with pytest.raises(RuntimeError, match="died"):
        run.wait_for_kernel(dead, within_s=0.05)  # type: ignore[arg-type]
    assert dead.n_asked > 1


def test_a_second_run_finds_the_same_kernel(running: tuple[servers.Server, Path]) -> None:
    server, folder = running
    path = _notebook(folder / "again.ipynb", "n = globals().get('n', 0) + 1\nprint(n)")
    for n in (1, 2):
        assert run.run_notebook(server, folder, path.name) is None
        assert nbformat.read(path, as_version=4).cells[0].outputs[0].text == f"{n}\n"


def test_the_server_refuses_a_wrong_token(running: tuple[servers.Server, Path]) -> None:
    server, _ = running
    stranger = servers.Server(server.process, server.log, server.host, server.port, "wrong", is_app=False)
    with pytest.raises(servers.urllib.error.HTTPError, match="403"):
        stranger.call("GET", "api/sessions")
