"""What the lesson on reading a shot claims, counted on many balls of the usual learner of either hand."""

import pytest

from coachlib.coaching.simulation.paths import line_paths
from coachlib.study.lessons.lesson import load_lesson
from coachlib.study.questions.pin_questions import side_shares
from coachlib.study.questions.stray_balls import same_side_prob
from tests.study.lessons.shown import HANDS, questions

LESSON = load_lesson("reading_a_shot")

pytestmark = pytest.mark.parametrize("hand", HANDS)


def asked(hand):
    return questions("reading_a_shot", hand)


def test_the_answers_lead_from_the_pins_to_the_lane(hand):
    answers = [one.answer for one in asked(hand)]
    assert answers[:4] == ["high", "cannot tell", "bowler", "cannot tell"]
    assert answers[5] == "lane"


def test_the_corner_pin_is_not_a_light_ball_by_itself(hand):
    shares = side_shares(asked(hand)[1].scene.now, (10,))
    assert shares["light"] < 0.5
    assert LESSON.words("{pin_10}", hand) == {"right": "10", "left": "7"}[hand]


def test_a_ball_off_the_pocket_is_nothing_special_and_three_on_a_side_are(hand):
    now = asked(hand)[4].scene.now
    assert 20 * same_side_prob(now, 1) > 12
    assert 20 * same_side_prob(now, 3) == pytest.approx(3, abs=1)  # "about 3 times in 20"


def test_the_missed_ball_went_inside_and_high_from_a_line_that_meets_the_pocket(hand):
    missed = asked(hand)[2]
    now, seen = missed.scene.now, missed.scene.seen
    assert abs(line_paths(now, now.line).arrival_board - 17.5) < 0.7
    assert seen.crossed_board - now.line.target_board >= 2
    assert seen.arrival > 18.2


def test_there_are_three_balls_on_one_side_at_the_end(hand):
    last = asked(hand)[5]
    assert len(last.scene.rows) == 3
    assert all(row.startswith("Hit your target and ") for row in last.scene.rows)
