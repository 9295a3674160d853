"""The drills: every need has one, each is whole, and a damaged file says where."""

import pytest

from coachlib.errors import DataFileError, InputError
from coachlib.study.questions.drills import NEEDS, drill_for, load_drills, read_drills

GOOD = """[[drills]]
id = "one"
title = "One"
needs = ["aim"]
do = "Throw."
marked_by = "Hits."
with = "a ball"
minutes = 5
grade = "our guess"
"""


def test_every_need_has_a_drill():
    assert {drill_for(need).needs.count(need) for need in NEEDS} == {1}
    assert drill_for("spares").id == "spare_clock"


def test_each_drill_says_what_to_do_how_it_is_marked_and_how_well_it_is_founded():
    drills = load_drills()
    assert len(drills) == 10
    assert len({drill.title for drill in drills}) == len(drills)
    assert all(drill.do.endswith(".") and drill.marked_by.endswith(".") for drill in drills)
    assert all(not {"left", "right"} & set(drill.do.lower().split()) for drill in drills)


def test_a_drill_that_asks_for_speed_says_what_to_take_care_of():
    asking = [drill for drill in load_drills() if "faster" in drill.do]
    assert asking
    assert all("sore" in drill.caution for drill in asking)


def test_an_unknown_need_lists_the_known_ones():
    with pytest.raises(InputError, match=r"need is 'luck'; expected one of .*aim.*reading"):
        drill_for("luck")


def test_a_need_without_a_drill_is_said(tmp_path):
    path = tmp_path / "own.toml"
    path.write_text(GOOD, encoding="utf-8")
    with pytest.raises(InputError, match="need is 'speed'; expected one that a drill helps with"):
        drill_for("speed", read_drills(path))


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "own.toml: no drill; expected at least one"),
        (GOOD + GOOD, "one is there twice"),
        (GOOD.replace('["aim"]', '["luck"]'), "drill one: needs"),
        (GOOD.replace('do = "Throw."\n', ""), "drill one: do is missing"),
        (GOOD.replace("minutes = 5", "minutes = 500"), "drill one: minutes is 500"),
        (GOOD + "colour = 3\n", "colour is no field of Drill"),
    ],
)
def test_a_damaged_file_names_drill_and_field(tmp_path, text, told):
    path = tmp_path / "own.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(DataFileError, match=told):
        read_drills(path)
