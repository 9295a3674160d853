"""Several balls: where they hook, which do the same, and what they strike, asked again ball by ball."""

import dataclasses
import itertools

import pytest

from coachlib.coaching.equipment.bag import SAME_BOARDS, SAME_FT
from coachlib.coaching.simulation.line_search import best_line
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.ball_choice import LEAST_APART_FT, N_ROUGH
from coachlib.study.questions.question import LEVELS, Level, mark
from tests.study.questions.made import check_drawn

THREE = [{"ball": "hybrid_2000"}, {"ball": "solid_1000"}, {"ball": "pearl_polished"}]
DULL_AND_SMOOTH = [{"ball": "solid_1000"}, {"ball": "pearl_polished"}]


@pytest.mark.parametrize("kind", ["turns_first", "do_the_same"])
def test_every_seed_asks_something_for_both_hands(kind: str) -> None:
    check_drawn(kind, 3)


@pytest.mark.parametrize("kind", ["strikes_of_ball", "ball_for_oil"])
def test_every_seed_counts_strikes_for_both_hands(kind: str) -> None:
    check_drawn(kind, 3, levels=("oil",))


@pytest.mark.parametrize("level", LEVELS)
def test_levels_ask_for_worn_oil_and_for_lanes_with_little_room(level: Level) -> None:
    prompts = [make_question("ball_for_oil", level, seed).prompt for seed in range(4)]
    assert all(("Fresh oil" in one) == (level == "lever") for one in prompts if level in ("lever", "wear"))
    names = {make_question("ball_for_oil", level, seed).scene.now.pattern.name for seed in range(4)}
    assert all(name.startswith(("flat", "long")) for name in names) == (level == "thin")


def test_the_duller_ball_hooks_first() -> None:
    # In print: a coarser surface turns the ball sooner (S32).
    question = make_question("turns_first", balls=THREE)
    assert question.answer == "solid_1000"
    first, last = question.reveal.next, question.reveal.now
    assert first is not None
    hooks_ft = [float(simulate_lines(one).hook_ft[0]) for one in (first, last)]
    assert hooks_ft[1] - hooks_ft[0] >= LEAST_APART_FT
    assert sorted(mark(question, one.id).credit for one in question.choices) == [0.0, 0.0, 1.0]


def test_two_that_do_the_same_are_within_a_foot_and_a_board() -> None:
    for seed in range(10):
        question = make_question("do_the_same", seed=seed)
        one, other = question.reveal.now, question.reveal.next
        assert other is not None
        paths = [simulate_lines(each) for each in (one, other)]
        assert abs(paths[0].hook_ft[0] - paths[1].hook_ft[0]) < SAME_FT
        assert abs(paths[0].arrival_board[0] - paths[1].arrival_board[0]) < SAME_BOARDS
        third = dataclasses.replace(one, ball=question.scene.now.ball)
        assert abs(simulate_lines(third).hook_ft[0] - paths[0].hook_ft[0]) >= SAME_FT


def test_strikes_are_those_of_the_best_starting_line() -> None:
    question = make_question("strikes_of_ball", balls=DULL_AND_SMOOTH, pattern="house_41", film_frac=1.0)
    asked = question.reveal.next
    assert asked is not None
    found = best_line(asked, films=[asked.pattern], n_rough=N_ROUGH)
    assert question.answer == n_of_twenty(found.strike_prob)
    assert asked.line == found.line
    n = float(question.answer)
    assert [mark(question, n + off).credit for off in (0, 1, 2, 3)] == [1.0, 1.0, 0.5, 0.0]


def test_the_smoother_ball_is_better_on_half_of_the_oil_and_no_better_on_fresh_flat_oil() -> None:
    # In print: on burnt lanes the ball that goes longer (S25, S26).
    worn = make_question("ball_for_oil", balls=DULL_AND_SMOOTH, pattern="flat_42", film_frac=0.5)
    fresh = make_question("ball_for_oil", balls=DULL_AND_SMOOTH, pattern="flat_42", film_frac=1.0)
    assert worn.answer == "pearl_polished"
    assert fresh.answer == "same"
    assert mark(worn, "solid_1000").credit == 0.0


def test_sanded_balls_carry_their_pad_in_their_name() -> None:
    pair = [{"ball": "hybrid_2000", "grit": 500}, {"ball": "hybrid_2000", "is_polished": True}]
    question = make_question("ball_for_oil", balls=pair, pattern="house_41", film_frac=0.5)
    assert {one.id for one in question.choices} == {"hybrid_500", "same", "hybrid_polished"}


@pytest.mark.parametrize(
    ("kind", "match"), [("turns_first", "hooks 1.5 ft sooner"), ("do_the_same", "do the same")]
)
def test_balls_that_leave_no_answer_are_refused(kind: str, match: str) -> None:
    same = [
        {"ball": "hybrid_2000"},
        {"ball": "hybrid_2000", "grit": 1900},
        {"ball": "hybrid_2000", "grit": 1950},
    ]
    with pytest.raises(InputError, match=match):
        make_question(kind, balls=same, pattern="house_41")


def test_a_film_that_is_none_is_refused() -> None:
    with pytest.raises(InputError, match="film_frac is 9"):
        make_question("ball_for_oil", film_frac=9.0)


def test_choices_do_not_give_the_answer_away_by_their_place() -> None:
    places = [
        [one.id for one in question.choices].index(str(question.answer))
        for question in (make_question("turns_first", seed=seed) for seed in range(50))
    ]
    assert all(places.count(place) >= 50 // 8 for place in range(3))
    assert any(a != b for a, b in itertools.pairwise(places))
