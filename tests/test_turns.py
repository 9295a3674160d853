"""The change between two moments leads from one to the other. All invariants; no outside source."""

import dataclasses
from typing import Any

import pytest

from coachlib.coaching.session import Session, change
from coachlib.records.turns import FIELDS, changes_between
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line

WAS = Session(
    bowler=Bowler(name="Ilta"), line=Line(22, 11), ball=Ball("hybrid_2000"), lane="7", games_on_lane=1.0
)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"line": Line(24, 12)},
        {"lane": "8"},
        {"lane": "8", "line": Line(24, 12), "ball": None, "games_on_lane": 0.0},
        {"bowler": Bowler(name="Oskari"), "scoring_started": True},
    ],
)
def test_change_leads_there(changes: dict[str, Any]) -> None:
    now = dataclasses.replace(WAS.setting, **changes)
    there = change(WAS, **changes_between(WAS.setting, now))
    assert there.setting == now
    assert (there == WAS) == (not changes)


def test_lane_played_before_does_not_bring_its_line_back() -> None:
    session = change(change(WAS, lane="8", line=Line(30, 15)), lane="7")
    now = dataclasses.replace(session.setting, lane="8")
    assert change(session, **changes_between(session.setting, now)).setting == now


def test_all_that_holds_is_compared() -> None:
    assert FIELDS == (
        "bowler",
        "line",
        "ball",
        "pattern",
        "lane",
        "games_on_lane",
        "scoring_started",
        "place",
    )
