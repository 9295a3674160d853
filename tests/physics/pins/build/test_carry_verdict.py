"""Verdicts in words, and the reasons beside them."""

import pytest

from coachlib.physics.pins.build.carry_facts import published_facts
from coachlib.physics.pins.build.carry_verdict import WHY, CheckedFact, pct, wilson_interval


def test_a_verdict_is_told_in_words_and_only_a_difference_is_explained():
    statement = "the bucket, light"
    met, missed, open_ = (CheckedFact(statement, "a", "b", agrees, "c") for agrees in (True, False, None))
    assert [fact.verdict for fact in (met, missed, open_)] == ["agrees", "differs", "not tested"]
    assert met.why == ""
    assert missed.why == open_.why == WHY[statement]
    assert CheckedFact("something else", "a", "b", False, "c").why == ""


def test_every_reason_belongs_to_a_statement():
    statements = [fact.statement for fact in published_facts()]
    assert len(statements) == len(set(statements))
    assert set(WHY) <= set(statements)


def test_shares_are_told_with_their_error_where_there_is_one():
    assert pct(0.744) == "74 %"
    assert pct(0.744, 0.031) == "74 % ± 3"


@pytest.mark.parametrize(("n_hits", "n_balls"), [(0, 7), (8, 10), (40, 54), (40, 66), (66, 66)])
def test_the_interval_is_wilson_s_to_the_last_digits(n_hits, n_balls):
    # E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212, at 1.96 standard errors
    z, share = 1.96, n_hits / n_balls
    middle = (share + z * z / n_balls / 2) / (1 + z * z / n_balls)
    half = z / (1 + z * z / n_balls) * (share * (1 - share) / n_balls + (z / n_balls / 2) ** 2) ** 0.5
    assert wilson_interval(n_hits, n_balls) == pytest.approx((middle - half, middle + half), abs=1e-9)


def test_intervals_worked_by_hand():
    assert wilson_interval(8, 10) == pytest.approx((0.490, 0.943), abs=0.001)
    assert wilson_interval(40, 54) == pytest.approx((0.611, 0.839), abs=0.001)
