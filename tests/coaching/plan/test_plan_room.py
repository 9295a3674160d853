"""How far a planned line may be shifted: to where most of its chance is kept, and no farther."""

import dataclasses

import coachlib as cl
from coachlib.coaching.plan.plan_room import line_room
from coachlib.coaching.simulation.line_search import ROOM_FRAC, films_of, line_chances
from coachlib.world.levers import fits_problems
from tests.planned import plan_of, session_of


def test_room_is_where_most_of_the_chance_is_kept_and_ends_where_it_is_not():
    session, line = session_of(), plan_of().line
    room = line_room(session, line)

    def kept(feet, eyes):
        shifted = cl.Line(line.feet_board + feet, line.target_board + eyes)
        chances = line_chances(session, [line, shifted], films_of(session.pattern))
        told = chances.mean(axis=0)
        return told[1] >= ROOM_FRAC * told[0] and not fits_problems(shifted, session.bowler)

    assert kept(-room.parallel_out_boards, -room.parallel_out_boards)
    assert not kept(-room.parallel_out_boards - 1.0, -room.parallel_out_boards - 1.0)
    assert kept(room.parallel_in_boards, room.parallel_in_boards)
    assert not kept(room.parallel_in_boards + 1.0, room.parallel_in_boards + 1.0)
    assert kept(0.0, -room.aim_out_boards)
    assert not kept(0.0, -room.aim_out_boards - 0.5)
    assert kept(0.0, room.aim_in_boards)
    assert not kept(0.0, room.aim_in_boards + 0.5)


def test_room_ends_at_the_approach():
    bowler = dataclasses.replace(cl.load_bowler("club_right"), feet_low_board=20.0, feet_high_board=24.0)
    session = dataclasses.replace(session_of("club_right", "flat_42"), bowler=bowler)
    room = line_room(session, cl.Line(22.0, 12.0))
    assert room.parallel_in_boards <= 2.0
    assert room.parallel_out_boards <= 2.0
    assert max(room.parallel_in_boards, room.parallel_out_boards) == 2.0  # it would go on else
