"""What stands around each handler: errors told at their place, what was typed kept, all shown afresh."""

import threading
from types import SimpleNamespace

import pytest

from coachlib.errors import InputError
from coachlib.views.panels.lane_side.error_report import report_errors


class Panel:
    """The few things that a handler needs of a panel."""

    def __init__(self, is_strict=False):
        self.is_strict = is_strict
        self._alone, self._loop = threading.RLock(), SimpleNamespace(note=lambda: None)
        self.entry, self.who = SimpleNamespace(errors={"old": "x"}), SimpleNamespace(errors={"old": "x"})
        self.n_shown = 0

    def refresh(self):
        self.n_shown += 1

    @report_errors("who")
    def fail(self, fields):
        raise InputError("wrong", fields)

    @report_errors("entry")
    def work(self):
        pass


def test_an_error_stands_under_its_fields_at_its_place_and_the_panel_is_shown():
    panel = Panel()
    panel.fail({"feet": "feet is 99"})
    assert (panel.who.errors, panel.entry.errors, panel.n_shown) == ({"feet": "feet is 99"}, {}, 1)
    panel.fail(None)
    assert panel.who.errors == {"form": "wrong"}


def test_the_next_step_that_works_takes_the_errors_away():
    panel = Panel()
    panel.fail(None)
    panel.work()
    assert (panel.who.errors, panel.entry.errors, panel.n_shown) == ({}, {}, 2)


def test_tests_see_the_error_too():
    panel = Panel(is_strict=True)
    with pytest.raises(InputError, match="wrong"):
        panel.fail(None)
    assert panel.n_shown == 1
