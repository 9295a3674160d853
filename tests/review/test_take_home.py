"""What is taken home: the line that worked, each move with its reason, the start, no scores unasked."""

import dataclasses
from datetime import UTC, datetime

import pytest

import coachlib as cl
from coachlib.records import Logbook, Student, Students
from coachlib.records.log.advice_record import advice_payload
from coachlib.review.take_home import (
    STOP,
    LineRecord,
    best_lines,
    line_record_words,
    line_records,
    moves_made,
    take_home,
)
from coachlib.study.questions.drills import load_drills

FIRST, SECOND = cl.Line(22, 12), cl.Line(24, 13)
POCKET = cl.Shot(crossed_board=12, arrival="pocket", leave=(10,))
HIGH = cl.Shot(crossed_board=12, arrival="high", motion="early", leave=(4,))
LIGHT = cl.Shot(crossed_board=13, arrival="light", leave=(5,))
STRIKE = cl.Shot(crossed_board=12, leave=())


@pytest.fixture
def logbook(tmp_path):
    return Logbook(tmp_path / "logbook.sqlite")


def _kept(logbook, shots, student=None, **bowler):
    """Log a session: shots, lines and lanes in order; return its line in the list and its story."""
    students = Students(logbook)
    key = students.add(student or Student("Ada Brun", bowler=cl.Bowler(hand="left", **bowler)))
    session_key = students.start(key, FIRST)
    for one in shots:
        if isinstance(one, cl.Shot):
            logbook.append(session_key, "shot", {"shot": one})
            advice = cl.advise(logbook.replay(session_key), model_on=False)
            words = cl.say(advice)
            logbook.append(session_key, "advice", advice_payload(advice, words.headline, words.why))
        else:
            logbook.append(session_key, "change", {"line" if isinstance(one, cl.Line) else "lane": one})
    return logbook.sessions(key)[0], logbook.story(session_key)


def test_the_line_that_worked_is_told_for_each_lane(logbook):
    shots = [HIGH, POCKET, SECOND, STRIKE, POCKET, HIGH, "2", POCKET]
    taken = take_home(*_kept(logbook, shots))
    assert [(one.lane, one.line, one.n_worked, one.n_balls) for one in taken.worked] == [
        ("1", SECOND, 2, 3),
        ("2", SECOND, 1, 1),
    ]


def test_one_lucky_ball_is_no_better_than_three_of_five(logbook):
    shots = [POCKET, POCKET, HIGH, POCKET, HIGH, SECOND, POCKET]
    _, told = _kept(logbook, shots)
    (best,) = best_lines(line_records(told.session))
    assert (best.line, best.n_worked, best.n_balls) == (FIRST, 3, 5)


def test_next_time_starts_where_it_first_worked_not_where_it_ended(logbook):
    shots = [POCKET, STRIKE, HIGH, SECOND, POCKET, POCKET, POCKET]
    taken = take_home(*_kept(logbook, shots))
    assert taken.start == FIRST
    why = "The first line that worked, on a fresh lane: 2 of 3 balls hit the pocket on target."
    assert taken.start_why == why
    assert taken.worked[0].line == SECOND


@pytest.mark.parametrize(
    ("n_worked", "n_balls", "has_worked"),
    [(1, 1, False), (1, 2, False), (2, 2, True), (1, 3, False), (2, 3, True), (2, 4, False), (3, 4, True)],
)
def test_a_line_worked_only_if_more_than_half_of_two_balls_or_more_came_in(n_worked, n_balls, has_worked):
    one = LineRecord("7", FIRST, n_balls, n_worked)
    assert one.has_worked is has_worked
    count = f"{n_worked} of {n_balls} ball{'s' if n_balls > 1 else ''} hit the pocket on target"
    said = "feet 22, target 12 worked, " if has_worked else "best so far: feet 22, target 12, "
    assert line_record_words(one) == said + count


def test_where_no_line_worked_the_best_so_far_is_called_that(logbook):
    taken = take_home(*_kept(logbook, [HIGH, HIGH, POCKET, SECOND, HIGH, POCKET]))
    assert taken.start == SECOND
    assert taken.start_why == "The best so far: 1 of 2 balls hit the pocket on target. Be ready to move."


def test_where_nothing_worked_no_line_is_made_up(logbook):
    taken = take_home(*_kept(logbook, [HIGH, HIGH]))
    assert (taken.start, taken.worked) == (None, ())
    assert "No line found the pocket yet" in taken.start_why


def test_a_move_tells_why_and_what_came_and_from_whose_side(logbook):
    # three high on target: the rule says 2 and 1 inside, to the right for a left-hander
    _, told = _kept(logbook, [HIGH, HIGH, HIGH, SECOND, LIGHT])
    (move,) = moves_made(told.session, told.advice)
    assert (move.lane, move.before_ball) == ("1", 4)
    assert move.words == "2 and 1 right: feet 24, target 13"
    assert move.why == told.advice[3]["why"]
    assert move.why
    assert move.after == "too early to tell, one ball on target came in light"


def test_a_move_that_nobody_advised_says_so(logbook):
    _, told = _kept(logbook, [POCKET, cl.Line(30, 18)])
    (move,) = moves_made(told.session, told.advice)
    assert move.why == "Chosen at the lane."
    assert move.after == ""


def test_going_to_the_other_lane_is_no_move(logbook):
    _, told = _kept(logbook, [HIGH, "2", HIGH, SECOND, "1", HIGH])
    assert len(moves_made(told.session, told.advice)) == 1


def test_scores_are_told_only_where_asked_for(logbook):
    listed, told = _kept(logbook, [STRIKE, HIGH, cl.Shot(leave=(), is_spare=True)])
    assert take_home(listed, told).scores == ()
    assert take_home(listed, told, with_scores=True).scores == (
        "Strikes: 1 of 2 first balls.",
        "Pins of a first ball: 9.5 on average.",
        "Single pins: 1 of 1.",
    )


def test_the_name_is_the_one_that_is_shown(logbook):
    student = Student("Ada Brun", alias="Number 7", bowler=cl.Bowler(hand="left"))
    taken = take_home(*_kept(logbook, [POCKET], student))
    assert taken.name == "Number 7"
    assert "Ada" not in repr(dataclasses.replace(taken, drill=load_drills()[0]))


def test_cautions_name_pain_and_the_young_but_not_where_it_hurts(logbook):
    taken = take_home(*_kept(logbook, [POCKET], pain="left wrist", age_years=12.0))
    assert "ask a doctor or a physio" in taken.cautions[0]
    assert taken.cautions[1] == STOP
    assert "three games" in taken.cautions[2]
    assert not any("left wrist" in text for text in taken.cautions)


def test_a_drill_may_be_chosen_and_brings_its_caution(logbook):
    drill = next(one for one in load_drills() if one.id == "speed_ladder")
    listed, told = _kept(logbook, [POCKET])
    taken = take_home(listed, told, drill=drill)
    assert taken.drill == drill
    assert drill.caution in taken.cautions
    assert take_home(listed, told).drill.needs.count("reading") == 1  # one ball tells nothing


def test_an_empty_session_has_a_sheet_too(logbook):
    listed, told = _kept(logbook, [])
    taken = take_home(listed, told, with_scores=True)
    assert (taken.moves, taken.scores, taken.start) == ((), (), None)
    assert taken.started <= datetime.now(UTC)
