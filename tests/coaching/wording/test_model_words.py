"""The model's words. The wanted words are our own; the worth in the answers is made up."""

import dataclasses
from typing import Any

import pytest

from coachlib import Move, Session, Shot, advise, change, observe, say
from coachlib.coaching.advice.joint_answer import Cause
from coachlib.coaching.belief.cause import Blame
from coachlib.coaching.wording.model_words import chances_text, model_text, odd_text, paper_text
from tests.answers import HIGH, ONE_AND_ONE, SESSION, TWO_AND_ONE, answer, voice, worth

STAY = worth(Move(), 6)
FASTER = "Half a mph faster (changes your delivery, not your line, only if comfortable)"


def _said(session: Session, n_balls: int, n_elsewhere: int) -> str:
    model = voice(STAY, STAY, n_balls=n_balls, n_elsewhere=n_elsewhere)
    return chances_text(dataclasses.replace(answer(model, kind="stay"), session=session))


def test_balls_of_the_other_lane_are_told_apart() -> None:
    moved = change(observe(observe(SESSION, HIGH), HIGH), lane="8")
    assert "Based on 2 first balls on the other lane, none here yet." in _said(moved, 2, 2)
    played = observe(moved, HIGH)
    assert _said(played, 3, 2).endswith("Based on 1 first ball here and 2 on the other lane.")
    third = change(played, lane="9")
    assert "Based on 3 first balls on other lanes, none here yet." in _said(third, 3, 3)


def test_balls_before_fresh_oil_are_told_apart() -> None:
    oiled = change(observe(dataclasses.replace(SESSION, games_on_lane=2.0), HIGH), games_on_lane=0.0)
    assert "Based on 1 first ball before the fresh oil, none here yet." in _said(oiled, 1, 1)


@pytest.mark.parametrize(
    ("n", "words"),
    [
        (0, "No ball thrown yet."),
        (1, "Based on 1 first ball on this lane."),
        (3, "Based on 3 first balls on this lane."),
    ],
)
def test_balls_of_one_lane_are_counted(n: int, words: str) -> None:
    assert _said(SESSION, n, 0).endswith(f". {words}")


def test_the_model_counts_the_balls_of_the_other_lane() -> None:
    session = observe(change(observe(observe(SESSION, HIGH), HIGH), lane="8"), HIGH)
    advice = advise(session)
    assert advice.model is not None
    assert (advice.model.n_balls, advice.model.n_elsewhere) == (3, 2)
    assert say(advice).chances.endswith("Based on 1 first ball here and 2 on the other lane.")


def test_a_change_of_speed_says_why_it_is_not_the_advice() -> None:
    def told(n_of_twenty: float) -> tuple[str, ...]:
        faster = worth(Move(speed_mph=0.5), n_of_twenty)
        model = voice(STAY, STAY, changes=(faster,))
        return say(answer(model, kind="stay", rule_move=Move())).runners_up

    assert told(7) == (f"{FASTER}: 1 more in 20",)
    assert told(5) == (f"{FASTER}: 1 fewer in 20",)


@pytest.mark.parametrize("n_of_twenty", [5.6, 6.0, 6.4])
def test_a_row_that_is_about_the_same_is_not_drawn(n_of_twenty: float) -> None:
    equal = worth(Move(speed_mph=0.5), n_of_twenty)
    model = voice(STAY, STAY, worth(ONE_AND_ONE, n_of_twenty), changes=(equal,))
    assert say(answer(model, kind="stay", rule_move=ONE_AND_ONE)).runners_up == ()


def test_an_open_cause_is_told_in_plain_words() -> None:
    meant = Blame(0.5, 0.0, 1.0, "crossing", 19.5)
    cause = Cause("direction known", 0.5, "crossing")
    advice = answer(voice(STAY, STAY, blame=meant), kind="stay", cause=cause)
    assert say(advice).cause == (
        "It comes in high. Too early to say whether that is you or the lane. Best clue: where it crossed."
    )
    coached = say(advice, to="coach").cause
    assert coached.startswith("It comes in high. Too early to say whether that is the bowler or the lane.")


@pytest.mark.parametrize(
    ("verdict", "bowler_prob", "words"),
    [
        ("bowler", 0.84, "Probably you, not the lane (about 8 in 10)."),
        ("bowler", 0.99, "Probably you, not the lane (about 9 in 10)."),
        ("lane", 0.21, "Probably the lane (about 8 in 10)."),
        ("both", 0.5, "Both you and the lane, to the same side."),
        ("too early", 0.5, "Too early to say whether it is you or the lane."),
    ],
)
def test_the_cause_is_told_in_plain_words_with_its_count(
    verdict: Any, bowler_prob: float, words: str
) -> None:
    model = voice(STAY, STAY, blame=Blame(bowler_prob, 0.0, 1.0, "", 19.5))
    advice = answer(model, kind="stay", cause=Cause(verdict, bowler_prob, ""))
    missed = {**advice.reading.facts, "is_on_target": False, "is_missed": True, "miss_boards": 3.0}
    advice = dataclasses.replace(advice, reading=dataclasses.replace(advice.reading, facts=missed))
    assert say(advice).cause == words
    assert say(advice, to="coach").cause == words.replace("You", "The bowler").replace("you", "the bowler")


# Counts and words


def test_a_move_says_its_chance_before_and_after_on_how_many_lanes_and_on_what_it_rests() -> None:
    advice = answer(voice(STAY, worth(TWO_AND_ONE, 9), worth(TWO_AND_ONE, 9)))
    assert say(advice).chances == (
        "About 9 strikes in 20, up from 6. Better on 8 in 10 likely lanes. Based on 3 first balls on this "
        "lane."
    )
    one = answer(voice(worth(Move(), 0.6), worth(TWO_AND_ONE, 2)))
    assert say(one).chances.startswith("About 2 strikes in 20, up from 1.")


def test_a_line_that_stays_says_whether_another_would_add() -> None:
    def told(n_best: float, **fields: Any) -> str:
        return say(
            answer(voice(STAY, worth(TWO_AND_ONE, n_best), answer="stay"), kind="stay", **fields)
        ).chances

    assert told(6.2).startswith(
        "About 6 strikes in 20 on this line, and no line within reach is clearly better."
    )
    assert told(8).startswith(
        "About 6 strikes in 20 on this line. Another line may add 2, but on too few of the likely lanes "
        "to be sure."
    )
    assert told(8, is_gate=True).startswith("About 6 strikes in 20 on this line. ")


def test_what_the_rule_of_thumb_settles_without_a_shown_gain_shows_no_counts() -> None:
    model = voice(STAY, worth(TWO_AND_ONE, 6.1), worth(TWO_AND_ONE, 6.1))
    advice = answer(model, is_counted=False, is_settled=True)
    said = say(advice)
    assert (said.chances, said.model, said.runners_up) == ("", "", ())
    assert "in 20" not in said.summary
    assert advice.stay_strike_prob is None
    assert advice.move_strike_prob is None
    assert advice.better_lanes_frac is None
    assert advice.runners_up == ()


@pytest.mark.parametrize(
    ("move", "words"),
    [
        (Move(2, 2), "Same angle, but into more oil."),
        (Move(-1, -1), "Same angle, but onto drier boards."),
        (Move(1, 2), "A flatter angle, but into more oil."),
        (Move(-1, -2), "A flatter angle, but onto drier boards."),
        (Move(2, 1), ""),
        (Move(0, 1), ""),
        (Move(1, -2), ""),
    ],
)
def test_a_move_that_points_the_other_way_on_paper_says_why_it_is_right(move: Move, words: str) -> None:
    advice = answer(voice(STAY, worth(move, 9), worth(move, 9)), rule_move=move)
    assert paper_text(advice) == words
    assert say(advice).why.endswith(words)
    assert paper_text(dataclasses.replace(advice, is_counted=False)) == ""


# Where a good shot comes in


def _meant(board: float, *arrivals: Any, **fields: Any) -> str:
    """Return what is said of a good shot believed to come in there, after balls over the target."""
    session = SESSION
    for arrival in arrivals:
        session = observe(session, Shot(crossed_board=12, arrival=arrival))
    model = voice(STAY, STAY, blame=Blame(0.2, 0.0, 1.0, "crossing", board))
    ruled = advise(session, model_on=False)
    changes: dict[str, Any] = {"kind": "stay", "move": Move(), "model": model, "agree": True}
    return model_text(dataclasses.replace(ruled, **(changes | fields)), "right")


@pytest.mark.parametrize(
    ("board", "words"),
    [
        (17.5, "A good shot now finds the pocket."),
        (18.2, "A good shot now finds the pocket."),
        (18.5, "A good shot now hits 1 board high."),
        (19.6, "A good shot now hits 2 boards high."),
        (18.9, "A good shot now hits 1½ boards high."),
        (16.0, "A good shot now hits 1½ boards light."),
        (23.0, "A good shot now goes past the head pin."),
        (60.0, "A good shot now goes past the head pin."),
        (13.5, "A good shot now misses the head pin."),
        (2.0, "A good shot now misses the head pin."),
    ],
)
def test_no_number_off_the_lane_is_told(board: float, words: str) -> None:
    unseen = "high" if board > 17.5 else "light"
    assert _meant(board, unseen) == words


@pytest.mark.parametrize("n_balls", [1, 2, 3])
def test_after_pocket_hits_on_target_nothing_says_two_boards_high(n_balls: int) -> None:
    pockets = ["pocket"] * n_balls
    assert _meant(19.5, *pockets) == "By the oil sheet it should come in higher than it did."
    assert _meant(15.5, *pockets) == "By the oil sheet it should come in lighter than it did."
    assert _meant(17.9, *pockets) == "A good shot now finds the pocket."


def test_balls_on_the_other_side_are_told_instead_of_the_sheet() -> None:
    assert _meant(19.0, "light") == "By the oil sheet it should come in higher than it did."
    assert _meant(16.0, "high") == "By the oil sheet it should come in lighter than it did."
    assert _meant(22.0, 18.5, 18.5) == "By the oil sheet it should come in higher than it did."
    assert _meant(18.6, 18.5, 18.5) == "A good shot now hits 1 board high."


def test_a_ball_off_the_mark_does_not_speak_against_the_sheet() -> None:
    off = observe(SESSION, Shot(crossed_board=13.5, arrival="light"))
    ruled = advise(off, model_on=False)
    model = voice(STAY, STAY, blame=Blame(0.2, 0.0, 1.0, "crossing", 19.5))
    advice = dataclasses.replace(ruled, model=model, agree=True)
    assert model_text(advice, "right") == "A good shot now hits 2 boards high."


def test_before_the_first_ball_nothing_is_said_of_a_good_shot() -> None:
    assert _meant(19.5) == ""


@pytest.mark.parametrize("is_counted", [False, True])
def test_a_smaller_move_without_counts_says_what_the_rule_of_thumb_is(is_counted: bool) -> None:
    smaller, rule = worth(ONE_AND_ONE, 7 if is_counted else 6), worth(TWO_AND_ONE, 4)
    advice = answer(voice(STAY, smaller, rule), rule_move=TWO_AND_ONE)
    advice = dataclasses.replace(advice, is_settled=True, is_counted=is_counted)
    named = "Rule of thumb: 2 and 1 left, but from these balls less looks better."
    assert (named in say(advice).why) is not is_counted
    assert "This line no longer finds the pocket." in say(advice).why


@pytest.mark.parametrize(
    ("arrival", "leave", "is_told"),
    [("light", (2, 4, 5), False), ("far_light", (2, 4, 5), False), ("high", (2, 4, 5), True)],
)
def test_pins_that_coaches_know_of_such_a_ball_are_never_called_odd(
    arrival: Any, leave: tuple[int, ...], is_told: bool
) -> None:
    # 2-4-5 is left by light balls: leave-to-cause lists, see coachlib/coaching/session/ball_reading.py.
    advice = advise(observe(SESSION, Shot(14, arrival=arrival, leave=leave)), model_on=False)
    odd = dataclasses.replace(advice, model=voice(STAY, STAY, odd="leave"))
    assert (odd_text(odd, "right") != "") is is_told


@pytest.mark.parametrize(("crossed", "is_told"), [(11, True), (14, False)])
def test_where_a_missed_ball_met_the_pins_is_not_called_odd(crossed: float, is_told: bool) -> None:
    """The answer has just said that the miss accounts for it."""
    advice = advise(observe(SESSION, Shot(crossed, arrival="light")), model_on=False)
    odd = dataclasses.replace(advice, model=voice(STAY, STAY, odd="arrival"))
    assert (odd_text(odd, "right") != "") is is_told
