"""Room for words in stored pictures.

Widths of DejaVu Sans 2.37, regular and bold, copied from the fonts; a browser draws them in tests/notebooks.
"""

import re

import pytest

from coachlib.views.word_room import with_room, words_px

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="{0}" height="50" viewBox="0 0 {0} 50">'
PICTURE = (
    HEAD + '<rect width="{0}" height="50" fill="#FFFFFF"/><g transform="translate(10,0)"><g>'
    '<text text-anchor="{1}" transform="translate({2},20)" font-size="13px" {3}>{4}</text></g></g></svg>'
)


def box(svg):
    return [float(part) for part in re.search(r'viewBox="([^"]*)"', svg)[1].split()]


@pytest.mark.parametrize(
    ("text", "is_bold", "ems"),
    [("0", False, 0.636), ("0", True, 0.696), ("½", True, 1.035), ("W", False, 0.989), ("É", False, 0.632)],
)
def test_widths_are_those_of_the_font(text, is_bold, ems):
    assert words_px(text, 100.0, is_bold) == pytest.approx(100 * ems)


def test_a_sign_that_is_not_known_counts_as_one_size_wide():
    assert words_px("語", 20.0) == 20.0


def test_a_picture_with_room_stays_as_it_is():
    svg = PICTURE.format(200, "start", 20, "", "short")
    assert with_room(svg) == svg


@pytest.mark.parametrize("weight", ["", 'font-weight="bold"'])
def test_words_beyond_the_right_edge_get_paper(weight):
    svg = with_room(PICTURE.format(100, "start", 40, weight, "pearl_polished"))
    left, _, width, _ = box(svg)
    assert left == 0
    assert 50 + words_px("pearl_polished", 13, bool(weight)) < width < 160
    assert f'<rect x="0" width="{width:.0f}" height="50"' in svg


def test_words_beyond_the_left_edge_get_paper():
    svg = with_room(PICTURE.format(100, "end", 20, "", "never moving"))
    left, _, width, _ = box(svg)
    assert left == pytest.approx(30 - words_px("never moving", 13) - 2, abs=1)
    assert width == 100 - left


def test_words_about_their_middle_get_half_on_each_side():
    left, _, width, _ = box(with_room(PICTURE.format(60, "middle", 20, "", "in the middle")))
    assert left == pytest.approx(-(width + left - 60), abs=1.1)
