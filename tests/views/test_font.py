"""The packed font: small, licensed, made of what our texts use, with figures of one width.

Sizes are our own promise. The tables of a font file: OpenType 1.9.1; its packing: W3C, WOFF 2.0, section 3.
"""

import base64
import importlib
import re

import pytest

from coachlib.files import data_path, read_text
from coachlib.views.font import FAMILY, WEIGHTS, font_face

MOST_KB = 150


def test_it_is_small_and_its_licence_lies_beside_it():
    sizes = [data_path(f"fonts/fira_sans_{weight}.woff2").stat().st_size for weight in WEIGHTS]
    assert 10_000 < sum(sizes) <= MOST_KB * 1000
    licence = read_text(data_path("fonts/OFL.txt"))
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert licence.startswith("Copyright")


@pytest.mark.parametrize("weight", WEIGHTS)
def test_a_rule_brings_the_whole_file_along(weight):
    rule = font_face(weight)
    (packed,) = re.findall(r'url\("data:font/woff2;base64,([^"]+)"\)', rule)
    font = base64.b64decode(packed, validate=True)
    assert font == data_path(f"fonts/fira_sans_{weight}.woff2").read_bytes()
    assert font[:4] == b"wOF2"  # WOFF 2.0, section 4.1
    assert f'font-family: "{FAMILY}"; font-style: normal; font-weight: {weight};' in rule


def test_all_weights_come_unless_some_are_named():
    assert font_face().count("@font-face") == len(WEIGHTS)
    assert font_face(400, 700) == font_face(400) + font_face(700)
    assert "http" not in re.sub(r"base64,[^\"]+", "", font_face())


def test_every_file_of_the_font_has_its_row_among_the_sources():
    folder = data_path("fonts/OFL.txt").parent
    told = read_text(data_path("SOURCES.md"))
    files = sorted(path.name for path in folder.iterdir())
    assert len(files) == len(WEIGHTS) + 1
    assert [name for name in files if f"`fonts/{name}`" not in told] == []


@pytest.mark.parametrize(
    ("module", "widget"),
    [
        ("lane_side.setup", "WhoAndLine"),
        ("clinic.clinic", "Clinic"),
        ("students.students", "Desk"),
        ("scoresheet.scoresheet", "ScoreSheet"),
        ("practice.practice_lane", "PracticeStart"),
        ("try_move.try_move", "MoveSliders"),
        ("compare_balls.compare_balls", "PanelEdge"),
    ],
)
def test_one_widget_of_each_panel_brings_the_font_for_all(module, widget):
    style = getattr(importlib.import_module(f"coachlib.views.panels.{module}"), widget)._css
    assert style.count("@font-face") == len(WEIGHTS)
    assert f'"{FAMILY}", var(--jp-ui-font-family' in style
