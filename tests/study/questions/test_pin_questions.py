"""Reading the hit from the pins left, against the rack itself, the rule of thumb and published leaves.

Sources
-------
P. Ridenour, "Is that the 3 pin carrying the 10 pin?" (USBC research) and a regional coach's column, "I got a
bad break" (Apr 2005): the 4-pin, the 4-7 and the 4-9 are left by high balls, the 5-pin by light ones; the
10-pin by balls from the pocket and light ones alike.
"""

import re
from collections import Counter

import pytest

from coachlib.errors import InputError
from coachlib.physics.pins.carry import leave_probs
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.pin_questions import LEAVES, rule_side, side_shares
from coachlib.study.questions.question import LEVELS, mark
from coachlib.world.hand import own_pins

SEEDS = {level: range(50 if level == "oil" else 15) for level in LEVELS}


def asked(leave, hand="right", pattern="house_41"):
    return make_question(
        "hit_from_pins", seed=1, bowler=usual_learner(hand), leave=list(leave), pattern=pattern
    )


@pytest.mark.parametrize(
    ("leave", "side"),
    [((4,), "high"), ((4, 7), "high"), ((4, 9), "high"), ((5,), "light"), ((5, 8), "light")],
)
@pytest.mark.parametrize("pattern", ["house_41", "flat_42"])
def test_published_leaves_of_high_and_light_balls(leave, side, pattern):
    assert asked(leave, pattern=pattern).answer == side


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_corner_pin_alone_is_no_light_ball(hand):
    question = asked((10,), hand)
    assert question.answer == "cannot tell"
    assert mark(question, "pocket").credit == 1  # the rule of thumb
    assert mark(question, "light").credit == 0.5
    shares = side_shares(question.scene.now, (10,))
    assert shares["pocket"] > 0.3
    assert 0.3 < shares["light"] < 0.5


def test_a_strike_proves_no_line():
    shares = side_shares(asked(()).scene.now, ())
    assert 0.5 < shares["pocket"] < 0.65
    assert asked(()).answer == "cannot tell"


def test_shares_are_the_racks_own_turned_round():
    # Bayes' rule by hand on a flat grid: where the pins are left at all, and where never
    session = asked((4,)).scene.now
    for leave, never in (((4, 7), (16.0, 17.0)), ((5,), (18.0, 19.0))):
        at = [leave_probs(board, 2.9, 14.0).get(frozenset(leave), 0.0) for board in never]
        assert max(at) < 0.02
        assert max(side_shares(session, leave).values()) > 0.85
    assert sum(side_shares(session, (4,)).values()) == pytest.approx(1)


def test_where_rule_and_rack_differ_both_are_right_and_the_reason_says_so():
    question = asked((8,))
    assert question.answer == "light"
    assert rule_side((8,)) == "pocket"
    marked = mark(question, "pocket")
    assert marked.credit == 1
    assert re.match(
        r"Rule of thumb: in the pocket\. On the simulated rack \d+ of 20 hit the pocket\.", marked.why
    )
    assert mark(question, "high").credit == 0


def test_the_counts_told_are_of_twenty():
    for leave in LEAVES["thin"]:
        assert sum(int(n) for n in re.findall(r"\b(\d+) (?:came|hit)", asked(leave).why)) == 20


@pytest.mark.parametrize("level", LEVELS)
def test_every_seed_is_fair_for_both_hands(level):
    answers = Counter()
    for seed in SEEDS[level]:
        right, left = (
            make_question("hit_from_pins", level, seed, usual_learner(hand)) for hand in ("right", "left")
        )
        assert [(one.answer, one.credit) for one in right.accepts] == [
            (one.answer, one.credit) for one in left.accepts
        ]
        leave = right.scene.seen.leave
        assert left.scene.seen.leave == leave  # own frame
        pins = "-".join(str(pin) for pin in own_pins(leave, "left"))
        assert pins in left.prompt if leave else left.prompt.startswith("You strike.")
        assert len({one.answer for one in right.accepts if one.credit == 1}) < 3
        assert min(mark(right, one.id).credit for one in right.choices) == 0
        answers[right.answer] += 1
    assert len(answers) == 3
    assert max(answers.values()) < 0.7 * len(SEEDS[level])


def test_pins_that_no_ball_near_the_pocket_leaves_are_refused():
    with pytest.raises(InputError, match=r"leave is \[1, 7, 8, 9, 10\]; expected pins that a ball near"):
        asked((1, 7, 8, 9, 10))
