"""Deciding: how much must speak for a move, by its way; and the whole answer in a mirror."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.advice.decision import (
    ALIKE_PROB,
    DISPLAY_FACTOR,
    EQUAL_PROB,
    best_allowed,
    decide,
    outward,
    that_way,
)
from coachlib.coaching.advice.line_values import COST_PER_BOARD, LineValues, moves_to_weigh
from coachlib.coaching.simulation.outcomes import n_of_twenty

IN, OUT, EYES_IN, CLOSED = cl.Move(2, 1), cl.Move(-2, -1), cl.Move(0, 1), cl.Move(1, 2)


STAY_PROB = 0.29  # shown as 5 of 20: a gain of 0.03 is one strike of twenty more, one of 0.01 shows too


def worth(move, gain_prob, better_frac, stay_prob=STAY_PROB):
    chances = np.array([stay_prob, stay_prob + gain_prob])
    return LineValues((cl.Move(), move), chances, np.array([0.0, better_frac]))


def choice_of(*worths, stay_prob=STAY_PROB):
    """Return values of moves that gain so much and beat staying on nine lanes of ten."""
    moves, gains = zip(*worths, strict=True)
    chances = stay_prob + np.array([0.0, *gains])
    return LineValues((cl.Move(), *moves), chances, np.array([0.0, *[0.9] * len(moves)]))


def made(values, rule_move=None, forbidden=""):
    answer, number = decide(values, forbidden, rule_move)
    return values.moves[number] if answer == "line" else answer


@pytest.mark.parametrize("move", [IN, OUT, EYES_IN])
@pytest.mark.parametrize(
    ("gain_prob", "better_frac", "answer"),
    [
        (0.03, 0.75, "line"),
        (0.03, 0.6, "watch"),  # told as better on 5 in 10 likely lanes
        (0.03, 0.4, "watch"),
        (0.01, 0.9, "stay"),
    ],
)
def test_a_move_needs_a_gain_and_lanes_that_agree(move, gain_prob, better_frac, answer):
    assert decide(worth(move, gain_prob, better_frac))[0] == answer


@pytest.mark.parametrize(
    ("forbidden", "made"),
    [
        ("", {IN, OUT, EYES_IN, CLOSED}),
        ("inward", {OUT, EYES_IN}),
        ("outward", {IN}),
        ("all", set()),
    ],
)
def test_no_move_is_made_a_barred_way_and_the_feet_tell_it_whatever_the_eyes_do(forbidden, made):
    moves = (IN, OUT, EYES_IN, CLOSED)
    answers = {move: decide(worth(move, 0.1, 0.9), forbidden=forbidden)[0] for move in moves}
    assert answers == {move: "line" if move in made else "watch" for move in moves}


# Of moves that are worth about the same


NO_NAME, BIG, SMALL, PARALLEL = cl.Move(6, 1), cl.Move(4, 2), cl.Move(1, 0), cl.Move(1, 1)


def test_equal_is_what_the_simulation_cannot_tell_apart():
    # A quarter of a ball of twenty; measured by drawing the lanes anew, see tests/benchmarks/equal_moves.py.
    assert pytest.approx(0.25 / 20) == EQUAL_PROB
    assert pytest.approx(2 * 0.003) == ALIKE_PROB  # two standard deviations of it


@pytest.mark.parametrize(
    ("worths", "rule_move", "forbidden", "expected"),
    [
        # of equal moves the rule's own, though it has no name and is big
        (((NO_NAME, 0.050), (IN, 0.060), (SMALL, 0.055)), NO_NAME, "", NO_NAME),
        (((NO_NAME, 0.050), (IN, 0.060), (SMALL, 0.055)), IN, "", IN),
        (((NO_NAME, 0.050), (IN, 0.060), (SMALL, 0.055)), None, "", SMALL),
        # but not where it is barred or gains too little
        (((IN, 0.055), (OUT, 0.060)), IN, "inward", OUT),
        (((IN, 0.055), (OUT, 0.060)), OUT, "outward", IN),
        (((IN, 0.019), (OUT, 0.030)), IN, "", OUT),
        # then one that the trade has a name for (common practice, the moves of the rulebook)
        (((cl.Move(1, -1), 0.060), (BIG, 0.055)), None, "", BIG),
        (((cl.Move(2, 0), 0.060), (cl.Move(-2, -1), 0.055)), None, "", cl.Move(-2, -1)),
        (((cl.Move(0, 2), 0.060), (cl.Move(0, -1), 0.055)), None, "", cl.Move(0, -1)),
        # then one that changes the angle before a parallel one
        (((PARALLEL, 0.060), (BIG, 0.055)), None, "", BIG),
        (((PARALLEL, 0.060), (cl.Move(2, 2), 0.055)), None, "", PARALLEL),
        # then the smallest, and last the better one
        (((BIG, 0.060), (IN, 0.055)), None, "", IN),
        (((cl.Move(-1, 0), 0.055), (SMALL, 0.060)), None, "", SMALL),
        (((cl.Move(-1, 0), 0.060), (SMALL, 0.055)), None, "", cl.Move(-1, 0)),
        # of the trade's moves the smaller one must be alike, not merely equal
        (((BIG, 0.060), (IN, 0.052)), None, "", BIG),
        (((NO_NAME, 0.060), (IN, 0.052)), None, "", IN),
    ],
)
def test_of_equal_moves_one_that_a_coach_would_name_is_made(worths, rule_move, forbidden, expected):
    assert made(choice_of(*worths), rule_move, forbidden) == expected


@pytest.mark.parametrize("rule_move", [None, SMALL])
def test_a_move_that_is_truly_better_is_made_whatever_its_name(rule_move):
    assert made(choice_of((NO_NAME, 0.060), (SMALL, 0.045)), rule_move) == NO_NAME
    cost = COST_PER_BOARD * (7 - 1)  # a move's boards cost a little, so the gains may lie that much apart
    just_equal = choice_of((NO_NAME, 0.060), (SMALL, 0.060 - EQUAL_PROB - cost + 1e-6))
    just_better = choice_of((NO_NAME, 0.060), (SMALL, 0.060 - EQUAL_PROB - cost - 1e-6))
    assert (made(just_equal, rule_move), made(just_better, rule_move)) == (SMALL, NO_NAME)


@pytest.mark.parametrize(
    ("stay_prob", "gain_prob", "answer"),
    [
        (0.30, 0.03, "stay"),  # 6 of 20 before and after
        (0.295, 0.03, IN),  # 5 and 6
        (0.27, 0.049, IN),
        (0.245, 0.045, "stay"),  # 5 and 5
        (0.295, 0.015, "stay"),  # 5 and 6, but too little to be sure
    ],
)
def test_a_move_that_shows_no_strike_of_twenty_more_is_not_made(stay_prob, gain_prob, answer):
    values = worth(IN, gain_prob, 0.9, stay_prob)
    shown = [n_of_twenty(DISPLAY_FACTOR * prob) for prob in values.strike_prob]
    assert (made(values) == IN) is (shown[1] > shown[0] and gain_prob > 0.02)
    assert made(values) == answer


def test_what_shows_no_gain_is_not_even_a_reason_to_watch():
    assert decide(worth(IN, 0.03, 0.1, 0.30))[0] == "stay"
    assert decide(worth(IN, 0.03, 0.1, 0.295))[0] == "watch"


def test_a_forced_line_is_the_best_one_that_no_ball_speaks_against_and_that_does_not_lose():
    values = choice_of((IN, -0.010), (OUT, 0.004), (EYES_IN, -0.050))
    assert values.moves[best_allowed(values, "")] == OUT
    assert values.moves[best_allowed(values, "outward")] == IN
    assert values.moves[best_allowed(values, "", IN)] == OUT  # the rule's own loses more than is equal
    assert best_allowed(values, "all") is None
    assert best_allowed(choice_of((IN, -0.013), (OUT, -0.020)), "") is None


def test_a_settled_way_is_kept_by_the_feet_and_the_eyes_do_not_undo_it():
    moves = choice_of((IN, 0.01), (CLOSED, 0.09), (BIG, 0.05), (OUT, 0.12), (cl.Move(-1, 1), 0.02))
    assert moves.moves[that_way(moves, cl.Move(1, 0))] == BIG
    assert moves.moves[that_way(moves, cl.Move(-1, 0))] == OUT
    eyes = choice_of((cl.Move(0, 1), 0.01), (cl.Move(0, -1), 0.05))
    assert eyes.moves[that_way(eyes, cl.Move(-1, 0))] == cl.Move(0, 1)
    assert eyes.moves[that_way(eyes, cl.Move(2, 1))] == cl.Move(0, -1)
    assert that_way(choice_of((cl.Move(0, 1), 0.01)), cl.Move(2, 1)) is None


def test_outward_is_feet_out_or_eyes_in_alone():
    assert [outward(move) for move in (IN, OUT, EYES_IN, cl.Move(0, -1))] == [False, True, True, False]


def test_moves_within_reach_begin_with_staying_and_keep_to_the_bowler():
    line, bowler = cl.Line(24, 12), cl.Bowler(comfort_board=26)
    usual = moves_to_weigh(line, bowler)
    assert usual[0] == cl.Move()
    assert max(move.feet_boards for move in usual) == 2
    assert all(move.feet_boards == 0 for move in moves_to_weigh(line, bowler, "eyes only"))
    assert max(abs(move.feet_boards) for move in moves_to_weigh(line, bowler, "one board")) == 1


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
