"""Students of a log: listed, changed, shown under their alias, and throwing in turn.

All invariants; no outside source.
"""

import dataclasses
import sqlite3

import pytest

from coachlib.coaching.session.session import Session, change, observe
from coachlib.errors import DataFileError, InputError
from coachlib.records import Logbook, Student, Students
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

LINE = Line(22, 11)


def _shot(n: int) -> Shot:
    return Shot(crossed_board=11.0, arrival="high", note=str(n))


def test_student_is_read_back_equal(students: Students) -> None:
    student = Student("Åke «Ö» O'Neil", "Nr. 7", "mother said yes", Bowler(hand="left", speed_mph=14.0))
    key = students.add(student)
    assert Students(Logbook(students.logbook.path)).get(key) == student


def test_change_keeps_the_rest(students: Students) -> None:
    key = students.add(Student("Ilta", consent_note="agreed"))
    changed = students.change(key, lambda one: dataclasses.replace(one, alias="Number 7"))
    assert changed == students.get(key) == Student("Ilta", "Number 7", "agreed")


def test_change_that_is_no_student_changes_nothing(students: Students) -> None:
    key = students.add(Student("Ilta"))
    with pytest.raises(InputError, match=r"student is 'Ilta K'; expected a Student"):
        students.change(key, lambda one: "Ilta K")  # type: ignore[arg-type,return-value]
    assert students.get(key) == Student("Ilta")


def test_listed_with_counts_in_the_order_of_names(students: Students) -> None:
    ilta, oskari = students.add(Student("ilta")), students.add(Student("Oskari", alias="Bear"))
    for _ in range(2):
        students.logbook.append(students.start(ilta, LINE), "shot", {"shot": _shot(1)})
    listed = students.listed()
    assert [one[:4] for one in listed] == [(oskari, "Bear", 0, 0), (ilta, "ilta", 2, 2)]
    assert listed[0].last_event is None
    assert listed[1].last_event == students.sessions(ilta)[0].last_event


@pytest.mark.parametrize(
    ("second", "field"), [(Student("ILTA"), "name"), (Student("Oskari", alias="Ilta"), "alias")]
)
def test_two_students_cannot_be_shown_alike(students: Students, second: Student, field: str) -> None:
    students.add(Student("Ilta"))
    told = rf"(?i)^Add a letter .* Another student is shown as “ilta” already: each {field} needs"
    with pytest.raises(InputError, match=told):
        students.add(second)
    assert len(students.listed()) == 1
    other = students.add(Student("Oskari"))
    with pytest.raises(InputError, match=told):
        students.change(other, lambda _: second)
    assert students.get(other) == Student("Oskari")


def test_alias_is_shown_from_then_on_and_in_every_earlier_moment(students: Students) -> None:
    key = students.add(Student("Ilta", bowler=Bowler(hand="left")))
    logbook, session_key = students.logbook, students.start(key, LINE, lane="7")
    logbook.append(session_key, "shot", {"shot": _shot(1)})
    logbook.append(session_key, "change", {"line": Line(24, 12), "bowler": Bowler("Ilta", "left", 15.0)})
    logbook.append(session_key, "shot", {"shot": _shot(2)})
    students.change(key, lambda one: dataclasses.replace(one, alias="Number 7"))
    shown = logbook.replay(session_key)
    assert "Ilta" not in repr(shown)
    started = Session(bowler=Bowler("Number 7", "left"), line=LINE, lane="7")
    moved = change(observe(started, _shot(1)), line=Line(24, 12), bowler=Bowler("Number 7", "left", 15.0))
    assert shown == observe(moved, _shot(2))
    assert [row.bowler_name for row in logbook.sessions()] == ["Number 7"]
    number, after = logbook.step(session_key, "shot", {"shot": _shot(3)})
    assert (number, after.session) == (4, observe(shown, _shot(3)))
    students.change(key, lambda one: dataclasses.replace(one, alias=""))
    assert logbook.replay(session_key).bowler.name == "Ilta"


def test_alias_changes_nothing_of_what_undo_takes_back(students: Students) -> None:
    """A change of nothing but the name is a step of its own, also where an alias hides it."""
    key = students.add(Student("Ilta", alias="Number 7"))
    logbook, session_key = students.logbook, students.start(key, LINE)
    logbook.append(session_key, "shot", {"shot": _shot(1)})
    logbook.append(session_key, "change", {"bowler": Bowler("Ilta K")})
    logbook.append(session_key, "undo", {})
    assert [seen.shot for seen in logbook.replay(session_key).shots] == [_shot(1)]


def test_five_students_in_turn_between_two_balls(students: Students) -> None:
    names = ("Ilta", "Oskari", "Aava", "Eino", "Lumi")
    keys = [students.add(Student(name)) for name in names]
    for turn in range(4):
        for place, key in enumerate(keys):
            session_key = students.logbook.latest_open(key) or students.start(key, LINE, lane=str(place + 1))
            assert len(students.logbook.replay(session_key).shots) == turn
            students.logbook.append(session_key, "shot", {"shot": _shot(10 * place + turn)})
    for place, key in enumerate(keys):
        (row,) = students.sessions(key)
        session = students.logbook.replay(row.key)
        assert (session.bowler.name, session.lane) == (names[place], str(place + 1))
        assert [seen.shot.note for seen in session.shots] == [str(10 * place + turn) for turn in range(4)]


def test_session_that_was_ended_is_not_gone_on_with(students: Students) -> None:
    key = students.add(Student("Ilta"))
    session_key = students.start(key, LINE)
    assert students.logbook.latest_open(key) == session_key
    students.logbook.close(session_key)
    assert students.logbook.latest_open(key) is None


@pytest.mark.parametrize("key", ["nobody", "' OR 1=1 --", "\ud800", None, 7, ["a"]])
def test_unknown_student(students: Students, key: object) -> None:
    students.add(Student("Ilta"))
    told = r"^student_key is .*; expected the key of a student in this log\. Take one from Students"
    calls = (students.get, students.sessions, lambda key: students.start(key, LINE))
    for call in calls:
        with pytest.raises(InputError, match=told):
            call(key)  # type: ignore[arg-type]
    assert students.logbook.sessions() == ()


def test_student_changed_by_hand_is_told(students: Students) -> None:
    key = students.add(Student("Ilta"))
    session_key = students.start(key, LINE)
    db = sqlite3.connect(students.logbook.path)
    with db:
        db.execute("UPDATE student SET text = replace(text, '\"left\"', '') || 'x'")
    db.close()
    for call in (
        lambda: students.get(key),
        students.listed,
        students.logbook.sessions,
        lambda: students.logbook.replay(session_key),
    ):
        with pytest.raises(DataFileError, match=rf"student {key} cannot be read: .* Nothing was changed"):
            call()
