"""What speaks for a line. Common practice, no source: a lucky strike is none of the line's."""

import pytest

import coachlib as cl
from coachlib.coaching.session.arrivals import credits_line, is_off_target, last_line_that_worked

LINE, OTHER = cl.Line(22, 12), cl.Line(25, 14)


def _seen(hand="right", **noted):
    session = cl.observe(cl.Session(cl.Bowler(hand=hand), LINE), cl.Shot(**noted))
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
    session = cl.Session(cl.Bowler(), LINE)
    session = cl.observe(session, cl.Shot(crossed_board=12, arrival="pocket", leave=(10,)))
    session = cl.change(session, line=OTHER)
    session = cl.observe(session, cl.Shot(crossed_board=14, arrival="crossover", leave=()))
    assert last_line_that_worked(session) == LINE
