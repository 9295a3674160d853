"""The look of printed pictures, and how they are stored."""

import re

import altair as alt
import pytest

from coachlib.views.theme import (
    INK,
    INK2,
    PAPER,
    THEN,
    WOOD,
    YOU,
    enable_pictures,
    finished,
    picture_svg,
    printable,
)


def chart():
    data = alt.InlineData(values=[{"x": 1 / 3}, {"x": 2 / 3}])
    return finished(
        alt.Chart(data).mark_point(aria=False).encode(x="x:Q"), "Why?", "Two points.", 'A "b" & <c>'
    )


def contrast(first, second):
    """Return the contrast ratio of two colours as defined by W3C, WCAG 2.2."""

    def luminance(color):
        parts = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    lighter, darker = sorted((luminance(first), luminance(second)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


@pytest.mark.parametrize("words", [INK, INK2, THEN, YOU])
@pytest.mark.parametrize("ground", [PAPER, WOOD])
def test_words_can_be_read(words, ground):
    assert contrast(words, ground) >= 4.5  # WCAG 2.2, success criterion 1.4.3


def test_a_chart_brings_its_own_paper_title_and_description():
    spec = chart().to_dict()
    assert spec["background"] == PAPER
    assert spec["title"] == {"text": "Why?", "subtitle": "Two points."}
    assert spec["config"]["legend"] == {"disable": True}


def test_a_stored_picture_is_named_safe_and_rounded():
    svg = picture_svg(chart().to_dict())
    assert svg.startswith('<svg role="img" aria-label="A &quot;b&quot; &amp; &lt;c&gt;" ')
    assert re.search(r"\d+\.\d\d", svg)
    assert not re.search(r"\d+\.\d{3,}", svg)
    assert svg == picture_svg(chart().to_dict())


def test_after_enabling_a_chart_shows_itself_as_svg():
    active = alt.renderers.active
    try:
        enable_pictures()
        shown = chart()._repr_mimebundle_()
    finally:
        alt.renderers.enable(active)
    bundle = shown[0] if isinstance(shown, tuple) else shown
    assert bundle["image/svg+xml"] == picture_svg(chart().to_dict())
    assert bundle["text/plain"] == 'A "b" & <c>'


@pytest.mark.parametrize("sign", ["\x00", "\x07", "\x1b", "\uffff", "\ud800"])
def test_sign_that_no_picture_may_hold_is_shown_as_unknown(sign):
    drawn = picture_svg(
        finished(alt.Chart(chart().data).mark_point(), f"a{sign}b", "", f"c{sign}d").to_dict()
    )
    assert "a�b" in drawn
    assert 'aria-label="c�d"' in drawn


@pytest.mark.parametrize("text", ["", "a\tb\nc", "Åke 🎳", "\ufffd\U0010ffff"])
def test_all_other_signs_stay(text):
    assert printable({"title": [text, 1, None]}) == {"title": [text, 1, None]}
