"""The live lane picture: its traits, and what its script and style may not do."""

import re

import pytest
import traitlets

from coachlib.coaching.session.session import Session
from coachlib.views.lane.scene import lines_scene, simulated_scene
from coachlib.views.panels.shared.lane_picture import LanePicture
from coachlib.views.panels.shared.parts import PANELS
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern

HERE = PANELS
SCRIPTS = tuple(f"shared/lane_{name}.js" for name in "place balls words bet roll play picture".split())
PLAYED, NEXT = Line(22.0, 12.0), Line(24.0, 13.0)
STRAIGHT = lines_scene(Bowler(hand="left"), PLAYED, NEXT)
SIMULATED = simulated_scene(
    Session(Bowler(hand="left"), PLAYED, pattern=load_pattern("house_41")), PLAYED, NEXT
)


def script() -> str:
    return "".join((HERE / name).read_text(encoding="utf-8") for name in SCRIPTS)


def without_oil(scene):
    return {name: part for name, part in scene.items() if name != "oil"}


@pytest.mark.parametrize("scene", [STRAIGHT, SIMULATED])
def test_a_scene_goes_in_as_it_is_and_is_sent_to_the_browser(scene):
    picture = LanePicture()
    picture.show(scene)
    sent = picture.get_state(["scene", "oil"])
    assert sent["scene"] == without_oil(scene)
    assert sent["oil"] == scene["oil"]


def test_the_oil_is_sent_once_as_long_as_it_stays_the_same(monkeypatch):
    picture, sent = LanePicture(), []
    monkeypatch.setattr(picture, "send_state", lambda key=None: sent.append(set(key)))
    picture.show(SIMULATED)
    other = simulated_scene(
        Session(Bowler(hand="left"), PLAYED, pattern=load_pattern("house_41")), PLAYED, Line(25.0, 13.0)
    )
    picture.show(other)
    picture.show(STRAIGHT)
    assert sent == [{"scene", "oil"}, {"scene"}, {"scene", "oil"}]


def test_an_empty_scene_is_allowed_and_something_else_is_not():
    assert LanePicture().scene == {}
    with pytest.raises(traitlets.TraitError, match="scene"):
        LanePicture(scene=[1, 2])
    with pytest.raises(traitlets.TraitError, match="view"):
        LanePicture(view="middle")


def test_the_ball_can_be_played_unless_switched_off():
    assert LanePicture().get_state(["is_playable"]) == {"is_playable": True}
    assert LanePicture(is_playable=False).get_state(["is_playable"]) == {"is_playable": False}
    with pytest.raises(traitlets.TraitError, match="is_playable"):
        LanePicture(is_playable="no")


def test_the_script_reads_only_what_a_scene_holds():
    read = set(re.findall(r"scene\.([a-z_]+)", script()))
    assert len(read) > 10
    assert read <= set(without_oil(SIMULATED))
    read_of_line = set(re.findall(r"(?:line|was|played)\??\.([a-z_]+)", script()))
    assert len(read_of_line) > 5
    assert read_of_line <= set(SIMULATED["played"])
    read_of_path = set(re.findall(r"path\??\.([a-z_]+)", script()))
    assert len(read_of_path) > 2
    assert read_of_path <= set(SIMULATED["played"]["path"])
    read_of_ball = set(re.findall(r"ball\(?\)?\.([a-z_]+_(?:ft|s))\b", script()))
    rolling = SIMULATED["played"]["path"]["rolling"]
    assert read_of_ball
    assert read_of_ball <= set(rolling)
    assert [name for name in rolling if not re.search(rf"\b{name}\b", script())] == []
    assert set(re.findall(r"turn\.([a-z_]+)", script())) == set(SIMULATED["played"]["path"]["breakpoint"])
    assert set(re.findall(r"\boil\.([a-z_]+)", script())) == set(SIMULATED["oil"])


def test_the_widget_carries_all_its_scripts():
    for name in SCRIPTS:
        assert (HERE / name).read_text(encoding="utf-8") in str(LanePicture._esm)


def test_nothing_is_mirrored_by_style_sheet_fetched_or_written_as_html():
    text = script() + (HERE / "shared/lane_picture.css").read_text(encoding="utf-8")
    assert len(text) > 5000
    for banned in ("innerHTML", "scaleX(", "scale(-1", "@import", "fetch(", "http://www.w3.org/1999"):
        assert banned not in text
    assert re.findall(r"url\((?!#)", text) == []  # only what stands in the picture itself
