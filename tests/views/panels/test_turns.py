"""Whose session it is, without a widget: choices, a student's own numbers in the form, adding one."""

import dataclasses
import datetime

import pytest

import coachlib as cl
from coachlib.coaching.session.setting import Setting
from coachlib.records import Logbook, Student, Students
from coachlib.views.panels.lane_side import turns
from coachlib.views.panels.lane_side.set_up_form import SetUp, blank_answers, set_up_from
from coachlib.views.panels.lane_side.turns import (
    NEW,
    form_for,
    known_bowler,
    owner_after,
    owner_of,
    start_for,
    student_choices,
    turn_choices,
)

LINE = cl.Line(22, 12)
LEFTY = cl.Bowler(hand="left", rev_rate_rpm=280.0, drift_boards=1.0, speed_mph=15.0)


@pytest.fixture
def students(tmp_path):
    return Students(Logbook(tmp_path / "logbook.sqlite"))


def test_students_are_chosen_by_what_they_are_shown_as(students):
    key = students.add(Student("Ada Brun", alias="Number 7"))
    assert student_choices(students.logbook) == [[key, "Number 7"]]


def test_who_throws_in_turn_stands_in_the_order_of_beginning(students):
    first = students.start(students.add(Student("Ada")), LINE)
    second = students.start(students.add(Student("Ben")), LINE)
    nobody = students.logbook.start(cl.Session(cl.Bowler(), LINE))
    for key in (second, first):
        students.logbook.append(key, "shot", {"shot": cl.Shot(crossed_board=12)})
    told = turn_choices(students.logbook, second)
    assert [one["words"] for one in told] == ["Ada", "Ben", "no name"]
    assert [one["is_now"] for one in told] == [False, True, False]
    assert [one["key"] for one in told] == [first, second, nobody]


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


def test_the_form_stays_for_nobody_and_for_a_new_student(students):
    typed = blank_answers() | {"name": "Ada"}
    for choice in ("", NEW):
        assert form_for(choice, typed, students.logbook, SetUp()) == typed | {"student": choice}


def test_what_the_form_does_not_ask_about_comes_from_the_student(students):
    key = students.add(Student("Ada", alias="Number 7", bowler=LEFTY))
    typed = blank_answers() | {"student": key, "feet": "22", "target": "12", "hand": "left"}
    known = known_bowler(typed, students.logbook, None)
    assert known.drift_boards == 1.0
    session, owner = start_for(set_up_from(typed, known), typed, students.logbook)
    assert owner == key
    assert (session.bowler.name, session.bowler.drift_boards) == ("Number 7", 1.0)
    held = cl.Bowler(name="running")
    assert known_bowler(typed, students.logbook, held) == held


def test_a_new_student_is_added_with_the_numbers_typed_and_needs_a_name(students):
    wanted = SetUp(Setting(dataclasses.replace(LEFTY, name="Ada"), LINE))
    session, owner = start_for(wanted, {"student": NEW}, students.logbook)
    kept = students.get(owner)
    assert (kept.name, kept.bowler.hand, kept.bowler.rev_rate_rpm) == ("Ada", "left", 280.0)
    assert session.bowler.name == "Ada"
    with pytest.raises(cl.InputError, match="name is empty; expected the new student's name") as told:
        start_for(SetUp(Setting(cl.Bowler(), LINE)), {"student": NEW}, students.logbook)
    assert list(told.value.fields) == ["name"]
    with pytest.raises(cl.InputError, match="no other student is shown under"):
        start_for(wanted, {"student": NEW}, students.logbook)
    assert len(students.listed()) == 1


def test_a_session_of_nobody_starts_as_before(students):
    session, owner = start_for(SetUp(Setting(cl.Bowler(name="Guest"), LINE)), {}, students.logbook)
    assert (session.bowler.name, owner) == ("Guest", None)
    assert students.listed() == ()


def test_whose_a_running_session_is_changes_only_where_the_form_says_so(students):
    key = students.add(Student("Ada"))
    session = students.start(key, LINE)
    bowler = cl.Bowler(name="Ben")
    assert owner_of(students.logbook, session) == key
    assert owner_after({}, bowler, students.logbook, key) == key
    assert owner_after({"student": ""}, bowler, students.logbook, key) is None
    added = owner_after({"student": NEW}, bowler, students.logbook, key)
    assert students.get(added).name == "Ben"
