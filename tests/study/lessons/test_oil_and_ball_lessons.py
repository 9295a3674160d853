"""The lessons on oil, two balls, surface and the bag: what their texts claim follows from what is thrown.

Each claim with a number or a direction is asked of the simulation or the rulebook for the usual learner, so
that a change of either turns this red. Simulated numbers are our own (regression), the directions stand in
print with the rules that are named.
"""

import re
from pathlib import Path

import pytest

from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import LinePaths, line_paths
from coachlib.files import data_path
from coachlib.study.lessons.lesson import load_lesson
from coachlib.study.questions.question import mark
from coachlib.study.questions.total_turn import total_turn_deg
from coachlib.world.hand import HANDS, Hand
from coachlib.world.lane import arrival_class
from tests.study.lessons.shown import before_and_after, questions

NAMES = ("oil_and_wear", "two_balls", "surface", "the_bag")
every_hand = pytest.mark.parametrize("hand", HANDS)
every_lesson = pytest.mark.parametrize("name", NAMES)


def _paths(session: Session | None) -> LinePaths:
    assert session is not None
    return line_paths(session, session.line)


# What every lesson keeps


@every_lesson
def test_the_learner_says_what_they_know_now(name: str) -> None:
    assert re.search(r"\b(I|my)\b", load_lesson(name).recap)


@every_lesson
def test_sides_are_written_for_either_hand(name: str) -> None:
    path = Path(data_path(f"lessons/{name}.toml"))
    lines = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    assert lines
    assert not [line for line in lines if re.search(r"\b(left|right)\b", line)]


# Oil and wear


@every_hand
def test_worn_oil_sends_the_ball_high_and_sooner_but_not_further_round(hand: Hand) -> None:
    way, turn, back, *_ = questions("oil_and_wear", hand)
    was, worn = before_and_after(way)
    assert way.answer == "high"
    assert worn.arrival_board > was.arrival_board + 1
    assert worn.breakpoint_ft < was.breakpoint_ft - 1
    assert turn.answer == "same"
    assert turn.reveal.next is not None
    assert total_turn_deg(turn.reveal.next) == pytest.approx(total_turn_deg(turn.reveal.now), abs=0.01)
    assert worn.path.entry_deg[0] == pytest.approx(was.path.entry_deg[0], abs=0.01)
    # Feet 1 inside, or 2 and 1: a hit near 17½.
    _, moved = before_and_after(back)
    assert mark(back, "+1 +0").credit == mark(back, "+2 +1").credit == 1.0
    assert moved.arrival_board == pytest.approx(17.5, abs=0.5)


@every_hand
def test_a_light_ball_is_asked_where_it_turned(hand: Hand) -> None:
    *_, late, early, unseen = questions("oil_and_wear", hand)
    assert (late.answer, early.answer, unseen.answer) == ("out", "smoother", "watch")
    assert [mark(early, one).credit for one in ("smoother", "out", "watch")] == [1.0, 0.5, 0.0]
    light, moved = before_and_after(late)
    assert arrival_class(light.arrival_board) == "light"
    assert moved.arrival_board > light.arrival_board
    _, smoother = before_and_after(early)
    assert arrival_class(smoother.arrival_board) in ("pocket", "high")
    in_print = [one.move for one in load_rulebook().rule("burnt_not_oily").moves]
    assert in_print
    assert all(move.feet_boards >= 0 for move in in_print)
    assert any(move.ball == "weaker" for move in in_print)


# Two balls


@every_hand
def test_a_stronger_ball_turns_sooner_not_more_and_takes_the_feet_along(hand: Hand) -> None:
    turn, hit, total, back, flat = questions("two_balls", hand)
    first, second = before_and_after(turn)
    assert turn.answer == "sooner"
    assert second.breakpoint_ft < first.breakpoint_ft - 1
    assert float(hit.answer) >= 19
    assert total.answer == "same"
    assert back.answer == "+1 +0"
    assert mark(back, "+2 +1").credit == 1.0
    assert flat.answer == "+4 +2"
    assert arrival_class(_paths(flat.scene.next).arrival_board) == "crossover"
    assert mark(flat, "+0 +0").credit == 0.0


def test_flat_oil_takes_twice_the_move() -> None:
    *_, back, flat = questions("two_balls", "right")
    taken = [
        one[0].arrival_board - one[1].arrival_board
        for one in (before_and_after(back), before_and_after(flat))
    ]
    assert 1.5 <= taken[1] / taken[0] <= 2.5


# Surface


@every_hand
def test_a_duller_ball_hits_higher_and_turns_sooner_but_not_more(hand: Hand) -> None:
    turn, way, total, worn, game = questions("surface", hand)
    was, dull = before_and_after(way)
    assert way.answer == "high"
    assert dull.arrival_board > was.arrival_board + 2
    assert turn.answer == "sooner"
    assert total.answer == "same"
    assert dull.path.entry_deg[0] == pytest.approx(was.path.entry_deg[0], abs=0.01)
    assert worn.answer == "hybrid_polished"
    assert mark(worn, "same").credit == 0.0
    assert game.answer == "towel"


def test_sanding_says_its_cautions() -> None:
    said = load_rulebook().rule("dust_and_rules").do
    caution = load_lesson("surface").caution
    for words in (
        "Sand wet",
        "mask and eye protection",
        "clear of anything that turns",
        "as local rules allow",
    ):
        assert words in said
        assert words in caution


# The bag


@every_hand
def test_a_second_ball_adds_little_on_fresh_oil_and_a_smooth_one_more_on_worn_oil(hand: Hand) -> None:
    first, same, strikes, worn = questions("the_bag", hand)
    assert first.answer == "solid_1000"
    assert set(str(same.answer).split()) == {"hybrid_polished", "pearl_polished"}
    with_first = float(re.search(r"about (\d+) in 20", strikes.prompt).group(1))  # type: ignore[union-attr]
    assert abs(float(strikes.answer) - with_first) <= 1
    assert worn.answer == "pearl_polished"
    assert mark(worn, "solid_1000").credit == 0.0


@pytest.mark.parametrize("name", ["two_balls", "the_bag"])
def test_weight_and_grip_are_left_to_the_qualified(name: str) -> None:
    assert "qualified shop" in load_lesson(name).caution
