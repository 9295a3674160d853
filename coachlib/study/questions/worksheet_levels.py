"""What makes the levels of clinic papers: which stories, answers and moves their tasks come from.

Levels are our own: how many things have to be weighed at once, and how often the first thought is wrong.
"""

import dataclasses
from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from coachlib.study.questions import worksheet_stories as stories
from coachlib.study.questions.worksheet_stories import StoryMaker
from coachlib.study.questions.worksheet_tasks import Whose
from coachlib.world.bowler import Walk

LevelName = Literal["first", "second", "third"]


@dataclasses.dataclass(frozen=True)
class Moves:
    """What a task to predict boards may ask.

    Parameters
    ----------
    sizes : tuple of (float, float)
        Feet and eyes, to either side. [boards]
    walks : tuple of str
        How the bowler may walk.
    targets_ft : tuple of float
        Where the target may be. [ft]
    is_line_given : bool
        Whether the boards before the move are printed.
    """

    sizes: tuple[tuple[float, float], ...]
    walks: tuple[Walk, ...] = ("slide",)
    targets_ft: tuple[float, ...] = (15.0,)
    is_line_given: bool = True


@dataclasses.dataclass(frozen=True)
class Level:
    """What makes the papers of one level.

    Parameters
    ----------
    name, title
        ``first``, ``second`` or ``third``, and as it is printed.
    about : tuple of str
        What makes it, one sentence for each kind of task.
    reads : tuple
        One entry a task to read: the answer wanted, and the stories it may come from.
    predicts : tuple of Moves
        One entry a task to predict.
    moves : tuple
        One entry a task to name the move: whether a move follows, and the stories it may come from.
    """

    name: LevelName
    title: str
    about: tuple[str, str, str]
    reads: tuple[tuple[Whose, tuple[StoryMaker, ...]], ...]
    predicts: tuple[Moves, ...]
    moves: tuple[tuple[bool, tuple[StoryMaker, ...]], ...]


_LADDER = ((2.0, 1.0), (1.0, 1.0), (1.0, 0.0), (3.0, 1.0), (2.0, 2.0))
_LONGER = ((3.0, 2.0), (4.0, 2.0), (0.0, 1.0), (2.0, 1.0), (3.0, 1.0), (1.0, -1.0))
_HALVES = ((1.5, 0.5), (2.5, 1.0), (0.0, 0.5), (3.0, 1.5), (4.0, 3.0), (5.0, 2.0))
_ONCE = (stories.only_once,)

LEVELS: Mapping[LevelName, Level] = MappingProxyType(
    {
        "first": Level(
            "first",
            "One thing at a time",
            (
                "Read: the balls say one thing, and the miss is plain.",
                "Name: the same result again and again, or nothing to answer at all.",
                "Predict: the slide foot moves with the stance, whole boards, and the old line is printed.",
            ),
            (
                ("bowler", (stories.missed_and_it_fits,)),
                ("lane", (stories.same_side_again,)),
                ("cannot tell", _ONCE),
                ("bowler", (stories.missed_and_it_fits,)),
            ),
            (Moves(_LADDER), Moves(_LADDER), Moves(_LADDER)),
            (
                (True, (stories.high_again,)),
                (True, (stories.light_again,)),
                (False, (stories.struck_or_tapped, stories.only_once, stories.missed_and_it_fits)),
            ),
        ),
        "second": Level(
            "second",
            "Two things at once",
            (
                "Read: pace and slide foot are noted too, and a miss may stand between good balls.",
                "Name: what was left counts, and a move may just have been made.",
                "Predict: longer moves, a bowler who walks toward the target, only feet and target given.",
            ),
            (
                ("bowler", (stories.thrown_at_another_pace, stories.feet_went_elsewhere)),
                ("lane", (stories.same_side_again_around_a_miss,)),
                ("cannot tell", (stories.crossing_not_noted, stories.only_once)),
                ("cannot tell", (stories.crossing_not_noted, stories.only_once)),
            ),
            (
                Moves(_LONGER),
                Moves(_LONGER, is_line_given=False),
                Moves(_LADDER, walks=("walk",), is_line_given=False),
            ),
            (
                (True, (stories.high_again_for_a_walker, stories.light_again)),
                (True, (stories.four_pin_left, stories.nose_again)),
                (False, (stories.just_moved, stories.crossing_not_noted)),
            ),
        ),
        "third": Level(
            "third",
            "The first thought is often wrong",
            (
                "Read: the miss may explain only a part of it.",
                "Name: light is not always oil, and the feet may have no room.",
                "Predict: half boards, a walk toward the target, targets nearer or farther than the arrows.",
            ),
            (
                ("bowler", (stories.thrown_at_another_pace, stories.feet_went_elsewhere)),
                ("lane", (stories.same_side_again_around_a_miss,)),
                ("cannot tell", (stories.crossing_not_noted,)),
                ("both", (stories.pulled_and_more,)),
            ),
            (
                Moves(_HALVES, is_line_given=False),
                Moves(_LONGER, walks=("walk",), is_line_given=False),
                Moves(_LADDER, targets_ft=(10.0, 12.0, 20.0), is_line_given=False),
            ),
            (
                (True, (stories.burnt_up, stories.creeping_in, stories.flat_corner_pin)),
                (
                    True,
                    (stories.outside_and_high, stories.feet_have_no_room, stories.still_high_after_a_move),
                ),
                (False, (stories.flat_corner_pin_and_no_turn_seen, stories.just_moved)),
            ),
        ),
    }
)
