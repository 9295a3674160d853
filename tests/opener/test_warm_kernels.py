"""Kernels that wait warm: the next page gets one, none is shown or ended while it waits, few enough run.

Our own promises; no outside source.
"""

import asyncio
from collections.abc import Awaitable, Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from jupyter_server._tz import utcnow
from tornado import web

from coachlib.opener import warm_kernels
from coachlib.opener.warm_kernels import OURS, WarmKernels

Play = Callable[[Any], Awaitable[None]]


@pytest.fixture
def play(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., None]:
    """Return a function that plays something on a manager of our own and ends all its kernels."""
    monkeypatch.setattr(warm_kernels, "WARM_UP", "is_warm = 1")

    def play_one(what: Play, **options: Any) -> None:
        async def played() -> None:
            manager = WarmKernels(root_dir=str(tmp_path), connection_dir=str(tmp_path), **options)
            try:
                await what(manager)
            finally:
                async with manager._warming:
                    await manager.shutdown_all(now=True)

        asyncio.run(played())

    return play_one


async def _asked(manager: Any, **options: Any) -> str:
    return str(await manager.start_kernel(kernel_name=OURS, path="", **options))


async def _value(manager: Any, kernel_id: str, source: str) -> str:
    """Return what a kernel prints for an expression."""
    client = manager.get_kernel(kernel_id).client()
    client.start_channels()
    await client.wait_for_ready(timeout=60)
    printed: list[str] = []
    await client.execute_interactive(
        f"print({source})", output_hook=lambda message: printed.append(message["content"].get("text", ""))
    )
    client.stop_channels()
    return "".join(printed).strip()


def test_the_next_page_gets_the_kernel_that_waits_and_another_is_warmed(play: Callable[..., None]) -> None:
    async def what(manager: Any) -> None:
        await manager.fill()
        (waiting,) = manager.list_kernel_ids()
        assert await _asked(manager) == waiting
        assert await _value(manager, waiting, "is_warm") == "1"
        await manager.fill()
        assert set(manager.list_kernel_ids()) > {waiting}

    play(what)


def test_one_that_waits_is_neither_shown_nor_ended(play: Callable[..., None]) -> None:
    async def what(manager: Any) -> None:
        await manager.fill()
        (waiting,) = manager.list_kernel_ids()
        assert manager.list_kernels() == []
        with pytest.raises(web.HTTPError):
            manager.kernel_model(waiting)
        manager.get_kernel(waiting).last_activity = utcnow() - timedelta(days=1)
        manager.get_kernel(waiting).execution_state = "idle"
        await manager.cull_kernel_if_idle(waiting)
        assert manager.list_kernel_ids() == [waiting]
        given = await _asked(manager)
        assert [one["id"] for one in manager.list_kernels()] == [given]
        assert utcnow() - manager.get_kernel(given).last_activity < timedelta(minutes=1)

    play(what, cull_idle_timeout=60)


def test_without_warm_ones_each_is_started_when_it_is_asked_for(play: Callable[..., None]) -> None:
    async def what(manager: Any) -> None:
        await manager.fill()
        assert manager.list_kernel_ids() == []
        kernel = await _asked(manager)
        assert manager.list_kernel_ids() == [kernel]

    play(what, n_warm=0)


def test_where_as_many_run_as_may_the_one_that_rested_longest_makes_room(play: Callable[..., None]) -> None:
    async def what(manager: Any) -> None:
        first, second = await _asked(manager), await _asked(manager)
        manager.get_kernel(first).last_activity = utcnow() - timedelta(hours=1)
        third = await _asked(manager)
        assert set(manager.list_kernel_ids()) == {second, third}
        manager.get_kernel(second).last_activity = utcnow() - timedelta(hours=1)
        manager._kernel_connections[second] = 1
        fourth = await _asked(manager)
        assert set(manager.list_kernel_ids()) == {second, fourth}, "somebody looks at the second"

    play(what, n_warm=0, most_running=2)


def test_a_kernel_that_cannot_be_warmed_does_no_harm(
    play: Callable[..., None], monkeypatch: pytest.MonkeyPatch
) -> None:
    async def fails(_manager: Any, _kernel_id: str) -> None:
        raise TimeoutError

    monkeypatch.setattr(WarmKernels, "_warm_up", fails)

    async def what(manager: Any) -> None:
        await manager.fill()
        assert manager.list_kernel_ids() == [], "what could not be warmed is ended"
        assert await _asked(manager) in manager.list_kernel_ids()

    play(what)


def test_a_page_may_be_opened_while_others_start(play: Callable[..., None]) -> None:
    """A kernel that starts has no time of its last use yet: it is neither compared nor told of."""

    async def what(manager: Any) -> None:
        manager.n_warm = 0
        first = await _asked(manager)
        manager.n_warm = 1
        filling = asyncio.create_task(manager.fill())
        while len(manager.list_kernel_ids()) < 2:
            await asyncio.sleep(0)
        second = await _asked(manager)
        assert {one["id"] for one in manager.list_kernels()} == {first, second}
        await filling

    play(what)
