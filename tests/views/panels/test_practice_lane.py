"""The practice panel by its handlers, without a browser: steps, errors, second taps, and the end.

Our own promises (common practice of forms and games, no outside source).
"""

import pytest

import coachlib as cl
from coachlib.views.panels import PracticePanel
from coachlib.views.panels.practice import practice_lane
from tests.study.game.test_practice_end import ended


@pytest.fixture
def panel(monkeypatch):
    """Return a panel with a short game, whose advice is a stand-in that stays."""
    monkeypatch.setattr(practice_lane, "practice_end", lambda game, step: ended(game, progress=step))
    one = PracticePanel(lane_number=8, is_strict=True)
    one.begin({**one.start.typed, "n_scored": "12"})
    return one


def throw(panel, n_balls=1, **typed):
    panel.throw({**panel.throwing.typed, **typed}, n_balls, panel.game.n_thrown)


def test_it_opens_with_the_form_alone():
    panel = PracticePanel(lane_number=8)
    assert "coach-unstarted" in panel.box._dom_classes
    assert panel.start.typed["lane_number"] == "8"
    assert panel.start.look["is_started"] is False


def test_starting_shows_the_line_of_the_sheet(panel):
    assert "coach-unstarted" not in panel.box._dom_classes
    assert panel.throwing.typed == {"feet": "27", "target": "13", "ball": "hybrid_2000"}
    assert panel.lane.scene["played"]["feet_board"] == 27.0
    assert panel.lane.oil is not None


def test_a_wrong_form_is_told_and_kept():
    panel = PracticePanel()
    panel.begin({**panel.start.typed, "lane_number": "x"})
    assert "type a whole number, 0 to 999,999" in panel.start.errors["lane_number"]
    assert (panel.start.typed["lane_number"], panel.game) == ("x", None)


def test_a_move_is_drawn_and_taken_back(panel):
    panel.move({"feet": "25", "target": "15", "ball": "hybrid_2000"})
    assert panel.lane.scene["played"]["feet_board"] == 25.0
    panel.undo()
    assert panel.lane.scene["played"]["feet_board"] == 27.0
    assert panel.throwing.typed["feet"] == "27"


def test_only_a_new_game_and_an_undo_write_into_the_form(panel):
    begun = panel.throwing.filled
    assert (begun["answers"]["feet"], begun["is_new"]) == ("27", True)
    panel.move({"feet": "25", "target": "13", "ball": "hybrid_2000"})
    throw(panel, target="15")
    assert panel.throwing.filled == begun
    panel.move({"feet": "20", "target": "15", "ball": "hybrid_2000"})
    panel.undo()
    undone = panel.throwing.filled
    assert (undone["answers"]["feet"], undone["answers"]["target"], undone["is_new"]) == ("25", "15", False)
    assert undone["number"] > begun["number"]


def test_the_same_line_comes_back_by_a_second_undo_as_a_new_filling(panel):
    """An undo that brings back what the form was filled with before is sent to the page all the same."""
    filled = []
    for _ in range(2):
        panel.move({"feet": "25", "target": "13", "ball": "hybrid_2000"})
        panel.undo()
        filled.append(panel.throwing.filled)
    assert filled[0]["answers"] == filled[1]["answers"]
    assert filled[0] != filled[1]


def test_a_thrown_ball_stays_thrown_and_the_panel_says_so(panel):
    panel.is_strict = False
    throw(panel)
    panel.undo()
    assert "Since ball 1 there was no change to take back" in panel.throwing.errors["form"]
    assert panel.game.n_thrown == 1


def test_throwing_takes_what_stands_in_the_form(panel):
    throw(panel, feet="27", target="15")
    assert panel.game.session.shots[0].line == cl.Line(27.0, 15.0)
    assert panel.balls.look["rows"][0]["line"] == "27, 15"
    assert panel.seen.look["label"] == "Seen of ball 1"


def test_a_second_tap_throws_no_second_ball(panel):
    typed = dict(panel.throwing.typed)
    panel.throw(typed, 1, 0)
    panel.throw(typed, 1, 0)
    assert panel.game.n_thrown == 1


@pytest.mark.parametrize(
    ("typed", "field"), [({"feet": "x"}, "feet"), ({"feet": "5", "target": "2"}, "line")]
)
def test_a_wrong_line_throws_nothing_and_is_told(panel, typed, field):
    panel.is_strict = False
    throw(panel, **typed)
    assert set(panel.throwing.errors) == {field}
    assert panel.game.n_thrown == 0
    assert panel.throwing.typed["feet"] == typed["feet"]
    throw(panel, feet="29", target="16")
    assert panel.throwing.errors == {}


def test_the_end_comes_by_itself_with_the_bar_at_its_end(panel):
    for n_balls in (10, 10, 10):
        throw(panel, n_balls)
    assert panel.game.is_over
    assert panel.seen.look["headline"].startswith("Your lines were good for ")
    assert len(panel.seen.look["rows"]) == 5
    assert panel.progress.words.value == "all 64 done"  # four ways of 12 balls, and the 16 thrown
    assert panel.progress.layout.display == "none"
    assert panel.throwing.look["is_over"]


def test_the_bar_is_seen_while_the_end_is_worked_out(panel, monkeypatch):
    seen = []

    def end(game, step):
        step(1, 64)
        seen.append((panel.progress.layout.display, panel.seen.look["headline"], panel.progress.words.value))
        return ended(game)

    monkeypatch.setattr(practice_lane, "practice_end", end)
    for n_balls in (10, 10, 10):
        throw(panel, n_balls)
    assert seen == [("", "The same balls, played other ways", "1 of 64")]


def test_a_new_game_brings_the_form_back_as_it_was(panel):
    throw(panel)
    panel.new_game()
    assert panel.game is None
    assert panel.start.typed["n_scored"] == "12"
    assert "coach-unstarted" in panel.box._dom_classes
    panel.begin(panel.start.typed)
    assert (panel.game.n_thrown, panel.balls.look["rows"]) == (0, [])


def test_without_a_game_nothing_is_thrown_and_tests_see_it():
    panel = PracticePanel(is_strict=True)
    with pytest.raises(cl.InputError, match=r"press Start\. No game is running"):
        panel.throw({"feet": "29", "target": "17", "ball": "hybrid_2000"}, 1, 0)


def test_messages_of_the_page_reach_their_steps(panel):
    panel.handle({"do": "throw", "typed": panel.throwing.typed, "n_balls": 1, "n_thrown": 0})
    assert panel.game.n_thrown == 1
    panel.handle({"do": "new_game"})
    assert panel.game is None


def test_a_persons_own_numbers_may_be_played():
    panel = PracticePanel(cl.Bowler(name="Ilta", hand="left"))
    assert panel.start.typed["bowler"] == "Ilta"
    panel.begin(panel.start.typed)
    assert panel.throwing.look["inside_side"] == "right"
    assert panel.lane.scene["hand"] == "left"
