"""The lane-side panel by its handlers, without a browser.

The wanted behaviour is the panel's own contract (common practice of forms, no outside source); what a move
does to a line is tested in tests/published. Bowlers and balls are invented.
"""

import dataclasses
import re
import sqlite3

import pytest

from coachlib import (
    Bowler,
    InputError,
    Line,
    Session,
    Shot,
    advise,
    load_ball,
    load_bowler,
    load_pattern,
    load_rulebook,
    observe,
    plan,
)
from coachlib.coaching.session.session import FIRST_BALLS_A_GAME, session_at
from coachlib.coaching.wording.advice_text import say
from coachlib.coaching.wording.callouts import line_text
from coachlib.errors import DataFileError, ModelError
from coachlib.records import Logbook
from coachlib.views.panels import LaneSide
from coachlib.views.panels.lane_side import finding_start
from coachlib.views.panels.lane_side.answer import BIG, OF_PLAN, OF_RULE
from coachlib.views.panels.lane_side.entry import arrival_tiles
from coachlib.views.panels.lane_side.setup import MyBowlers
from coachlib.views.panels.shared.panel import action_steps
from coachlib.views.panels.shared.parts import PANELS
from coachlib.views.panels.shared.shots import seen_words
from coachlib.views.panels.students.students_view import replay_view
from coachlib.world.lane_conditions import Place
from coachlib.world.pins import MIRROR_PIN
from tests.answers import view_of
from tests.views.panels.conftest import START

HIGH = {"crossed": "12", "arrival": "high", "leave": "4", "motion": "early"}
POCKET = {"crossed": "12", "arrival": "pocket", "leave": "all down"}


def _moving(panel):
    """Read balls that come in high until the panel offers a move."""
    while not panel.answer.look.get("choices"):
        assert len(panel.session.shots) < 6, "six balls high on target and no move is offered"
        panel.read(HIGH)
    return panel


def _kept(log):
    return log.replay(log.latest_open())


def _kinds(log):
    with sqlite3.connect(log.path) as db:
        return [kind for (kind,) in db.execute("SELECT kind FROM event ORDER BY rowid")]


def test_three_fields_start_a_session_and_it_is_in_the_log(log, new_panel):
    panel = new_panel()
    assert panel.session is None
    assert "coach-unstarted" in panel.box._dom_classes
    panel.set_up({"hand": "left", "feet": "22", "target": "12"})
    assert panel.session == Session(bowler=Bowler(hand="left"), line=Line(22, 12))
    assert _kept(log) == panel.session
    assert "coach-unstarted" not in panel.box._dom_classes
    assert panel.answer.look["headline"] == "Feet 22, target 12"
    assert panel.answer.look["kind"] == "before"


def test_a_shot_read_is_logged_answered_listed_and_drawn(panel, log):
    panel.read(HIGH, ball=1)
    session = panel.session
    assert session.shots[0].shot == Shot(crossed_board=12, arrival="high", leave=(4,), motion="early")
    assert _kept(log) == session
    assert _kinds(log) == ["start", "preferences", "shot", "advice"]
    assert panel.who.look["status"] == "ball 1 logged"
    assert panel.answer.look == view_of(session, advise(session, model_on=False))
    assert panel.shots.look["rows"][0]["seen"] == "12 · high · pins 4 · early"
    assert panel.shots.look["rows"][0]["answer"] == panel.answer.look["headline"]
    assert panel.lane.scene["hand"] == "right"
    assert panel.entry.stale
    assert panel.entry.typed == HIGH


def test_a_second_tap_is_no_second_ball(panel):
    panel.read(HIGH, ball=1)
    with pytest.raises(InputError, match=r"Mark what you saw of ball 2 first\. Ball 1 is read already"):
        panel.read(HIGH, ball=1)
    assert len(panel.session.shots) == 1


def test_a_wrong_field_is_told_under_it_and_nothing_is_lost(panel, log):
    typed = HIGH | {"speed": "27.5", "leave": "4 11"}
    before, answer = panel.session, panel.answer.look
    with pytest.raises(InputError):
        panel.read(typed)
    assert set(panel.entry.errors) == {"speed", "leave"}
    assert panel.entry.typed == typed
    assert panel.session == before
    assert panel.answer.look == answer
    assert _kinds(log) == ["start", "preferences"]
    panel.read(HIGH)
    assert panel.entry.errors == {}


def test_what_does_not_go_together_is_asked_about_once(panel):
    odd, changed = POCKET | {"leave": "1 2 10"}, POCKET | {"leave": "1 2"}
    for typed in (odd, changed, odd):
        with pytest.raises(InputError, match=r"You said pocket and pin 1 standing, which do not go together"):
            panel.read(typed, ball=1)
        assert list(panel.entry.errors) == ["leave"]
        assert panel.entry.typed == typed
    panel.read(odd, ball=1)
    assert (panel.entry.errors, panel.session.shots[0].shot.leave) == ({}, (1, 2, 10))
    with pytest.raises(InputError, match="pin 1 standing"):
        panel.read(odd, ball=2)
    panel.correct(1)
    with pytest.raises(InputError, match="pin 1 standing"):
        panel.save(1, changed)
    panel.save(1, changed)
    assert panel.session.shots[0].shot.leave == (1, 2)


def test_errors_are_shown_and_not_raised_at_the_lane(log):
    panel = LaneSide(log, model_on=False)
    panel.set_up({"hand": "right", "feet": "", "target": "99"})
    assert set(panel.who.errors) == {"feet", "target"}
    assert panel.who.typed == {"hand": "right", "feet": "", "target": "99"}
    assert panel.session is None
    panel.read(HIGH)
    assert "No session is running" in panel.entry.errors["form"]


@pytest.mark.parametrize("hand", ["right", "left"])
def test_both_hands_get_the_same_case_with_left_and_right_turned(hand, new_panel):
    panel = new_panel(hand=hand)
    pin = 4 if hand == "right" else MIRROR_PIN[4]
    for _ in range(3):
        panel.read(HIGH | {"leave": str(pin)})
    inside = "left" if hand == "right" else "right"
    assert panel.session.shots[0].shot.leave == (4,)
    assert panel.answer.look["kind"] == "move"
    assert inside in panel.answer.look["headline"]
    assert panel.entry.look["inside_side"] == inside
    order = [tile["key"] for tile in arrival_tiles(panel.session.bowler.hand)]
    as_seen = ["past", "crossover", "nose", "high", "pocket", "light", "far_light", "out", "gutter"]
    assert order == (as_seen if hand == "right" else as_seen[::-1])


def test_move_takes_the_line_advised_and_keeps_what_to_look_for(panel, log):
    advice = advise(_moving(panel).session, model_on=False)
    look_for = panel.answer.look["look_for"]
    panel.move()
    assert panel.session.line == advice.new_line
    assert panel.answer.look["headline"] == line_text(advice.new_line)
    assert panel.answer.look["look_for"] == look_for
    assert panel.entry.look["target_board"] == advice.new_line.target_board
    assert _kept(log) == panel.session
    panel.read(POCKET | {"crossed": "13"})
    assert panel.session.shots[-1].line == advice.new_line


def test_the_line_is_kept_by_stay_and_by_playing_on(panel):
    before, headline = _moving(panel).session, panel.answer.look["headline"]
    panel.stay()
    assert (panel.answer.look["choices"], panel.answer.look["headline"]) == ([], headline)
    assert panel.session == before
    panel.read(POCKET)
    assert panel.session.line == Line(22, 12)


def test_undo_takes_back_a_move_then_a_ball_which_stands_in_the_form_again(panel, log):
    _moving(panel)
    n_shots, with_shots = len(panel.session.shots), panel.session
    panel.move()
    panel.undo()
    assert panel.session == with_shots
    panel.undo()
    assert len(panel.session.shots) == n_shots - 1
    assert {name: panel.entry.typed[name] for name in HIGH} == HIGH
    assert not panel.entry.stale
    assert _kept(log) == panel.session


def test_undo_with_nothing_to_undo_says_so(panel):
    with pytest.raises(InputError, match="nothing to undo"):
        panel.undo()
    assert "nothing to undo" in panel.entry.errors["form"]


def test_an_earlier_ball_is_corrected_and_the_form_comes_back(panel, log):
    for shot in (POCKET, HIGH, POCKET):
        panel.read(shot)
    half_typed = {"crossed": "13"}
    panel.entry.typed, panel.entry.stale = half_typed, False
    panel.correct(2)
    assert panel.entry.look["correcting"] == 2
    assert panel.entry.typed["arrival"] == "high"
    panel.save(2, HIGH | {"arrival": "nose"})
    assert [seen.shot.arrival for seen in panel.session.shots] == ["pocket", "nose", "pocket"]
    assert panel.entry.look["correcting"] is None
    assert (panel.entry.typed, panel.entry.stale) == (half_typed, False)
    assert _kept(log) == panel.session
    assert panel.shots.look["rows"][1]["seen"].startswith("12 · nose")


def test_undo_takes_a_correction_back_and_no_ball(panel, log):
    for shot in (POCKET, HIGH, POCKET):
        panel.read(shot)
    panel.change_lane("8")
    seen, rows = panel.session, panel.shots.look["rows"]
    panel.correct(2)
    panel.save(2, HIGH | {"arrival": "nose", "crossed": "9"})
    assert panel.shots.look["rows"] != rows
    panel.undo()
    assert (panel.session, _kept(log)) == (seen, seen)
    assert panel.shots.look["rows"] == rows
    assert panel.who.look["status"] == "correction of ball 2 taken back"
    panel.undo()
    assert (panel.session.lane, panel.who.look["status"]) == ("7", "change taken back")
    panel.undo()
    assert (len(panel.session.shots), panel.who.look["status"]) == (2, "ball 3 taken back")


def test_undo_takes_a_correction_back_after_going_on(panel, new_panel):
    panel.read(HIGH)
    panel.correct(1)
    panel.save(1, POCKET)
    reopened = new_panel()
    reopened.go_on()
    reopened.undo()
    assert reopened.session.shots[0].shot.arrival == "high"


GUTTER_BALL = {"crossed": "9", "arrival": "gutter"}


def test_a_corrected_ball_is_told_by_what_it_says_now(panel, log, new_panel):
    panel.read(GUTTER_BALL)
    was = panel.answer.look["headline"]
    panel.read(HIGH)
    panel.correct(1)
    panel.save(1, HIGH)
    panel.set_up(START | {"feet": "24", "target": "13"})
    session, answers = panel.session, [row.get("answer") for row in panel.shots.look["rows"]][::-1]
    wanted = [say(advise(session_at(session, ball), model_on=False), to="bowler") for ball in (1, 2)]
    assert was not in answers
    assert answers[:2] == [said.headline for said in wanted]
    story = log.story(log.latest_open())
    for ball, said in enumerate(wanted, start=1):
        look = replay_view(story, ball)
        assert (look["advice"], look["why"]) == (said.headline, said.why)
    again = new_panel()
    again.go_on()
    assert again.shots.look["rows"] == panel.shots.look["rows"]


def test_a_correction_is_answered_by_the_model_where_it_is_ready(log):
    panel = LaneSide(log, is_strict=True)
    panel.set_up(START)
    panel._run().wait_for_model(60.0)
    panel.read(GUTTER_BALL)
    panel.set_up(START | {"feet": "24", "target": "13"})
    panel.correct(1)
    panel.save(1, HIGH)
    kept = log.story(log.latest_open()).advice[1]
    wanted = advise(session_at(panel.session, 1))
    assert (kept["verdict"], kept["headline"]) == (wanted.cause.verdict, say(wanted, to="bowler").headline)
    assert "stay_strike_prob" in kept


def test_after_a_correction_taken_back_the_ball_is_told_as_before(panel, log):
    panel.read(GUTTER_BALL)
    panel.set_up(START | {"feet": "24", "target": "13"})
    rows, story = panel.shots.look["rows"], log.story(log.latest_open())
    panel.correct(1)
    panel.save(1, HIGH)
    assert replay_view(log.story(log.latest_open()), 1)["advice"] != replay_view(story, 1)["advice"]
    panel.undo()
    assert (panel.shots.look["rows"], log.story(log.latest_open())) == (rows, story)


def test_a_spare_ball_corrected_leaves_what_was_said(panel, log):
    panel.read(HIGH)
    panel.spare(2, "made")
    panel.read(POCKET)
    advice = log.story(log.latest_open()).advice
    panel.correct(2)
    panel.save(2, panel.entry.typed | {"leave": "4"})
    assert log.story(log.latest_open()).advice == advice


def test_a_correction_that_is_wrong_or_cancelled_changes_nothing(panel):
    panel.read(HIGH)
    before = panel.session
    panel.correct(1)
    with pytest.raises(InputError):
        panel.save(1, HIGH | {"crossed": "x"})
    assert panel.entry.look["correcting"] == 1
    assert panel.session == before
    panel.cancel()
    assert panel.entry.look["correcting"] is None
    assert (panel.session, panel.entry.typed, panel.entry.stale) == (before, HIGH, True)


def test_a_correction_keeps_the_line_the_ball_was_thrown_on(panel):
    panel.read(HIGH)
    panel.set_up(START | {"feet": "24", "target": "13"})
    panel.correct(1)
    assert panel.entry.look["target_board"] == 12
    panel.cancel()
    assert panel.entry.look["target_board"] == 13


def test_each_lane_of_the_pair_keeps_its_own_line(panel):
    panel.read(POCKET)
    panel.change_lane("8")
    panel.set_up(START | {"feet": "25", "target": "14"})
    panel.read(POCKET | {"crossed": "14"})
    panel.change_lane("7")
    assert (panel.session.lane, panel.session.line) == ("7", Line(22, 12))
    assert panel.who.look["lanes"] == ["7", "8"]
    panel.change_lane("8")
    assert panel.session.line == Line(25, 14)
    assert panel.shots.look["rows"][0]["text"] == "Changed: lane 8, Feet 25, target 14"


def test_the_open_form_shows_what_holds_and_saving_it_unchanged_is_no_event(panel):
    panel.read(POCKET)
    panel.open_form()
    assert panel.who.look["is_open"]
    before = panel.session
    panel.set_up(panel.who.typed)
    assert panel.session == before
    assert not panel.who.look["is_open"]


def test_ball_pattern_and_games_are_changed_by_the_form(panel):
    panel.set_up(START | {"ball": "solid_1000", "pattern": "long_44", "games": "1½", "scoring_started": True})
    session = panel.session
    assert session.ball is not None
    assert session.pattern is not None
    assert (session.ball.name, session.pattern.length_ft) == ("solid_1000", 44)
    assert (session.games_on_lane, session.scoring_started) == (1.5, True)
    assert [row["text"] for row in panel.shots.look["rows"]] == [
        "Changed: ball solid 1000, oil long 44, scoring started, games on the lane"
    ]


def test_fresh_oil_is_named_as_that(panel):
    panel.set_up(START | {"scoring_started": True})
    panel.read(HIGH)
    panel.set_up(START | {"games": "0"})
    assert panel.shots.look["rows"][0]["text"] == "Fresh oil"
    panel.read(HIGH)
    panel.set_up(START | {"games": "0", "feet": "24", "target": "13"})
    assert panel.shots.look["rows"][0]["text"] == "Fresh oil. Changed: Feet 24, target 13"


def test_what_is_told_of_the_lane_is_kept(panel):
    panel.set_up(START | {"others": True, "own_side": "quiet"})
    assert panel.session.place == Place(has_others_on_line=True, is_own_side_quiet=True)
    assert panel.shots.look["rows"][0]["text"] == "Changed: what you said of the lane"
    panel.open_form()
    assert (panel.who.typed["others"], panel.who.typed["own_side"]) == (True, "quiet")


def test_sentences_speak_to_the_coach_if_wanted(panel):
    panel.set_up(START | {"to": "coach"})
    panel.read({"crossed": "14", "arrival": "nose", "leave": "4 6 7 10"})
    told = panel.answer.look["headline"] + panel.answer.look["sentence"]
    assert "you" not in told.lower().split()
    assert panel.shots.look["rows"][0]["answer"] == panel.answer.look["headline"]


def test_the_unit_chosen_in_the_form_stays(panel):
    panel.read(POCKET | {"speed": "27", "speed_unit": "km/h"})
    assert panel.entry.look["speed_unit"] == "km/h"
    panel.undo()
    assert (panel.entry.typed["speed"], panel.entry.typed["speed_unit"]) == ("27", "km/h")


def test_a_spare_ball_is_logged_and_not_read_for_the_line(panel):
    panel.read(HIGH)
    before = panel.answer.look
    panel.spare(2, "made")
    assert panel.session.shots[1].shot == Shot(leave=(), is_spare=True)
    assert panel.shots.look["rows"][0]["seen"] == "spare ball · all down"
    assert panel.answer.look["label"] == "Ball 1, lane 7. Its spare is logged too"
    of_the_ball = {"label": "", "summary": ""}  # the summary no longer reads the spare system aloud
    assert panel.answer.look | of_the_ball == before | of_the_ball


@pytest.mark.parametrize("hand", ["right", "left"])
def test_pain_stops_the_panel_until_go_on_is_pressed_and_undo_stops_it_again(log, hand, new_panel):
    panel = new_panel(pain="thumb", hand=hand, pattern="house_41")
    for ball in (None, HIGH | {"leave": "4" if hand == "right" else "6"}):
        if ball:
            panel.read(ball)
        look = panel.answer.look
        assert look["headline"] == "Stop: rest, and have it looked at"
        assert [choice["words"] for choice in look["choices"]] == ["Go on"]
        assert (look.get("back"), look["spare"], look["chances"]) == (None, "", "")
        scene = panel.lane.scene
        assert (scene["advised"], scene["deck"], scene["simulated_text"]) == (None, [], "")
        assert panel.answer.waiting == ""
    panel.handle({"do": "go_on_with_pain"})
    assert panel.answer.look["headline"] == "Feet 22, target 12"
    panel.read(HIGH)
    assert panel.answer.look["headline"] != "Stop: rest, and have it looked at"
    assert _kept(log).goes_on_with_pain
    panel.undo()
    panel.undo()
    assert panel.answer.look["headline"] == "Stop: rest, and have it looked at"


@pytest.mark.parametrize("nothing", ["none", "No.", "-", "n/a", "0"])
def test_no_pain_in_words_stops_nothing(nothing, new_panel):
    panel = new_panel(pain=nothing)
    assert panel.answer.look["headline"] == "Feet 22, target 12"


def test_pain_brings_a_caution_line_before_the_first_ball_and_after_it(new_panel):
    panel = new_panel(pain="thumb", to="coach")
    panel.go_on_with_pain()
    expected = say(advise(panel.session, model_on=False), to="coach").cautions
    assert len(expected) > 1
    assert panel.answer.look["kind"] == "before"
    assert panel.answer.look["cautions"] == list(expected)
    assert all(caution in panel.answer.look["summary"] for caution in expected)
    panel.read(HIGH)
    assert panel.answer.look["cautions"]
    assert all(isinstance(line, str) and line for line in panel.answer.look["cautions"])


def test_a_new_panel_offers_to_go_on_and_goes_on_where_it_stopped(panel, log, new_panel):
    panel.read(HIGH)
    panel.read(POCKET)
    reopened = new_panel()
    offer = reopened.who.look["offer"]
    assert "Maija, ball 2, lane 7" in offer["words"]
    assert [choice["action"] for choice in offer["choices"]] == ["go_on", "start_new"]
    reopened.go_on()
    assert reopened.session == panel.session
    assert reopened.answer.look == panel.answer.look
    reopened.read(HIGH, ball=3)
    assert len(_kept(log).shots) == 3


def test_going_on_keeps_the_pair_the_listener_and_the_unit(panel, log, new_panel):
    panel.set_up(START | {"to": "coach"})
    panel.read(POCKET | {"speed": "27", "speed_unit": "km/h"})
    reopened = new_panel()
    reopened.go_on()
    assert reopened.who.look["lanes"] == ["7", "8"]
    assert reopened.entry.look["speed_unit"] == "km/h"
    reopened.open_form()
    assert (reopened.who.typed["lanes"], reopened.who.typed["to"]) == ("7 8", "coach")
    n_events = len(_kinds(log))
    reopened.set_up(reopened.who.typed)
    assert len(_kinds(log)) == n_events


def test_a_ball_read_leaves_the_form_with_its_line_and_lane(panel):
    panel.read(POCKET)
    panel.change_lane("8")
    assert (panel.entry.typed, panel.entry.stale) == ({}, False)
    panel.entry.typed = half_typed = {"crossed": "13"}
    panel.set_up(START | {"feet": "24", "lanes": "7 8"})
    assert panel.entry.typed == half_typed


def test_a_change_says_that_the_correction_was_left(panel):
    panel.read(POCKET)
    panel.correct(1)
    panel.change_lane("8")
    assert panel.entry.look["correcting"] is None
    assert panel.who.look["status"] == "lane 8 logged, ball 1 left as it was"


def test_a_panel_opened_before_the_session_offers_it_when_its_page_opens(new_panel):
    waiting, playing = new_panel(), new_panel()
    assert waiting.who.look["offer"] is None
    playing.set_up(START)
    playing.read(HIGH)
    waiting.handle({"do": "look_for_last"})
    assert "ball 1" in waiting.who.look["offer"]["words"]
    playing.handle({"do": "look_for_last"})
    assert playing.who.look["offer"] is None


def test_a_new_session_closes_the_one_offered_and_ending_closes_this_one(panel, log, new_panel):
    reopened = new_panel()
    reopened.start_new()
    assert log.latest_open() is None
    reopened.set_up(START)
    reopened.end()
    assert log.latest_open() is None
    assert reopened.session is None
    assert reopened.who.look["offer"] is None
    assert reopened.who.typed["feet"] == ""
    assert len(log.sessions()) == 2


def test_two_panels_on_one_session_do_not_lose_each_others_balls(panel, log, new_panel):
    other = new_panel()
    other.go_on()
    other.read(HIGH)
    panel.read(POCKET)
    assert [seen.shot.arrival for seen in panel.session.shots] == ["high", "pocket"]
    assert panel.session == _kept(log)


def test_a_log_that_cannot_be_written_is_told_and_keeps_what_was_typed(panel, log, monkeypatch):
    def full(*_):
        message = "log has no room left on its disk; expected room. This event was not kept. Free some space."
        raise DataFileError(message)

    before = panel.session
    monkeypatch.setattr(log, "step", full)
    with pytest.raises(DataFileError):
        panel.read(HIGH)
    assert "no room left" in panel.entry.errors["form"]
    assert (panel.session, panel.entry.typed, panel.entry.stale) == (before, HIGH, False)
    assert "ball 1" not in panel.who.look["status"]
    monkeypatch.undo()
    panel.read(HIGH, ball=1)
    assert len(panel.session.shots) == 1


def test_a_damaged_log_is_told_and_may_be_put_aside(tmp_path):
    path = tmp_path / "log.sqlite"
    path.write_bytes(b"no database at all, but long enough to be looked at as one" * 20)
    panel = LaneSide(Logbook(path), model_on=False, is_strict=True)
    assert "log" in panel.who.look["offer"]["words"]
    assert [choice["action"] for choice in panel.who.look["offer"]["choices"]] == ["set_log_aside"]
    panel.set_log_aside()
    panel.set_up(START)
    assert panel.session.bowler.name == "Maija"
    assert [kept.name for kept in tmp_path.glob("*aside*")]


def test_every_message_of_the_browser_scripts_has_a_handler():
    scripts = "".join(
        path.read_text() for path in [*PANELS.glob("lane_side/*.js"), PANELS / "shared/shots.js"]
    )
    asked = set(re.findall(r'do: "(\w+)"', scripts))
    asked |= {"cancel", "undo", "move", "stay", "go_on", "start_new", "set_log_aside"}  # chosen by a variable
    asked |= {"go_on_with_pain", "keep_going", "close_session", "print_page"}
    assert len(asked) > 10
    assert asked == set(action_steps(LaneSide))


def test_where_no_lane_fits_the_button_still_names_a_ball_to_correct():
    late = Shot(crossed_board=9, arrival="far_light", motion="late")
    session = Session(load_bowler("club_right"), Line(18, 9))
    for _ in range(8):
        session = observe(session, late)
    unfit = dataclasses.replace(advise(session, model_on=False), is_unfit=True)
    look = view_of(session, unfit)
    assert look["odd"]
    assert look["odd_ball"] == 8
    assert view_of(session, advise(session, model_on=False))["odd_ball"] is None


def test_the_words_of_the_buttons_say_what_happens(panel):
    _moving(panel)
    new = line_text(advise(panel.session, model_on=False).new_line)
    move, stay = panel.answer.look["choices"]
    assert (move["words"], move["is_main"]) == (f"Move: {new[0].lower()}{new[1:]}", True)
    assert (stay["words"], stay["is_main"]) == ("Stay on 22, 12", False)


@pytest.mark.parametrize("is_big", [True, False])
def test_the_first_move_after_practice_is_named_as_the_advice_says(panel, is_big):
    advice = advise(_moving(panel).session, model_on=False)
    look = view_of(panel.session, dataclasses.replace(advice, is_big=is_big))
    assert look["big"] == (BIG if is_big else "")
    assert look["summary"].startswith(BIG) is is_big


def test_no_rule_id_reaches_the_panel(panel):
    _moving(panel)
    ids = [one.rule.id for one in advise(panel.session, model_on=False).rule.fired]
    assert ids
    shown = str([panel.answer.look, panel.grounds.look, panel.entry.look, panel.shots.look, panel.who.look])
    assert not any(one in shown for one in ids)


@pytest.mark.parametrize(
    ("shot", "words"),
    [
        (Shot(crossed_board=12.5, arrival=17.5, leave=()), "12½ · 17½ · all down"),
        (Shot(arrival="far_light", leave=(2, 8)), "very light · pins 2 8"),
        (Shot(leave=(10,), motion="roll_out", note="wet shoe"), "pins 10 · roll out · wet shoe"),
    ],
)
def test_a_shot_in_short(shot, words):
    assert seen_words(shot, "right") == words


def test_a_session_may_be_given(log):
    given = observe(Session(bowler=Bowler(name="Oskar"), line=Line(22, 12), lane="3"), Shot(arrival="high"))
    panel = LaneSide(log, given, model_on=False, is_strict=True)
    assert panel.session == given
    assert panel.who.look["status"] == "ball 1 logged"
    assert dataclasses.asdict(_kept(log)) == dataclasses.asdict(given)


def test_a_clubs_own_rules_are_advised_by(log, tmp_path, new_panel):
    club = tmp_path / "club.toml"
    club.write_text("[settings]\npatience = 2\n", encoding="utf-8")
    panel = LaneSide(log, rulebook=load_rulebook(club), model_on=False, is_strict=True)
    panel.set_up(START)
    for _ in range(2):
        panel.read(HIGH | {"leave": "all down"})
    assert panel.answer.look == view_of(
        panel.session, advise(panel.session, load_rulebook(club), model_on=False)
    )
    assert panel.answer.look["kind"] == "move"
    assert new_panel().rulebook is None


def test_before_the_first_ball_the_panel_says_how_to_start(new_panel):
    panel = new_panel(pattern="house_41", two_handed=True)
    look = panel.answer.look
    assert "board 10" in look["then"]  # rule of 31: 41 ft less 31
    fired = advise(panel.session, model_on=False).rule.fired
    assert fired
    assert all(one.rule.grade in look["source"] for one in fired)
    assert not any(one.rule.id in look["source"] for one in fired)
    assert look["notes"]
    panel.set_up(START | {"pattern": "house_41", "two_handed": True, "games": "1"})
    assert panel.answer.look["kind"] == "before"


def test_sanding_is_folded_away_before_the_first_ball_and_pain_is_not(new_panel):
    panel = new_panel(pattern="long_44", pain="thumb", age="12")  # 28 mL: the start tells of sanding
    panel.go_on_with_pain()
    look = panel.answer.look
    assert len(look["general"]) == 2
    assert any("mask and eye protection" in caution for caution in look["general"])
    assert not any("mask" in caution for caution in look["cautions"])
    for word in ("doctor", "foul line", "three games"):
        assert any(word in caution for caution in look["cautions"])


def test_the_other_lane_is_not_started_again(new_panel):
    panel = new_panel(pattern="house_41")
    assert "second arrow" in panel.answer.look["then"]
    panel.change_lane("8")  # no ball yet: the start is still to come
    assert "second arrow" in panel.answer.look["then"]
    panel.read(POCKET)
    panel.change_lane("7")
    look = panel.answer.look
    assert (look["kind"], look["general"]) == ("before", [])
    assert "then" not in look
    assert "arrow" not in look["summary"]
    assert not any("mask" in caution for caution in look["cautions"])
    assert any("foul line" in caution for caution in look["cautions"])


def test_what_is_worth_saying_beside_a_move_is_shown(new_panel):
    panel = new_panel(hand="left")
    for _ in range(3):
        panel.read(HIGH | {"leave": "6"})
    assert any("half a move to the right" in note for note in panel.answer.look["notes"])


# the starting line for a pattern

WITH_OIL = {"hand": "left", "feet": "", "target": "", "pattern": "house_41", "ball": "hybrid_2000"}


def test_the_form_is_filled_with_the_starting_line_of_the_plan(new_panel):
    panel = new_panel()
    panel.find_start(WITH_OIL | {"name": "Maija", "revs": "300", "rotation": "45", "speed": "17"})
    bowler = Bowler(name="Maija", hand="left", speed_mph=17.0, rev_rate_rpm=300.0, axis_rotation_deg=45.0)
    line = plan(Session(bowler, Line(20, 20), load_ball("hybrid_2000"), load_pattern("house_41"))).line
    assert panel.session is None  # nothing starts, nothing is logged
    assert (panel.who.typed["feet"], panel.who.typed["target"]) == (
        f"{line.feet_board:g}",
        f"{line.target_board:g}",
    )
    assert panel.who.typed["name"] == "Maija"
    number, words, offered = panel.who.look["start"]
    assert (number, offered) == (1, "")
    assert re.fullmatch(
        rf"{line_text(line)}, simulated on the oil sheet. "
        "Medium revs: usually over the second arrow. Not entered, so we assumed what is usual: tilt.",
        words,
    )
    panel.set_up(panel.who.typed)
    assert panel.session.line == line
    assert panel.answer.look["then"].startswith(OF_PLAN)
    panel.open_form()
    panel.set_up(panel.who.typed | {"feet": f"{line.feet_board + 1:g}"})
    assert panel.answer.look["then"].startswith(OF_RULE)


def test_a_starting_line_needs_a_pattern_and_a_hand_and_keeps_what_was_typed(log):
    panel = LaneSide(log)
    panel.find_start(WITH_OIL | {"pattern": "", "feet": "31"})
    assert set(panel.who.errors) == {"pattern"}
    assert "Choose the oil pattern of this lane first" in panel.who.errors["pattern"]
    assert panel.who.typed["feet"] == "31"
    assert panel.who.look["start"] == [1, "", ""]
    panel.find_start(WITH_OIL | {"hand": ""})
    assert set(panel.who.errors) == {"hand"}
    assert panel.who.look["start"] == [2, "", ""]


def test_a_starting_line_that_cannot_be_worked_out_is_told_and_what_was_typed_stays(log, monkeypatch):
    def fail(_session: Session) -> None:
        message = "the ball stopped at 12 ft"
        raise ModelError(message)

    monkeypatch.setattr(finding_start, "starting_line", fail)
    panel = LaneSide(log, model_on=False)
    panel.find_start(WITH_OIL | {"name": "Maija"})
    assert panel.who.errors == {"form": "the ball stopped at 12 ft"}
    assert panel.who.typed["name"] == "Maija"


def test_a_starting_line_asked_for_in_a_running_session_changes_nothing_until_it_is_saved(panel, log):
    before, kinds = panel.session, _kinds(log)
    panel.open_form()
    typed = panel.who.typed | {"pattern": "house_41"}
    panel.find_start(typed)
    assert (panel.who.typed["feet"], panel.who.typed["target"]) == ("22", "12")  # never overwritten unasked
    offered = panel.who.look["start"][2]
    assert re.fullmatch(r"Use feet \S+, target \S+ instead", offered)
    panel.take_start(typed)
    assert f"Use feet {panel.who.typed['feet']}, target {panel.who.typed['target']} instead" == offered
    assert panel.who.look["start"][2] == ""
    assert panel.session == before
    assert _kinds(log) == kinds
    assert panel.who.look["is_open"]
    panel.set_up(panel.who.typed)
    feet = panel.session.line.feet_board
    assert feet == float(panel.who.typed["feet"]) != before.line.feet_board


def test_a_poor_start_is_named_beside_the_better_one_that_was_suggested_until_the_first_ball(log):
    panel = LaneSide(log, is_strict=True)
    poor = WITH_OIL | {"feet": "35", "target": "10"}
    panel.find_start(poor)
    feet, target = re.findall(r"[\d½]+", panel.who.look["start"][2])
    panel.set_up(poor)
    panel.ready.wait(panel.session, 120.0)
    panel.refresh()
    told = re.search(
        rf"The line we suggested is better: feet {feet}, target {target}, about (\d+) strikes in 20\.",
        panel.answer.look["chances"],
    )
    assert told is not None
    now = re.match(r"About (\d+) strikes? in 20 on this line", panel.answer.look["chances"])
    assert now is not None
    assert int(told[1]) >= int(now[1]) + 2
    panel.read({"crossed": "10", "arrival": "light"})
    assert "we suggested" not in panel.answer.look["chances"]


def test_a_game_is_counted_when_it_is_over(panel):
    for n_balls in range(1, FIRST_BALLS_A_GAME + 1):
        panel.read(HIGH)
        assert ("1 game" in panel.who.look["line"]) is (n_balls == FIRST_BALLS_A_GAME)


@pytest.mark.parametrize(("value", "is_live"), [("1", True), (None, False), ("", False)])
def test_the_link_to_the_students_is_live_only_under_our_own_server(monkeypatch, value, is_live):
    monkeypatch.delenv("COACHLIB_LIVE", raising=False)
    if value is not None:
        monkeypatch.setenv("COACHLIB_LIVE", value)
    assert MyBowlers().is_live is is_live
