"""The printed plan: one page of plain HTML, nothing from elsewhere, nothing unescaped."""

import dataclasses
import re
import xml.etree.ElementTree as ET

import pytest

import coachlib as cl
from coachlib.views.print.plan_card import plan_card
from tests.planned import CASES, plan_of
from tests.printed_pages import assert_black_on_white, assert_stands_alone, lane_of, page_of


@pytest.mark.parametrize(("bowler", "pattern"), CASES)
def test_all_that_is_said_stands_on_the_page(bowler, pattern):
    plan = plan_of(bowler, pattern)
    said, shown = cl.say_plan(plan), " ".join(page_of(plan_card(plan)).texts)
    texts = [said.who, said.headline, said.sentence, said.chances, *said.room, *said.runners_up, *said.rules]
    texts += [*said.notes, *said.cautions]
    texts += [text for case in said.cases for text in dataclasses.astuple(case)]
    assert len(texts) > 15
    assert [text for text in texts if text not in shown] == []


def test_nothing_comes_from_elsewhere_and_nothing_runs():
    text = plan_card(plan_of())
    assert {"svg", "table", "h1"} <= {tag for tag, _ in page_of(text).tags}
    assert_stands_alone(text)
    assert_black_on_white(text)
    assert "#0A5688" not in lane_of(text)  # one line only: ink


def test_names_are_data_and_never_markup():
    nasty = '<script>alert("x")</script>&amp;'
    bowler = dataclasses.replace(plan_of().session.bowler, name=nasty)
    plan = dataclasses.replace(plan_of(), session=dataclasses.replace(plan_of().session, bowler=bowler))
    text = plan_card(plan, title="Tuesday </title><b>")
    page = page_of(text)
    assert not {tag for tag, _ in page.tags} & {"script", "b"}
    assert nasty in " ".join(page.texts)
    assert "Tuesday </title><b>" in page.texts


def test_the_lane_is_drawn_for_the_hand_and_described():
    words = ET.fromstring(lane_of(plan_card(plan_of("high_rev_left")))).attrib["aria-label"]
    assert "left-hander" in words
    assert "feet 32, target 18" in words


def test_counts_are_drawn_as_twenty_balls_hidden_from_a_screen_reader():
    plan = plan_of()
    text = plan_card(plan)
    (balls,) = re.findall(r'<span aria-hidden="true">([●○ ]+)</span>', text)
    assert len(balls.replace(" ", "")) == 20
    assert balls.count("●") == round(20 * plan.strike_prob)
    assert [len(five) for five in balls.split(" ")] == [5, 5, 5, 5]


def test_a_plan_by_rule_alone_has_no_balls_and_no_table():
    plan = cl.plan(cl.Session(cl.Bowler(), cl.Line(20, 20), pattern=cl.OilPattern("ours", 42.0, "other")))
    text = plan_card(plan)
    page = page_of(text)
    assert "●" not in text
    assert "table" not in {tag for tag, _ in page.tags}
    assert "By the rule of 31 alone" in text


def test_something_else_is_refused():
    with pytest.raises(cl.InputError, match="plan is 3; expected a Plan"):
        plan_card(3)
