"""Lines for the pins left: which pins one ball makes, and where feet and eyes are for it.

Kinds of test: geometry derived from the pins' spots (limiting cases and a second way of reckoning); which
leaves have a line of their own is common practice, no source. Windows and stance moves that are in print
stand in tests/published/test_spares_published.py.
"""

import dataclasses
import itertools
import math

import pytest

import coachlib as cl
from coachlib.coaching.spares.spare_lines import CONTACT_BOARDS, aim_at, pin_window, spare_line, split_facts
from coachlib.world.levers import board_at, laydown_board
from coachlib.world.pins import ALL_PINS, MIRROR_PIN, pin_board, pin_ft

WALKS = [("slide", 15.0), ("walk", 15.0), ("walk", 12.0), ("walk", 9.0)]
NO_MOVE = cl.Move()


def session_of(walk="slide", stance_ft=15.0, **fields):
    place = cl.Place(is_feet_stuck=fields.pop("is_feet_stuck", False))
    return cl.Session(
        bowler=cl.Bowler(walk=walk, stance_ft=stance_ft, **fields), line=cl.Line(22, 11), place=place
    )


@pytest.mark.parametrize(
    ("leave", "way", "pins"),
    [
        ((10,), "pin", (10,)),
        ((2, 8), "pin", (2, 8)),
        ((3, 6, 10), "pin", (3, 6, 10)),
        ((4, 5), "gap", (4, 5)),
        ((5, 6), "gap", (5, 6)),
        ((3, 10), "gap", (3, 10)),
        ((2, 7), "gap", (2, 7)),
        ((3, 9, 10), "gap", (3, 9, 10)),
        ((4, 5, 7), "gap", (4, 5, 7)),
        ((9, 10), "gap", (9, 10)),
        ((5, 10), "across", (5, 10)),
        ((5, 7), "across", (5, 7)),
        ((2, 10), "across", (2, 10)),
        ((1, 2, 10), "across", (1, 2, 10)),
        ((1, 2, 4, 10), "across", (1, 2, 4, 10)),
        ((1, 3, 6, 7), "across", (1, 3, 6, 7)),
        ((7, 10), "part", (10,)),
        ((4, 6), "part", (6,)),
        ((8, 10), "part", (8,)),
        ((4, 10), "part", (4,)),
        ((4, 6, 7, 10), "part", (6, 10)),
        ((6, 7, 10), "part", (6, 10)),
        ((4, 7, 10), "part", (4, 7)),
        ((4, 6, 7, 8, 10), "part", (4, 7, 8)),
        (ALL_PINS, "rack", ALL_PINS),
    ],
)
def test_what_one_ball_makes(leave, way, pins):
    aim = aim_at(leave)
    assert (aim.way, aim.pins) == (way, pins)
    is_apart = way in ("gap", "across", "part")
    assert split_facts(leave) == ({"split_way": way, "n_pins_sure": len(pins)} if is_apart else {})


def test_every_leave_has_an_aim_that_touches_its_front_pins():
    leaves = [leave for n in range(1, 11) for leave in itertools.combinations(ALL_PINS, n)]
    assert len(leaves) == 1023
    for leave in leaves:
        aim = aim_at(leave)
        assert set(aim.pins) <= set(leave)
        if aim.way in ("pin", "gap", "part"):
            for pin in aim.fronts:
                low, high = pin_window(pin)
                assert low <= aim.board <= high
        assert 0.5 <= aim.board <= 39.5
        assert aim.room_boards > 0


@pytest.mark.parametrize("leave", [(5, 10), (2, 10), (1, 2, 10), (4, 9), (6, 8), (1, 3, 7)])
def test_the_hit_sends_the_front_pin_to_the_other(leave):
    # Second way: the line of centres at the hit, a pin leaving along it, meets the other pin's spot.
    aim = aim_at(leave)
    key, taken = aim.fronts
    off = aim.board - pin_board(key)
    along = math.sqrt(CONTACT_BOARDS**2 - off**2)
    per_board = (pin_ft(taken) - pin_ft(key)) * 12.0 / (41.5 / 39.0) / along
    assert pin_board(key) - off * per_board == pytest.approx(pin_board(taken), abs=1e-9)
    for pin in set(leave) - {key, taken}:  # the ball goes on to these: they stand on its side
        assert (pin_board(pin) - pin_board(key)) * off > 0


@pytest.mark.parametrize(("walk", "stance_ft"), WALKS)
@pytest.mark.parametrize("leave", [(pin,) for pin in ALL_PINS] + [(4, 5), (3, 10), (3, 9, 10), (1, 2, 10)])
def test_a_straight_line_leads_where_it_is_aimed(leave, walk, stance_ft):
    session = session_of(walk, stance_ft)
    found = spare_line(session, leave, NO_MOVE)
    assert found.is_straight
    assert abs(found.line.target_board - 20.0) <= 1.0
    ends = board_at(found.line, session.bowler, found.aim.ft)
    assert abs(ends - found.aim.board) <= min(1.0, found.aim.room_boards)
    assert (2 * found.line.feet_board) % 1 == 0
    assert 1 <= laydown_board(found.line, session.bowler) <= 39


def test_the_corner_pins_are_played_across_the_lane():
    for walk, stance_ft in WALKS:
        bowler = session_of(walk, stance_ft).bowler
        ten = spare_line(session_of(walk, stance_ft), (10,), NO_MOVE).line
        seven = spare_line(session_of(walk, stance_ft), (7,), NO_MOVE).line
        assert ten.target_board == seven.target_board == 20.0
        # laid down on the other half of the lane than the pin
        assert laydown_board(ten, bowler) > 20 > laydown_board(seven, bowler)
        assert ten.feet_board > seven.feet_board
    # by hand, sliding: 20 + 15 (20 - 4.93) / 47.6 = 24.7, the ball 6.5 outside the foot
    assert spare_line(session_of(), (10,), NO_MOVE).line == cl.Line(31, 20)


def test_another_offset_of_the_ball_moves_the_feet_alone():
    for pin in ALL_PINS:
        usual = spare_line(session_of(), (pin,), NO_MOVE).line
        wider = spare_line(session_of(laydown_offset_boards=8.5), (pin,), NO_MOVE).line
        assert (wider.feet_board - usual.feet_board, wider.target_board) == (2.0, usual.target_board)


@pytest.mark.parametrize(("low", "high", "pin"), [(1.0, 30.0, 10), (19.0, 45.0, 7), (1.0, 20.0, 6)])
def test_where_the_feet_run_out_the_eyes_make_the_rest(low, high, pin):
    session = session_of("walk", feet_low_board=low, feet_high_board=high)
    found = spare_line(session, (pin,), NO_MOVE)
    assert found.is_feet_end
    assert found.line.feet_board in (low, high)
    ends = board_at(found.line, session.bowler, found.aim.ft)
    window = pin_window(pin)
    assert window[0] < ends < window[1]


def test_feet_that_cannot_move_stay():
    found = spare_line(session_of(is_feet_stuck=True), (10,), NO_MOVE)
    assert (found.line.feet_board, found.is_feet_end) == (22.0, True)


@pytest.mark.parametrize(
    ("walk", "stance_ft"), [("slide", 15.0), ("walk", 12.0), ("walk", 15.0), ("walk", 18.0)]
)
@pytest.mark.parametrize("pin", [2, 3, 4, 6])
def test_the_spare_systems_move_stays_inside_the_window_of_its_pin(pin, walk, stance_ft):
    # The strike line as a straight one through the pocket, moved as the rule says.
    session = cl.observe(session_of(walk, stance_ft, rev_rate_rpm=300.0), cl.Shot(leave=(pin,)))
    move = cl.advise(session, model_on=False).spare.move
    assert move.feet_boards
    ends = 17.5 + cl.line_shift_boards(move, 60.0, walk, stance_ft=stance_ft)
    low, high = pin_window(pin)
    assert low + 0.5 < ends < high - 0.5


def test_who_throws_straight_has_a_straight_line_for_pins_behind_each_other():
    straight = dataclasses.replace(session_of(), bowler=cl.Bowler(rev_rate_rpm=150.0))
    assert spare_line(straight, (2, 8), NO_MOVE).is_straight
    assert not spare_line(session_of(), (2, 8), cl.Move(-2.5, 0)).is_straight
    assert spare_line(session_of(), (2, 8), cl.Move(-2.5, 0)).line == cl.Line(19.5, 11)


@pytest.mark.parametrize("leave", [(10,), (4, 5), (5, 10), (1, 2, 10), (3, 9, 10)])
def test_the_mirror_image_is_aimed_at_the_mirror_image(leave):
    # the way, the pins and the board are the mirror's; equal parts alone are chosen by the pocket's side
    aim, other = aim_at(leave), aim_at(tuple(MIRROR_PIN[pin] for pin in leave))
    assert other.board == pytest.approx(40.0 - aim.board)
    assert other.way == aim.way
    assert set(other.pins) == {MIRROR_PIN[pin] for pin in aim.pins}
