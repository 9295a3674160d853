"""The bracket of the cause: what is shown of an answer, by made-up worth.

The wanted behaviour is the panel's own contract.
"""

import pytest

from coachlib.views.panels.lane_side.answer import cause_view
from tests.answers import caused


@pytest.mark.parametrize(
    ("verdict", "bowler_prob", "covered", "bold"),
    [
        ("too early", 0.5, (0, 4), [2]),
        ("direction known", 0.5, (1, 3), [2]),
        ("direction known", 0.3, (2, 4), [2]),
        ("direction known", 0.65, (0, 2), [2]),
        ("bowler", 0.75, (0, 1), [0]),
        ("bowler", 0.95, (0, 0), [0]),
        ("lane", 0.25, (3, 4), [4]),
        ("lane", 0.05, (4, 4), [4]),
        ("both", 0.5, (0, 4), [0, 4]),
    ],
)
def test_the_bracket_shrinks_with_evidence_and_names_what_it_centres_on(
    verdict: str, bowler_prob: float, covered: tuple[int, int], bold: list[int]
) -> None:
    look = cause_view(caused(verdict, bowler_prob))
    assert look is not None
    assert ((look["first"], look["last"]), look["bold"]) == (covered, bold)
    assert all(look["places"][place] in look["alt"] for place in bold)


def test_without_a_probability_nothing_is_drawn() -> None:
    assert cause_view(caused("bowler", None)) is None
