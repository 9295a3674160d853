"""The bag: places, overlaps, gaps, and the exact search for the smallest bag that is enough."""

import dataclasses
import itertools

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.equipment.bag import Bag, BallPlace, evaluate_bag, smallest_bag
from coachlib.coaching.simulation.line_search import BestLine

CLUB = cl.load_bowler("club_right")
FIRST = cl.load_ball("hybrid_2000")
BALLS = [FIRST, dataclasses.replace(FIRST, name="twin"), cl.load_ball("plastic_spare")]
PATTERNS = [cl.load_pattern("house_41"), cl.load_pattern("flat_42")]
LINE = cl.Line(25, 14)


@pytest.fixture(scope="module")
def looked():
    told = []
    bag = evaluate_bag(CLUB, BALLS, PATTERNS, progress=lambda done, of: told.append((done, of)))
    return bag, told


def made_up(chances, slips=None):
    """Return a bag with given chances; nothing is thrown."""
    chances = np.array(chances, dtype=float)
    slips = np.zeros_like(chances) if slips is None else np.array(slips, dtype=float)
    balls = tuple(dataclasses.replace(FIRST, name=f"ball_{number}") for number in range(len(chances)))
    best = tuple(
        tuple(BestLine(LINE, chance, slips_frac=slip) for chance, slip in zip(*rows, strict=True))
        for rows in zip(chances, slips, strict=True)
    )
    patterns = tuple(PATTERNS[0] for _ in chances[0])
    places = tuple(BallPlace(ball, 30.0 + 5.0 * n, 20.0 - n) for n, ball in enumerate(balls))
    return Bag(CLUB, balls, patterns, chances, best, places)


def names(balls):
    return [ball.name for ball in balls]


def test_twins_are_worth_the_same_and_do_the_same(looked):
    bag, _ = looked
    assert bag.chances_prob[0] == pytest.approx(bag.chances_prob[1])
    assert bag.overlaps == (("hybrid_2000", "twin"),)
    assert 0.2 < bag.chances_prob[0].min() < bag.chances_prob[0].max() < 0.7


def test_balls_stand_by_skid_the_shortest_first(looked):
    bag, _ = looked
    assert [one.ball.name for one in bag.places] == ["hybrid_2000", "twin", "plastic_spare"]
    assert bag.places[2].covered_boards < bag.places[0].covered_boards - 5


def test_a_ball_that_slips_is_told_and_not_counted(looked):
    bag, _ = looked
    assert bag.unknown == ("plastic_spare",)
    assert bag.counted_prob[2].tolist() == [0.0, 0.0]
    assert names(smallest_bag(bag)) == ["hybrid_2000"]


def test_where_all_slip_there_is_nothing_better_to_go_by():
    bag = made_up([[0.3], [0.4]], slips=[[1.0], [0.9]])
    assert bag.counted_prob.tolist() == [[0.3], [0.4]]
    assert names(smallest_bag(bag)) == ["ball_1"]


def test_progress_is_told_to_the_end(looked):
    assert looked[1] == [(number, 6) for number in range(1, 7)]


def test_gaps_are_named_between_neighbours():
    assert made_up([[0.4], [0.4], [0.4]]).gaps == (("ball_0", "ball_1"), ("ball_1", "ball_2"))


def test_the_smallest_bag_is_exact_against_trying_by_hand():
    # each of the first three is good on one pattern only, the fourth keeps 95 of 100 on two of them
    chances = [[0.40, 0.1, 0.1], [0.1, 0.40, 0.1], [0.1, 0.1, 0.40], [0.385, 0.385, 0.1]]
    assert names(smallest_bag(made_up(chances))) == ["ball_2", "ball_3"]
    assert names(smallest_bag(made_up(chances), keep_frac=0.99)) == ["ball_0", "ball_1", "ball_2"]
    assert names(smallest_bag(made_up(chances), keep_frac=0.2)) == ["ball_3"]


def test_the_smallest_bag_against_all_bags_of_random_chances():
    # independent method: every subset asked one by one
    chances = np.random.default_rng(5).uniform(0.2, 0.5, size=(7, 5))
    found = smallest_bag(made_up(chances), 0.9)
    size = next(
        n
        for n in range(1, 8)
        if any(
            all(max(chances[ball, p] for ball in pick) >= 0.9 * max(chances[:, p]) for p in range(5))
            for pick in itertools.combinations(range(7), n)
        )
    )
    assert len(found) == size > 1


def test_the_first_out_is_the_best_there_and_of_equals_the_first():
    bag = made_up([[0.40, 0.30], [0.41, 0.36]])
    assert bag.first_out(0).name == "ball_0"
    assert bag.first_out(1).name == "ball_1"


@pytest.mark.parametrize(
    ("balls", "patterns", "message"),
    [
        ([FIRST, FIRST], PATTERNS, "balls has 'hybrid_2000' twice"),
        ([FIRST], PATTERNS, "at least 2 balls"),
        (BALLS, [], "at least one pattern"),
        (BALLS, [cl.OilPattern("sheet", 40.0)], "has no film"),
        ([dataclasses.replace(FIRST, name=f"b{n}") for n in range(17)], PATTERNS, "balls has 17 balls"),
    ],
)
def test_what_is_no_bag_is_told(balls, patterns, message):
    with pytest.raises(cl.InputError, match=message):
        evaluate_bag(CLUB, balls, patterns)
