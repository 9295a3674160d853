"""Clinic papers made once for all tests that read them."""

import functools

from coachlib.study.questions.worksheet_levels import LEVELS
from coachlib.study.questions.worksheets import worksheets

N_PAPERS = 20
NAMES = tuple(LEVELS)


@functools.cache
def papers(level, hand="right", n_papers=N_PAPERS):
    return worksheets(level, n_papers, seed=1, hand=hand)


def all_tasks(kind, hand="right"):
    return [task for level in NAMES for paper in papers(level, hand) for task in paper.of(kind)]
