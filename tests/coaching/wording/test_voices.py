"""Both voices in one sentence. The wanted words are our own; the worth in the answers is made up."""

import dataclasses

import pytest

from coachlib import Move
from coachlib.coaching.wording.voices import voices_text
from tests.answers import ONE_AND_ONE, TWO_AND_ONE, answer, voice, worth

STAY = worth(Move(), 3)
OUT = Move(feet_boards=-1, target_boards=-1)


def test_nothing_is_said_where_they_say_the_same() -> None:
    advice = answer(voice(STAY, worth(TWO_AND_ONE, 6), worth(TWO_AND_ONE, 6)))
    assert voices_text(advice, "right") == ""
    assert voices_text(answer(None, agree=None), "right") == ""
    assert voices_text(answer(voice(STAY, STAY), kind="stay", rule_move=Move()), "right") == ""


@pytest.mark.parametrize(
    ("rule_move", "agree", "said"),
    [
        (ONE_AND_ONE, True, "Rule of thumb: 1 and 1 left. From what you saw, 2 and 1 left looks better."),
        (OUT, False, "Rule of thumb: 1 and 1 right. From what you saw, 2 and 1 left looks better."),
        (Move(), False, "Rule of thumb: no move. From what you saw, 2 and 1 left looks better."),
    ],
)
def test_both_are_said_where_they_differ(rule_move: Move, agree: bool, said: str) -> None:
    advice = answer(voice(STAY, worth(TWO_AND_ONE, 6)), rule_move=rule_move, agree=agree)
    assert voices_text(advice, "right") == said
    mirrored = said.replace("left", "*").replace("right", "left").replace("*", "right")
    assert voices_text(advice, "left") == mirrored


def test_what_the_reason_says_is_not_said_twice() -> None:
    model = voice(STAY, STAY, worth(TWO_AND_ONE, 3))
    assert voices_text(answer(model, kind="watch", agree=False), "right") == ""
    silent = voice(STAY, STAY, None)
    assert voices_text(answer(silent, kind="watch", agree=False), "right") == (
        "Rule of thumb: 2 and 1 left. From what you saw, that is not sure to help."
    )


@pytest.mark.parametrize("hand", ["right", "left"])
def test_equal_counts_are_no_reason_to_differ(hand: str) -> None:
    equal = voice(STAY, worth(TWO_AND_ONE, 6), worth(ONE_AND_ONE, 6))
    told = voices_text(answer(equal, rule_move=ONE_AND_ONE, agree=True), hand)
    inside = "left" if hand == "right" else "right"
    assert told == f"Rule of thumb: 1 and 1 {inside}. From what you saw, 2 and 1 {inside} is about the same."
    beside_stay = voice(STAY, worth(TWO_AND_ONE, 3.2))
    told = voices_text(answer(beside_stay, rule_move=Move(), agree=False), hand)
    assert told == f"Rule of thumb: no move. From what you saw, 2 and 1 {inside} is about the same."


def test_where_no_counts_are_shown_no_voice_is_set_against_the_rule() -> None:
    model = voice(STAY, worth(TWO_AND_ONE, 3.2))
    advice = answer(model, rule_move=ONE_AND_ONE, agree=False)
    assert voices_text(advice, "right") != ""
    assert voices_text(dataclasses.replace(advice, is_counted=False), "right") == ""
