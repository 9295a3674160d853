"""The students' panel by its handlers: replay, figures, own numbers, sheet, alias, and errors beside it."""

import base64
import dataclasses
import io
import shutil
import threading
import zipfile

import pytest

import coachlib as cl
from coachlib.errors import DataFileError, InputError
from coachlib.records import Logbook, Student, Students
from coachlib.review.demo_log import write_demo_log
from coachlib.views.panels.students.students import DEMO, StudentsPanel
from coachlib.views.panels.students.students_view import NOBODY

HOSTILE = '"><img src=x onerror=alert(1)>'


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    """Return the folder of a demo log that no test changes."""
    folder = tmp_path_factory.mktemp("written")
    write_demo_log(folder)
    return folder


@pytest.fixture
def demo(written, tmp_path):
    shutil.copytree(written, tmp_path / "demo")
    return Logbook(tmp_path / "demo" / "logbook.sqlite")


@pytest.fixture
def panel(demo):
    return StudentsPanel(demo, is_strict=True)


def _key(panel, name):
    return next(one.key for one in panel.students.listed() if one.shown_name == name)


def _saved(panel):
    return base64.b64decode(panel.report.file["content"])


def test_it_opens_on_the_newest_session_of_the_first_student(panel):
    look = panel.desk.look
    assert look["student"] == _key(panel, "Maija")
    assert look["session"] == look["sessions"][0][0]
    assert look["replay"]["number"] == 1
    assert look["note"] == ""
    assert panel.lane.scene["last"]["number"] == 1


def test_an_empty_log_is_left_alone_and_the_demo_shown(tmp_path):
    own = Logbook(tmp_path / "own" / "logbook.sqlite")
    panel = StudentsPanel(own, is_strict=True)
    assert panel.is_demo
    assert panel.desk.look["note"] == DEMO
    assert not own.path.exists()
    assert StudentsPanel(own, is_strict=True).logbook.path == panel.logbook.path


def test_an_own_log_is_shown_and_no_demo(tmp_path):
    logbook = Logbook(tmp_path / "logbook.sqlite")
    logbook.start(cl.Session(cl.Bowler(name="Ada"), cl.Line(22, 12)))
    panel = StudentsPanel(logbook, is_strict=True)
    assert not panel.is_demo
    assert panel.desk.look["students"] == [[NOBODY, "No student, 1 session"]]
    assert panel.report.look == {}
    assert panel.desk.look["replay"]["number"] == 0


def test_going_through_the_balls_stops_at_both_ends(panel):
    n_balls = panel.desk.look["replay"]["n_balls"]
    for asked, shown in ((2, 2), (0, 1), (n_balls, n_balls), (n_balls + 5, n_balls)):
        panel.show(asked)
        assert panel.desk.look["replay"]["number"] == shown
        assert panel.lane.scene["last"]["number"] == shown


def test_another_student_and_session_are_shown_with_their_figures(panel):
    panel.pick(_key(panel, "Oskar"))
    assert panel.report.look["name"] == "Oskar"
    assert len(panel.report.look["rows"]) == 3
    assert panel.report.look["chart"] == ""  # a page that shows the panel asks for it
    panel.draw()
    assert panel.report.look["chart"].startswith("data:image/svg+xml;base64,")
    assert panel.report.look["tall_chart"].startswith("data:image/svg+xml;base64,")
    oldest = panel.desk.look["sessions"][-1][0]
    panel.open_session(oldest)
    assert panel.desk.look["session"] == oldest
    assert panel.lane.scene["hand"] == "left"


def test_the_figures_are_drawn_beside_the_panel_once_a_page_asks_for_them(panel, monkeypatch):
    told = threading.Event()
    monkeypatch.setattr(panel._loop, "call", lambda step: (step(), told.set()))
    for _ in range(2):  # a second page asks too
        panel.handle({"do": "draw_soon"})
    assert told.wait(60)
    assert panel.report.look["chart"].startswith("data:image/svg+xml;base64,")


def test_a_page_that_asks_for_the_figures_takes_no_error_away(panel, monkeypatch):
    monkeypatch.setattr(panel, "_load_drawing", lambda: None)
    panel.is_strict = False
    panel.erase("somebody else")
    shown = panel.report.errors
    assert "Erasing cannot be undone" in shown["about"]
    panel.handle({"do": "draw_soon"})
    assert panel.report.errors == shown


def test_own_numbers_are_told_when_asked_for_and_taken_over_only_when_chosen(panel):
    oskar = _key(panel, "Oskar")
    panel.pick(oskar)
    before = panel.students.get(oskar).bowler
    assert panel.report.look["numbers"] == []
    panel.ask_numbers()
    offered = [one["field"] for one in panel.report.look["numbers"] if one["is_offered"]]
    assert "drift_boards" in offered
    assert panel.students.get(oskar).bowler == before
    panel.use_numbers(["drift_boards"])
    after = panel.students.get(oskar).bowler
    assert after.drift_boards == pytest.approx(1.0, abs=0.4)
    assert after.speed_mph == before.speed_mph
    assert panel.report.look["used"].startswith("1 number saved")
    assert "drift_boards" not in [one["field"] for one in panel.report.look["numbers"] if one["is_offered"]]


def test_a_number_that_is_not_offered_is_refused_beside_the_numbers(panel):
    panel.is_strict = False
    panel.ask_numbers()
    panel.use_numbers(["walk"])
    assert "fields is 'walk'" in panel.report.errors["numbers"]


def test_the_sheet_is_shown_and_saved_as_it_is_shown(panel):
    panel.pick(_key(panel, "Oskar"))
    panel.make_page({"scores": False, "coach": "R. Aalto", "place": ""})
    assert "Lane notes, Oskar" in panel.report.page
    assert "coach: R. Aalto" in panel.report.page
    assert "Strikes:" not in panel.report.page
    panel.save({"scores": True}, "html")
    assert panel.report.file["name"] == "lane notes Oskar 2026-09-15.html"
    told = "“lane notes Oskar 2026-09-15.html” is saved in your browser’s downloads"
    assert panel.report.file["told"].startswith(told)
    assert panel.report.file["part"] == "handout"
    assert _saved(panel).decode() == panel.report.page
    assert "Strikes:" in panel.report.page


def test_the_parents_get_a_letter_with_the_childs_own_words_and_no_scores(panel):
    panel.pick(_key(panel, "Oskar"))
    said = {"for": "parent", "scores": True, "coach": "Aino", "own_words": "I did it!", "next_time": ""}
    panel.save(said, "html")
    assert panel.report.file["name"] == "for the parents Oskar 2026-09-15.html"
    assert "Oskar’s Tuesday" in panel.report.page
    assert "“I did it!”" in panel.report.page
    assert "Aino, Oskar’s coach" in panel.report.page
    assert "Strikes" not in panel.report.page


def test_the_parents_are_proposed_for_a_junior_and_the_student_for_others(panel):
    assert panel.report.look["for"] == "student"
    key = panel.student
    bowler = panel.students.get(key).bowler
    young = dataclasses.replace(bowler, age_years=11.0)
    panel.students.change(key, lambda one: dataclasses.replace(one, bowler=young))
    panel.pick(key)
    assert panel.report.look["for"] == "parent"


def test_a_letter_calls_a_child_by_the_first_name_or_the_alias(panel):
    key = panel.desk.look["student"]
    panel.students.change(key, lambda one: dataclasses.replace(one, name="Maija Example"))
    panel.pick(key)
    panel.save({"for": "parent"}, "html")
    assert "Maija’s Tuesday" in panel.report.page
    assert "Example" not in panel.report.page
    panel.about("Number 7", "")
    panel.save({"for": "parent"}, "html")
    assert "Number 7’s Tuesday" in panel.report.page


def test_each_save_is_a_new_file_for_the_browser(panel):
    numbers = []
    for _ in range(2):
        panel.save({}, "html")
        numbers.append(panel.report.file["number"])
    assert numbers == [1, 2]


def test_pdf_is_saved_or_what_is_missing_is_said(panel):
    panel.is_strict = False
    panel.save({"sheet": "letter"}, "pdf")
    if panel.report.errors:
        assert "extra pdf" in panel.report.errors["handout"]
    else:
        assert _saved(panel).startswith(b"%PDF")


def test_an_alias_holds_at_once_in_list_replay_sheet_and_file_name(panel):
    panel.show(5)
    panel.about("Number 7", "agreed by herself")
    assert any(words.startswith("Number 7,") for _, words in panel.desk.look["students"])
    assert panel.desk.look["replay"]["number"] == 5
    panel.save({}, "html")
    assert panel.report.file["name"].startswith("lane notes Number 7 ")
    assert "Maija" not in panel.report.page
    assert "Maija" not in str(panel.desk.look) + str(panel.report.look)


def test_everything_kept_can_be_saved(panel):
    panel.export()
    assert panel.report.file["name"] == "Maija.zip"
    assert panel.report.file["part"] == "about"
    with zipfile.ZipFile(io.BytesIO(_saved(panel))) as archive:
        assert set(archive.namelist()) == {"READ ME.txt", "sessions.csv", "everything.json"}


def test_a_session_of_nobody_is_given_to_a_student(demo):
    key = demo.start(cl.Session(cl.Bowler(name="?"), cl.Line(22, 12)))
    panel = StudentsPanel(demo, is_strict=True)
    panel.pick(NOBODY)
    assert panel.desk.look["session"] == key
    panel.give(_key(panel, "Oskar"))
    assert panel.desk.look["student"] == _key(panel, "Oskar")
    assert panel.desk.look["session"] == key
    assert NOBODY not in [one for one, _ in panel.desk.look["students"]]


def test_what_cannot_be_done_is_told_and_changes_nothing(panel):
    panel.is_strict = False
    before = panel.desk.look
    panel.pick("0123")
    assert "student_key is '0123'" in panel.desk.errors["desk"]
    assert panel.desk.look == before
    panel.is_strict = True
    with pytest.raises(InputError, match="student_key"):
        panel.pick("0123")


def test_a_log_that_cannot_be_read_is_told(tmp_path):
    path = tmp_path / "logbook.sqlite"
    path.write_bytes(b"no log at all" * 200)
    panel = StudentsPanel(Logbook(path))
    assert "is damaged" in panel.desk.errors["desk"]
    assert path.read_bytes().startswith(b"no log")
    with pytest.raises(DataFileError):
        StudentsPanel(Logbook(path), is_strict=True)


def test_hostile_names_stay_data_in_the_sheet_and_in_file_names(tmp_path):
    students = Students(Logbook(tmp_path / "logbook.sqlite"))
    key = students.add(Student(HOSTILE, bowler=cl.Bowler()))
    students.logbook.append(students.start(key, cl.Line(22, 12)), "shot", {"shot": cl.Shot(crossed_board=12)})
    panel = StudentsPanel(students.logbook, is_strict=True)
    panel.save({"coach": HOSTILE, "place": HOSTILE}, "html")
    assert "<img" not in panel.report.page
    assert not set(panel.report.file["name"]) & set('<>"/\\=()')


def test_every_message_of_the_page_has_a_handler(panel):
    for message in ({"do": "show", "ball": 3}, {"do": "ask_numbers"}, {"do": "make_page", "options": {}}):
        panel.handle(message)
    assert panel.desk.look["replay"]["number"] == 3
    assert panel.report.page


def test_a_student_is_erased_only_by_the_name_that_is_shown_and_the_proof_is_told(panel):
    oskar = _key(panel, "Oskar")
    panel.pick(oskar)
    panel.save({}, "html")
    panel.is_strict = False
    panel.erase("Oskari")
    assert "Type the name as it is shown, “Oskar”" in panel.report.errors["about"]
    assert len(panel.students.listed()) == 2
    panel.is_strict = True
    panel.erase("Oskar")
    assert [one.shown_name for one in panel.students.listed()] == ["Maija"]
    assert panel.desk.look["erased"][0].startswith("3 sessions with ")
    assert panel.desk.look["student"] == _key(panel, "Maija")
    assert (panel.report.page, panel.report.file) == ("", {})
    assert b"Oskar" not in panel.logbook.path.read_bytes()
    panel.show(2)
    assert panel.desk.look["erased"] == []


def test_the_last_student_erased_leaves_an_empty_panel(tmp_path):
    students = Students(Logbook(tmp_path / "logbook.sqlite"))
    students.start(students.add(Student("Ada Brun")), cl.Line(22, 12))
    panel = StudentsPanel(students.logbook, is_strict=True)
    panel.erase("Ada Brun")
    assert panel.desk.look["students"] == []
    assert panel.desk.look["sessions"] == []
    assert panel.report.look == {}
