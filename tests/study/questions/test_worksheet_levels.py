"""The levels of clinic papers: alike in shape, each with something that the one before does not have.

The levels are our own choice, no source.
"""

from coachlib.study.questions.worksheet_levels import LEVELS


def test_all_levels_have_the_same_shape():
    shapes = {(len(level.reads), len(level.predicts), len(level.moves)) for level in LEVELS.values()}
    assert shapes == {(4, 3, 3)}
    assert [level.name for level in LEVELS.values()] == list(LEVELS)


def test_each_level_says_what_makes_it():
    for level in LEVELS.values():
        assert [text.split(":")[0] for text in level.about] == ["Read", "Name", "Predict"]
    assert len({text for level in LEVELS.values() for text in (level.title, *level.about)}) == 12


def test_bowler_lane_and_cannot_tell_are_wanted_on_every_level():
    for level in LEVELS.values():
        assert {"bowler", "lane", "cannot tell"} <= {whose for whose, _ in level.reads}


def test_walkers_and_other_targets_come_with_the_levels():
    first, second, third = (level.predicts for level in LEVELS.values())
    assert all(moves.is_line_given and moves.walks == ("slide",) for moves in first)
    assert any(moves.walks == ("walk",) for moves in second)
    assert {moves.targets_ft for moves in (*first, *second)} == {(15.0,)}
    assert any(moves.targets_ft != (15.0,) for moves in third)
