"""Tables and picture of the validation: every row is there, cells are texts, the weakest or largest first."""

import dataclasses

from coachlib.physics.pins.build.carry_checks import NumberCheck, number_checks, step_checks
from coachlib.physics.pins.build.carry_verdict import WHY, CheckedFact
from coachlib.physics.pins.rack.numbers import RackNumbers
from coachlib.views.charts.carry_tables import (
    change_rows,
    changes_chart,
    facts_table,
    number_name,
    numbers_table,
    reasons_table,
    steps_table,
    strike_changes_table,
    with_unit,
)
from coachlib.views.theme import THEN, YOU
from tests.hostile import PARTS, without_line_ends
from tests.printed_pages import page_of
from tests.views.drawn import assert_described, layers

KNOWN, UNKNOWN = next(iter(WHY)), "pins float"
FACTS = (
    CheckedFact("met", "a", "b", True, "c"),
    CheckedFact(KNOWN, "d", "e", False, "f"),
    CheckedFact(UNKNOWN, "g", "h", None, "i"),
)
CHECKS = (
    NumberCheck("recommended", None, 100, 80.0, 0.0, 0.0, 54.0, 93.0, 83.0),
    NumberCheck("pin_mass_lb", 3.375, 100, 79.2, -1.2, 0.5, 50.0, 92.0, 82.0),
    NumberCheck("pin_deck_restitution", 0.2, 100, 90.0, 10.0, 1.5, 54.0, 93.0, 83.0),
    NumberCheck("hit_ms", 0.7, 100, 76.0, -4.0, 1.0, 54.0, 93.0, 83.0),
)


def test_facts_keep_their_order_and_only_what_is_not_met_is_explained():
    frame = facts_table(FACTS).frame
    assert frame.index.tolist() == ["met", KNOWN, UNKNOWN]
    assert frame["verdict"].tolist() == ["agrees", "differs", "not tested"]
    assert frame.loc["met"].tolist() == ["a", "b", "agrees", "c"]
    reasons = reasons_table(FACTS).frame
    assert reasons.index.tolist() == [KNOWN, UNKNOWN]
    assert reasons["why"].tolist() == [WHY[KNOWN], "not known"]


def test_a_table_shows_itself_uncut_from_the_left_and_as_plain_text():
    long = "x" * 80 + " <b>"
    table = facts_table((CheckedFact("s", long, "b", True, "c"),))
    html = table._repr_html_()
    assert "x" * 80 + " &lt;b&gt;" in html  # uncut, and text stays text
    assert html.count("<td ") == html.count('<td style="text-align: left') == 4
    assert long in repr(table)


def test_a_folded_table_stands_behind_one_line_and_a_long_one_names_the_head_of_each_cell():
    table = facts_table((CheckedFact("s", "x" * 80, "b", True, "c"),))
    assert "<details>" not in table._repr_html_()
    html = table.folded("All <1> of them")._repr_html_()
    assert html.strip().startswith("<details><summary>All &lt;1&gt; of them</summary>")
    assert html.strip().endswith("</details>")
    assert 'data-head="our racks"' in html
    assert '<table class="dataframe wide">' in html
    assert '<table class="dataframe">' in steps_table(step_checks())._repr_html_()


def test_hostile_texts_stay_text_in_a_table():
    calm = page_of(facts_table((CheckedFact("s", "a", "b" * 31, True, "c"),))._repr_html_()).tags
    for text in PARTS:
        page = page_of(facts_table((CheckedFact(text, text, "b" * 31, True, text),))._repr_html_())
        assert page.tags == calm
        assert without_line_ends(" ".join(page.texts)).count(without_line_ends(text)) >= 3


def test_every_number_of_the_simulator_is_listed_with_its_unit_and_tuned_ones_first():
    frame = numbers_table().frame
    assert len(frame) == len(dataclasses.fields(RackNumbers))
    assert frame.loc["pin cg", "value"] == "5.781 in"
    assert frame.loc["pin deck restitution", "value"] == "0.65"
    grades = frame["grade"].tolist()
    assert grades[0] == "tuned"
    assert "tuned" not in grades[grades.index("our guess") :]
    assert grades[-1] == "published"
    assert (frame["source"].str.len() > 0).all()


def test_names_lose_their_unit_and_nothing_else():
    assert number_name("pin_mass_lb") == "pin mass"
    assert number_name("hit_ms") == "hit"
    assert number_name("pin_pin_friction") == "pin pin friction"
    assert with_unit("hit_ms", 0.7) == "0.7 ms"
    assert with_unit("pin_pin_friction", 0.12) == "0.12"


def test_steps_say_what_each_halving_changed():
    frame = steps_table(step_checks()).frame
    assert frame["change when halved"].iloc[0] == ""
    assert (frame["change when halved"].iloc[1:].str.contains(" ± ")).all()


def test_changes_are_told_with_their_error_and_by_side():
    frame = strike_changes_table(CHECKS[:2]).frame
    assert frame.index.tolist() == ["as we use it", "pin mass 3.375 lb"]
    assert frame["change"].tolist() == ["", "-1.2 ± 0.5"]
    assert frame.loc["pin mass 3.375 lb"].tolist()[2:] == ["50", "92", "82"]


def test_in_the_picture_the_largest_change_stands_first_and_bars_reach_two_errors():
    rows = change_rows(CHECKS)
    assert [row["name"] for row in rows] == ["pin deck restitution 0.2", "hit 0.7 ms", "pin mass 3.375 lb"]
    assert [(row["low"], row["high"]) for row in rows] == [(7.0, 13.0), (-6.0, -2.0), (-2.2, -0.2)]


def test_in_the_picture_tuned_numbers_are_squares_and_the_rest_circles():
    spec = changes_chart(CHECKS, "How far?", "one change").to_dict()
    guessed, tuned = layers(spec, "point")
    assert (guessed["mark"]["shape"], guessed["mark"]["fill"]) == ("circle", THEN)
    assert (tuned["mark"]["shape"], tuned["mark"]["fill"]) == ("square", YOU)
    assert [row["name"] for row in tuned["rows"]] == ["pin deck restitution 0.2"]
    assert "pin deck restitution 0.2: +10; hit 0.7 ms: -4; pin mass 3.375 lb: -1.2" in spec["description"]
    assert_described(spec, "How far? one change.", least=4)
    largest = changes_chart(CHECKS, "How far?", n_shown=2).to_dict()
    assert "hit 0.7 ms: -4." in largest["description"]
    assert "pin mass" not in largest["description"]


def test_the_shipped_changes_are_changes_of_known_numbers_against_one_base():
    base, *changed = number_checks()
    assert base.value is None
    assert base.change_pct == 0.0
    assert {check.n_racks for check in changed} == {base.n_racks}
    defaults = RackNumbers()
    for check in changed:
        assert getattr(defaults, check.name) != check.value
        assert abs(check.strike_pct - base.strike_pct - check.change_pct) < 0.11
        assert 0.0 < check.change_se_pct < 3.0
