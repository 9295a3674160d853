"""Deciding: how much must speak for a move, by its way; and the whole answer in a mirror."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.model import Deciding, decided, outward
from coachlib.coaching.values import Values, moves_within_reach

IN, OUT, EYES_IN, CLOSED = cl.Move(2, 1), cl.Move(-2, -1), cl.Move(0, 1), cl.Move(1, 2)
WARY = Deciding(outward_margin_prob=0.05, outward_lanes_frac=0.8)


def worth(move, gain_prob, better_frac):
    return Values((cl.Move(), move), np.array([0.3, 0.3 + gain_prob]), np.array([0.0, better_frac]))


@pytest.mark.parametrize(
    ("deciding", "move", "gain_prob", "better_frac", "answer"),
    [
        (Deciding(), IN, 0.03, 0.6, "line"),
        (Deciding(), IN, 0.03, 0.4, "watch"),
        (Deciding(), IN, 0.01, 0.9, "stay"),
        (Deciding(), OUT, 0.03, 0.6, "line"),
        (Deciding(), OUT, 0.03, 0.4, "watch"),
        (Deciding(), OUT, 0.01, 0.9, "stay"),
        (Deciding(), EYES_IN, 0.03, 0.9, "line"),
        (WARY, IN, 0.03, 0.6, "line"),
        (WARY, OUT, 0.03, 0.9, "stay"),
        (WARY, OUT, 0.08, 0.7, "watch"),
        (WARY, OUT, 0.08, 0.9, "line"),
        (WARY, EYES_IN, 0.03, 0.9, "stay"),
    ],
)
def test_a_move_needs_a_gain_and_lanes_that_agree_as_much_as_is_asked_that_way(
    deciding, move, gain_prob, better_frac, answer
):
    assert decided(worth(move, gain_prob, better_frac), deciding)[0] == answer


@pytest.mark.parametrize(
    ("barred", "made"),
    [
        ("", {IN, OUT, EYES_IN, CLOSED}),
        ("inward", {OUT, EYES_IN}),
        ("outward", {IN}),
        ("all", set()),
    ],
)
def test_no_move_is_made_a_barred_way_and_the_feet_tell_it_whatever_the_eyes_do(barred, made):
    moves = (IN, OUT, EYES_IN, CLOSED)
    answers = {move: decided(worth(move, 0.1, 0.9), barred=barred)[0] for move in moves}
    assert answers == {move: "line" if move in made else "watch" for move in moves}


def test_outward_is_feet_out_or_eyes_in_alone():
    assert [outward(move) for move in (IN, OUT, EYES_IN, cl.Move(0, -1))] == [False, True, True, False]


def test_moves_within_reach_begin_with_staying_and_keep_to_the_bowler():
    line, bowler = cl.Line(24, 12), cl.Bowler(comfort_board=26)
    usual = moves_within_reach(line, bowler)
    assert usual[0] == cl.Move()
    assert max(move.feet_boards for move in usual) == 2
    assert all(move.feet_boards == 0 for move in moves_within_reach(line, bowler, "eyes only"))
    assert max(abs(move.feet_boards) for move in moves_within_reach(line, bowler, "one board")) == 1


def test_a_left_hander_on_turned_oil_gets_the_same_numbers_to_the_last_digit():
    film_um = np.array(cl.load_pattern("house_41").film_um)
    film_um[:, :12] *= 0.8  # else the oil would be its own mirror image
    shots = [cl.Shot(crossed_board=12, arrival=19.5, leave=(4,)), cl.Shot(crossed_board=13, arrival="nose")]
    told = []
    for hand, rows in (("right", film_um), ("left", film_um[:, ::-1])):
        oil = dataclasses.replace(cl.load_pattern("house_41"), film_um=tuple(map(tuple, rows.tolist())))
        bowler = dataclasses.replace(cl.load_bowler("club_right"), hand=hand)
        session = cl.Session(
            bowler=bowler, ball=cl.load_ball("hybrid_2000"), pattern=oil, line=cl.Line(24, 12)
        )
        for shot in shots:
            session = cl.observe(session, shot)
        told.append(cl.advise(session))
    right, left = told
    assert right.model is not None
    assert left.model == right.model
    assert (left.kind, left.move, left.cause) == (right.kind, right.move, right.cause)


@pytest.mark.parametrize(
    ("arrival", "motion", "way"), [("nose", "early", 1), ("high", "early", 1), ("far_light", "late", -1)]
)
def test_with_the_model_on_clear_cases_are_sent_the_right_way(arrival, motion, way):
    # the trade's directions: high goes in, light and late goes out (common practice, no source)
    bowler, ball, oil = cl.load_bowler("club_right"), cl.load_ball("hybrid_2000"), cl.load_pattern("house_41")
    session = cl.Session(bowler=bowler, ball=ball, pattern=oil, line=cl.Line(24, 12))
    for _ in range(3):
        session = cl.observe(session, cl.Shot(crossed_board=12, arrival=arrival, motion=motion))
    assert way * cl.advise(session).move.feet_boards > 0
