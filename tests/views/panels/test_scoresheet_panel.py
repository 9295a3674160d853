"""The score sheet by taps: each ball is in the log at once, what was logged is filled in, taken back, told.

Scores: twelve strikes are 300, ten 9-spares and a 9 are 190, ten 9-misses are 90: common practice, no source;
published facts of scoring are checked in test_game.
"""

import pytest

import coachlib as cl
from coachlib.views.panels.scoresheet.scoresheet import (
    ScoreSheet,
    sheet_view,
    standing_pins,
    unfinished_game,
    with_ball,
    without_last,
)
from coachlib.world.pins import ALL_PINS

LINE = cl.Line(22, 12)


def _sheet(log, *shots, hand="right", name="Ada"):
    key = log.start(cl.Session(cl.Bowler(name=name, hand=hand), LINE))
    for shot in shots:
        log.append(key, "shot", {"shot": shot})
    return ScoreSheet(log, key, is_strict=True)


def _leaves(log, sheet):
    return [(seen.shot.leave, seen.shot.is_spare) for seen in log.replay(sheet.key).shots]


def _sums(sheet):
    return [cell["sum"] for cell in sheet.look["frames"]]


def test_strikes_and_leaves_are_in_the_log_with_each_tap(log):
    sheet = _sheet(log)
    sheet.ball([])
    sheet.ball([10])
    sheet.ball([])
    assert _leaves(log, sheet) == [((), False), ((10,), False), ((), True)]
    assert [cell["marks"] for cell in sheet.look["frames"]][:3] == ["X", "9/", ""]
    assert _sums(sheet)[:2] == ["20", ""]


def test_a_left_handers_pins_are_those_of_the_lane(log):
    sheet = _sheet(log, hand="left")
    sheet.ball([7])
    assert _leaves(log, sheet) == [((10,), False)]
    assert sheet.look["pins"] == [7]


@pytest.mark.parametrize(
    ("balls", "score"),
    [([[]] * 12, "300"), ([[10], []] * 10 + [[10]], "190"), ([[10], [10]] * 10, "90")],
)
def test_whole_games_end_with_their_score(log, balls, score):
    sheet = _sheet(log)
    for pins in balls:
        sheet.ball(pins)
    assert sheet.look["is_over"]
    assert _sums(sheet)[-1] == score
    assert sheet.look["title"] == "The game is over."
    assert len(_leaves(log, sheet)) == len(balls)
    with pytest.raises(cl.InputError, match=r"Press “New game” for the next ball\. This game is over"):
        sheet.ball([])
    assert len(_leaves(log, sheet)) == len(balls)


def test_the_button_says_strike_or_spare_and_only_standing_pins_can_stand(log):
    sheet = _sheet(log)
    assert (sheet.look["all_down"], sheet.look["pins"]) == ("Strike", list(ALL_PINS))
    sheet.ball([4, 7])
    assert (sheet.look["all_down"], sheet.look["pins"]) == ("Spare", [4, 7])
    assert sheet.look["title"] == "Frame 1, ball 2: tap the pins left"
    with pytest.raises(cl.InputError, match="expected only pins of 4, 7 still standing"):
        sheet.ball([10])
    assert len(_leaves(log, sheet)) == 1
    sheet.ball([4, 7])
    assert next(cell["marks"] for cell in sheet.look["frames"]) == "8-"


def test_the_most_still_possible_is_told(log):
    sheet = _sheet(log)
    assert sheet.look["best"] == ""
    sheet.ball([])
    assert sheet.look["best"] == "Best score still possible: 300"


def test_a_ball_is_taken_back_in_the_log_too(log):
    sheet = _sheet(log)
    for pins in ([10], [], [7]):
        sheet.ball(pins)
    sheet.take_back()
    assert _leaves(log, sheet) == [((10,), False), ((), True)]
    sheet.take_back()
    assert sheet.look["title"] == "Frame 1, ball 2: tap the pins left"
    sheet.take_back()
    assert _leaves(log, sheet) == []
    assert not sheet.look["can_undo"]
    with pytest.raises(cl.InputError, match="No ball of this sheet is left to take back"):
        sheet.take_back()


def test_what_another_panel_added_is_not_taken_back(log):
    sheet = _sheet(log)
    sheet.ball([10])
    log.append(sheet.key, "shot", {"shot": cl.Shot(leave=(), is_spare=True)})
    with pytest.raises(cl.InputError, match="The session was changed there since: it now has 2 balls"):
        sheet.take_back()
    assert len(_leaves(log, sheet)) == 2


def test_a_game_that_runs_is_gone_on_with(log):
    sheet = _sheet(log, cl.Shot(leave=(10,)), cl.Shot(leave=(), is_spare=True), cl.Shot(leave=(4,)))
    assert [cell["marks"] for cell in sheet.look["frames"]][:2] == ["9/", "9"]
    sheet.ball([4])
    assert _leaves(log, sheet)[-1] == ((4,), True)


def test_balls_logged_without_pins_are_filled_in_and_their_spares_said_to_be_left_out(log):
    sheet = _sheet(log, cl.Shot(crossed_board=12), cl.Shot(crossed_board=13))
    sheet.ball([10])
    assert _leaves(log, sheet) == [((10,), False), (None, False)]
    assert sheet.look["note"] == ""
    sheet.ball([])
    assert "is on the sheet only" in sheet.look["note"]
    assert len(_leaves(log, sheet)) == 2
    sheet.ball([])
    assert sheet.look["note"] == ""
    assert _leaves(log, sheet) == [((10,), False), ((), False)]
    assert log.replay(sheet.key).shots[0].shot.crossed_board == 12


def test_another_game_begins_with_the_next_ball(log):
    sheet = _sheet(log)
    sheet.ball([10])
    sheet.new_game()
    assert _sums(sheet) == [""] * 10
    sheet.ball([])
    assert _leaves(log, sheet) == [((10,), False), ((), False)]
    assert sheet.first_ball == 2


def test_without_a_session_that_is_told(log):
    sheet = ScoreSheet(log)
    assert "Start a session on the lane side first" in sheet.errors["sheet"]
    sheet.ball([])
    assert "Start a session on the lane side first" in sheet.errors["sheet"]
    with pytest.raises(cl.InputError, match="Start a session on the lane side"):
        ScoreSheet(log, is_strict=True)


def test_the_session_written_to_last_is_taken_and_messages_find_their_handler(log):
    key = _sheet(log).key
    sheet = ScoreSheet(log, is_strict=True)
    assert sheet.key == key
    for message in ({"do": "ball", "pins": [10]}, {"do": "take_back"}, {"do": "new_game"}):
        sheet.handle(message)
    assert _leaves(log, sheet) == []


def test_a_name_is_shown_as_text(log):
    nasty = "<img src=x onerror=alert(1)>"
    assert _sheet(log, name=nasty).look["name"] == nasty  # the page puts it in as text


def test_frames_grow_and_shrink_ball_by_ball():
    frames = ()
    for leave in ((), (4, 9), (9,), ()):
        frames = with_ball(frames, leave)
    assert frames == (((),), ((4, 9), (9,)), ((),))
    assert standing_pins(frames) == ALL_PINS
    assert standing_pins(without_last(frames)) == ALL_PINS
    assert standing_pins((*frames[:1], ((4, 9),))) == (4, 9)
    assert without_last(without_last(frames)) == (((),), ((4, 9),))
    assert without_last(()) == ()
    assert sheet_view((), "right", "")["title"].startswith("Frame 1, ball 1")


def test_the_tenth_frame_takes_its_extra_balls():
    frames = (((),),) * 9
    for leave in ((), (10,)):
        frames = with_ball(frames, leave)
    assert standing_pins(frames) == (10,)
    frames = with_ball(frames, ())
    assert standing_pins(frames) == ()


def test_a_game_that_is_over_gives_way_to_the_next():
    session = cl.Session(cl.Bowler(), LINE)
    for _ in range(12):
        session = cl.observe(session, cl.Shot(leave=()))
    assert unfinished_game(session) == ((), 13)
    session = cl.observe(session, cl.Shot(leave=(10,)))
    assert unfinished_game(session) == ((((10,),),), 13)
