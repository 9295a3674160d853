"""Speed: whose doing a hit was, and what it is worth in strikes."""

import pytest

from coachlib.coaching.simulation.paths import line_paths
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.question import mark
from tests.study.questions.made import check_drawn

HOUSE = {"pattern": "house_41"}


@pytest.mark.parametrize(("kind", "least"), [("speed_or_lane", 3), ("strikes_after", 5)])
def test_numbers_are_drawn_and_both_hands_are_asked_alike(kind, least):
    check_drawn(kind, least)


@pytest.mark.parametrize(("rest_boards", "answer"), [(0.0, "all"), (1.5, "part"), (-3.0, "none")])
def test_what_speed_does_not_explain_is_left_to_the_lane(rest_boards, answer):
    question = make_question("speed_or_lane", seed=1, off_mph=-0.5, rest_boards=rest_boards, **HOUSE)
    assert question.answer == answer
    assert ("another cause" in question.why) == (answer != "all")
    assert sum(mark(question, one.id).credit for one in question.choices) == 1


def test_a_very_small_part_is_half_no_part():
    question = make_question("speed_or_lane", seed=1, off_mph=-0.5, rest_boards=4.0, **HOUSE)
    assert question.answer == "part"
    assert mark(question, "none").credit == 0.5


def test_half_a_mile_an_hour_is_about_a_board():  # published: two boards a mile, 1 to 3 in our band
    question = make_question("speed_or_lane", seed=1, off_mph=-0.5, rest_boards=0.0, **HOUSE)
    was, hits = (
        line_paths(one, one.line).arrival_board for one in (question.reveal.now, question.reveal.next)
    )
    assert 0.5 <= hits - was <= 1.5


def test_strikes_are_those_of_the_twenty_balls_that_are_drawn():
    question = make_question("strikes_after", seed=1, change={"speed_mph": 1}, **HOUSE)
    assert question.answer == line_paths(question.reveal.next, question.reveal.next.line).n_strikes
    assert mark(question, question.answer + 2).credit == 0.5
    assert mark(question, 20.0).credit == 0


def test_finding_the_pocket_again_brings_back_what_speed_took():
    same, found = (
        make_question("strikes_after", seed=1, change={"speed_mph": 1}, line=line, **HOUSE)
        for line in ("same", "found again")
    )
    assert same.answer < same.ask.start - 2
    assert abs(found.answer - found.ask.start) <= 1


def test_a_ball_in_the_gutter_is_refused():
    with pytest.raises(InputError, match="goes into the gutter; expected a smaller change"):
        make_question(
            "strikes_after", seed=1, change={"pattern": "long_44", "speed_mph": 3}, came_in="light", **HOUSE
        )


def test_an_unknown_line_lists_the_known_ones():
    with pytest.raises(InputError, match="found again"):
        make_question("strikes_after", line="hope")
