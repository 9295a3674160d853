"""Clinic papers: twenty of a level are alike in kind and none in content, for both hands.

What a level is and how hard it may be are our own choices, no source; the answers are held against the
library and against published examples in test_worksheet_tasks.py.
"""

import itertools
from collections import Counter
from statistics import fmean

import pytest

import coachlib as cl
from coachlib.study.questions.worksheet_levels import LEVELS
from coachlib.study.questions.worksheet_tasks import MoveTask, PredictTask, ReadTask
from coachlib.study.questions.worksheets import worksheet, worksheets
from tests.clinic_papers import N_PAPERS, NAMES, papers

MOST_SHARED = 3  # of ten tasks
MOST_SPREAD = 15  # things to weigh, between the easiest and the hardest of twenty papers of one level

every_level = pytest.mark.parametrize("level", NAMES)


def questions(paper):
    return [task.question for task in paper.tasks]


@every_level
def test_twenty_papers_have_the_same_number_and_kinds_of_tasks(level):
    kinds = {tuple(type(task) for task in paper.tasks) for paper in papers(level)}
    assert kinds == {(ReadTask,) * 4 + (MoveTask,) * 3 + (PredictTask,) * 3}
    assert len(papers(level)) == N_PAPERS


@every_level
def test_no_two_of_twenty_papers_are_alike(level):
    pairs = list(itertools.combinations(map(questions, papers(level)), 2))
    assert len(pairs) == 190
    shared = [sum(task in other for task in one) for one, other in pairs]
    assert max(shared) <= MOST_SHARED


@every_level
def test_no_task_comes_twice_on_a_paper(level):
    assert [paper.seed for paper in papers(level) if len(set(map(str, questions(paper)))) < 10] == []


@every_level
def test_each_paper_wants_the_same_answers_in_another_order(level):
    wanted = Counter(whose for whose, _ in LEVELS[level].reads)
    orders = set()
    for paper in papers(level):
        answers = [task.answer for task in paper.of(ReadTask)]
        orders.add(tuple(answers))
        assert Counter(answers) == wanted
        assert Counter(task.answer.is_stay for task in paper.of(MoveTask)) == {False: 2, True: 1}
    assert len(orders) > 3


@every_level
def test_papers_of_a_level_are_about_as_hard(level):
    weights = [paper.n_to_weigh for paper in papers(level)]
    assert max(weights) - min(weights) <= MOST_SPREAD
    assert max(weights) > min(weights)


def test_each_level_is_harder_than_the_one_before():
    means = [fmean(paper.n_to_weigh for paper in papers(level)) for level in NAMES]
    assert means[0] + 4 < means[1]
    assert means[1] + 4 < means[2]


@every_level
def test_the_same_seed_is_the_same_paper(level):
    assert questions(worksheet(level, 7)) == questions(papers(level)[6])


@every_level
def test_a_left_handed_class_gets_the_same_paper_in_the_own_frame(level):
    right, left = papers(level, "right", 6), papers(level, "left", 6)
    assert {paper.hand for paper in left} == {"left"}
    assert {task.session.bowler.hand for paper in left for task in paper.tasks} == {"left"}
    for one, other in zip(right, left, strict=True):
        assert questions(one) == questions(other)
        assert [task.answer for task in one.tasks] == [task.answer for task in other.tasks]
        for kind, name in ((PredictTask, "hook_shift_boards"), (MoveTask, "also_right")):
            found = [[getattr(task, name) for task in paper.of(kind)] for paper in (one, other)]
            assert found[0] == found[1]


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"n_papers": 0}, "n_papers is 0; expected 1 to 60 papers. Print a larger class in two lots"),
        ({"n_papers": 500}, "n_papers is 500; expected 1 to 60 papers"),
        ({"n_papers": 2.5}, "n_papers is '2.5'; expected 1 to 60 whole papers"),
        (
            {"seed": "Saturday"},
            "seed is 'Saturday'; expected 0 to 99,980. It is the number of the first paper",
        ),
        ({"seed": -1}, "seed is -1; expected 0 to 99,980"),
        ({"seed": 1.5}, "seed is '1.5'; expected 0 to 99,980 whole"),
        ({"seed": 99_990}, "seed is 99990; expected 0 to 99,980"),
        ({"level": "hard"}, "level is 'hard'; expected one of 'first', 'second', 'third'"),
        ({"hand": "both"}, "hand is 'both'; expected one of 'right', 'left'"),
    ],
)
def test_what_cannot_be_made_is_refused(wrong, message):
    with pytest.raises(cl.InputError) as refused:
        worksheets(**{"n_papers": 20, **wrong})
    assert message in str(refused.value)
