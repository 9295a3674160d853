"""The teacher's panel: its handlers, called as the page calls them. What a browser shows: tests/notebooks.

Checks of our own promises, no outside source.
"""

import pytest

import coachlib as cl
from coachlib.views.panels.clinic.clinic import Clinic
from coachlib.views.panels.clinic.clinic_order import BLANK


class Strict(Clinic):
    is_strict = True


@pytest.fixture
def panel(tmp_path, monkeypatch):
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path))
    return Strict()


def ask(panel, do, **typed):
    panel.handle({"do": do, "typed": {**BLANK, **typed}})


def test_it_opens_with_the_first_paper(panel):
    assert "Clinic, paper 1" in panel.look["page"]
    assert panel.look["status"] == ""
    assert panel.errors == {}


def test_what_is_looked_at_follows_what_is_chosen(panel):
    ask(panel, "preview", part="answers", hand="left", level="second", seed="9")
    assert "answers to paper 9" in panel.look["page"]
    assert "Two things at once · left-handed" in panel.look["page"]
    ask(panel, "preview", part="lanes", hand="left")
    assert "Clinic: lane paper" in panel.look["page"]


def test_saving_says_what_is_where(panel, tmp_path):
    ask(panel, "save", n_papers="2")
    files = sorted(path.name for path in (tmp_path / "clinic").iterdir())
    assert files == ["first_right_1_to_2_answers.html", "first_right_1_to_2_papers.html", "lanes_right.html"]
    where = tmp_path / "clinic"
    assert panel.look["status"] == f"Saved 2 papers, the answers and lane paper: 3 files in {where}"
    titles = [title for title, _ in panel.look["pages"]]
    assert titles == [
        "Papers 1 to 2, for the students",
        "Answers to papers 1 to 2, for you",
        "Lane paper to draw on",
    ]
    assert all("<html" in page for _, page in panel.look["pages"])


def test_after_a_save_that_failed_no_earlier_papers_are_offered(panel, tmp_path):
    ask(panel, "save", n_papers="1")
    assert panel.look["pages"][0][0] == "Paper 1, for the students"
    (tmp_path / "taken" / "first_right_7_to_7_papers.html").mkdir(parents=True)  # where a file should go
    with pytest.raises(cl.DataFileError):
        ask(panel, "save", n_papers="1", seed="7", folder=str(tmp_path / "taken"))
    assert panel.look["pages"] == []


@pytest.mark.parametrize(
    ("typed", "field"),
    [({"n_papers": "0"}, "n_papers"), ({"n_papers": "500"}, "n_papers"), ({"seed": "Saturday"}, "seed")],
)
@pytest.mark.parametrize("do", ["save", "preview"])
def test_bad_input_is_told_under_its_field_and_changes_nothing(panel, tmp_path, do, typed, field):
    before = panel.look["page"]
    with pytest.raises(cl.InputError):
        ask(panel, do, **typed)
    assert list(panel.errors) == [field]
    assert panel.typed[field] == typed[field]
    assert panel.look["page"] == before
    assert not (tmp_path / "clinic").exists()


def test_a_folder_that_cannot_be_written_is_told(panel, tmp_path):
    (tmp_path / "taken" / "first_right_1_to_1_papers.html").mkdir(parents=True)  # where a file should go
    with pytest.raises(cl.DataFileError):
        ask(panel, "save", n_papers="1", folder=str(tmp_path / "taken"))
    assert "could not be written" in panel.errors["form"]
    assert panel.look["status"] == ""


@pytest.mark.parametrize("below", ["misspelt/papers", "file", "file/below", "x" * 300 + "/y"])
def test_no_folder_is_made_for_a_slip(panel, tmp_path, below):
    (tmp_path / "file").write_text("x", encoding="utf-8")
    before = set(tmp_path.rglob("*"))
    with pytest.raises(cl.InputError, match="a folder that exists or a new one directly inside"):
        ask(panel, "save", n_papers="1", folder=str(tmp_path / below))
    assert list(panel.errors) == ["folder"]
    assert panel.typed["folder"].endswith(below)
    assert panel.look["status"] == ""
    assert set(tmp_path.rglob("*")) == before


def test_a_new_folder_inside_one_that_exists_is_made_and_named(panel, tmp_path):
    ask(panel, "save", n_papers="1", folder=str(tmp_path / "new"))
    assert len(list((tmp_path / "new").iterdir())) == 3
    assert panel.look["status"].endswith(f"3 files in {tmp_path / 'new'}")


def test_on_the_page_nothing_is_raised():
    panel = Clinic({"n_papers": "0"})
    assert "type a whole number, 1 to 60, not “0”" in panel.errors["n_papers"]
    assert panel.typed["n_papers"] == "0"


def test_every_level_says_what_makes_it(panel):
    assert [name for name, _ in panel.look["levels"]] == ["first", "second", "third"]
    assert all(len(about) == 3 for about in panel.look["about"].values())
