"""Sixty and more scripted sequences: what a good coach would say after the last ball, for both hands.

The sequences stand in `sequences/lane_side.toml`, to be read by a coach. They were written from print (the
codes under `source` are those of `data/rules.toml`) and from common practice, not read off the program.
"""

import collections
import dataclasses
import re
from functools import cache

import pytest

from tests.sequence_checks import CHECKS, faults
from tests.sequence_manners import MANNERS
from tests.sequence_play import (
    BEGINNING,
    FOLDED,
    NAMED,
    STEP_WORDS,
    played,
    sequences,
    written,
)

SEQUENCES = sequences()
LEAST_SEQUENCES, LEAST_A_TOPIC, MOST_MODEL_SET_UPS = 60, 2, 8
IDS = [one["name"] for one in SEQUENCES]
SET_UP = ("bowler", "ball", "pattern")
ALSO_SIMULATED = [
    one for one in SEQUENCES if one["model"] is None and all(one[word] == BEGINNING[word] for word in SET_UP)
]


@cache
def answer_to(name, hand):
    return played(SEQUENCES[IDS.index(name)], hand)


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("sequence", SEQUENCES, ids=IDS)
def test_the_answer_is_one_a_coach_would_give(sequence, hand):
    broken = faults(sequence, answer_to(sequence["name"], hand))
    assert not broken, "\n".join([sequence["name"], *broken])


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("sequence", SEQUENCES, ids=IDS)
def test_the_manners_that_are_always_due_are_kept(sequence, hand):
    answer = answer_to(sequence["name"], hand)
    broken = [fault for manner in MANNERS if (fault := manner(answer))]
    assert not broken, "\n".join([sequence["name"], *broken])


@pytest.mark.parametrize("sequence", ALSO_SIMULATED, ids=[one["name"] for one in ALSO_SIMULATED])
def test_the_answer_stands_when_the_simulation_speaks_too(sequence):
    answer = played(sequence | {"model": True}, "right")
    broken = faults(sequence, answer) + [fault for manner in MANNERS if (fault := manner(answer))]
    assert not broken, "\n".join([sequence["name"], *broken])


@pytest.mark.parametrize("sequence", SEQUENCES, ids=IDS)
def test_both_hands_get_the_same_answer_mirrored(sequence):
    right, left = (answer_to(sequence["name"], hand) for hand in ("right", "left"))
    assert (right.advice is None) == (left.advice is None)
    if right.advice is None or left.advice is None:
        return
    assert (right.advice.kind, right.advice.move) == (left.advice.kind, left.advice.move)
    assert right.advice.cause.verdict == left.advice.cause.verdict
    without = (*FOLDED, "notes")  # notes say what it means to bowl left-handed
    assert handless(right.texts(without)) == handless(left.texts(without))


def handless(texts):
    """Return texts with their sides and numbers blotted out: pins and sides differ between the hands."""
    return re.sub(r"\d+", "#", re.sub(r"\b(left|right)\b", "side", "\n".join(texts), flags=re.IGNORECASE))


def test_there_are_enough_sequences_with_names_of_their_own():
    assert len(SEQUENCES) >= LEAST_SEQUENCES
    assert len(set(IDS)) == len(IDS)


def test_every_topic_is_shown_at_least_twice():
    counted = collections.Counter(topic for one in SEQUENCES for topic in one["topics"])
    named = {int(number) for number in written()["topics"]}
    assert set(counted) == named
    assert min(counted.values()) >= LEAST_A_TOPIC


def test_no_word_of_the_file_is_unknown_and_every_sequence_checks_something():
    for one in written()["sequence"]:
        assert set(one) <= NAMED | set(BEGINNING), one["name"]
        assert all(one[word] for word in ("must", "source", "topics")), one["name"]
        assert {*one["must"], *one.get("must_not", {})} <= set(CHECKS), one["name"]
        assert {word for step in one["steps"] for word in step} <= STEP_WORDS, one["name"]


def test_few_set_ups_ask_the_simulation():
    asked = {(one["bowler"], one["ball"], one["pattern"]) for one in SEQUENCES if one["model"]}
    assert 1 <= len(asked) <= MOST_MODEL_SET_UPS


# One tiny sequence, each check word once rightly and once wrongly: three highs that leave the 10.
TINY = BEGINNING | {
    "name": "tiny",
    "steps": [{"cross": 0.0, "arrival": "high", "leave": [10]}] * 3,
    "must": {},
}
ACROSS = "Feet 34, target 22: straight at the 7-pin."  # a left-hander's own corner
RIGHT_AND_WRONG = {
    "kind": (["line"], ["stay"]),
    "way": (["inside"], ["outside"]),
    "move": ([[1, 0], [2, 1]], [[7, 3]]),
    "verdict": (["lane"], ["bowler"]),
    "ball": ([""], ["weaker"]),
    "surface": ([""], ["duller"]),
    "feet": ([1, 3], [4, 9]),
    "eyes": ([0, 1], [2, 9]),
    "speed": ([0, 0], [0.5, 1]),
    "shift": ([-4, -1], [0, 4]),
    "headline": (["{inside}"], ["{outside}"]),
    "headline_starts": (["1|2|3|move*|feet"], ["stay"]),
    "says": (["high"], ["polish the moon"]),
    "tells": (["high"], ["polish the moon"]),
    "has": (["why"], ["odd"]),
    "quotes": (["follow_the_miss"], ["hit_target_wrong_again"]),
    "calls": (["hit_target_wrong_again"], ["pin_four"]),
    "counts": (False, True),
    "spare_says": (["{10}"], ["polish the moon"]),
    "spare_feet": ([20, 45], [-5, 0]),
    "spare_target": ([1, 39], [40, 45]),
    "spare_reaches": (10, 7),
}


@pytest.mark.parametrize("word", sorted(set(CHECKS) - {"first_move"}))
def test_every_check_can_hold_and_can_fail(word):
    right, wrong = RIGHT_AND_WRONG[word]
    answer = played(TINY, "left")
    if word.startswith(
        "spare"
    ):  # so that only the check is tried: by hand, feet 34 over 22 meets the own corner
        answer = dataclasses.replace(answer, said=dataclasses.replace(answer.said, spare=ACROSS))
    assert faults(TINY | {"must": {word: right}}, answer) == []
    assert len(faults(TINY | {"must": {word: wrong}}, answer)) == 1
    assert faults(TINY | {"must_not": {word: wrong}}, answer) == []
    assert len(faults(TINY | {"must_not": {word: right}}, answer)) == 1


def test_the_check_of_the_first_move_can_hold_and_can_fail():
    scored = TINY | {"steps": [*TINY["steps"][:2], {"scoring": True}, TINY["steps"][0]]}
    answer = played(scored, "right")
    assert faults(scored | {"must": {"first_move": True}}, answer) == []
    assert len(faults(scored | {"must": {"first_move": False}}, answer)) == 1


def test_an_entry_that_is_refused_is_a_fault_unless_it_is_asked_for():
    refused = TINY | {"steps": [{"cross": 0.0, "arrival": "high", "leave": [99]}]}
    answer = played(refused, "right")
    assert answer.advice is None
    assert len(faults(refused | {"must": {"way": ["none"]}}, answer)) == 1
    assert faults(refused | {"must": {"kind": ["refused"]}}, answer) == []
