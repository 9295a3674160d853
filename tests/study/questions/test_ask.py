"""Making questions: the same draw each time, and whatever other kinds there are."""

import pytest

from coachlib.study.questions import ask
from coachlib.study.questions.ask import KINDS, make_question


def test_another_kind_beside_it_does_not_change_a_question(monkeypatch: pytest.MonkeyPatch) -> None:
    before = [make_question("move_on_paper", seed=seed) for seed in range(5)]
    monkeypatch.setattr(ask, "KINDS", {"a_new_kind": KINDS["way_after"], **KINDS})
    assert [make_question("move_on_paper", seed=seed) for seed in range(5)] == before
