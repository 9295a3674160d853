"""The ball's own way held against what is published: rows are whole, and a verdict can go either way."""

import dataclasses

import pytest

from coachlib.physics.pins.build import carry_way_facts
from coachlib.physics.pins.build.carry_checks import ball_way
from coachlib.physics.pins.build.carry_way_facts import way_facts
from coachlib.physics.pins.carry_file import shipped_table


def test_each_row_names_boards_pins_and_where_the_ball_leaves():
    facts = way_facts(shipped_table())
    assert len(facts) == 6
    for fact in facts:
        assert "leaves on " in fact.simulated
        assert "1-3" in fact.simulated
        assert isinstance(fact.agrees, bool)


def test_a_ball_that_clips_the_9_and_leaves_near_19_would_agree(monkeypatch):
    def published_way(board, entry_deg):
        return ball_way(board, entry_deg)._replace(hits=(1, 3, 5, 9), exit_board=19.0)

    monkeypatch.setattr(carry_way_facts, "ball_way", published_way)
    contacts, flush, ten_pin, light, high, _ = way_facts(shipped_table())
    assert contacts.agrees
    assert flush.agrees
    assert not ten_pin.agrees  # leaves near 14, not 19
    assert not light.agrees
    assert not high.agrees


def test_a_light_ball_that_does_not_strike_does_not_agree():
    table = shipped_table()
    nothing_strikes = dataclasses.replace(table, counts=table.counts * 0, pull_racks=1.0)
    light = way_facts(nothing_strikes)[3]
    assert light.statement.startswith("a slightly light ball can strike")
    assert light.agrees is False
    assert ball_way(16.0, 6.0).exit_board == pytest.approx(14.0, abs=1.5)
