"""Where the balls of a lane arrived, what speaks for a line, and the last one that worked.

Common practice, no source: a lucky strike is none of the line's. The rest invariants; the bowler is invented.
"""

import dataclasses

import pytest

from coachlib import Bowler, InputError, Line, Session, Shot, change, observe
from coachlib.coaching.session.arrivals import arrivals, credits_line, is_off_target, last_line_that_worked
from coachlib.world.ball import Ball

START = Session(bowler=Bowler(), line=Line(22, 12), lane="7")
STRIKE, HIGH = Shot(arrival="pocket", leave=()), Shot(crossed_board=12, arrival="high", leave=(4,))


def _thrown(session: Session, *shots: Shot) -> Session:
    for shot in shots:
        session = observe(session, shot)
    return session


def test_arrivals_are_those_of_the_first_balls_of_this_lane() -> None:
    session = _thrown(START, STRIKE, dataclasses.replace(STRIKE, is_spare=True), HIGH)
    session = _thrown(change(session, lane="8"), HIGH)
    there = change(session, lane="7")
    assert [(one.number, one.board, one.is_strike) for one in arrivals(there)] == [
        (1, 17.5, True),
        (3, 18.7, False),
    ]
    assert [one.number for one in arrivals(session)] == [4]


def test_a_ball_without_arrival_and_pins_has_no_board() -> None:
    (one,) = arrivals(_thrown(START, Shot(crossed_board=12)))
    assert (one.board, one.is_strike) == (None, False)


def test_only_the_last_arrivals_are_told() -> None:
    session = _thrown(START, *[HIGH] * 5)
    assert [one.number for one in arrivals(session, most=3)] == [3, 4, 5]


def test_the_last_line_that_worked_is_the_last_one_with_a_strike_or_a_pocket_ball() -> None:
    session = _thrown(START, STRIKE)
    session = _thrown(change(session, line=Line(24, 13)), Shot(arrival="pocket", leave=(10,)), HIGH)
    session = _thrown(change(session, line=Line(26, 14)), HIGH)
    assert last_line_that_worked(session) == Line(24, 13)


@pytest.mark.parametrize(("n_high", "line"), [(1, Line(24, 13)), (2, Line(22, 12))])
def test_a_line_worked_where_it_found_the_pocket_half_of_the_time(n_high: int, line: Line) -> None:
    session = _thrown(change(_thrown(START, STRIKE), line=Line(24, 13)), STRIKE, *[HIGH] * n_high)
    assert last_line_that_worked(session) == line


def test_fresh_oil_begins_anew_on_that_lane_alone() -> None:
    session = _thrown(change(START, games_on_lane=1.5), STRIKE)
    other = _thrown(change(session, lane="8", games_on_lane=1.5), STRIKE)
    oiled = change(change(other, lane="7"), games_on_lane=0.0)
    assert last_line_that_worked(oiled) is None
    assert arrivals(oiled) == ()
    assert [one.number for one in arrivals(change(oiled, lane="8"))] == [2]


@pytest.mark.parametrize("arrival", ["high", "crossover", "light"])
def test_a_strike_outside_the_pocket_speaks_for_no_line(arrival: str) -> None:
    assert last_line_that_worked(_thrown(START, Shot(arrival=arrival, leave=()))) is None
    assert last_line_that_worked(_thrown(START, Shot(arrival="pocket", leave=()))) == Line(22, 12)


@pytest.mark.parametrize(
    "session",
    [
        START,
        _thrown(START, HIGH),
        _thrown(START, dataclasses.replace(STRIKE, is_spare=True)),
        change(_thrown(START, STRIKE), lane="8"),
        change(_thrown(START, STRIKE), ball=Ball("another")),
    ],
    ids=["no ball", "a miss", "a spare", "the other lane", "another ball"],
)
def test_no_line_worked(session: Session) -> None:
    assert last_line_that_worked(session) is None


def test_what_is_no_session_is_told() -> None:
    with pytest.raises(InputError, match=r"session is 5; expected"):
        arrivals(5)  # type: ignore[arg-type]


def _seen(hand="right", **noted):
    session = observe(Session(Bowler(hand=hand), Line(22, 12)), Shot(**noted))
    return session.shots[-1]


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize(
    ("noted", "is_credited"),
    [
        ({"crossed_board": 12, "arrival": "pocket", "leave": ()}, True),
        ({"crossed_board": 12, "arrival": "pocket", "leave": (10,)}, True),
        ({"arrival": "pocket"}, True),  # the crossing was not noted: no miss is known
        ({"crossed_board": 12, "leave": ()}, True),  # only the pins: the usual way to a strike
        ({"crossed_board": 12, "arrival": "crossover", "leave": ()}, False),
        ({"crossed_board": 12, "arrival": "nose", "leave": ()}, False),
        ({"crossed_board": 12, "arrival": "light", "leave": ()}, False),
        ({"crossed_board": 15, "arrival": "pocket", "leave": ()}, False),
        ({"crossed_board": 9, "leave": ()}, False),
        ({"leave": (), "is_spare": True}, False),
        ({"crossed_board": 12}, False),
    ],
)
def test_only_a_pocket_ball_that_did_not_miss_speaks_for_its_line(hand, noted, is_credited):
    assert credits_line(_seen(hand, **noted)) is is_credited


def test_off_target_is_known_only_where_the_crossing_is():
    assert is_off_target(_seen(crossed_board=15, leave=()))
    assert not is_off_target(_seen(crossed_board=12.5, leave=()))
    assert not is_off_target(_seen(leave=()))


def test_a_strike_that_crossed_over_is_no_line_to_go_back_to():
    session = Session(Bowler(), Line(22, 12))
    session = observe(session, Shot(crossed_board=12, arrival="pocket", leave=(10,)))
    session = change(session, line=Line(25, 14))
    session = observe(session, Shot(crossed_board=14, arrival="crossover", leave=()))
    assert last_line_that_worked(session) == Line(22, 12)
