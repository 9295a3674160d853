"""What is changed where the feet cannot move, and a young bowler's move against the grown-up's.

Eyes, then speed, hand and ball, the cheapest to undo first: common practice of coaching, no source; ways and
sizes are those of the rulebook's own moves. A small move is exact geometry, both ways of walking.
"""

import itertools

import pytest

import coachlib as cl
from coachlib.coaching.advice.line_values import moves_to_weigh
from coachlib.coaching.rules.other_moves import (
    BALLS_A_LEVER,
    SMALL_SHIFT_BOARDS,
    is_small,
    other_levers,
    pins_shift_boards,
    small_move,
)
from coachlib.coaching.rules.rule_advice import kind_of
from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.world.levers import line_shift_boards

STUCK = cl.Place(is_feet_stuck=True)
HEADLINE_KINDS = ("line", "speed", "hand", "ball")


def advise(*shots, bowler=None, **fields):
    session = cl.Session(bowler=bowler or cl.Bowler(), line=cl.Line(22, 11), **fields)
    for shot in shots:
        session = cl.observe(session, shot)
    return cl.advise(session, model_on=False)


@pytest.mark.parametrize("side", ["high", "light"])
def test_eyes_come_first_then_speed_hand_and_ball(side):
    kinds = [kind_of(move) for move in other_levers(side, "even")]
    assert list(dict.fromkeys(kinds)) == list(HEADLINE_KINDS)


@pytest.mark.parametrize("side", ["high", "light"])
@pytest.mark.parametrize("motion", ["early", "even", "late", "roll_out", "unknown", None])
def test_no_lever_moves_the_feet(side, motion):
    levers = other_levers(side, motion)
    assert levers
    assert all(move.feet_boards == 0.0 and not move.is_stay for move in levers)


def test_eyes_go_against_the_miss_by_half_a_board_first():
    # Straight-line geometry: a board of eyes at the arrows is 4 boards at the pins, so ½ and 1 are enough.
    for side, sign in (("high", -1), ("light", 1)):
        eyes = [move for move in other_levers(side, "even") if move.target_boards]
        assert [move.target_boards for move in eyes] == [sign * 0.5, sign * 1.0]
        assert [line_shift_boards(move, 60) for move in eyes] == [sign * 2.0, sign * 4.0]


def test_high_wants_more_speed_fewer_revs_a_weaker_ball_and_light_the_contrary():
    high, light = (other_levers(side, "even")[2:] for side in ("high", "light"))
    assert (high[0], light[0]) == (cl.Move(speed_mph=0.5), cl.Move(speed_mph=-0.5))
    assert ("softer" in high[1].note, "firmer" in light[1].note) == (True, True)
    assert (high[2], light[2]) == (cl.Move(ball="weaker"), cl.Move(ball="stronger"))


@pytest.mark.parametrize("motion", ["early", "roll_out"])
def test_a_light_ball_that_burnt_up_is_not_sent_to_the_friction(motion):
    levers = other_levers("light", motion)
    assert not any(move.target_boards > 0 or move.speed_mph < 0 or move.ball == "stronger" for move in levers)
    assert [kind_of(move) for move in levers] == ["speed", "hand", "ball"]
    assert other_levers("high", motion) == other_levers("high", "even")


@pytest.mark.parametrize("side", ["pocket", None, "nose"])
def test_nothing_is_changed_for_another_side(side):
    assert other_levers(side, "even") == ()


def test_each_lever_is_given_three_balls_and_the_last_one_stays():
    first = [kind_of(other_levers("light", "early", n)[0]) for n in range(-1, 12)]
    runs = [(kind, len(list(same))) for kind, same in itertools.groupby(first)]
    assert runs == [("speed", 1 + BALLS_A_LEVER), ("hand", BALLS_A_LEVER), ("ball", 6)]
    eyes_stay = [[move.target_boards for move in other_levers("high", "even", n)[:2]] for n in (0, 3, 99)]
    assert eyes_stay == [[-0.5, -1.0]] * 3


def test_moves_of_the_body_are_those_of_the_rulebook():
    # The caution about the hand and pain goes by these; another wording would pass it by.
    rules = [part for rule in load_rulebook().rules for part in (rule, *rule.cases)]
    notes = {sized.move.note for part in rules for sized in part.moves}
    levers = [
        move
        for side in ("high", "light")
        for motion in ("even", "early")
        for move in other_levers(side, motion)
    ]
    assert {move.note for move in levers if move.note} <= notes
    assert {abs(move.speed_mph) for move in levers} == {0.0, 0.5}


# In an answer


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize(("arrival", "motion", "eyes"), [("crossover", "even", -0.5), ("light", "late", 0.5)])
def test_where_the_feet_cannot_move_the_eyes_do_and_the_headline_says_so(hand, arrival, motion, eyes):
    shot = cl.Shot(crossed_board=11, arrival=arrival, motion=motion)
    advice = advise(*[shot] * 3, bowler=cl.Bowler(hand=hand), place=STUCK)
    assert (advice.kind, advice.move) == ("line", cl.Move(0, eyes))
    inside = "left" if hand == "right" else "right"
    outside = "right" if hand == "right" else "left"
    assert cl.say(advice).headline == f"Feet stay, eyes ½ {inside if eyes > 0 else outside}"


def test_where_no_board_is_left_for_the_feet_the_reason_is_told_with_the_lever():
    shot = cl.Shot(crossed_board=11, arrival="crossover", motion="even")
    advice = advise(*[shot] * 3, bowler=cl.Bowler(feet_low_board=22.0, feet_high_board=22.0))
    assert [one.rule.id for one in advice.rule.forbidden] == ["fits_the_lane"]
    said = cl.say(advice)
    assert said.headline == "Feet stay, eyes ½ right"
    assert said.why == (
        "Rule of thumb: 4 and 2 left, but feet would be on board 26; this bowler stands on 22 to 22."
    )


@pytest.mark.parametrize("motion", ["early", "roll_out"])
@pytest.mark.parametrize("arrival", ["light", "far_light"])
def test_a_burnt_ball_with_stuck_feet_is_answered_by_neither_feet_nor_eyes_and_not_by_stay(arrival, motion):
    shot = cl.Shot(crossed_board=11, arrival=arrival, motion=motion)
    levers, first = (
        ("speed", "hand", "ball"),
        2 if arrival == "far_light" else 3,
    )  # very light twice is enough
    for n_balls in range(first, 8):
        advice = advise(*[shot] * n_balls, place=STUCK)
        assert (advice.move.feet_boards, advice.move.target_boards) == (0.0, 0.0)
        assert advice.kind in (levers if n_balls == first else (*levers, "watch"))
        assert advice.move.speed_mph >= 0.0
        assert advice.move.ball != "stronger"


@pytest.mark.parametrize("motion", ["early", "even", "late", "roll_out", "skid_long"])
@pytest.mark.parametrize("arrival", ["high", "crossover", "light", "far_light"])
def test_with_pain_no_lever_of_the_body_is_named(arrival, motion):
    sore = cl.Bowler(pain="thumb")
    for n_balls in range(1, 9):
        shots = [cl.Shot(crossed_board=11, arrival=arrival, motion=motion)] * n_balls
        move = advise(*shots, bowler=sore, place=STUCK).move
        assert (move.speed_mph, move.rotation_deg, move.note, move.feet_boards) == (0.0, 0.0, "", 0.0)


def test_one_or_two_balls_change_no_lever_unless_they_are_very_bad():
    light = cl.Shot(crossed_board=11, arrival="light", motion="late")
    far = cl.Shot(crossed_board=11, arrival="far_light", motion="late")
    assert advise(light, light, place=STUCK).move.is_stay
    assert advise(far, place=STUCK).move.is_stay
    assert advise(far, far, place=STUCK).move == cl.Move(0, 0.5)


# A young bowler's move

PLAYED = cl.Line(22, 12)
MOVES = [(2, 1), (3, 1), (3, 2), (4, 2), (5, 2), (7, 3), (1, 1), (2, 2), (1, 0), (2, 0), (0, 1)]


@pytest.mark.parametrize(("walk", "sign"), list(itertools.product(("slide", "walk"), (1, -1))))
@pytest.mark.parametrize("boards", MOVES)
def test_it_shifts_the_line_less_and_the_same_way(boards, walk, sign):
    bowler = cl.Bowler(walk=walk)
    grown = cl.Move(feet_boards=float(sign * boards[0]), target_boards=float(sign * boards[1]))
    small = small_move(grown, PLAYED, bowler)
    grown_shift, small_shift = (line_shift_boards(move, 60.0, walk) for move in (grown, small))
    assert abs(small_shift) < abs(grown_shift)
    assert small_shift * grown_shift > 0
    assert max(abs(small.feet_boards), abs(small.target_boards)) <= (1.5 if boards == (3, 2) else 1)
    assert small.feet_boards * grown.feet_boards >= 0
    assert small.target_boards * grown.target_boards >= 0


def test_half_of_a_two_and_one_is_one_and_a_half():
    # similar triangles: 2-and-1 is -2 boards at 60 ft (FACTS 7), 1-and-a-half is -1
    small = small_move(cl.Move(feet_boards=2.0, target_boards=1.0), PLAYED, cl.Bowler())
    assert (small.feet_boards, small.target_boards) == (1.0, 0.5)
    assert pins_shift_boards(small, PLAYED, cl.Bowler()) == -1.0


def test_parallel_moves_stay_parallel_and_other_moves_stay_what_they_are():
    small = small_move(cl.Move(feet_boards=-2.0, target_boards=-2.0), PLAYED, cl.Bowler())
    assert small.feet_boards == small.target_boards < 0
    assert small_move(cl.Move(speed_mph=0.5), PLAYED, cl.Bowler()) == cl.Move(speed_mph=0.5)
    assert small_move(cl.Move(ball="weaker", feet_boards=2.0), PLAYED, cl.Bowler()) == cl.Move(ball="weaker")


def test_what_is_weighed_for_a_young_bowler_is_small_on_the_lane_too():
    moves = moves_to_weigh(PLAYED, cl.Bowler(), "one board")
    assert moves[0].is_stay
    assert len(moves) > 5
    shifts = [abs(line_shift_boards(move, 60.0)) for move in moves]
    assert max(shifts) <= SMALL_SHIFT_BOARDS < 2.0
    eyes_alone = cl.Move(target_boards=1.0)  # four boards at the pins: more than a grown-up's 2-and-1
    assert not is_small(eyes_alone, PLAYED, cl.Bowler())
