"""A ball past the head pin on the far side: a class of its own, through shot, log, belief, rules and words.

Limits: the ball of 8.595 in and the pin of 4.766 in just touch 6.28 boards from the centre (derived from the
federation's specification, quoted second-hand); the class begins at the mirror image of ``out``.
"""

import itertools

import pytest

import coachlib as cl
from coachlib.coaching.belief.cause import blame
from coachlib.coaching.belief.filter import believe
from coachlib.coaching.session.ball_reading import side_of
from coachlib.records.log.events import event_text, read_event
from coachlib.records.spreadsheets import columns
from coachlib.views.panels.shared.shots import all_seen_words, seen_words
from coachlib.world.lane import (
    ARRIVAL_CLASSES,
    CENTRE_BOARD,
    arrival_class,
    arrival_class_board,
    class_limits,
)
from coachlib.world.pins import ALL_PINS

PAST = cl.Shot(crossed_board=11, arrival="past", leave=(1, 2, 3, 5, 6, 9, 10))


def session_of(*shots, hand="right", **fields):
    session = cl.Session(bowler=cl.Bowler(hand=hand), line=cl.Line(22, 11), **fields)
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def test_it_is_the_mirror_image_of_out():
    out, past = class_limits("out")[1], class_limits("past")[0]
    assert CENTRE_BOARD - out == pytest.approx(past - CENTRE_BOARD)
    assert past - CENTRE_BOARD == pytest.approx((8.595 + 4.766) / 2 / (41.5 / 39), abs=0.05)
    sides = [CENTRE_BOARD - arrival_class_board("out"), arrival_class_board("past") - CENTRE_BOARD]
    assert sides[0] == sides[1]


def test_the_classes_follow_each_other_without_a_gap():
    limits = [class_limits(name) for name in ARRIVAL_CLASSES]
    assert all(one[1] == other[0] for one, other in itertools.pairwise(limits))
    for name in ARRIVAL_CLASSES:
        assert arrival_class(arrival_class_board(name)) == name
    assert (arrival_class(26.3), arrival_class(26.4)) == ("crossover", "past")


def test_it_is_high_and_severe():
    assert side_of(PAST) == "high"
    facts = cl.advise(session_of(PAST), model_on=False).reading.facts
    assert facts["is_severe"]
    assert facts["err_boards"] == 10.0


@pytest.mark.parametrize(("hand", "inside"), [("right", "left"), ("left", "right")])
def test_twice_on_target_it_moves_the_line_inside_and_is_told_as_what_it_is(hand, inside):
    advice = cl.advise(session_of(PAST, PAST, hand=hand), model_on=False)
    assert advice.kind == "line"
    assert advice.move.feet_boards > 0
    said = cl.say(advice)
    assert inside in said.headline
    assert "went past the head pin" in said.sentence


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_belief_takes_it_as_farther_in_than_a_crossover(hand):
    oil = {"pattern": cl.load_pattern("house_41"), "ball": cl.load_ball("hybrid_2000"), "hand": hand}
    boards = {}
    for name in ("past", "crossover", "high"):
        belief = believe(session_of(*[cl.Shot(crossed_board=11, arrival=name)] * 2, **oil))
        boards[name] = blame(belief).meant_board
    assert boards["past"] > boards["crossover"] > boards["high"]


@pytest.mark.parametrize("hand", ["right", "left"])
def test_log_and_spreadsheet_bring_it_back(hand):
    read = read_event("shot", event_text({"shot": PAST}))
    assert read["shot"] == PAST
    assert columns.shot_from_cells(columns.shot_cells(PAST, hand), hand) == PAST


def test_three_high_balls_that_leave_the_nine_move_inside_without_a_conflict():
    nine = cl.Shot(crossed_board=11, arrival="high", motion="even", leave=(9,))
    advice = cl.advise(session_of(nine, nine, nine), model_on=False)
    assert advice.kind == "line"
    assert advice.move.feet_boards > 0
    assert cl.say(advice).conflict == ""
    pocket = cl.Shot(crossed_board=11, arrival="pocket", motion="even", leave=(9,))
    outside = cl.advise(session_of(pocket, pocket), model_on=False)
    assert outside.rule.rule_ids[0] == "pin_nine"


@pytest.mark.parametrize("hand", ["right", "left"])
def test_list_and_students_page_name_the_gutter_and_the_far_miss(hand):
    gutter = cl.Shot(arrival="out", leave=ALL_PINS)
    assert seen_words(gutter, hand) == "gutter · all ten stand"
    assert all_seen_words(gutter, hand).startswith("Ended in the gutter")
    assert seen_words(PAST, hand).startswith("11 · past · pins")
    assert "went past the head pin" in all_seen_words(PAST, hand)
