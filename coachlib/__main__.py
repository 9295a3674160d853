"""`python -m coachlib` opens the front page in a browser: every page is live, with no cell to press."""

import argparse
import secrets
import signal
import sys
import textwrap
import webbrowser
from collections.abc import Callable, Sequence
from pathlib import Path
from types import FrameType

from coachlib.errors import InputError, ModelError, checked_choice
from coachlib.opener import folder as folders
from coachlib.opener import server as servers
from coachlib.opener.run import run_notebook
from coachlib.opener.server import Server


def main(arguments: Sequence[str] | None = None) -> int:
    """Open the notebooks live and stay until the person presses Ctrl-C.

    Parameters
    ----------
    arguments : sequence of str, optional
        What stands behind the command; by default that of this process.

    Returns
    -------
    int
        The exit code: 0 when stopped by the person, 1 when the server failed, 2 for a wrong option.
    """
    wanted = _options().parse_args(arguments)
    try:
        return _open(wanted)
    except (InputError, ModelError, OSError) as error:
        print(error, file=sys.stderr)
        return 2 if isinstance(error, InputError) else 1
    except KeyboardInterrupt:
        return 0


def _options() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m coachlib", description="Open the coach in a browser; Ctrl-C stops it."
    )
    parser.add_argument("--app", action="store_true", help="for a tablet: pages only, no notebooks, no files")
    parser.add_argument("--notebook", metavar="NAME", help="open this notebook (with --app: its page)")
    parser.add_argument(
        "--host",
        default="127.0.0.1",
        help="who can reach it: this machine only (default), or 0.0.0.0 for every device in the network",
    )
    parser.add_argument(
        "--port", type=int, help=f"number of the port (default: a free one from {servers.FIRST_PORT})"
    )
    parser.add_argument("--folder", type=Path, help="where your copy of the notebooks is kept")
    parser.add_argument("--no-browser", action="store_true", help="print the address, open no browser")
    return parser


def _open(wanted: argparse.Namespace) -> int:
    """Start what was asked for, say where it is, and wait for its end."""
    shipped = folders.shipped_notebooks()
    name = _notebook_name(wanted.notebook, shipped)
    first = (wanted.folder or folders.default_folder()).resolve()
    folder = first if wanted.app else folders.free_folder(first)
    for kept in folders.copy_notebooks(shipped, folder):
        print(f"A notebook has a newer version. Your changed copy is kept: {kept}")
    port = servers.choose_port(wanted.host, wanted.port)
    _stop_on_signals()
    print("Starting ...", flush=True)
    start = servers.start_app if wanted.app else servers.start_lab
    server = _answering(start, folder, wanted, port)
    try:
        return _serve(server, folder, name, wanted)
    except KeyboardInterrupt:
        print("\nStopping. Every ball you logged is saved on this machine.", flush=True)
        return 0
    finally:
        servers.stop(server)


def _answering(
    start: Callable[[Path, str, int, str], Server], folder: Path, wanted: argparse.Namespace, port: int
) -> Server:
    """Return a server that answers: on another port where a program took the one chosen meanwhile."""
    server = start(folder, wanted.host, port, secrets.token_hex(16))
    try:
        servers.wait_for_server(server)
    except (ModelError, KeyboardInterrupt) as error:
        servers.stop(server)
        is_taken = wanted.port is None and not servers.is_free(wanted.host, port)
        if isinstance(error, KeyboardInterrupt) or not is_taken:
            raise
        return _answering(start, folder, wanted, servers.any_port(wanted.host))
    return server


def _serve(server: Server, folder: Path, name: str, wanted: argparse.Namespace) -> int:
    problem = run_notebook(server, folder, name) if name and not server.is_app else None
    if problem:
        print(f"A cell of {name} failed. The notebook opens all the same.\n{problem}", file=sys.stderr)
    path = servers.FRONT
    if name:
        path = f"{servers.RENDERED}/{name}" if server.is_app else f"doc/tree/{name}"
    print(_where(server, path), flush=True)
    if not wanted.no_browser:
        webbrowser.open(server.url(path))
    return server.process.wait()


def _where(server: Server, path: str) -> str:
    """Return what the person needs to know: the address, how to stop, and who else can reach it."""
    lines = ["", f"  Open:  {server.url(path)}"]
    if server.host not in servers.LOOPBACK:
        host = servers.own_address() if server.host in servers.EVERYWHERE else server.host
        lines += [f"  On a tablet in the same network:  {server.url(path, host)}", "", _exposed(server)]
    return "\n".join([*lines, "", "  Stop:  press Ctrl-C here.", ""])


def _exposed(server: Server) -> str:
    """Return in plain words what listening on more than this machine means."""
    can = "use the coach and read what it holds about your students"
    if not server.is_app:
        can = "run any program on this machine as you, and read and change all your files"
    text = (
        f"Careful: every device in this network can reach port {server.port}. Anyone with the whole address "
        f"can {can}. The connection is not encrypted: in a network you share with others, such as a "
        "centre's guest Wi-Fi, somebody can listen in on the address and your students' records. Use a "
        "network of your own, keep the address to yourself, and press Ctrl-C when you are done."
    )
    return textwrap.fill(text, 96, initial_indent="  ", subsequent_indent="  ")


def _notebook_name(name: str | None, shipped: Path) -> str:
    """Return the file name of a shipped notebook, given with or without `.ipynb`; none for the front page."""
    names = sorted(path.name for path in shipped.glob("*.ipynb"))
    if not names:
        message = f"There are no notebooks in {str(shipped)!r}; expected the folder they come in."
        message += " Install coachlib again."
        raise InputError(message)
    if name is None:
        return ""
    return checked_choice("notebook", name if name.endswith(".ipynb") else f"{name}.ipynb", names)


def _stop_on_signals() -> None:
    """Let a closed terminal or a polite kill stop the server too, as Ctrl-C does."""

    def interrupt(_number: int, _frame: FrameType | None) -> None:
        raise KeyboardInterrupt

    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), interrupt)


if __name__ == "__main__":
    sys.exit(main())
