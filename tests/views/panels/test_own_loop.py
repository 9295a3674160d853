"""News from another thread arrives in the loop that was noted, and in no other. Invariants."""

import asyncio
import threading

from coachlib.views.panels.shared.panel import OwnLoop


def test_a_step_asked_for_in_another_thread_is_done_in_the_loops_own() -> None:
    async def panel() -> list[int]:
        loop, done, arrived = OwnLoop(), asyncio.Event(), []

        def step() -> None:
            arrived.append(threading.get_ident())
            done.set()

        threading.Thread(target=loop.call, args=(step,)).start()
        await asyncio.wait_for(done.wait(), 30)
        return arrived

    assert asyncio.run(panel()) == [threading.get_ident()]


def test_without_a_loop_or_after_its_end_nothing_happens() -> None:
    OwnLoop().call(lambda: None)

    async def made() -> OwnLoop:
        return OwnLoop()

    called: list[int] = []
    closed = asyncio.run(made())
    closed.note()  # no loop runs: the last one known stays
    closed.call(lambda: called.append(1))
    assert called == []
