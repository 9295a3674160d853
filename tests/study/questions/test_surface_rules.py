"""What may be done to a surface: the rule of competition in the rulebook, before scoring and after."""

import pytest

from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.question import mark
from coachlib.study.questions.surface_rules import TIMES, WAYS
from tests.study.questions.made import check_drawn

KIND = "may_change_surface"


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize(("when", "answer"), [("practice", "whole"), ("scoring", "towel")])
def test_only_before_the_first_scored_ball_and_the_whole_ball(when: str, answer: str, way: str) -> None:
    # Competition rule as data/rules.toml has it (rule18): no surface is altered once scoring has started.
    question = make_question(KIND, when=when, way=way)
    marks = {one.id: mark(question, one.id).credit for one in question.choices}
    assert marks == {one: float(one == answer) for one in ("whole", "strip", "towel")}


def test_every_seed_asks_something_for_both_hands() -> None:
    check_drawn(KIND, 2)


def test_local_rules_have_the_last_word() -> None:
    question = make_question(KIND, when=TIMES[0])
    assert "local rules" in next(one.text for one in question.choices if one.id == "whole")
    assert "local rule" in question.why


@pytest.mark.parametrize("options", [{"when": "later"}, {"way": "shinier"}])
def test_wrong_options_are_named(options: dict[str, str]) -> None:
    with pytest.raises(InputError, match=f"{next(iter(options))} is"):
        make_question(KIND, **options)
