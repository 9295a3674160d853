"""A straight ball's answer: geometry to the board, and no word of a hook."""

import dataclasses
import itertools
import re

import pytest

import coachlib as cl
from coachlib.coaching.rules.straight_ball import is_straight, straight_move
from coachlib.coaching.session.lane_history import boards_on_target
from coachlib.world.levers import board_at

PLASTIC = cl.load_ball("plastic_spare")
LINE = cl.Line(20, 14)
HOOK_WORDS = re.compile(r"\b(earl|later|late\b|breakpoint|oil|turns|friction|hook)", re.IGNORECASE)


def advised(*shots: cl.Shot, line: cl.Line = LINE, **told: object) -> cl.Advice:
    bowler = cl.Bowler(**told)  # type: ignore[arg-type]
    session = cl.Session(bowler=bowler, line=line, ball=PLASTIC, pattern=cl.load_pattern("house_41"))
    for shot in shots:
        session = cl.observe(session, shot)
    return cl.advise(session)


def on_target(arrival: object, **told: object) -> cl.Shot:
    return cl.Shot(crossed_board=14, arrival=arrival, **told)  # type: ignore[arg-type]


@pytest.mark.parametrize("walk", ["slide", "walk"])
@pytest.mark.parametrize("off_boards", [-5.0, -3.0, -2.0, -1.0, 1.0, 2.5, 4.0, 5.5])
def test_the_move_brings_the_line_into_the_pocket_on_paper(walk: str, off_boards: float) -> None:
    # exact: the line through laydown and target at 60 ft, before and after
    bowler = cl.Bowler(walk=walk, hook="straight")  # type: ignore[arg-type]
    move = straight_move(LINE, bowler, off_boards)
    new = cl.Line(LINE.feet_board + move.feet_boards, LINE.target_board + move.target_boards)
    shift = board_at(new, bowler, 60.0) - board_at(LINE, bowler, 60.0)
    assert abs(off_boards + shift) <= 0.7
    assert (2 * move.feet_boards).is_integer()
    assert (2 * move.target_boards).is_integer()


def test_eyes_first_then_feet_then_both() -> None:
    bowler = cl.Bowler(hook="straight")
    assert straight_move(LINE, bowler, -4.0) == cl.Move(target_boards=1.0)
    assert straight_move(LINE, bowler, -3.0) == cl.Move(feet_boards=-1.0)
    both = straight_move(LINE, bowler, -1.0)
    assert both.feet_boards
    assert both.target_boards
    assert cl.line_shift_boards(both, at_ft=60) == 1.0
    assert straight_move(LINE, bowler, 0.6) == cl.Move()
    stuck = straight_move(LINE, bowler, -3.0, is_feet_stuck=True)
    assert stuck.feet_boards == 0
    assert stuck.target_boards > 0


def test_three_boards_light_twice_gets_an_answer_with_numbers() -> None:
    once, twice = advised(on_target(14.5)), advised(*[on_target(14.5)] * 2)
    assert once.kind == "watch"
    assert twice.kind == "line"
    assert twice.move == cl.Move(feet_boards=-1.0)
    said = cl.say(twice)
    assert "your line hits 3 boards light" in said.why
    assert "it hits 3 boards farther left, into the pocket" in said.why
    assert twice.model is not None
    assert twice.agree


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize(
    "arrivals", list(itertools.product(["far_light", "light", "pocket", "nose", "crossover"], repeat=2))
)
def test_no_word_of_a_hook_and_no_number_off_the_lane(arrivals: tuple[str, str], hand: str) -> None:
    advice = advised(*[on_target(one, motion="early", leave=(10,)) for one in arrivals], hand=hand)
    said = cl.say(advice)
    texts = (
        said.headline,
        said.sentence,
        said.why,
        said.look_for,
        said.then,
        said.rule,
        said.model,
        said.cause,
    )
    told = " ".join([*texts, *said.notes, *said.runners_up])
    assert not HOOK_WORDS.search(told), told
    assert all(float(number) <= 45 for number in re.findall(r"\d+", told))


def test_a_miss_explains_itself_with_the_straight_lever() -> None:
    missed = advised(on_target("pocket"), cl.Shot(crossed_board=16, arrival="crossover"))
    assert missed.kind == "stay"
    assert missed.cause.verdict == "bowler"
    assert "2 boards. For a straight ball that is 8 at the pins" in cl.say(missed).why  # 60 / 15 ft = 4


def test_the_pocket_twice_stays_and_a_wild_arrival_is_not_counted_in_boards() -> None:
    assert advised(*[on_target("pocket")] * 2).kind == "stay"
    assert advised(on_target("light"), on_target("high")).kind == "stay"
    far = cl.say(advised(*[on_target(30.0)] * 2)).why
    assert "far past the head pin" in far
    assert "12" not in far
    assert far.endswith("towards the pocket.")


def test_a_new_line_fresh_oil_and_spares_begin_anew() -> None:
    session = advised(*[on_target(14.5)] * 2).session
    assert boards_on_target(session) == (14.5, 14.5)
    moved = cl.change(session, line=cl.Line(19, 14))
    assert boards_on_target(moved) == ()
    spare = cl.observe(session, cl.Shot(crossed_board=14, arrival="high", is_spare=True))
    assert boards_on_target(spare) == (14.5, 14.5)
    worn = cl.change(session, games_on_lane=1.0)
    assert boards_on_target(cl.change(worn, games_on_lane=0.0)) == ()


def test_the_mirrored_bowler_gets_the_mirrored_answer() -> None:
    right, left = (advised(*[on_target(20.0)] * 2, hand=hand) for hand in ("right", "left"))
    assert right.move == left.move
    assert "right" in cl.say(right).why
    assert (
        cl.say(right).why.replace("left", "…").replace("right", "left").replace("…", "right")
        == cl.say(left).why
    )


def test_a_young_bowler_makes_a_smaller_step_and_a_hooking_ball_is_left_alone() -> None:
    grown, young = (advised(*[on_target(14.5)] * 2, **told) for told in ({}, {"age_years": 10.0}))
    shifts = [cl.line_shift_boards(one.move, at_ft=60) for one in (grown, young)]
    assert 0 < shifts[1] < shifts[0]
    assert cl.say(young).why.startswith("One small step first.")
    hooking = advised(*[on_target(14.5)] * 2, rev_rate_rpm=300.0, axis_rotation_deg=45.0)
    assert not any(name.startswith("straight") for name in hooking.rule.rule_ids)


def test_few_revs_alone_are_no_straight_ball_with_a_ball_that_takes_hold() -> None:
    bowler = cl.Bowler(rev_rate_rpm=180.0)
    session = cl.Session(bowler=bowler, line=LINE, ball=PLASTIC)
    assert is_straight(session)
    assert not is_straight(dataclasses.replace(session, ball=cl.load_ball("hybrid_2000")))
    assert is_straight(dataclasses.replace(session, bowler=cl.Bowler(axis_rotation_deg=5.0), ball=None))


def test_nothing_beyond_the_comfort_board_is_asked() -> None:
    bowler = dataclasses.replace(cl.Bowler(hook="straight"), comfort_board=20.0)
    for off_boards in (1.0, 3.0, 5.0):
        assert straight_move(LINE, bowler, off_boards).feet_boards <= 0


def over_the_target(line, *arrivals):
    session = cl.Session(cl.Bowler(hook="straight"), line)
    for arrival in arrivals:
        session = cl.observe(session, cl.Shot(crossed_board=line.target_board, arrival=arrival))
    return session


def test_high_and_light_over_one_target_move_no_line():
    advice = cl.advise(over_the_target(cl.Line(20, 15), "light", "high", "high"), model_on=False)
    assert (advice.rule.rule_ids, advice.move.is_stay) == (("straight_both_sides",), True)


def test_a_line_that_missed_on_the_other_side_is_not_taken_again():
    session = cl.change(over_the_target(cl.Line(20, 15), "nose", "nose"), line=cl.Line(20, 14.5))
    for _ in range(2):
        session = cl.observe(session, cl.Shot(crossed_board=14.5, arrival="light"))
    assert cl.advise(session, model_on=False).new_line != cl.Line(20, 15)


def test_a_strike_through_the_nose_is_called_luck():
    session = cl.observe(over_the_target(cl.Line(20, 15)), cl.Shot(15, arrival="nose", leave=()))
    advice = cl.advise(session, model_on=False)
    assert (advice.rule.rule_ids, advice.kind) == (("straight_lucky",), "stay")
