"""The model's words. The wanted words are our own; the worth in the answers is made up."""

import dataclasses

import pytest

from coachlib import Move, Session, advise, change, observe, say
from coachlib.coaching.advice import Cause
from coachlib.coaching.belief.cause import Blame
from coachlib.coaching.model_words import chances_text
from tests.answers import HIGH, SESSION, answer, voice, worth

STAY = worth(Move(), 6)


def _said(session: Session, n_balls: int, n_elsewhere: int) -> str:
    model = voice(STAY, STAY, n_balls=n_balls, n_elsewhere=n_elsewhere)
    return chances_text(dataclasses.replace(answer(model, kind="stay"), session=session))


def test_balls_of_the_other_lane_are_told_apart() -> None:
    moved = change(observe(observe(SESSION, HIGH), HIGH), lane="8")
    assert "2 balls on the other lane tell of the bowler; none was thrown here yet." in _said(moved, 2, 2)
    played = observe(moved, HIGH)
    assert "1 ball here and 2 on the other lane stand behind it." in _said(played, 3, 2)
    third = change(played, lane="9")
    assert "3 balls on other lanes tell of the bowler" in _said(third, 3, 3)


def test_balls_before_fresh_oil_are_told_apart() -> None:
    oiled = change(observe(dataclasses.replace(SESSION, games_on_lane=2.0), HIGH), games_on_lane=0.0)
    assert "1 ball before the fresh oil tells of the bowler; none" in _said(oiled, 1, 1)


@pytest.mark.parametrize(
    ("n", "words"), [(0, "No ball stands"), (1, "1 ball stands behind"), (3, "3 balls stand behind")]
)
def test_balls_of_one_lane_are_counted(n: int, words: str) -> None:
    assert words in _said(SESSION, n, 0)


def test_the_model_counts_the_balls_of_the_other_lane() -> None:
    session = observe(change(observe(observe(SESSION, HIGH), HIGH), lane="8"), HIGH)
    advice = advise(session)
    assert advice.model is not None
    assert (advice.model.n_balls, advice.model.n_elsewhere) == (3, 2)
    assert "1 ball here and 2 on the other lane stand behind it." in say(advice).chances


def test_a_change_of_speed_says_why_it_is_not_the_advice() -> None:
    def told(n_of_twenty: float) -> str:
        faster = worth(Move(speed_mph=0.5), n_of_twenty)
        model = voice(STAY, STAY, changes=(faster,))
        return say(answer(model, kind="stay", rule_move=Move())).runners_up[-1]

    assert "it changes the body, not the line" in told(7)
    assert told(7).endswith(": 1 of 20 more")
    assert told(6).endswith(": equal")
    assert told(5).endswith(": 1 of 20 less")


def test_an_open_cause_is_told_in_plain_words() -> None:
    meant = Blame(0.5, 0.0, 1.0, "crossing", 19.5)
    cause = Cause("direction known", 0.5, "crossing")
    advice = answer(voice(STAY, STAY, blame=meant), kind="stay", cause=cause)
    assert say(advice).cause.startswith("Thrown as meant it misses left; bowler or lane is open.")
