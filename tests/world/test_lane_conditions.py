"""What was told of lane and hall."""

import pytest

import coachlib as cl


def test_nothing_is_told_at_first():
    place = cl.Place()
    assert place == cl.Place(False, None, False, False)


def test_it_holds_for_both_lanes_until_told_otherwise():
    session = cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11), lane="7")
    changed = cl.change(session, place=cl.Place(has_others_on_line=True))
    assert cl.change(changed, lane="8").place.has_others_on_line
    assert cl.undo(changed) == session


@pytest.mark.parametrize("wrong", [1, "yes", None])
def test_only_true_or_false(wrong):
    with pytest.raises(cl.InputError, match=r"has_others_on_line is .*; expected True or False"):
        cl.Place(has_others_on_line=wrong)
