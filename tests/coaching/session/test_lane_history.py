"""One history for rules, belief, trend and words: fresh oil and another lane begin anew.

That what was seen on oil that is gone says nothing of the new oil is common practice, no source. The wanted
counts follow from the balls, counted by hand.
"""

import dataclasses
from pathlib import Path

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.belief.cause import blame
from coachlib.coaching.belief.filter import believe
from coachlib.coaching.equipment.field_test import field_test
from coachlib.coaching.rules.change_facts import move_history, was_changed
from coachlib.coaching.rules.session_facts import read_session
from coachlib.coaching.session.arrivals import arrivals
from coachlib.coaching.session.lane_history import (
    ball_before,
    balls_by_oil,
    events_on_oil,
    lane_balls,
    last_ball,
    line_balls,
    oil_of,
)
from coachlib.coaching.session.setting import Changed
from coachlib.records import Logbook
from coachlib.records.log.replay import shown_as
from coachlib.records.spreadsheets.csv_log import export_sessions, import_sessions

HIGH = cl.Shot(crossed_board=11, arrival="high", motion="early")
LIGHT = cl.Shot(crossed_board=11, arrival="light", motion="late")
SPARE = cl.Shot(leave=(), is_spare=True)


def begun(**fields):
    return cl.Session(**({"bowler": cl.Bowler(), "line": cl.Line(22, 11), "lane": "7"} | fields))


def thrown(session, *shots):
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def numbers(balls):
    return [seen.number for seen in balls]


HIGH_THRICE = thrown(begun(), HIGH, HIGH, HIGH)
OILED = cl.change(HIGH_THRICE, games_on_lane=0.0)


def test_three_highs_before_fresh_oil_do_not_count_for_the_high_one_after_it():
    assert cl.advise(HIGH_THRICE, model_on=False).move == cl.Move(2, 1)
    advice = cl.advise(thrown(OILED, HIGH), model_on=False)
    assert (advice.kind, advice.move) == ("watch", cl.Move())
    facts = advice.reading.facts
    counts = {name: facts[name] for name in ("n_shots", "n_ok", "n_same", "n_same_run", "n_trend")}
    assert counts == {"n_shots": 1, "n_ok": 1, "n_same": 1, "n_same_run": 1, "n_trend": 1}
    assert facts["games_on_lane"] == pytest.approx(0.1)
    words = cl.say(advice)
    assert "times" not in words.sentence + words.why


def test_fewer_games_than_were_played_say_fresh_oil_even_if_the_same_number_is_stated_again():
    # Before, 0 games stated twice was no change at all, and the old balls went on counting.
    assert OILED != HIGH_THRICE
    (event,) = [one for one in OILED.events if isinstance(one, Changed)]
    assert event.was == event.now
    assert event.is_oiled
    assert event.is_oiled_anew
    assert (oil_of(HIGH_THRICE), oil_of(OILED)) == (("7", 0), ("7", 1))
    assert OILED.games_now == 0.0


@pytest.mark.parametrize(("stated", "is_oiled"), [(0.2, True), (0.3, False), (0.4, False), (1.0, False)])
def test_as_many_games_as_were_played_or_more_are_no_fresh_oil(stated, is_oiled):
    told = cl.change(HIGH_THRICE, games_on_lane=stated)
    assert oil_of(told)[1] == int(is_oiled)
    assert numbers(lane_balls(told)) == ([] if is_oiled else [1, 2, 3])


def test_nothing_thrown_and_the_same_games_stated_is_no_event():
    assert cl.change(begun(), games_on_lane=0.0).events == ()
    assert cl.change(begun(games_on_lane=2.0), games_on_lane=2.0).events == ()
    assert cl.change(OILED, games_on_lane=0.0) == OILED


def test_a_log_of_older_versions_tells_fresh_oil_by_fewer_games_stated():
    was = begun(games_on_lane=2.0).setting
    old = Changed(was, dataclasses.replace(was, games_on_lane=0.0))
    same = Changed(was, dataclasses.replace(was, line=cl.Line(24, 12)))
    other = Changed(was, dataclasses.replace(was, lane="8", games_on_lane=0.0))
    assert [one.is_oiled_anew for one in (old, same, other)] == [True, False, False]


def test_the_belief_begins_anew_and_keeps_only_what_tells_of_the_bowler():
    before, after = believe(HIGH_THRICE), believe(OILED)
    assert (len(before.balls), len(after.balls)) == (3, 0)
    assert (before.n_balls, after.n_balls) == (3, 3)
    assert not np.allclose(before.weights, after.weights)
    assert believe(begun()).n_effective >= after.n_effective > before.n_effective


def test_where_a_good_shot_comes_in_is_believed_from_the_present_oil():
    anew, on_and_on = (blame(believe(thrown(session, LIGHT, LIGHT))) for session in (OILED, HIGH_THRICE))
    never_oiled = blame(believe(thrown(begun(), LIGHT, LIGHT)))
    assert anew.meant_board < on_and_on.meant_board - 0.5
    assert anew.meant_board == pytest.approx(never_oiled.meant_board, abs=0.5)


def test_the_trend_and_the_list_of_arrivals_begin_anew():
    creeping = [cl.Shot(crossed_board=11, arrival=board) for board in (17.5, 18.5, 19.5)]
    session = thrown(begun(), *creeping)
    assert read_session(session).facts["is_trend_inward"] is True
    oiled = cl.change(session, games_on_lane=0.0)
    assert arrivals(oiled) == ()
    after = thrown(oiled, cl.Shot(crossed_board=11, arrival=20.5))
    assert read_session(after).facts.get("is_trend_inward") is None
    assert [one.number for one in arrivals(after)] == [4]


def test_moves_before_fresh_oil_are_no_moves_of_this_oil():
    moved = thrown(cl.change(HIGH_THRICE, line=cl.Line(24, 12)), HIGH)
    assert was_changed(moved)
    assert move_history(moved)["sum_inside_moves_boards"] == 2.0
    oiled = cl.change(moved, games_on_lane=0.0)
    assert not was_changed(oiled)
    assert move_history(oiled)["sum_inside_moves_boards"] == 0.0
    assert move_history(oiled)["n_since_change"] == 99
    assert "last_move_feet_boards" not in move_history(oiled)


def test_another_lane_begins_anew_and_the_first_one_goes_on_where_it_was_left():
    eight = thrown(cl.change(HIGH_THRICE, lane="8"), HIGH)
    assert numbers(lane_balls(eight)) == [4]
    assert cl.advise(eight, model_on=False).move.is_stay
    back = cl.change(eight, lane="7")
    assert numbers(lane_balls(back)) == [1, 2, 3]
    assert cl.advise(back, model_on=False).move == cl.Move(2, 1)


def test_a_lane_may_be_oiled_while_the_other_one_is_played():
    eight = thrown(cl.change(HIGH_THRICE, lane="8"), LIGHT, LIGHT)
    oiled = cl.change(eight, lane="7", games_on_lane=0.0)
    assert oil_of(oiled) == ("7", 1)
    assert lane_balls(oiled) == ()
    assert cl.advise(thrown(oiled, HIGH), model_on=False).move.is_stay
    assert numbers(lane_balls(cl.change(oiled, lane="8"))) == [4, 5]
    not_oiled = cl.change(eight, lane="7")
    assert oil_of(not_oiled) == ("7", 0)


def test_the_other_lane_answers_with_its_present_oil_alone():
    pair = thrown(cl.change(HIGH_THRICE, lane="8"), LIGHT, LIGHT)
    assert read_session(pair).facts["n_ok_other_lane"] == 3
    oiled = cl.change(cl.change(pair, lane="7", games_on_lane=0.0), lane="8")
    # The three balls on lane 7 rolled on oil that is gone: a gap to them is no gap of the pair.
    assert read_session(oiled).facts["n_ok_other_lane"] == 0


def test_undo_takes_fresh_oil_back():
    assert cl.undo(OILED) == HIGH_THRICE
    assert numbers(lane_balls(cl.undo(OILED))) == [1, 2, 3]
    assert cl.undo(cl.undo(thrown(OILED, HIGH))) == HIGH_THRICE


def test_the_log_replays_fresh_oil(tmp_path: Path):
    log = Logbook(tmp_path / "log.sqlite")
    key = log.start(begun())
    for _ in range(3):
        log.append(key, "shot", {"shot": HIGH})
    log.append(key, "change", {"games_on_lane": 0.0})
    assert log.replay(key) == OILED
    log.append(key, "shot", {"shot": HIGH})
    read = Logbook(log.path).replay(key)
    assert read == thrown(OILED, HIGH)
    assert numbers(lane_balls(read)) == [4]
    log.append(key, "undo", {})
    log.append(key, "undo", {})
    assert log.replay(key) == HIGH_THRICE


def test_fresh_oil_outlasts_another_name_of_the_bowler():
    assert oil_of(shown_as(OILED, "Aino")) == ("7", 1)
    assert lane_balls(shown_as(OILED, "Aino")) == ()


def test_fresh_oil_outlasts_the_table_of_balls(tmp_path: Path):
    session = thrown(OILED, HIGH)
    log = Logbook(tmp_path / "log.sqlite")
    path = export_sessions(log, [log.start(session)], tmp_path / "balls.csv")
    other = Logbook(tmp_path / "other.sqlite")
    import_sessions(other, path)
    (kept,) = other.sessions()
    assert numbers(lane_balls(other.replay(kept.key))) == [4]


def test_balls_are_kept_apart_by_the_oil_they_rolled_on():
    pair = thrown(cl.change(OILED, lane="8"), LIGHT, SPARE)
    back = thrown(cl.change(pair, lane="7"), LIGHT)
    kept = {oil: numbers(balls) for oil, balls in balls_by_oil(back).items()}
    assert kept == {("7", 0): [1, 2, 3], ("8", 0): [4], ("7", 1): [6]}


def test_a_spare_ball_is_none_of_the_balls():
    session = thrown(begun(), HIGH, SPARE, HIGH)
    assert numbers(lane_balls(session)) == numbers(line_balls(session)) == [1, 3]


def test_the_balls_of_a_line_are_the_last_ones_in_a_row():
    away = thrown(cl.change(HIGH_THRICE, line=cl.Line(24, 12)), LIGHT)
    back = thrown(cl.change(away, line=cl.Line(22, 11)), HIGH)
    assert (numbers(line_balls(away)), numbers(line_balls(back))) == ([4], [5])
    assert numbers(lane_balls(back)) == [1, 2, 3, 4, 5]
    other_ball = thrown(cl.change(HIGH_THRICE, ball=cl.load_ball("hybrid_2000")), LIGHT)
    assert numbers(line_balls(other_ball)) == [4]
    assert line_balls(cl.change(HIGH_THRICE, line=cl.Line(24, 12))) == ()


def test_what_happened_on_this_oil_begins_with_it():
    moved = thrown(cl.change(OILED, line=cl.Line(24, 12)), HIGH)
    assert events_on_oil(moved) == moved.events[4:]
    assert events_on_oil(OILED) == ()
    eight = cl.change(moved, lane="8")
    assert events_on_oil(eight) == ()
    assert events_on_oil(cl.change(eight, lane="7")) == moved.events[4:]


def test_no_ball_lies_before_the_first_one_on_fresh_oil():
    one, two = thrown(OILED, HIGH), thrown(OILED, HIGH, HIGH)
    assert ball_before(one) is None
    assert ball_before(two) == one
    assert ball_before(thrown(begun(), HIGH, HIGH)) is not None


def test_a_ball_on_oil_that_is_gone_is_not_the_last_one():
    assert last_ball(HIGH_THRICE) is HIGH_THRICE.shots[-1]
    assert last_ball(OILED) is None
    assert last_ball(cl.change(HIGH_THRICE, lane="8")) is None


def test_a_test_of_two_balls_counts_only_those_on_the_oil_that_lies_there():
    first, second = cl.load_ball("hybrid_2000"), cl.load_ball("plastic_spare")
    session = thrown(begun(ball=first), *[HIGH] * 3)
    session = thrown(cl.change(session, ball=second), *[LIGHT] * 3)
    assert field_test(session).difference_boards < 0
    with pytest.raises(cl.InputError, match="0 known balls on this line and lane"):
        field_test(cl.change(session, games_on_lane=0.0))
