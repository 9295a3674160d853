"""The live lane picture: its trait, and what its script and style may not do."""

import re
from pathlib import Path

import pytest
import traitlets

import coachlib.views.panels.lane_picture as module
from coachlib.views.panels.lane_picture import LanePicture
from coachlib.views.scene import lines_scene
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line

HERE = Path(module.__file__).parent
SCENE = lines_scene(Bowler(hand="left"), Line(22.0, 12.0), Line(24.0, 13.0))


def test_a_scene_goes_in_as_it_is_and_is_sent_to_the_browser():
    picture = LanePicture(scene=SCENE)
    assert picture.get_state(["scene"])["scene"] == SCENE
    picture.scene = lines_scene(Bowler(), Line(20.0, 10.0))
    assert picture.get_state(["scene"])["scene"]["played"]["feet_text"] == "20"


def test_an_empty_scene_is_allowed_and_something_else_is_not():
    assert LanePicture().scene == {}
    with pytest.raises(traitlets.TraitError, match="scene"):
        LanePicture(scene=[1, 2])


def test_the_script_reads_only_what_a_scene_holds():
    script = (HERE / "lane_picture.js").read_text(encoding="utf-8")
    read = set(re.findall(r"scene\.([a-z_]+)", script))
    assert len(read) > 10
    assert read <= set(SCENE)
    read_of_line = set(re.findall(r"(?:line|was|played)\.([a-z_]+)", script)) - {"laydown_board"}
    assert len(read_of_line) > 5
    assert read_of_line <= set(SCENE["played"])


def test_nothing_is_mirrored_by_style_sheet_fetched_or_written_as_html():
    text = "".join((HERE / f"lane_picture.{kind}").read_text(encoding="utf-8") for kind in ("js", "css"))
    assert len(text) > 5000
    for banned in ("innerHTML", "scaleX(", "scale(-1", "@import", "url(", "fetch(", "http://www.w3.org/1999"):
        assert banned not in text
