"""What a layout makes of a ball, in numbers and in words."""

import pytest

import coachlib as cl
from coachlib.coaching.equipment.layouts import drilled_effects, flare_text, layout_lines, layouts_table
from coachlib.world.layout import Layout

SESSION = cl.Session(
    bowler=cl.load_bowler("club_right"),
    line=cl.Line(29, 16),
    ball=cl.load_ball("solid_1000"),
    pattern=cl.load_pattern("house_41"),
)
LAYOUTS = [Layout(pin_to_axis_in=4.0), Layout(pin_to_axis_in=0.0)]


@pytest.fixture(scope="module")
def effects():
    return drilled_effects(SESSION, LAYOUTS)


def test_the_layout_it_has_changes_nothing_and_one_without_flare_arrives_lower(effects):
    same, still = effects
    assert (same.arrival_change_boards, same.skid_change_ft) == (0.0, 0.0)
    assert still.arrival_change_boards < -0.5
    assert still.skid_change_ft > 0
    assert still.flare.flare_in < 0.5 < same.flare.flare_in


def test_the_table_has_units_and_the_geometry(effects):
    table = layouts_table(effects)
    assert list(table["rg_about_axis_in"]) == ["2.524", "2.490"]  # at 4 in, and about the pin itself
    assert all(
        name.rsplit("_", 1)[1] in ("in", "deg", "frac", "boards") for name in table.columns if "_" in name
    )
    assert table.loc[1, "fresh_cover_frac"] == "0.00"


def test_words_tell_mechanics_from_guess(effects):
    told = layout_lines(effects[1])
    assert told[0].startswith("Pin 0 in and mass bias 6.75 in from your axis, flare spreads over about ")
    assert told[1] == "The core itself moves the ball by at most 0.15 board."
    assert "our guess" in told[2]
    assert f"{effects[1].arrival_change_boards:+.1f} boards" in told[2]
    assert "qualified shop" in told[3]


def test_only_an_asymmetric_core_is_told_with_its_uncertainty(effects):
    assert "as well as a layout is known" in flare_text(effects[0].ball, effects[0].flare)
    symmetric = cl.load_ball("hybrid_2000")
    assert "known" not in flare_text(symmetric, effects[0].flare)


def test_a_forbidden_layout_is_not_thrown():
    with pytest.raises(cl.InputError, match="top_oz is 5"):
        drilled_effects(SESSION, [Layout(top_oz=5.0)])
