"""The lane side's picture beside its answer: one count, one picture, no number off the lane.

Checks of our own promises on invented sessions.
"""

import dataclasses
import json
import re

import numpy as np
import pytest

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.advice.answer_balls import HIGHER
from coachlib.coaching.session.session import Session, change, observe
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.views.lane.scene import lane_scene, simulated_scene
from coachlib.world.ball import load_ball
from coachlib.world.bowler import Bowler, load_bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern
from coachlib.world.shot import Shot

HOUSE, HYBRID = load_pattern("house_41"), load_ball("hybrid_2000")
LINE = Line(22.0, 12.0)
HIGH = (Shot(crossed_board=12.0, arrival="high", leave=(4, 6)),) * 3
STRIKES = (Shot(crossed_board=12.0, arrival="pocket", leave=()),) * 3


def session(shots=(), hand="right"):
    start = Session(load_bowler(f"club_{hand}"), LINE, ball=HYBRID, pattern=HOUSE)
    for shot in shots:
        start = observe(start, shot)
    return start


def shown(played):
    advice = advise(played)
    return advice, lane_scene(played, advice)


def texts_of(part):
    """Return every text of a scene, wherever it stands."""
    if isinstance(part, str):
        return [] if part.startswith("data:") else [part]
    if isinstance(part, dict):
        return [text for value in part.values() for text in texts_of(value)]
    return [text for value in part for text in texts_of(value)] if isinstance(part, list) else []


def test_the_labels_repeat_the_sentence_and_nothing_counts_again():
    advice, scene = shown(session(HIGH))
    told = [n_of_twenty(advice.model.stay.strike_prob), n_of_twenty(advice.move_strike_prob)]
    paths = [scene[name]["path"] for name in ("played", "advised")]
    assert [path["count_text"] for path in paths] == [f"now {told[0]}", f"next {told[1]} of 20"]
    assert [path["n_strikes"] for path in paths] == told
    assert scene["source"] == "believed"
    assert not any("strikes" in line["text"] for line in scene["deck"])
    assert json.loads(json.dumps(scene, allow_nan=False)) == scene


def test_after_the_move_the_old_line_keeps_its_count_and_the_new_one_too():
    played = session(HIGH)
    advice, before = shown(played)
    moved = change(played, line=advice.new_line)
    after = lane_scene(moved, None, advise(moved))
    assert after["played"]["feet_text"] == before["played"]["feet_text"]
    for name in ("played", "advised"):
        assert abs(after[name]["path"]["n_strikes"] - before[name]["path"]["n_strikes"]) <= 1
    told = advise(moved).model.stay.strike_prob
    assert after["advised"]["path"]["n_strikes"] == n_of_twenty(told)


def test_another_target_distance_is_drawn_as_aim_alone():
    played = session(HIGH)
    moved = change(played, line=dataclasses.replace(LINE, target_ft=40.0, target_board=9.0))
    scene = lane_scene(moved, None, advise(moved))
    assert scene["source"] == "lines"
    assert scene["played"]["path"] is scene["advised"]["path"] is None


def test_after_three_pocket_hits_no_text_says_boards_high_and_the_sheet_is_named():
    _, scene = shown(session(STRIKES))
    assert scene["sheet_text"] == HIGHER
    assert scene["summary"].endswith(HIGHER)
    assert not any("high" in text.replace(HIGHER, "") for text in texts_of(scene) if "pocket" not in text)
    assert scene["played"]["path"]["contact"][0] == pytest.approx(17.5, abs=1.25)


def test_all_ten_pins_and_the_leave_stay_when_balls_are_drawn():
    _, scene = shown(session(HIGH))
    assert scene["played"]["path"] is not None
    assert [pin["number"] for pin in scene["pins"]] == list(range(1, 11))
    assert [pin["number"] for pin in scene["pins"] if pin["is_left"]] == [4, 6]
    assert scene["pins_seen"]


def test_a_left_handers_picture_is_the_same_and_only_its_words_are_turned():
    right, left = (shown(session(shots, hand))[1] for shots, hand in ((HIGH, "right"), (HIGH, "left")))
    for name in ("played", "advised", "oil", "sheet_text"):
        assert left[name] == right[name]
    pins = {"right": (4, 6), "left": (6, 4)}
    assert {pin["number"] for pin in left["pins"] if pin["is_left"]} == set(pins["left"])


@pytest.mark.parametrize("line", [Line(30.0, 4.0), Line(38.0, 20.0), Line(20.0, 30.0), Line(12.0, 2.0)])
def test_no_text_and_no_mark_of_a_wild_straight_ball_lies_off_the_lane(line):
    straight = Bowler(speed_mph=15.0, rev_rate_rpm=0.0, axis_rotation_deg=0.0, arrow_sd_boards=3.0)
    played = Session(straight, line, ball=load_ball("plastic_spare"), pattern=HOUSE)
    scenes = [lane_scene(played, advise(played)), simulated_scene(played, line, Line(25.0, 15.0))]
    assert scenes[0]["source"] == "believed"
    for scene in scenes:
        for name in ("played", "advised"):
            path = (scene[name] or {}).get("path")
            if path is None:
                continue
            boards = np.concatenate(
                [path["meant_board"], *path["balls_board"], [dot[0] for dot in path["dots"]]]
            )
            assert boards.min() >= 0.5
            assert boards.max() <= 39.5
        for text in texts_of(scene):
            for number in re.findall(r"(?:hits at|at|board|breakpoint) (−?\d+)½?(?! ft)", text):
                assert 0 <= int(number.replace("−", "-")) <= 39, text


def test_the_same_session_gives_the_same_scene():
    assert shown(session(HIGH))[1] == shown(session(HIGH))[1]
