"""Scoring: running score, the most still possible, the worth of a strike, and balls that cannot be."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.errors import InputError
from coachlib.world.game import N_FRAMES, frames, is_complete, max_possible, score


@st.composite
def games(draw):
    """Draw a game, whole or broken off after any ball."""
    rolls = []
    while not is_complete(rolls):
        begun = frames(rolls)
        last = begun[-1].rolls if begun else ()
        left = 10
        is_open = begun and not (len(begun) < N_FRAMES and (last[0] == 10 or len(last) == 2))
        for pins in last if is_open else ():
            left = left - pins or 10
        rolls.append(draw(st.integers(0, left)))
    return rolls[: draw(st.integers(0, len(rolls)))]


@given(games())
def test_the_most_possible_never_rises_and_bounds_the_score(rolls):
    best = [max_possible(rolls[:n_balls]) for n_balls in range(len(rolls) + 1)]
    assert best[0] == 300
    assert all(later <= earlier for earlier, later in pairwise(best))
    assert score(rolls) <= best[-1]


@given(games())
def test_a_finished_game_has_ten_running_scores_that_end_in_its_score(rolls):
    running = [frame.running_score for frame in frames(rolls) if frame.running_score is not None]
    assert running == sorted(running)
    if is_complete(rolls):
        assert len(running) == 10
        assert running[-1] == score(rolls) == max_possible(rolls)


def test_a_frame_waits_for_its_bonus_balls():
    assert [frame.running_score for frame in frames([10, 10])] == [None, None]
    assert [frame.running_score for frame in frames([10, 10, 9])] == [29, None, None]
    assert [frame.running_score for frame in frames([9, 1])] == [None]
    assert score([10, 10, 9]) == 29 + 19 + 9


@pytest.mark.parametrize(
    ("rolls", "best"),
    [
        ([], 300),
        ([9], 290),  # spare then eleven strikes: 20 + 30 * 9
        ([9, 0], 279),
        ([10, 9], 280),
        ([10] * 9 + [9], 279),
        ([10] * 10 + [9], 289),  # 30 * 8 + 29 + 20
        ([10] * 11 + [0], 290),
    ],
)
def test_the_most_still_possible(rolls, best):
    # Worked by hand from the scoring rule.
    assert max_possible(rolls) == best


@pytest.mark.parametrize(
    ("rolls", "match"),
    [
        ([11], r"ball 1 is 11; expected 0 to 10 pins\. Count"),
        ([-1], r"ball 1 is -1; expected 0 to 10 pins"),
        (["X"], r"ball 1 is 'X'; expected 0 to 10 pins"),
        ([True], r"ball 1 is True; expected"),
        ([6, 5], r"frame 1 is \(6, 5\); expected at most 4 pins with ball 2\. Correct it"),
        ([0, 0] * 9 + [3, 4, 1], r"frame 10 is \(3, 4, 1\); expected no ball after the end of the game"),
        ([10] * 13, r"frame 10 is .*; expected no ball after the end"),
        ([0, 0] * 9 + [10, 6, 5], r"frame 10 is \(10, 6, 5\); expected at most 4 pins with ball 3"),
    ],
)
def test_balls_that_cannot_be(rolls, match):
    with pytest.raises(InputError, match=match):
        score(rolls)
