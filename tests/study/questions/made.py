"""What every kind of question keeps: drawn numbers, both hands, an answer that can be given."""

import re
from collections import Counter

from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import LEVELS, NumberAsk, Question, mark

SEEDS = {level: range(50 if level == "oil" else 12) for level in LEVELS}


def both_hands(kind: str, level: str, seed: int, **options) -> tuple[Question, Question]:
    """Return the same question for both hands."""
    right, left = (
        make_question(kind, level, seed, usual_learner(hand), **options) for hand in ("right", "left")
    )
    return right, left


def mirrored(text: str) -> str:
    """Return a text with left and right the other way round."""
    return re.sub(r"\b(left|right)\b", lambda found: {"left": "right", "right": "left"}[found[0]], text)


def check_drawn(kind: str, least_answers: int, levels=LEVELS, **options) -> None:
    """Check a kind over fifty seeds and both hands: the mirrored question, a good answer, several of them."""
    answers: Counter = Counter()
    for level in levels:
        for seed in SEEDS[level]:
            right, left = both_hands(kind, level, seed, **options)
            assert left.answer == right.answer
            assert left.prompt == mirrored(right.prompt)
            assert left.why == mirrored(right.why)
            assert [one.text for one in left.choices] == [mirrored(one.text) for one in right.choices]
            assert left.answer_text == mirrored(right.answer_text)
            assert _marks(left) == _marks(right)
            _check_can_be_answered(right)
            answers[str(right.answer)] += 1
    assert len(answers) >= least_answers, answers
    assert max(answers.values()) <= 0.7 * sum(answers.values()), answers


def _marks(question: Question) -> list[tuple[str | float, float]]:
    return [(one.answer, one.credit) for one in question.accepts]


def _check_can_be_answered(question: Question) -> None:
    assert question.prompt.endswith("?")
    assert question.why
    assert question.answer_text
    assert mark(question, question.answer).credit == 1
    if isinstance(question.ask, NumberAsk):
        assert question.ask.low <= float(question.answer) <= question.ask.high
        assert (float(question.answer) / question.ask.step).is_integer()
        assert mark(question, question.ask.high).credit < 1 or mark(question, question.ask.low).credit < 1
    else:
        assert 2 <= len(question.choices) <= 4
        assert min(mark(question, one.id).credit for one in question.choices) < 1
