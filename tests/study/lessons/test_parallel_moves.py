"""What the lesson on parallel moves claims, thrown by the simulation for the usual learner of either hand."""

import pytest

from coachlib.coaching.simulation.paths import line_paths
from coachlib.study.questions.asker import starting_session, usual_learner
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.question import mark
from coachlib.study.questions.what_changes import coming_in
from coachlib.world.levers import line_shift_boards
from coachlib.world.line import Move
from coachlib.world.oil import load_pattern
from tests.study.lessons.shown import HANDS, before_and_after, questions

pytestmark = pytest.mark.parametrize("hand", HANDS)


def asked(hand, at):
    return questions("parallel_moves", hand)[at]


def thrown(hand, at):
    """Return what is thrown before and after the change of a step."""
    return before_and_after(asked(hand, at))


def after_move_on(hand, pattern, feet, came_in=17.5):
    now = coming_in(starting_session(usual_learner(hand), pattern=pattern), came_in)
    after = changed(now, Change(feet=feet, eyes=feet))
    return line_paths(now, now.line), line_paths(after, after.line)


def test_the_line_moves_two_boards_on_paper(hand):
    assert line_shift_boards(Move(feet_boards=2.0, target_boards=2.0), 60.0, "slide") == 2
    assert asked(hand, 0).answer == "+2.00"


def test_on_a_house_pattern_it_turns_3_ft_later_and_hits_a_board_lighter_at_the_same_angle(hand):
    now, after = thrown(hand, 1)
    assert round(after.breakpoint_ft - now.breakpoint_ft) == 3
    assert now.arrival_board - after.arrival_board == pytest.approx(1, abs=0.25)
    assert after.path.entry_deg[0] == pytest.approx(now.path.entry_deg[0], abs=0.1)
    assert asked(hand, 1).answer == "low"


@pytest.mark.parametrize("pattern", ["house_38", "house_40", "house_41"])
def test_the_same_on_every_house_pattern(hand, pattern):
    now, after = after_move_on(hand, pattern, 2.0)
    assert -2 < after.arrival_board - now.arrival_board < 0
    assert after.breakpoint_ft - now.breakpoint_ft > 2


def film_at_turn(session, paths):
    """Return the film where the ball turns, as a share of that in the middle of the lane there."""
    pattern = session.pattern
    row = pattern.own_film_um(session.bowler.hand)[round(paths.breakpoint_ft / pattern.step_ft)]
    return row[round(paths.breakpoint_board) - 1] / row[19]


def test_on_a_house_pattern_it_turns_on_dry_boards_long_before_the_oil_ends(hand):
    for at in (1, 3):
        now = asked(hand, at).reveal.now
        paths = line_paths(now, now.line)
        assert paths.breakpoint_ft < now.pattern.length_ft - 4
        assert film_at_turn(now, paths) < 0.3


def test_on_flat_oil_it_turns_where_the_oil_ends_whatever_its_board(hand):
    reveal = asked(hand, 2).reveal
    for one in (reveal.now, reveal.next):
        assert abs(line_paths(one, one.line).breakpoint_ft - one.pattern.length_ft) < 1.5
    row = reveal.now.pattern.own_film_um(hand)[round(30 / reveal.now.pattern.step_ft)]
    house_row = load_pattern("house_41").own_film_um(hand)[round(30 / 0.5)]
    assert row[4] / row[19] > 0.25 > house_row[4] / house_row[19]  # wet outside too


def test_on_flat_oil_it_turns_where_it_did_and_more_than_half_is_left(hand):
    now, after = thrown(hand, 2)
    assert abs(after.breakpoint_ft - now.breakpoint_ft) < 0.75
    assert 1 < after.arrival_board - now.arrival_board < 2
    assert after.arrival_board - now.arrival_board == pytest.approx(1, abs=0.25)  # "about a board higher"
    assert round(2 * now.arrival_board) / 2 == 17.5  # the prompt says so


def test_the_other_way_it_turns_4_ft_sooner_and_hits_higher(hand):
    now, after = thrown(hand, 3)
    assert round(now.breakpoint_ft - after.breakpoint_ft) == 4
    assert after.arrival_board > now.arrival_board + 0.5
    assert asked(hand, 3).answer == "high"


def test_a_worn_line_moves_over_and_keeps_its_angle(hand):
    question = asked(hand, 4)
    now, after = thrown(hand, 4)
    assert question.answer == "+2 +2"
    assert after.path.entry_deg[0] == pytest.approx(now.path.entry_deg[0], abs=0.1)
    assert after.n_strikes > now.n_strikes
    turned = changed(question.reveal.now, Change(feet=2.0, eyes=1.0))
    assert line_paths(turned, turned.line).path.entry_deg[0] < now.path.entry_deg[0] - 0.2


def test_on_flat_oil_a_high_ball_gets_higher(hand):
    question = asked(hand, 5)
    assert question.answer == "+2 +1"
    assert mark(question, "+2 +2").credit == 0
    now, after = after_move_on(hand, "flat_42", 2.0, came_in=19.0)
    assert after.arrival_board > now.arrival_board + 1
