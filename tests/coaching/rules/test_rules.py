"""Every rule of the rulebook by what it says after which balls, both hands, and by what must not call for it.

The sequences stand in `sequences/rulebook.toml`, to be read by a coach.
"""

import pytest

from coachlib.coaching.rules.conditions import fact_names
from coachlib.coaching.rules.rulebook import fired_rules, load_rulebook
from coachlib.world.line import Move
from coachlib.world.pins import pin_board
from tests.sequence_rules import broken, rows

RULES = load_rulebook().rules
ROWS = rows()
LEAST_SEQUENCES, LEAST_NEAR_MISSES = 200, 350


def sequences(rule_id):
    return {said: balls for said, balls in ROWS[rule_id].items() if said != "not"}


@pytest.mark.parametrize("rule_id", ROWS)
def test_a_rule_is_told_after_the_balls_that_call_for_it(rule_id):
    for said, balls in sequences(rule_id).items():
        assert [fault for one in balls for fault in broken(rule_id, said, one, "right")] == []
        assert broken(rule_id, said, balls[0], "left") == []


@pytest.mark.parametrize("rule_id", ROWS)
def test_a_near_miss_does_not_call_for_it(rule_id):
    assert [fault for one in ROWS[rule_id]["not"] for fault in broken(rule_id, "not", one, "right")] == []


def test_every_rule_has_balls_that_call_for_it_and_near_misses():
    assert set(ROWS) == {rule.id for rule in RULES}
    assert all(sequences(rule_id) and row["not"] for rule_id, row in ROWS.items())
    counted = [len(balls) for rule_id in ROWS for balls in sequences(rule_id).values()]
    assert min(counted) > 0
    assert sum(counted) >= LEAST_SEQUENCES
    assert sum(len(row["not"]) for row in ROWS.values()) >= LEAST_NEAR_MISSES


def test_one_rule_alone_is_never_the_one_quoted():
    assert [rule_id for rule_id in ROWS if set(sequences(rule_id)) == {"behind"}] == [
        "hit_target_wrong_again"
    ]


def test_a_row_can_fail():
    # Once the words, once the rule, once the near miss.
    assert broken("follow_the_miss", "Feet 1 {outside}", "3 high", "left")
    assert broken("pin_four", "Feet 1 {inside}", "3 high", "left")
    assert broken("follow_the_miss", "not", "3 high", "left")
    assert broken("pin_four", "behind", "3 high", "left")
    assert broken("follow_the_miss", "Feet 1 {inside}", "3 high", "left") == []


def test_the_rulebook_is_102_rules_and_the_11_of_people():
    sections = [rule.section for rule in RULES]
    assert (len(sections), sections.count("J")) == (113, 11)


@pytest.mark.parametrize(("task", "silent"), [("first", set("I")), ("spare", set("ABCDEFGH"))])
def test_a_spare_and_a_first_ball_have_rules_of_their_own(task, silent):
    left = {"leave_key": "4", "key_pin": 4, "n_pins_left": 1, "side": "high", "walk": "slide"}
    sections = {one.rule.section for one in fired_rules(load_rulebook(), {"task": task, **left})}
    assert sections
    assert not sections & silent


def test_nothing_in_the_rules_depends_on_the_hand_but_three():
    asking = {
        rule.id
        for rule in RULES
        for when in (rule.when, *(case.when for case in rule.cases))
        if "hand" in fact_names(when)
    }
    assert asking == {"left_hander", "quiet_side", "wedge_of_the_others"}


# Two club pages (United Kingdom): feet 3, 6, 9 or eyes 2, 4, 6 boards for the pins of one side. A slider's
# straight line goes 3 boards at the pins for a board of feet, 4 for one of eyes, from 17.5 (derived).
@pytest.mark.parametrize(
    ("rule_id", "printed", "lever", "near_boards"),
    [
        ("spare_3_6_9", [Move(feet) for feet in (-3, -6, -9, 3, 6, 9)], -3, 0.76),
        ("spare_2_4_6", [Move(0, eyes) for eyes in (2, 4, 6, -2, -4, -6)], 4, 1.01),
    ],
)
def test_spare_sizes_are_as_printed_or_reach_the_pin_by_the_lever(rule_id, printed, lever, near_boards):
    cases = {
        (case.when["walk"], case.when["key_pin"]): case.moves[0].move
        for case in load_rulebook().rule(rule_id).cases
    }
    pins = (2, 4, 7, 3, 6, 10)
    assert [cases["walk", pin] for pin in pins] == printed
    for pin in pins:
        boards = cases["slide", pin].feet_boards + cases["slide", pin].target_boards
        assert 17.5 + lever * boards == pytest.approx(pin_board(pin), abs=near_boards)


def test_every_move_of_the_hand_or_more_speed_is_cautioned_and_stopped_by_pain():
    cases = [case for rule in RULES for case in (rule, *rule.cases)]
    moves = [sized.move for case in cases for sized in case.moves]
    strain = [move for move in moves if move.rotation_deg or move.note or move.speed_mph > 0]
    assert len(strain) > 10
    for move in strain:
        asked = {"task": "first", "move_rotation_deg": move.rotation_deg, "move_speed_mph": move.speed_mph}
        fired = fired_rules(load_rulebook(), asked | {"has_move_note": bool(move.note), "has_pain": True})
        told = {one.rule.id: one.kind for one in fired}
        assert (told["more_speed_or_hand_caution"], told["pain_stops"]) == ("caution", "reject"), move
