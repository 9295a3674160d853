"""The demo log: two students, alias and consent kept, the same ball for ball, never among real people."""

import pytest

import coachlib as cl
from coachlib.records import Logbook, Student, Students
from coachlib.records.log.advice_record import why_of
from coachlib.review.demo_log import demo_log, own_or_demo, write_demo_log
from coachlib.study.hidden_lane.demo_evening import N_EVENINGS, N_FRAMES


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    return write_demo_log(tmp_path_factory.mktemp("demo"))


def _stories(logbook):
    return logbook.stories(row.key for row in logbook.sessions())


def test_two_students_of_one_name_each_with_their_sessions(demo):
    listed = Students(demo).listed()
    assert [one.shown_name for one in listed] == ["Maija", "Oskar"]
    assert [one.n_sessions for one in listed] == [N_EVENINGS, N_EVENINGS]
    student = Students(demo).get(listed[1].key)
    assert (student.name, student.alias) == ("Oskar", "")
    assert student.bowler.hand == "left"
    assert "no scores" in student.consent_note
    assert {story.session.bowler.name for story in _stories(demo)} == {"Maija", "Oskar"}


def test_each_first_ball_keeps_its_advice_with_words_and_reason(demo):
    for story in _stories(demo):
        assert len(story.advice) == N_FRAMES
        assert all(payload["headline"] and why_of(payload) for payload in story.advice.values())


def test_the_same_seed_is_the_same_log_ball_for_ball(demo, tmp_path):
    assert _stories(write_demo_log(tmp_path / "again")) == _stories(demo)
    other = write_demo_log(tmp_path / "other", seed=2)
    assert _stories(other) != _stories(demo)


def test_invented_people_never_stand_among_real_ones(tmp_path):
    students = Students(Logbook(tmp_path / "logbook.sqlite"))
    students.add(Student("A real person"))
    with pytest.raises(cl.InputError, match=r"Choose an empty folder: .* a log of 1 students and 0 sessions"):
        write_demo_log(tmp_path)
    assert [one.shown_name for one in students.listed()] == ["A real person"]


def test_a_log_that_holds_something_is_shown_and_an_empty_one_left_alone(demo, tmp_path):
    assert own_or_demo(demo) == (demo, False)
    empty = Logbook(tmp_path / "none" / "logbook.sqlite")
    shown, is_demo = own_or_demo(empty)
    assert is_demo
    assert shown is demo_log()
    assert not empty.path.exists()
