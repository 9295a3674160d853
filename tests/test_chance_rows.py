"""Rows of twenty balls and the bracket of the cause: what is shown of an answer, by made-up worth.

The wanted behaviour is the panel's own contract; counts are read off the worth put in.
"""

import pytest

from coachlib import Move, Session
from coachlib.coaching.advice import advise
from coachlib.views.panels.chance_rows import cause_look, chance_rows, line_rows
from tests.answers import ONE_AND_ONE, SESSION, TWO_AND_ONE, answer, caused, voice, worth

STAY = worth(Move(), 3)


def _told(rows: list[dict[str, object]]) -> list[tuple[object, object, object]]:
    return [(row["words"], row["n"], row["is_then"]) for row in rows]


def test_the_rule_alone_has_no_rows() -> None:
    advice = answer(None, agree=None)
    assert chance_rows(advice, "right") == line_rows(advice) == []


def test_now_and_then() -> None:
    advice = answer(voice(STAY, worth(TWO_AND_ONE, 6), worth(TWO_AND_ONE, 6)))
    assert _told(chance_rows(advice, "right")) == [("stay", 3, False), ("2 and 1 left", 6, True)]
    assert _told(chance_rows(advice, "left"))[1] == ("2 and 1 right", 6, True)


@pytest.mark.parametrize("agree", [True, False])
def test_the_rules_move_is_valued_wherever_it_is_another_one(agree: bool) -> None:
    advice = answer(voice(STAY, worth(TWO_AND_ONE, 6), worth(ONE_AND_ONE, 4)), agree=agree)
    assert _told(chance_rows(advice, "right")) == [
        ("stay", 3, False),
        ("rule: 1 and 1 left", 4, False),
        ("model: 2 and 1 left", 6, True),
    ]


def test_staying_shows_what_comes_next_and_nothing_in_blue() -> None:
    advice = answer(voice(STAY, worth(ONE_AND_ONE, 3.2), None), kind="watch")
    rows = chance_rows(advice, "right")
    assert _told(rows) == [("stay", 3, False), ("1 and 1 left", 3, False)]
    assert [row["note"] for row in rows] == ["", "equal"]


def test_a_move_is_not_shown_twice() -> None:
    advice = answer(voice(STAY, worth(TWO_AND_ONE, 4), worth(TWO_AND_ONE, 4)), kind="stay", agree=False)
    assert _told(chance_rows(advice, "right")) == [("stay", 3, False), ("rule: 2 and 1 left", 4, False)]


def test_another_kind_of_change_shows_what_the_line_is_worth() -> None:
    advice = answer(voice(STAY, STAY), kind="speed", rule_move=Move(speed_mph=0.5))
    assert _told(chance_rows(advice, "right")) == [("stay", 3, False)]


def test_before_a_ball_only_the_line_has_a_row() -> None:
    advice = advise(SESSION)
    assert isinstance(SESSION, Session)
    assert advice.model is not None
    n = round(20 * advice.model.stay.strike_prob)
    assert _told(chance_rows(advice, "right")) == _told(line_rows(advice)) == [("this line", n, False)]


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
    look = cause_look(caused(verdict, bowler_prob))
    assert look is not None
    assert ((look["first"], look["last"]), look["bold"]) == (covered, bold)
    assert all(look["places"][place] in look["alt"] for place in bold)


def test_without_a_probability_nothing_is_drawn() -> None:
    assert cause_look(caused("bowler", None)) is None
