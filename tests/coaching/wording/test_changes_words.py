"""What changes are worth, and both voices in one sentence; the worth in the answers is made up."""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.advice.change_values import Worth
from coachlib.coaching.advice.decision import DISPLAY_FACTOR
from coachlib.coaching.wording.changes_words import voices_text, worth_line
from tests.answers import ONE_AND_ONE, TWO_AND_ONE, answer, voice, worth

LINE = cl.Line(26, 13)
STAY = worth(cl.Move(), 3)
OUT = cl.Move(feet_boards=-1, target_boards=-1)


def told(move, strike=0.40, stay=0.30, better=0.62):
    return Worth(move, LINE, strike / DISPLAY_FACTOR, stay / DISPLAY_FACTOR, better)


def test_a_change_is_said_with_both_chances_and_the_lanes():
    line = worth_line(told(cl.Move(speed_mph=0.5)), "right")
    assert line == "Half a mph faster: about 8 strikes in 20, up from 6. Better on 6 in 10 likely lanes."


@pytest.mark.parametrize(("hand", "side"), [("right", "left"), ("left", "right")])
def test_sides_are_the_bowler_s(hand, side):
    line = worth_line(told(cl.Move(feet_boards=2, target_boards=1)), hand, "solid_1000")
    assert line.startswith(f"solid_1000, 2 and 1 {side}: about 8 strikes in 20")
    assert worth_line(told(cl.Move()), hand, "solid_1000").startswith("solid_1000: about 8 strikes in 20")


def test_a_difference_less_than_the_noise_is_called_about_the_same():
    turned = cl.Move(rotation_deg=-10)
    assert worth_line(told(turned, 0.40, 0.385), "right").endswith(
        ": about the same as now, 8 strikes in 20."
    )
    assert worth_line(told(turned, 0.43, 0.42), "right").endswith(": about the same as now, 8 strikes in 20.")
    assert "the same" not in worth_line(told(turned, 0.43, 0.38), "right")


def test_nothing_is_said_where_they_say_the_same() -> None:
    advice = answer(voice(STAY, worth(TWO_AND_ONE, 6), worth(TWO_AND_ONE, 6)))
    assert voices_text(advice, "right") == ""
    assert voices_text(answer(None, agree=None), "right") == ""
    assert voices_text(answer(voice(STAY, STAY), kind="stay", rule_move=cl.Move()), "right") == ""


@pytest.mark.parametrize(
    ("rule_move", "agree", "said"),
    [
        (ONE_AND_ONE, True, "Rule of thumb: 1 and 1 left. From what you saw, 2 and 1 left looks better."),
        (OUT, False, "Rule of thumb: 1 and 1 right. From what you saw, 2 and 1 left looks better."),
        (cl.Move(), False, "Rule of thumb: no move. From what you saw, 2 and 1 left looks better."),
    ],
)
def test_both_are_said_where_they_differ(rule_move: cl.Move, agree: bool, said: str) -> None:
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
    told = voices_text(answer(beside_stay, rule_move=cl.Move(), agree=False), hand)
    assert told == f"Rule of thumb: no move. From what you saw, 2 and 1 {inside} is about the same."


def test_where_no_counts_are_shown_no_voice_is_set_against_the_rule() -> None:
    model = voice(STAY, worth(TWO_AND_ONE, 3.2))
    advice = answer(model, rule_move=ONE_AND_ONE, agree=False)
    assert voices_text(advice, "right") != ""
    assert voices_text(dataclasses.replace(advice, is_counted=False), "right") == ""
