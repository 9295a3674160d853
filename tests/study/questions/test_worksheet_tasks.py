"""The answers of clinic papers, held against published examples, against plain arithmetic and the library.

Sources
-------
B. Learn Jr., USBC coaching tip "Approach position", and a coaching magazine, "Fundamentals of target line
adjustments" (20 Mar 2017): 2-and-1 and 3-and-2 by name, pivots at 30 and 45 ft when feet and slide move
together. "Spares systems", two UK club pages (seen 2026): 2 boards of stance are 3 at the pins for who walks
the line. A regional coach's column, "Is it you or the lane?" (May 2004): a missed target explains the result.
Boards between: similar triangles, derived.
"""

import dataclasses
import math

import pytest

import coachlib as cl
from coachlib.study.questions.worksheet_stories import BALL, PATTERN, after_shots, clinic_bowler
from coachlib.study.questions.worksheet_tasks import (
    MoveTask,
    PredictTask,
    ReadTask,
    move_task,
    predict_task,
    read_task,
)
from tests.clinic_papers import all_tasks

LINE = cl.Line(22.0, 13.0)


def story(*shots, bowler=None, line=LINE):
    return after_shots(cl.Session(bowler or clinic_bowler("right"), line), shots)


def seen(arrival, miss_boards=0.0, **more):
    return cl.Shot(crossed_board=LINE.target_board + miss_boards, arrival=arrival, **more)


def predicted(move, walk="slide", line=LINE, is_line_given=True):
    bowler = clinic_bowler("right", walk, laydown_offset_boards=7.0)
    session = cl.Session(bowler, line, ball=cl.load_ball(BALL), pattern=cl.load_pattern(PATTERN))
    return predict_task(session, move, is_line_given)


@pytest.mark.parametrize(
    ("move", "shifts"),
    [((2, 1), (0, -1, -2)), ((3, 2), (1, 0, -1)), ((1, 1), (1, 1, 1)), ((1, 0), (-1, -2, -3))],
)
def test_published_moves_of_who_slides(move, shifts):
    task = predicted(cl.Move(*map(float, move)))
    assert task.shifts_boards == pytest.approx(shifts, abs=1e-9)
    assert task.answer == pytest.approx([a + b for a, b in zip(task.boards_before, shifts, strict=True)])


def test_published_move_of_who_walks_the_line():
    task = predicted(cl.Move(feet_boards=-2.0), walk="walk")
    assert task.shifts_boards[2] == pytest.approx(3.0)


def test_the_boards_of_every_task_are_similar_triangles():
    tasks = all_tasks(PredictTask)
    assert len(tasks) == 180
    for task in tasks:
        line, bowler = task.new_line, task.session.bowler
        beside, at_ft = line.feet_board - bowler.laydown_offset_boards, line.target_ft
        from_ft = -bowler.stance_ft if bowler.walk == "walk" else 0.0
        slope = (line.target_board - beside) / (at_ft - from_ft)
        assert task.answer == pytest.approx([beside + slope * (ft - from_ft) for ft in (30, 45, 60)])
        assert all(1 <= board <= 39 for board in (*task.answer, *task.boards_before))


def test_the_hook_adds_what_two_simulated_balls_differ_by():
    task = predicted(cl.Move(2.0, 1.0))
    arrivals = []
    for line in (LINE, task.new_line):
        laydown_board = line.feet_board - 7.0
        launch_deg = math.degrees(math.atan((line.target_board - laydown_board) * 41.5 / 39 / 180))
        release = cl.Release(laydown_board, launch_deg, 17.0, 300, 45, 13)  # mph, rpm, deg, deg
        path = cl.simulate(release, cl.load_ball(BALL), cl.load_pattern(PATTERN), hand="right")
        arrivals.append(float(path.arrival_board[0]))
    assert task.hook_shift_boards == pytest.approx(arrivals[1] - arrivals[0], abs=0.3)


def test_a_line_that_leaves_the_lane_is_no_task():
    assert predicted(cl.Move(feet_boards=5.0), line=cl.Line(22.0, 12.0)) is None


def test_a_ball_that_does_not_arrive_leaves_no_number_of_the_hook():
    task = predicted(cl.Move(-3.0, -1.0), "walk", line=cl.Line(31.0, 24.0))
    assert task.answer == pytest.approx((24, 25, 26))
    assert task.hook_shift_boards is None


@pytest.mark.parametrize(
    ("shots", "whose", "rule"),
    [
        ([seen("high", 2.5)], "bowler", "missed_target_result_fits"),
        ([seen("light")], "cannot tell", "one_shot_is_no_pattern"),
        ([cl.Shot(arrival="high")], "cannot tell", "shots_needed"),
        ([seen("high", motion="early")] * 3, "lane", "two_and_one"),
        ([seen(25.5, 2.5)], "both", "pulled_and_still_too_high"),
    ],
)
def test_whose_doing_a_ball_was(shots, whose, rule):
    task = read_task(story(*shots))
    assert task.answer == whose
    assert task.advice.rule.rule_ids[0] == rule


def test_two_balls_on_one_side_are_no_task():
    # the trade blames the lane after two, this library after three: no answer is the only right one
    assert read_task(story(*[seen("high", motion="even")] * 2)) is None
    assert move_task(story(*[seen("nose", motion="even")] * 2)) is not None
    assert read_task(story(*[seen("nose", motion="even")] * 2)) is None


def test_what_hangs_on_half_a_board_is_no_task():
    assert read_task(story(seen("high", 2.0))) is None  # two boards or a board and a half: missed or not
    assert read_task(story(seen("high", 2.5))) is not None
    assert move_task(story(seen("nose", 1.0), seen("nose", 1.0))) is None


def test_a_read_answer_is_never_blamed_on_the_lane_by_a_missed_ball_alone():
    tasks = [task for task in all_tasks(ReadTask) if task.answer == "lane"]
    assert len(tasks) == 60
    for task in tasks:
        on_target = [
            one for one in task.session.shots if abs(one.shot.crossed_board - one.line.target_board) <= 1
        ]
        assert len(on_target) >= 3


def test_a_bowlers_miss_explains_what_it_is_blamed_for():
    # a hooking ball gives back about half of the straight lever of 4: 2 boards a board, to within 1.5
    tasks = [task for task in all_tasks(ReadTask) if "missed_target_result_fits" in task.advice.rule.rule_ids]
    assert len(tasks) > 20
    for task in tasks:
        last = task.session.shots[-1]
        miss, err = last.shot.crossed_board - last.line.target_board, last.shot.arrival_board - 17.5
        assert miss * err > 0
        assert abs(err) - 2 * abs(miss) < 1.5


@pytest.mark.parametrize(
    ("shots", "move"),
    [
        ([seen("high", motion="early")] * 3, (2, 1)),
        ([seen("light", motion="late")] * 3, (-1, 0)),
        ([seen("high", leave=(4,))], (2, 1)),
        ([seen("nose", motion="early")] * 2, (4, 2)),
        ([seen("pocket", leave=())], (0, 0)),
        ([seen("high", -2.0), seen("high", -2.0)], (2, 1)),
    ],
)
def test_which_move_follows(shots, move):
    task = move_task(story(*shots))
    assert (task.answer.feet_boards, task.answer.target_boards) == move


def test_a_walker_gets_the_move_in_his_own_size():
    task = move_task(story(*[seen("high", motion="early")] * 3, bowler=clinic_bowler("right", "walk")))
    assert task.answer == cl.Move(3.0, 1.0)


def test_other_moves_of_the_same_way_are_right_too_and_none_against():
    tasks = [task for task in all_tasks(MoveTask) if task.also_right]
    assert len(tasks) > 20
    for task in tasks:
        assert task.answer not in task.also_right
        for move in task.also_right:
            if task.answer.feet_boards:
                assert move.feet_boards * task.answer.feet_boards > 0
            else:
                assert move.target_boards * task.answer.target_boards > 0
            assert move == cl.Move(move.feet_boards, move.target_boards)


def test_where_nothing_moves_nothing_else_is_right():
    tasks = [task for task in all_tasks(MoveTask) if task.answer.is_stay]
    assert len(tasks) == 60
    assert all(task.also_right == () for task in tasks)


def test_a_change_of_ball_or_pace_is_no_move_to_name():
    rolled_out = [seen("light", motion="roll_out")] * 3
    for task in (move_task(story(*rolled_out)), *all_tasks(MoveTask)):
        assert task is None or task.answer == cl.Move(task.answer.feet_boards, task.answer.target_boards)


def test_every_answer_rests_on_a_rule_with_its_grade():
    tasks = [*all_tasks(ReadTask), *all_tasks(MoveTask)]
    assert len(tasks) == 420
    assert all(task.advice.rule.grades for task in tasks)
    assert not [task for task in tasks if task.advice.rule.against]


def test_the_answer_is_what_the_library_says_of_the_same_balls():
    for task in all_tasks(MoveTask)[:30]:
        assert cl.advise(task.session, model_on=False).move == task.answer


def test_more_to_weigh_counts_more():
    assert read_task(story(seen("high", 2.5))).n_to_weigh == 1 + 2
    assert read_task(story(seen("pocket", leave=()), seen("high", 2.5))).n_to_weigh == 2 + 3
    plain, hard = predicted(cl.Move(1.0, 0.0)), predicted(cl.Move(1.0, 0.0), "walk", is_line_given=False)
    assert plain.n_to_weigh == 2
    assert hard.n_to_weigh > plain.n_to_weigh + 3


def test_a_task_asks_the_same_of_both_hands():
    task = read_task(story(seen("high", 2.5), bowler=clinic_bowler("left")))
    assert task.session.bowler.hand == "left"
    assert task.question == read_task(story(seen("high", 2.5))).question
    assert dataclasses.replace(task.session.bowler, hand="right") == clinic_bowler("right")
