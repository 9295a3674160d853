"""Students at the lane side: a session lands under the one chosen, and five throw in turn, nothing lost."""

import pytest

import coachlib as cl
from coachlib.records import Logbook, Student, Students
from coachlib.views.panels import LaneSide
from coachlib.views.panels.lane_side.turns import NEW

START = {"name": "Ada", "hand": "right", "feet": "22", "target": "12", "lanes": "7 8"}
HIGH = {"crossed": "12", "arrival": "high", "leave": "4", "motion": "early"}
NAMES = ("Ada", "Ben", "Cid", "Dia", "Eve")


@pytest.fixture
def log(tmp_path):
    return Logbook(tmp_path / "log.sqlite")


@pytest.fixture
def panel(log):
    return LaneSide(log, model_on=False, is_strict=True)


def _five(panel):
    for at, name in enumerate(NAMES):
        if at:
            panel.another()
        panel.set_up(START | {"name": name, "student": NEW, "feet": str(20 + at)})
    return [one["key"] for one in panel.who.look["turns"]]


def test_a_new_student_is_added_and_the_balls_land_under_them(panel, log):
    panel.set_up(START | {"student": NEW})
    panel.read(HIGH)
    (listed,) = Students(log).listed()
    assert (listed.shown_name, listed.n_sessions, listed.n_shots) == ("Ada", 1, 1)


def test_a_chosen_student_fills_the_form_and_keeps_the_alias(panel, log):
    key = Students(log).add(
        Student("Ada Brun", alias="Number 7", bowler=cl.Bowler(hand="left", rev_rate_rpm=250))
    )
    panel.refresh()
    assert panel.who.look["students"] == [[key, "Number 7"]]
    panel.choose_student(key, {**panel.who.typed, "lanes": "7 8"})
    assert (panel.who.typed["hand"], panel.who.typed["revs"]) == ("left", "250")
    panel.set_up(panel.who.typed | {"feet": "22", "target": "12"})
    assert panel.session.bowler.name == "Number 7"
    assert "Number 7" in panel.who.look["line"]
    (row,) = log.sessions(key)
    assert row.bowler_name == "Number 7"
    assert Students(log).get(key).bowler.rev_rate_rpm == 250


def test_without_a_choice_the_session_is_nobodys_and_the_form_as_before(panel, log):
    panel.set_up(START)
    assert log.sessions()[0].student_key is None
    assert Students(log).listed() == ()


def test_a_running_session_is_given_to_a_student_later(panel, log):
    key = Students(log).add(Student("Ada Brun", alias="Number 7"))
    panel.set_up(START)
    panel.read(HIGH)
    panel.open_form()
    assert panel.who.typed["student"] == ""
    panel.set_up(panel.who.typed | {"student": key})
    assert [row.n_shots for row in log.sessions(key)] == [1]
    assert panel.session.bowler.name == "Number 7"
    assert "given to that student" in panel.who.look["status"]
    panel.open_form()
    assert panel.who.typed["student"] == key
    panel.set_up(panel.who.typed | {"student": ""})
    assert log.sessions(key) == ()


def test_a_session_of_one_student_is_given_to_a_new_one(panel, log):
    key = Students(log).add(Student("Ada Brun", alias="Number 7"))
    panel.set_up(START | {"student": key})
    panel.open_form()
    panel.set_up(panel.who.typed | {"student": NEW, "name": "Bea"})
    assert [(one.shown_name, one.n_sessions) for one in Students(log).listed()] == [
        ("Bea", 1),
        ("Number 7", 0),
    ]
    assert panel.session.bowler.name == "Bea"


def test_saving_the_form_without_a_change_of_student_changes_nothing(panel, log):
    panel.set_up(START | {"student": NEW})
    panel.open_form()
    before = log.sessions()[0].student_key
    panel.set_up(panel.who.typed)
    assert log.sessions()[0].student_key == before
    assert len(Students(log).listed()) == 1


def test_five_throw_in_turn_between_two_balls_each_with_their_own_line(panel, log):
    keys = _five(panel)
    assert [one["words"] for one in panel.who.look["turns"]] == list(NAMES)
    for _ in range(2):
        for key in keys:
            panel.turn(key)
            panel.read(HIGH)
    for at, key in enumerate(keys):
        session = log.replay(key)
        assert session.bowler.name == NAMES[at]
        assert [seen.line.feet_board for seen in session.shots] == [20.0 + at] * 2
    assert [one.n_shots for one in Students(log).listed()] == [2] * 5


def test_what_was_marked_and_not_read_is_there_when_the_turn_comes_back(panel):
    keys = _five(panel)
    panel.turn(keys[0])
    panel.entry.typed, panel.entry.stale = {"crossed": "13"}, False
    panel.turn(keys[1])
    assert panel.entry.typed == {}
    panel.entry.typed = {"crossed": "9"}
    panel.turn(keys[0])
    assert (panel.entry.typed, panel.entry.stale) == ({"crossed": "13"}, False)
    panel.turn(keys[1])
    assert panel.entry.typed == {"crossed": "9"}


def test_the_one_whose_turn_it_is_is_marked_and_another_press_does_nothing(panel):
    keys = _five(panel)
    panel.turn(keys[2])
    assert [one["is_now"] for one in panel.who.look["turns"]] == [False, False, True, False, False]
    panel.entry.typed = {"crossed": "13"}
    panel.turn(keys[2])
    assert panel.entry.typed == {"crossed": "13"}


def test_another_bowler_keeps_what_holds_of_the_place_and_asks_for_the_rest(panel):
    panel.set_up(START | {"pattern": "house_41", "games": "1", "scoring_started": True, "student": NEW})
    panel.another()
    assert panel.session is None
    typed = panel.who.typed
    assert (typed["lanes"], typed["pattern"], typed["games"]) == ("7 8", "house_41", "1")
    assert typed["scoring_started"] is True
    assert (typed["hand"], typed["feet"], typed["name"]) == ("", "", "")
    assert [one["words"] for one in panel.who.look["turns"]] == ["Ada"]


def test_a_session_that_ends_leaves_the_others_in_turn(panel):
    keys = _five(panel)
    panel.turn(keys[1])
    panel.end()
    assert [one["key"] for one in panel.who.look["turns"]] == [keys[0], *keys[2:]]
    panel.turn(keys[4])
    assert panel.session.bowler.name == "Eve"


def test_a_session_that_is_not_there_is_told_and_nothing_changes(panel):
    keys = _five(panel)
    with pytest.raises(cl.InputError, match="session_key"):
        panel.turn("0123")
    assert panel.running.key == keys[-1]


def test_a_second_student_of_a_name_is_refused_under_the_name(panel, log):
    panel.set_up(START | {"student": NEW})
    panel.another()
    with pytest.raises(cl.InputError, match="no other student is shown under"):
        panel.set_up(START | {"student": NEW})
    assert list(panel.who.errors) == ["name"]
    assert panel.who.typed["feet"] == "22"
    assert len(log.sessions()) == 1
