"""Notebooks with panels are live when opened: the server runs them before it hands them to a browser.

A panel stored in a notebook is a reference to a program that runs. Without it a browser shows "Error
displaying widget". So where one of our notebooks with a panel is asked for and no kernel runs for it, its
cells are run as far as its last panel; the pictures below stay as stored. What nobody opens costs nothing.
"""

import asyncio
import time
from pathlib import Path
from typing import Any

import nbformat
from jupyter_server.services.contents.largefilemanager import AsyncLargeFileManager

from coachlib.opener.folder import laid_names, sign_notebook
from coachlib.opener.notebook_page import cells_to_run, read_notebook

CELL_S = 120.0
READY_S = 60.0
_KEPT = ("stream", "display_data", "execute_result", "error")


class LiveContents(AsyncLargeFileManager):
    """The server's files; a notebook of ours with panels is run before it is handed out."""

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self._alone: dict[str, asyncio.Lock] = {}

    async def get(
        self,
        path: str,
        content: bool = True,
        type: str | None = None,
        format: str | None = None,
        require_hash: bool = False,
    ) -> Any:
        """Return a file or folder as the server's interface describes it; run a notebook of ours first."""
        name = path.strip("/")
        if content and type in (None, "notebook") and name in laid_names(Path(self.root_dir)):
            async with self._alone.setdefault(name, asyncio.Lock()):
                await self._make_live(name)
        stored: Any = super()
        return await stored.get(path, content, type, format, require_hash)

    @property
    def _server(self) -> Any:
        return self.parent

    async def _make_live(self, name: str) -> None:
        """Run a notebook that shows panels, unless a kernel runs for it; what fails goes to the log."""
        notebook = await asyncio.to_thread(read_notebook, Path(self.root_dir) / name)
        if notebook is None or not cells_to_run(notebook) or await self._is_running(name):
            return
        began_s = time.monotonic()
        try:
            await self._run(name, notebook)
        except Exception as error:  # whatever went wrong, the notebook is handed out as it is stored
            self.log.error("%s could not be run before it was opened: %s", name, error)
        self.log.info("%s was made live in %.1f s", name, time.monotonic() - began_s)

    async def _is_running(self, name: str) -> bool:
        sessions = await self._server.session_manager.list_sessions()
        return any(one["path"] == name for one in sessions)

    async def _run(self, name: str, notebook: Any) -> None:
        session = await self._server.session_manager.create_session(
            path=name, name=name, type="notebook", kernel_name="python3"
        )
        client = self._server.kernel_manager.get_kernel(session["kernel"]["id"]).client()
        client.start_channels()
        try:
            await client.wait_for_ready(timeout=READY_S)
            await run_cells(client, cells_to_run(notebook))
        finally:
            client.stop_channels()
        await asyncio.to_thread(_write, Path(self.root_dir), name, notebook)


async def run_cells(client: Any, cells: list[Any]) -> None:
    """Run cells in order and put what they print into them; those after a failing one are left alone.

    Parameters
    ----------
    client : AsyncKernelClient
        Connected to a kernel that is ready.
    cells : list of NotebookNode
        Code cells; changed in place.
    """
    for cell in cells:
        cell.outputs = []

        def keep(message: dict[str, Any], outputs: list[Any] = cell.outputs) -> None:
            if message["msg_type"] in _KEPT:
                outputs.append(nbformat.v4.output_from_msg(message))

        reply = await client.execute_interactive(
            cell.source, allow_stdin=False, output_hook=keep, timeout=CELL_S
        )
        cell.execution_count = reply["content"].get("execution_count")
        if reply["content"]["status"] != "ok":
            return


def _write(folder: Path, name: str, notebook: Any) -> None:
    nbformat.write(notebook, folder / name)
    sign_notebook(folder, notebook)
