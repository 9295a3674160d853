"""The one roof under which notebooks find what they use: every name is there."""

import re

import pytest

import coachlib
from coachlib import lessons, views


@pytest.mark.parametrize("name", sorted(lessons._PLACES))
def test_every_name_of_the_lessons_is_there(name):
    assert getattr(lessons, name) is not None


@pytest.mark.parametrize("name", sorted(views._PLACES))
def test_every_name_of_the_views_is_there(name):
    assert getattr(views, name) is not None


@pytest.mark.parametrize("room", [lessons, views])
def test_a_name_that_is_not_there_is_told_with_those_that_are(room):
    with pytest.raises(AttributeError, match=r"has no attribute 'hope'; expected one of .*, "):
        _ = room.hope


def test_notebooks_import_from_the_face_the_lessons_the_log_and_the_views_alone(repository):
    told = set()
    for path in (repository / "notebooks").glob("*.ipynb"):
        told |= set(re.findall(r"(?:from|import) (coachlib[\w.]*)", path.read_text(encoding="utf-8")))
    assert "coachlib" in told
    assert told <= {"coachlib", "coachlib.lessons", "coachlib.records", "coachlib.views"}
    assert coachlib.__all__
