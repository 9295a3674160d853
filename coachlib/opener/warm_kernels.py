"""Kernels that are warm: they have loaded the library and answered one ball before somebody opens a page.

A page needs a kernel of its own, and most of the wait for one is Python loading what it needs. So one kernel
more than is asked for waits ready. What a closed page leaves behind ends after a while, and there are never
more than a fixed number: then the one that rested longest makes room.
"""

import asyncio
from typing import Any

from jupyter_server._tz import utcnow
from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager
from tornado import web
from tornado.ioloop import IOLoop
from traitlets import Int, TraitError

WARM_UP = "from coachlib.views import warm_up\nwarm_up()\ndel warm_up"
READY_S = 60.0
OURS = "python3"

_Kernels: Any = AsyncMappingKernelManager  # its methods have two sets of types, one of them wrong


class WarmKernels(_Kernels):
    """The server's kernels, with one that waits warm and an upper bound on all of them."""

    n_warm = Int(1, config=True, help="So many wait warm.")
    most_running = Int(12, config=True, help="So many kernels run at the most, the warm one beside them.")

    def __init__(self, **options: Any) -> None:
        super().__init__(**options)
        self._warm: list[str] = []
        self._in_the_making = ""
        self._warming: asyncio.Lock = asyncio.Lock()
        IOLoop.current().add_callback(self.fill)

    async def start_kernel(self, **options: Any) -> str:
        """Return the id of a kernel for a page or notebook: the warm one if it waits, else a new one.

        Parameters
        ----------
        **options : Any
            As of Jupyter's own kernel manager. A kernel asked for by its id, or in another folder, is new.
        """
        await self._make_room()
        if self._may_be_warm(options) and self._warm:
            kernel_id = self._warm.pop()
            self.get_kernel(kernel_id).last_activity = utcnow()
        else:
            kernel_id = str(await super().start_kernel(**options))
        IOLoop.current().add_callback(self.fill)
        return kernel_id

    async def fill(self) -> None:
        """Start a kernel and warm it, unless one waits; what fails goes to the log and is tried later."""
        async with self._warming:
            if len(self._warm) >= self.n_warm:
                return
            try:
                self._in_the_making = str(await super().start_kernel(kernel_name=OURS, path=""))
                await self._warm_up(self._in_the_making)
                self._warm.append(self._in_the_making)
            except Exception as error:
                self.log.error("no program could be made ready: %s", error)
                if self._in_the_making in self:
                    await self.shutdown_kernel(self._in_the_making, now=True)
            finally:
                self._in_the_making = ""

    def kernel_model(self, kernel_id: str) -> dict[str, Any]:
        """Return what the server tells of a kernel; of one that starts or waits it tells nothing yet."""
        if self._is_hidden(kernel_id):
            raise web.HTTPError(404)
        return dict(super().kernel_model(kernel_id))

    async def cull_kernel_if_idle(self, kernel_id: str) -> None:
        """End a kernel that nobody has used for a while; the warm one is there to wait."""
        if kernel_id not in self._warm:
            await super().cull_kernel_if_idle(kernel_id)

    async def _warm_up(self, kernel_id: str) -> None:
        client = self.get_kernel(kernel_id).client()
        client.start_channels()
        try:
            await client.wait_for_ready(timeout=READY_S)
            await client.execute_interactive(
                WARM_UP, silent=True, store_history=False, allow_stdin=False, timeout=READY_S
            )
        finally:
            client.stop_channels()

    async def _make_room(self) -> None:
        """End the kernels that rested longest where as many run as may; those nobody looks at go first."""
        running = [one for one in self.list_kernel_ids() if not self._is_hidden(one)]
        resting = sorted(
            running, key=lambda one: (self._n_looking(one) > 0, self.get_kernel(one).last_activity)
        )
        for kernel_id in resting[: max(len(running) - self.most_running + 1, 0)]:
            self.log.warning(
                "the program of page %s makes room: %d run at the most", kernel_id, self.most_running
            )
            await self.shutdown_kernel(kernel_id, now=True)

    def _is_hidden(self, kernel_id: str) -> bool:
        """Return whether a kernel starts, is being warmed or waits: nobody has it yet."""
        try:
            is_starting = self.get_kernel(kernel_id).last_activity is None
        except (AttributeError, TraitError):  # not set yet
            is_starting = True
        return is_starting or kernel_id in self._warm or kernel_id == self._in_the_making

    def _n_looking(self, kernel_id: str) -> int:
        return int(self._kernel_connections.get(kernel_id, 0))

    @staticmethod
    def _may_be_warm(options: dict[str, Any]) -> bool:
        return (
            options.get("kernel_id") is None
            and options.get("kernel_name") in (OURS, None)
            and not (options.get("path") or "").strip("/").removesuffix(".ipynb").count("/")
        )
