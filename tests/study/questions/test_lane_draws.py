"""The lane of a question: as hard as its level, the same from both sides."""

import numpy as np
import pytest

from coachlib.coaching.simulation.paths import line_paths
from coachlib.errors import InputError
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.case import Case
from coachlib.study.questions.lane_draws import PATTERNS, drawn_lane
from coachlib.study.questions.question import LEVELS
from coachlib.study.questions.what_changes import CAME_IN
from coachlib.world.oil import load_pattern


def _case(level, seed=0, hand="right"):
    return Case("hit_after", level, seed, usual_learner(hand), np.random.default_rng(seed))


def test_every_level_has_patterns_that_are_the_same_from_both_sides():
    assert set(PATTERNS) == set(LEVELS)
    for name in {one for names in PATTERNS.values() for one in names}:
        film_um = load_pattern(name).film_array_um
        np.testing.assert_allclose(film_um, film_um[:, ::-1], atol=1e-9)


@pytest.mark.parametrize("level", LEVELS)
def test_a_drawn_lane_is_one_of_its_level(level):
    names = {drawn_lane(_case(level, seed), "start").pattern.name for seed in range(20)}
    assert {name.split(",")[0].split(" ")[0] for name in names} <= set(PATTERNS[level]) or level == "wear"
    assert len(names) == len(PATTERNS[level])


def test_a_lane_about_wear_has_less_oil_than_it_was_given():
    worn = drawn_lane(_case("wear"), "start", pattern="house_41").pattern
    assert worn.volume_ml < load_pattern("house_41").volume_ml


@pytest.mark.parametrize("where", sorted(CAME_IN))
def test_the_ball_comes_in_where_it_is_asked_to(where):
    session = drawn_lane(_case("oil"), where, pattern="house_41")
    assert abs(line_paths(session, session.line).arrival_board - CAME_IN[where]) <= 0.5


def test_a_pattern_that_nobody_knows_is_named():
    with pytest.raises(InputError, match="nowhere"):
        drawn_lane(_case("oil"), pattern="nowhere")
