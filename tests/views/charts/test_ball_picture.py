"""A drilled ball in two halves: where things are drawn, and how it is told."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics.flare import flare
from coachlib.views.charts.ball_picture import QUARTER_IN, _projected, ball_picture
from coachlib.world.layout import Layout
from tests.views.drawn import assert_described, layers

BALL, LAYOUT = cl.load_ball("solid_1000"), Layout()
FLARE = flare(BALL, LAYOUT)


def texts(spec):
    rows = [layer["rows"][0] for layer in layers(spec, "text", part=spec["concat"][0])]
    return {row["text"]: (row["x"], row["y"]) for row in rows}


def test_distances_from_the_middle_are_true():
    for pin_in in (1.0, 4.0, 6.75):
        (row,) = _projected(Layout(pin_to_axis_in=pin_in).pin[None, :], 0, "right")
        assert np.hypot(row["x"], row["y"]) == pytest.approx(pin_in, abs=0.01)


def test_each_place_is_on_one_half_or_on_both_rims():
    back = np.array([[0.0, 0.6, -0.8]])
    assert _projected(back, 0, "right") == []
    assert len(_projected(back, 1, "right")) == 1


def test_marks_of_an_asymmetric_ball():
    spec = ball_picture(BALL, LAYOUT, FLARE, title="Where?").to_dict()
    assert set(texts(spec)) >= {"grip", "pin", "axis at the hand", "mass bias"}
    assert texts(spec)["axis at the hand"] == (0.0, 0.0)
    assert texts(spec)["grip"][0] < 0 < QUARTER_IN


def test_a_symmetric_ball_has_no_mass_bias():
    even = dataclasses.replace(BALL, intermediate_in=0.0)
    assert "mass bias" not in texts(ball_picture(even, LAYOUT, FLARE).to_dict())


def test_a_left_hander_s_ball_is_the_mirror_image():
    right, left = (texts(ball_picture(BALL, LAYOUT, FLARE, hand).to_dict()) for hand in ("right", "left"))
    assert right.keys() == left.keys()
    assert {name: (-x + 0.0, y) for name, (x, y) in right.items()} == left


def test_it_is_described_and_its_marks_are_silent():
    spec = ball_picture(BALL, LAYOUT, FLARE, title="Where?", subtitle="solid").to_dict()
    start = "Where? solid Ball in two halves: asymmetric core. Pin 4 in and mass bias 4.4"
    assert_described(spec, start, least=15)
