"""Running a notebook on the server before a browser looks at it, so that no cell has to be pressed."""

import time
from pathlib import Path
from typing import Any

import nbformat
from jupyter_client.blocking.client import BlockingKernelClient

from coachlib.opener.folder import sign_notebook
from coachlib.opener.server import Server

CELL_S = 120.0
READY_S = 60.0
_KEPT = ("stream", "display_data", "execute_result", "error")


def run_notebook(server: Server, folder: Path, name: str) -> str | None:
    """Run all cells of a notebook in the kernel that the browser will find, and store what they print.

    Parameters
    ----------
    server : Server
        A server that answers.
    folder : Path
        Its root.
    name : str
        The notebook's file name in `folder`; its outputs are written into it.

    Returns
    -------
    str or None
        What went wrong, if a cell failed; the cells after it were not run.
    """
    notebook = nbformat.read(folder / name, as_version=4)
    client = _connect(folder, _start_session(server, name))
    try:
        wait_for_kernel(client)
        problem = _run_cells(client, notebook)
    except (TimeoutError, RuntimeError) as error:
        problem = f"The program behind the notebook did not answer: {error}"
    finally:
        client.stop_channels()
    nbformat.write(notebook, folder / name)
    sign_notebook(folder, notebook)
    return problem


def _start_session(server: Server, name: str) -> str:
    """Ask the server for a kernel for this notebook and return the kernel's id."""
    wanted = {"path": name, "name": name, "type": "notebook", "kernel": {"name": "python3"}}
    return str(server.call("POST", "api/sessions", wanted)["kernel"]["id"])


def _connect(folder: Path, kernel: str) -> BlockingKernelClient:
    client = BlockingKernelClient(
        connection_file=str(folder / ".jupyter" / "runtime" / f"kernel-{kernel}.json")
    )
    client.load_connection_file()
    client.start_channels()
    return client


def wait_for_kernel(client: BlockingKernelClient, within_s: float = READY_S) -> None:
    """Wait for a kernel that starts; on a busy machine its heart may seem to stand still for a second.

    Parameters
    ----------
    client : BlockingKernelClient
        Connected, its channels started.
    within_s : float
        So long a kernel is asked again. [s]

    Raises
    ------
    RuntimeError
        If it gave no answer until then.
    """
    stop_s = time.monotonic() + within_s
    while True:
        try:
            client.wait_for_ready(timeout=max(stop_s - time.monotonic(), 0.0))
            return
        except RuntimeError:
            if time.monotonic() >= stop_s:
                raise
            time.sleep(min(0.5, within_s))


def _run_cells(client: BlockingKernelClient, notebook: Any) -> str | None:
    """Run the code cells in order until one fails; return its error."""
    code_cells = [cell for cell in notebook.cells if cell.cell_type == "code"]
    for cell in code_cells:
        cell.outputs, cell.execution_count = [], None
    for cell in code_cells:
        reply = _run_cell(client, cell)
        if reply["status"] != "ok":
            return f"{reply.get('ename', 'Error')}: {reply.get('evalue', reply['status'])}"
    return None


def _run_cell(client: BlockingKernelClient, cell: Any) -> dict[str, Any]:
    def keep(message: dict[str, Any]) -> None:
        if message["msg_type"] in _KEPT:
            cell.outputs.append(nbformat.v4.output_from_msg(message))

    reply = client.execute_interactive(cell.source, allow_stdin=False, output_hook=keep, timeout=CELL_S)[
        "content"
    ]
    cell.execution_count = reply.get("execution_count")
    return dict(reply)
