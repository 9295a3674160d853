"""Templates: all text stays text, and no fact is missing."""

import re

import pytest
from jinja2 import UndefinedError

from coachlib.errors import DataFileError
from coachlib.views.page import TEMPLATES, filled


def test_a_title_is_data_and_never_markup():
    page = filled("printed.html", title="Tuesday </title><script>")
    assert "<script>" not in page
    assert "<title>Tuesday &lt;/title&gt;&lt;script&gt;</title>" in page


def test_no_template_switches_the_escaping_off():
    templates = list(TEMPLATES.iterdir())
    assert {path.suffix for path in templates} == {".html"}
    assert templates
    for path in templates:
        assert not re.search(r"\|\s*safe\b|autoescape|Markup", path.read_text(encoding="utf-8")), path.name


def test_a_fact_that_is_missing_is_an_error_and_no_gap_on_the_page():
    with pytest.raises(UndefinedError, match="'title' is undefined"):
        filled("printed.html")


def test_a_template_that_is_not_there_says_what_to_do():
    with pytest.raises(DataFileError, match=r"nothing\.html could not be opened .*Install coachlib again"):
        filled("nothing.html")
