"""The second ball: asked for after a leave, answered by one tap, never read for the line.

The wanted behaviour is the panel's own contract; that a spare ball follows a leave is the game itself (USBC
rulebook, from memory). Bowlers and balls are invented.
"""

import pytest

import coachlib as cl
from coachlib.errors import InputError
from coachlib.review.session_end import session_end
from coachlib.views.panels.lane_side.spare_ball import last_leave, open_spare, spare_shot, spare_view

HIGH = {"crossed": "12", "arrival": "high", "leave": "4 9", "motion": "early"}
STRIKE = {"crossed": "12", "arrival": "pocket", "leave": "all down"}


def _session(*shots, hand="right"):
    session = cl.Session(cl.Bowler(hand=hand), cl.Line(22, 12), lane="7")
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def _moving(panel):
    while not panel.answer.look.get("choices"):
        panel.read(HIGH)
    return panel


@pytest.mark.parametrize(
    "shot", [cl.Shot(leave=()), cl.Shot(arrival="high"), cl.Shot(leave=(), is_spare=True)]
)
def test_nothing_is_asked_without_pins_left(shot):
    assert open_spare(_session(shot), None) is None


def test_it_is_asked_after_a_leave_until_it_was_answered_passed_over_or_the_lane_changed():
    session = _session(cl.Shot(leave=(10,)))
    assert open_spare(session, None) == session.shots[0]
    assert open_spare(session, 1) is None
    assert last_leave(cl.change(session, lane="8")) is None
    assert last_leave(cl.change(session, line=cl.Line(24, 13))) == session.shots[0]  # a move comes before it
    assert last_leave(cl.observe(session, cl.Shot(leave=(), is_spare=True))) is None


@pytest.mark.parametrize(("hand", "pins", "words"), [("right", [4, 9], "4 9"), ("left", [6, 8], "6 8")])
def test_pins_are_numbered_as_on_the_lane_and_answers_lie_as_seen_from_behind(hand, pins, words):
    session = _session(cl.Shot(leave=(4, 9)), hand=hand)
    look = spare_view(session, session.shots[0], "Take both.")
    assert (look["pins"], look["ball"], look["words"]) == (pins, 2, "Take both.")
    assert words in look["title"]
    assert [name for name, _ in look["answers"]] == ["missed_left", "made", "missed_right"]


def test_an_answer_becomes_a_ball_at_the_pins_that_were_left():
    left = _session(cl.Shot(leave=(4, 9)), hand="left").shots[0]
    assert spare_shot(left, "made") == cl.Shot(leave=(), is_spare=True)
    assert spare_shot(left, "missed_right") == cl.Shot(leave=(4, 9), is_spare=True, note="missed right")
    assert spare_shot(left, "missed_left", [8]).leave == (9,)  # as numbered on the lane of a left-hander
    assert not spare_shot(left, "made").is_strike
    with pytest.raises(InputError, match="Tap one of the three: missed left, made, missed right"):
        spare_shot(left, "nearly")


@pytest.mark.parametrize("standing", [[], [10], [6, 10], [11]])
def test_pins_that_were_not_left_cannot_still_stand(standing):
    left = _session(cl.Shot(leave=(4, 9)), hand="left").shots[0]
    words = " ".join(map(str, standing)) or "none"
    with pytest.raises(InputError, match=f"Standing now: {words}. Some of 6 8 must stand|leave holds 11"):
        spare_shot(left, "missed_left", standing)


@pytest.mark.parametrize("standing", [None, [], [4]])
def test_a_single_pin_missed_needs_no_mark(standing):
    left = _session(cl.Shot(leave=(4,))).shots[0]
    assert spare_shot(left, "missed_right", standing).leave == (4,)


def test_a_single_pin_missed_is_one_tap_and_counts_as_missed_at_the_session_s_end(panel):
    panel.read(HIGH | {"leave": "4"})
    panel.spare(2, "missed_right", [])
    assert panel.session.shots[1].shot == cl.Shot(leave=(4,), is_spare=True, note="missed right")
    assert [tuple(one) for one in session_end(panel.session).spares] == [("one pin", 0, 1)]


def test_one_tap_logs_it_and_the_line_s_answer_stays(panel, log):
    for _ in range(3):
        panel.read(HIGH)
        ball = len(panel.session.shots) + 1
        assert panel.entry.look["spare"]["ball"] == ball
        panel.spare(ball, "missed_left", [9])
    assert panel.entry.look["spare"] is None
    assert [seen.shot.is_spare for seen in panel.session.shots] == [False, True] * 3
    assert log.replay(log.latest_open()) == panel.session
    assert [choice["action"] for choice in panel.answer.look["choices"]] == ["move", "stay"]
    with_spares, without = panel.session, _session(*[seen.shot for seen in panel.session.shots[::2]])
    told, wanted = cl.advise(with_spares, model_on=False), cl.advise(without, model_on=False)
    assert (told.move, told.kind) == (wanted.move, wanted.kind)
    assert panel.shots.look["rows"][0]["answer"] == ""


def test_a_move_taken_before_the_spare_is_not_offered_again_after_it(panel):
    _moving(panel).move()
    line, headline = panel.session.line, panel.answer.look["headline"]
    assert panel.entry.look["spare"] is not None
    look_for = panel.answer.look["look_for"]
    panel.spare(len(panel.session.shots) + 1, "made")
    assert panel.session.line == line
    assert (panel.answer.look["headline"], panel.answer.look["look_for"]) == (headline, look_for)
    assert "choices" not in panel.answer.look


def test_a_line_kept_stays_kept_through_the_spare(panel):
    _moving(panel).stay()
    panel.spare(len(panel.session.shots) + 1, "made")
    assert panel.answer.look["choices"] == []


def test_the_next_first_ball_passes_it_over_and_one_may_come_back(panel):
    panel.read(HIGH)
    panel.pass_spare()
    assert (panel.entry.look["spare"], panel.entry.look["can_ask_spare"]) == (None, True)
    panel.ask_spare()
    assert panel.entry.look["spare"] is not None
    panel.pass_spare()
    panel.read(HIGH)
    assert panel.entry.look["spare"]["ball"] == 3  # the next leave is asked for again


def test_a_second_tap_is_no_second_spare_and_none_follows_a_strike(panel):
    panel.read(HIGH)
    panel.spare(2, "made")
    with pytest.raises(InputError, match=r"next first ball, ball 3\. Ball 2 is logged already"):
        panel.spare(2, "made")
    panel.read(STRIKE)
    with pytest.raises(InputError):
        panel.spare(4, "made")
    assert len(panel.session.shots) == 3


def test_undo_asks_for_the_spare_again_and_leaves_the_form_alone(panel):
    panel.read(HIGH)
    panel.spare(2, "made")
    panel.undo()
    assert len(panel.session.shots) == 1
    assert panel.entry.look["spare"]["ball"] == 2
    assert not panel.entry.typed.get("is_spare")
    panel.undo()
    assert panel.entry.typed["leave"] == "4 9"
    assert panel.entry.look["spare"] is None


def test_a_spare_ball_is_corrected_as_one(panel):
    panel.read(HIGH)
    panel.spare(2, "made")
    panel.correct(2)
    assert panel.entry.typed["is_spare"] is True
    panel.save(2, panel.entry.typed | {"leave": "9"})
    assert panel.session.shots[1].shot == cl.Shot(leave=(9,), is_spare=True)


def test_a_panel_opened_again_asks_for_the_spare_that_is_still_open(panel, new_panel):
    panel.read(HIGH)
    again = new_panel()
    again.go_on()
    assert again.entry.look["spare"]["ball"] == 2
