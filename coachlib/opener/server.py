"""The notebook server: starting it, waiting until it answers, and stopping it with all its kernels."""

import json
import os
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from coachlib.errors import InputError, ModelError
from coachlib.opener.folder import jupyter_env, server_log
from coachlib.opener.notebook_page import lay_pages

FIRST_PORT = 8890
READY_S = 60.0
STOP_S = 10.0
FRONT, RENDERED = "coach", "voila/render"
CULL_IDLE_S = 3600
_EXTENSIONS = "{'voila.server_extension': True, 'coachlib.opener.pages': True}"
LOOPBACK = ("127.0.0.1", "localhost", "::1")
EVERYWHERE = ("0.0.0.0", "::", "*", "")
_direct = urllib.request.build_opener(
    urllib.request.ProxyHandler({})
)  # a proxy knows nothing of this machine


@dataclass(frozen=True)
class Server:
    """A running server: its process, where it answers, and the secret that opens it."""

    process: subprocess.Popen[bytes]
    log: Path
    host: str
    port: int
    token: str
    is_app: bool

    @property
    def base_url(self) -> str:
        """Return the address on this machine, without a slash at the end."""
        return f"http://{_bracketed(_reachable(self.host))}:{self.port}"

    def url(self, path: str, host: str | None = None) -> str:
        """Return the address of `path` with its token, for this machine or seen from another as `host`."""
        base = f"http://{_bracketed(host)}:{self.port}" if host else self.base_url
        return f"{base}/{path}?token={self.token}"

    def call(self, method: str, path: str, body: dict[str, Any] | None = None) -> Any:
        """Ask the server's own interface and return its answer."""
        data = None if body is None else json.dumps(body).encode()
        headers = {"Authorization": f"token {self.token}", "Content-Type": "application/json"}
        request = urllib.request.Request(f"{self.base_url}/{path}", data, headers, method=method)
        with _direct.open(request, timeout=60) as answer:
            text = answer.read()
        return json.loads(text) if text else None


def start_lab(folder: Path, host: str, port: int, token: str, *, n_warm: int = 1) -> Server:
    """Start JupyterLab on `folder`, with the pages beside it; it answers a little later.

    Parameters
    ----------
    folder : Path
        The working folder; its notebooks are laid.
    host, port, token : str, int, str
        Where it listens, and the secret that opens it.
    n_warm : int, default 1
        So many kernels wait ready; 0 starts each when it is asked for.

    See Also
    --------
    wait_for_server
    """
    lay_pages(folder)
    options = [
        f"--ServerApp.ip={host}",
        f"--ServerApp.port={port}",
        "--ServerApp.port_retries=0",
        "--ServerApp.open_browser=False",
        f"--ServerApp.root_dir={folder}",
        "--ServerApp.contents_manager_class=coachlib.opener.live.LiveContents",
        "--ServerApp.kernel_manager_class=coachlib.opener.warm_kernels.WarmKernels",
        f"--ServerApp.jpserver_extensions={_EXTENSIONS}",
        "--VoilaConfiguration.template=coach_beside_notebooks",
        f"--ServerApp.allow_root={_is_root()}",
        *_kernels(n_warm),
    ]
    process = _start([sys.executable, "-m", "jupyterlab", *options], folder, token)
    return Server(process, server_log(folder), host, port, token, is_app=False)


def start_app(folder: Path, host: str, port: int, token: str, *, n_warm: int = 1) -> Server:
    """Start the pages for a tablet: no notebook, no list of files; arguments as :func:`start_lab`."""
    options = [
        f"--Voila.ip={host}",
        f"--port={port}",
        "--Voila.port_retries=0",
        "--no-browser",
        "--template=coach",
        "--theme=light",
        "--Voila.auto_token=True",
        "--VoilaConfiguration.multi_kernel_manager_class=coachlib.opener.warm_kernels.WarmKernels",
        *_kernels(n_warm),
    ]
    command = [sys.executable, "-m", "coachlib.opener.pages", str(lay_pages(folder)), *options]
    return Server(_start(command, folder, token), server_log(folder), host, port, token, is_app=True)


def _kernels(n_warm: int) -> list[str]:
    """Return what both servers are told about kernels: one left alone ends after a while."""
    return [
        f"--WarmKernels.n_warm={n_warm}",
        f"--MappingKernelManager.cull_idle_timeout={CULL_IDLE_S}",
        "--Application.log_level=ERROR",
    ]


def wait_for_server(server: Server) -> None:
    """Wait until the server answers.

    Raises
    ------
    ModelError
        If it ends or stays silent; with the last lines that it printed.
    """
    path = "login" if server.is_app else "api/status"
    until_s = time.monotonic() + READY_S
    while time.monotonic() < until_s:
        if server.process.poll() is not None:
            raise ModelError(_failed(server, f"ended by itself (exit code {server.process.returncode})"))
        try:
            with _direct.open(server.url(path), timeout=5):
                return
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            time.sleep(0.1)
    stop(server)
    raise ModelError(_failed(server, f"gave no answer for {READY_S:g} s and was stopped"))


def stop(server: Server) -> None:
    """Stop the server and the kernels it started; kill it if it does not listen."""
    if server.process.poll() is not None:
        return
    if server.is_app and sys.platform != "win32":
        server.process.send_signal(signal.SIGINT)
    else:
        server.process.terminate()
    try:
        server.process.wait(STOP_S)
    except subprocess.TimeoutExpired:
        server.process.kill()
        server.process.wait()


def choose_port(host: str, wanted: int | None) -> int:
    """Return the wanted port, or the first free one from 8890 on.

    Raises
    ------
    InputError
        If the wanted port is out of range or taken.
    """
    if wanted is None:
        return next(
            (port for port in range(FIRST_PORT, FIRST_PORT + 50) if is_free(host, port)), 0
        ) or any_port(host)
    if not 1 <= wanted <= 65535:
        message = f"Leave --port out and we take a free one: port is {wanted}; expected 1 to 65535."
        raise InputError(message, {"port": message})
    if not is_free(host, wanted):
        message = (
            f"Leave --port out and we take a free one: port is {wanted}; expected a free port. Another "
            "program uses it, or this machine does not allow it."
        )
        raise InputError(message, {"port": message})
    return wanted


def any_port(host: str) -> int:
    """Return a free port that the system picks."""
    with socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET, socket.SOCK_STREAM) as probe:
        probe.bind((host if host != "*" else "", 0))
        return int(probe.getsockname()[1])


def own_address() -> str:
    """Return this machine's address in the local network, by asking for a route; nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(
                ("192.0.2.1", 9)
            )  # an address kept for examples (RFC 5737): only the route is looked up
            return str(probe.getsockname()[0])
        except OSError:
            return socket.gethostname()


def _failed(server: Server, how: str) -> str:
    """Return what happened, the server's own last words, and what to do."""
    last = server.log.read_text(encoding="utf-8", errors="replace").splitlines()[-8:]
    said = "\n".join(f"    {line}" for line in last) or "    (nothing)"
    advice = "Start again. If that fails, choose another port with --port."
    return f"The server on port {server.port} {how}. Its last words:\n{said}\n{advice}"


def _start(command: list[str], folder: Path, token: str) -> subprocess.Popen[bytes]:
    """Start a server in a session of its own, so that Ctrl-C reaches us alone and we stop it in order."""
    env = os.environ | jupyter_env(folder, token)
    with server_log(folder).open("wb") as log:
        return subprocess.Popen(
            command,
            cwd=folder,
            env=env,
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=log,
            start_new_session=True,
        )


def _is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def is_free(host: str, port: int) -> bool:
    """Return whether nobody listens on a port yet."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as probe:
        if sys.platform != "win32":
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((host if host != "*" else "", port))
        except OSError:
            return False
    return True


def _reachable(host: str) -> str:
    return "127.0.0.1" if host in EVERYWHERE else host


def _bracketed(host: str) -> str:
    return f"[{host}]" if ":" in host else host
