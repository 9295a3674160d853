"""Scores of published sample games, and the sums that every rule book and coaching page prints."""

import pytest

from coachlib.world.game import frames, max_possible, score

# R. C. Martin, "The Bowling Game Kata", 2005: the score sheet on its first page, from memory.
SAMPLE = (1, 4, 4, 5, 6, 4, 5, 5, 10, 0, 1, 7, 3, 6, 4, 10, 2, 8, 6)
SAMPLE_RUNNING = (5, 14, 29, 49, 60, 61, 77, 97, 117, 133)


def test_the_sample_score_sheet():
    assert tuple(frame.running_score for frame in frames(SAMPLE)) == SAMPLE_RUNNING
    assert score(SAMPLE) == 133


@pytest.mark.parametrize(
    ("rolls", "expected"),
    [
        ((10,) * 12, 300),  # twelve strikes: USBC Playing Rules, a perfect game
        ((0,) * 20, 0),
        ((9, 0) * 10, 90),
        ((5, 5) * 10 + (5,), 150),
        ((9, 1) * 10 + (9,), 190),
        ((10, 9, 1) * 5 + (10,), 200),  # strike and spare in turn: trade saying "Dutch 200"
        ((9, 1, 10) * 5 + (9, 1), 200),
    ],
)
def test_sums_that_coaching_pages_print(rolls, expected):
    assert score(rolls) == expected
    assert max_possible(rolls) == expected
