"""What stands around each handler: errors told at their place, what was typed kept, all shown afresh.

News from another thread arrives in the loop that was noted, and in no other.
"""

import asyncio
import re
import threading

import anywidget
import pytest
import traitlets

from coachlib.errors import DataFileError, InputError, ModelError
from coachlib.views.panels import PracticePanel, ScoreSheet, StudentsPanel
from coachlib.views.panels.clinic.clinic import Clinic
from coachlib.views.panels.shared.panel import OwnLoop, Panel, action, action_steps, report_errors
from coachlib.views.panels.shared.parts import PANELS, ProgressBar


class Part(anywidget.AnyWidget):
    """A form that tells what is wrong with it."""

    _esm = ""
    errors = traitlets.Dict()


class Whole(Panel):
    """The few things that a handler needs of a panel."""

    def __init__(self, is_strict=False):
        self.is_strict, self.n_shown = is_strict, 0
        self.entry, self.who = Part(errors={"old": "x"}), Part(errors={"old": "x"})
        self.listen_to(self.entry, self.who)

    def refresh(self):
        self.n_shown += 1

    @action("who")
    def fail(self, fields):
        raise InputError("wrong", fields)

    @report_errors("who", "numbers")
    def stop(self, error):
        raise error

    @action("entry")
    def work(self):
        pass

    @action("entry")
    def work_and_fail(self):
        self.work()
        self.fail({"feet": "feet is 99"})


def test_an_error_stands_under_its_fields_at_its_place_and_the_panel_is_shown():
    panel = Whole()
    panel.fail({"feet": "feet is 99"})
    assert (panel.who.errors, panel.entry.errors, panel.n_shown) == ({"feet": "feet is 99"}, {}, 1)
    panel.fail(None)
    assert panel.who.errors == {"form": "wrong"}


@pytest.mark.parametrize("kind", [InputError, DataFileError, ModelError])
def test_each_of_our_errors_is_told_and_no_other(kind):
    panel = Whole()
    for error in (kind("wrong"), InputError("wrong", {"feet": "feet is 99"})):
        panel.stop(error)
        assert panel.who.errors == {"numbers": "wrong"}
    with pytest.raises(ZeroDivisionError):
        panel.stop(ZeroDivisionError())


def test_the_next_step_that_works_takes_the_errors_away():
    panel = Whole()
    panel.fail(None)
    panel.work()
    assert (panel.who.errors, panel.entry.errors, panel.n_shown) == ({}, {}, 2)


def test_a_handler_that_another_one_calls_is_a_part_of_its_step():
    panel = Whole()
    panel.work_and_fail()
    assert (panel.who.errors, panel.entry.errors, panel.n_shown) == ({}, {"feet": "feet is 99"}, 1)


def test_tests_see_the_error_too():
    panel = Whole(is_strict=True)
    with pytest.raises(InputError, match="wrong"):
        panel.fail(None)
    assert panel.n_shown == 1


def test_the_browser_may_ask_for_actions_alone():
    panel = Whole()
    panel.handle({"do": "fail", "fields": {"feet": "feet is 99"}})
    assert panel.who.errors == {"feet": "feet is 99"}
    for name in ("stop", "refresh", "__init__", "unheard_of"):
        with pytest.raises(KeyError, match=name):
            panel.handle({"do": name})


FOLDERS = {PracticePanel: "practice", Clinic: "clinic", ScoreSheet: "scoresheet", StudentsPanel: "students"}


@pytest.mark.parametrize(("panel", "folder"), FOLDERS.items())
def test_what_the_scripts_ask_for_are_the_panels_actions(panel, folder):
    scripts = "".join(path.read_text(encoding="utf-8") for path in (PANELS / folder).glob("*.js"))
    asked = set(re.findall(r'(?:\bdo: |\bsend\(|\bask\()"(\w+)"', scripts))
    assert asked == set(action_steps(panel))


def test_a_step_asked_for_in_another_thread_is_done_in_the_loops_own():
    async def panel():
        loop, done, arrived = OwnLoop(), asyncio.Event(), []

        def step():
            arrived.append(threading.get_ident())
            done.set()

        threading.Thread(target=loop.call, args=(step,)).start()
        await asyncio.wait_for(done.wait(), 30)
        return arrived

    assert asyncio.run(panel()) == [threading.get_ident()]


def test_without_a_loop_or_after_its_end_nothing_happens():
    OwnLoop().call(lambda: None)

    async def made():
        return OwnLoop()

    called = []
    closed = asyncio.run(made())
    closed.note()  # no loop runs: the last one known stays
    closed.call(lambda: called.append(1))
    assert called == []


def test_the_bar_has_a_name_follows_and_says_so():
    bar = ProgressBar("Looking through the bag")
    assert bar.bar.description == "Looking through the bag"
    assert (bar.bar.value, bar.words.value) == (0, "not begun")
    bar.step(3, 18)
    assert (bar.bar.value, bar.bar.max, bar.words.value) == (3, 18, "3 of 18")
    bar.step(18, 18)
    assert (bar.bar.value, bar.words.value) == (18, "all 18 done")
