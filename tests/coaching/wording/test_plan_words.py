"""The plan in words: both hands, counts of twenty, nothing in percent, nothing empty."""

import dataclasses
import re

import pytest

import coachlib as cl
from coachlib.coaching.plan.plan import LineRoom
from coachlib.coaching.simulation.line_search import EQUAL_PROB, FILM_FRACS, ROOM_FRAC
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.callouts import of_twenty
from coachlib.coaching.wording.plan_words import CARE, NO_CASES, NOT_A_PROMISE
from tests.planned import CASES, asked, plan_of


def turned_over(text):
    swap = {"left": "right", "right": "left"}
    return re.sub(r"\b(left|right)\b", lambda found: swap[found.group()], text)


def same_plan(**changes):
    return dataclasses.replace(plan_of("high_rev_left"), **changes)


@pytest.mark.parametrize(("bowler", "pattern"), CASES)
def test_every_chance_is_a_count_of_twenty_and_never_a_percentage(bowler, pattern):
    line, said = plan_of(bowler, pattern).line, cl.say_plan(plan_of(bowler, pattern))
    assert "%" not in said.text
    assert "percent" not in said.text.lower()
    assert not re.search(r"\d\.\d", said.text.replace(f"{cl.load_bowler(bowler).name}", ""))
    assert re.search(r"About \d+ strikes? in 20\.", said.chances)
    assert said.headline == f"Feet {line.feet_board:g}, target {line.target_board:g}"


@pytest.mark.parametrize(("bowler", "pattern"), CASES)
def test_no_text_is_empty_or_left_half_filled(bowler, pattern):
    said = cl.say_plan(plan_of(bowler, pattern))
    texts = [said.who, said.headline, said.sentence, said.chances, *said.room, *said.runners_up, *said.notes]
    texts += [text for case in said.cases for text in dataclasses.astuple(case)] + [
        *said.rules,
        *said.cautions,
    ]
    assert len(texts) > 15
    assert "\nMiss room\n" in said.text
    assert not re.search(r"[a-z][A-Z]", said.text), "a name of the code"
    for text in texts:
        assert text.strip() == text
        assert text
        assert not re.search(r"[{}]|None|nan|  |\.\.|inside|outside", text), text
        assert text in said.text or text[0].lower() + text[1:] in said.text or text == said.who


def test_only_left_and_right_turn_with_the_hand():
    plan = plan_of("club_right")
    right, left = cl.say_plan(plan, "right"), cl.say_plan(plan, "left")
    assert re.search(r"\d (left|right)", right.text)
    assert sorted(turned_over(right.text).split()) != sorted(right.text.split())
    assert [turned_over(case.move) for case in right.cases] == [case.move for case in left.cases]
    assert [turned_over(case.rule) for case in right.cases] == [case.rule for case in left.cases]
    assert right.runners_up == left.runners_up
    assert right.chances == left.chances


def test_room_is_said_from_left_to_right():
    room = LineRoom(parallel_out_boards=2.0, parallel_in_boards=3.0, aim_out_boards=0.0, aim_in_boards=1.5)
    right = cl.say_plan(same_plan(room=room), "right").room
    left = cl.say_plan(same_plan(room=room), "left").room
    assert right[:2] == ("Feet and eyes together: 3 left, 2 right.", "The eyes alone: 1½ left, none right.")
    assert left[:2] == ("Feet and eyes together: 2 left, 3 right.", "The eyes alone: none left, 1½ right.")
    assert ROOM_FRAC == 0.8
    assert right[2] == "Within that it keeps 16 of every 20 strikes."


def test_other_lines_are_told_by_what_they_lose():
    plan = plan_of("high_rev_left")
    one = plan.runners_up[0]
    told = [
        dataclasses.replace(one, loses_prob=loses) for loses in (0.0, EQUAL_PROB - 1e-6, 0.05, 0.21, -0.02)
    ]
    said = cl.say_plan(same_plan(runners_up=tuple(told))).runners_up
    ends = [text.split(": ")[1] for text in said]
    assert ends == [
        "about the same.",
        "about the same.",
        "1 fewer in 20.",
        "4 fewer in 20.",
        "about the same.",
    ]


def test_films_that_differ_are_told_apart():
    assert FILM_FRACS == (0.85, 1.0, 1.15)
    alike = cl.say_plan(same_plan(film_probs=(0.5, 0.5, 0.5), strike_prob=0.5)).chances
    assert alike.endswith("The same with oil thinner or thicker than on the sheet by 3 parts in 20.")
    apart = cl.say_plan(same_plan(film_probs=(0.3, 0.5, 0.4), strike_prob=0.4)).chances
    assert apart == (
        "About 8 strikes in 20. With oil as on the sheet 10, with 3 parts in 20 less oil 6, "
        "with as much more 8."
    )


def test_cases_come_in_their_order_with_both_voices():
    plan = plan_of("low_rev_right")
    said = cl.say_plan(plan)
    assert [case.kind for case in plan.cases] == ["high", "light", "early", "late"]
    assert [case.heading for case in said.cases] == [
        "If it goes high",
        "If it goes light",
        "If it turns early",
        "If it turns late",
    ]
    assert all(case.rule.startswith("The rule of thumb says") for case in said.cases)
    agreed = [case.is_agreed for case in plan.cases]
    assert [case.rule.startswith("The rule of thumb says the same") for case in said.cases] == agreed
    assert True in agreed
    assert False in agreed


def test_staying_is_a_full_answer():
    plan = plan_of("club_right", "flat_42")
    stays = [
        said for case, said in zip(plan.cases, cl.say_plan(plan).cases, strict=True) if case.move.is_stay
    ]
    assert stays
    assert all(said.move == "Stay" and "No move within reach" in said.chances for said in stays)


def test_a_move_that_was_not_thrown_is_said_to_be_so():
    late = cl.say_plan(plan_of("club_right", "flat_42")).cases[3]
    assert late.rule == "The rule of thumb says look 5 ft closer, which we did not simulate."


def test_a_young_bowler_s_plan_names_care_once_and_asks_for_no_other_speed():
    plan = plan_of("junior_left", "short_36")
    assert {case.rule.kind for case in plan.cases} <= {"line", "watch"}
    cautions = cl.say_plan(plan).cautions
    assert any("comfortable for three games" in caution for caution in cautions)
    assert cautions[-1] == CARE
    assert len(set(cautions)) == len(cautions)


def test_how_far_to_trust_it_is_said():
    assert NOT_A_PROMISE in cl.say_plan(plan_of()).text
    unknown = cl.say_plan(cl.plan(asked(cl.load_pattern("house_41"), rev_rate_rpm=180.0)))
    assert unknown.notes[0].startswith("Not entered, so we assumed: speed 17 mph, rotation 0° (a straight")
    assert NO_CASES in unknown.notes
    assert unknown.cases == ()


def test_a_plan_by_rule_alone_says_so_and_promises_no_strikes():
    said = cl.say_plan(cl.plan(asked(cl.OilPattern("ours", 42.0, "other"))))
    assert said.sentence.startswith("By the rule of 31 alone")
    assert "nothing was simulated" in said.sentence
    assert said.chances == ""
    assert "in 20" not in said.text
    assert CARE in said.text


def test_counts():
    assert [n_of_twenty(chance) for chance in (0.0, 0.024, 0.026, 0.5, 1.0)] == [0, 0, 1, 10, 20]
    assert of_twenty(0.35) == "7 of 20"


@pytest.mark.parametrize(
    ("plan", "hand", "text"),
    [
        ("plan", None, "plan is 'plan'; expected a Plan"),
        (None, None, "plan is None"),
        (plan_of(), "both", "hand is 'both'"),
    ],
)
def test_something_else_is_refused(plan, hand, text):
    with pytest.raises(cl.InputError, match=text):
        cl.say_plan(plan, hand)
