"""Students at the lane side: a session lands under the one chosen, and five throw in turn, nothing lost."""

import datetime

import pytest

import coachlib as cl
from coachlib.records import Logbook, Student, Students
from coachlib.views.panels.lane_side import turns
from coachlib.views.panels.lane_side.set_up_form import SetUp, blank_answers
from coachlib.views.panels.lane_side.turns import (
    NEW,
    form_for,
    known_bowler,
    owner_after,
    student_choices,
    turn_choices,
)
from tests.views.panels.conftest import START

LINE = cl.Line(22, 12)
LEFTY = cl.Bowler(hand="left", rev_rate_rpm=280.0, drift_boards=1.0, speed_mph=15.0)
HIGH = {"crossed": "12", "arrival": "high", "leave": "4", "motion": "early"}
NAMES = ("Ada", "Ben", "Cid", "Dia", "Eve")


@pytest.fixture
def panel(new_panel):
    return new_panel()


@pytest.fixture
def students(log):
    return Students(log)


def _five(panel):
    for at, name in enumerate(NAMES):
        if at:
            panel.another()
        panel.set_up(START | {"name": name, "student": NEW, "feet": str(20 + at)})
    return [one["key"] for one in panel.who.look["turns"]]


def test_who_throws_in_turn_stands_in_the_order_of_beginning(students):
    first = students.start(students.add(Student("Ada")), LINE)
    second = students.start(students.add(Student("Ben")), LINE)
    nobody = students.logbook.start(cl.Session(cl.Bowler(), LINE))
    for key in (second, first):
        students.logbook.append(key, "shot", {"shot": cl.Shot(crossed_board=12)})
    choices = turn_choices(students.logbook, second)
    assert [one["words"] for one in choices] == ["Ada", "Ben", "no name"]
    assert [one["is_now"] for one in choices] == [False, True, False]
    assert [one["key"] for one in choices] == [first, second, nobody]


def test_sessions_that_ended_or_are_of_another_day_take_no_turn(students, monkeypatch):
    ended, old = (students.start(students.add(Student(name)), LINE) for name in ("Ada", "Ben"))
    students.logbook.close(ended)
    assert [one["key"] for one in turn_choices(students.logbook, None)] == [old]

    class Later(datetime.datetime):
        @classmethod
        def now(cls, tz=None):
            return datetime.datetime.now(tz) + datetime.timedelta(hours=turns.TURN_HOURS + 1)

    monkeypatch.setattr(turns, "datetime", Later)
    assert turn_choices(students.logbook, None) == []
    assert [one["key"] for one in turn_choices(students.logbook, old)] == [old]


def test_a_log_that_cannot_be_read_offers_nobody(tmp_path):
    path = tmp_path / "logbook.sqlite"
    path.write_bytes(b"no log" * 500)
    assert student_choices(Logbook(path)) == []
    assert turn_choices(Logbook(path), None) == []


def test_the_form_takes_a_students_numbers_and_the_line_of_last_time(students):
    key = students.add(Student("Ada", bowler=LEFTY))
    session = students.start(key, cl.Line(26, 14))
    students.logbook.append(session, "shot", {"shot": cl.Shot(crossed_board=12)})
    typed = blank_answers() | {"lanes": "7 8", "pattern": "house_41"}
    form = form_for(key, typed, students.logbook, SetUp())
    assert (form["hand"], form["revs"], form["feet"], form["target"]) == ("left", "280", "26", "14")
    assert (form["lanes"], form["pattern"], form["student"]) == ("7 8", "house_41", key)
    for choice in ("", NEW):
        assert form_for(choice, typed, students.logbook, SetUp()) == typed | {"student": choice}


def test_a_new_student_is_added_with_the_numbers_typed_and_the_balls_land_under_them(panel, students):
    panel.set_up(START | {"name": "Ada", "hand": "left", "revs": "280", "student": NEW})
    panel.read(HIGH)
    (listed,) = students.listed()
    assert (listed.shown_name, listed.n_sessions, listed.n_shots) == ("Ada", 1, 1)
    kept = students.get(listed.key)
    assert (kept.name, kept.bowler.hand, kept.bowler.rev_rate_rpm) == ("Ada", "left", 280.0)
    assert panel.session.bowler.name == "Ada"


@pytest.mark.parametrize(
    ("name", "match"),
    [("", "Type the new student's name or alias"), ("Ada", "Another student is shown as “Ada”")],
)
def test_a_new_student_needs_a_name_of_their_own(panel, log, students, name, match):
    panel.set_up(START | {"name": "Ada", "student": NEW})
    panel.another()
    with pytest.raises(cl.InputError, match=match):
        panel.set_up(START | {"name": name, "student": NEW})
    assert list(panel.who.errors) == ["name"]
    assert panel.who.typed["feet"] == "22"
    assert (len(log.sessions()), len(students.listed())) == (1, 1)


def test_a_chosen_student_fills_the_form_and_keeps_the_alias(panel, log, students):
    key = students.add(Student("Ada Brun", alias="Number 7", bowler=LEFTY))
    panel.refresh()
    assert panel.who.look["students"] == [[key, "Number 7"]]
    panel.choose_student(key, {**panel.who.typed, "lanes": "7 8"})
    assert (panel.who.typed["hand"], panel.who.typed["revs"]) == ("left", "280")
    panel.set_up(panel.who.typed | {"feet": "22", "target": "12"})
    assert panel.session.bowler.name == "Number 7"
    assert panel.session.bowler.drift_boards == 1.0  # which no field asks about
    assert "Number 7" in panel.who.look["line"]
    (row,) = log.sessions(key)
    assert row.bowler_name == "Number 7"
    assert students.get(key).bowler.rev_rate_rpm == 280
    held = cl.Bowler(name="running")
    assert known_bowler(panel.who.typed, log, held) == held


def test_without_a_choice_the_session_is_nobodys_and_the_form_as_before(panel, log, students):
    panel.set_up(START)
    assert log.sessions()[0].student_key is None
    assert students.listed() == ()
    assert panel.session.bowler.name == START["name"]


def test_a_running_session_is_given_to_a_student_later(panel, log, students):
    key = students.add(Student("Ada Brun", alias="Number 7"))
    panel.set_up(START)
    panel.read(HIGH)
    panel.open_form()
    assert panel.who.typed["student"] == ""
    panel.set_up(panel.who.typed | {"student": key})
    assert [row.n_shots for row in log.sessions(key)] == [1]
    assert panel.session.bowler.name == "Number 7"
    assert "kept under that student" in panel.who.look["status"]
    panel.open_form()
    assert panel.who.typed["student"] == key
    without = {name: text for name, text in panel.who.typed.items() if name != "student"}
    panel.set_up(without)  # a form that says nothing of students
    assert len(log.sessions(key)) == 1
    panel.set_up(without | {"student": ""})
    assert log.sessions()[0].student_key is None
    assert students.get(owner_after({"student": NEW}, cl.Bowler(name="Ben"), log, key)).name == "Ben"


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


def test_saving_the_form_without_a_change_of_student_changes_nothing(panel, log, students):
    panel.set_up(START | {"student": NEW})
    panel.open_form()
    before = log.sessions()[0].student_key
    panel.set_up(panel.who.typed)
    assert log.sessions()[0].student_key == before
    assert len(students.listed()) == 1


def test_five_throw_in_turn_between_two_balls_each_with_their_own_line(panel, log, students):
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
    assert [one.n_shots for one in students.listed()] == [2] * 5


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
    panel.set_up(
        START | {"name": "Ada", "pattern": "house_41", "games": "1", "scoring_started": True, "student": NEW}
    )
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
