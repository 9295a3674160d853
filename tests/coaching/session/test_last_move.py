"""What became of the last move: it worked, fell short or went too far, and how much of it is taken back.

Going back half of a move that went too far is in print (regional coach's column, April 2005); how it is
rounded is derived here: towards the old line, never more than the move itself.
"""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.advice.joint_answer import joint_answer
from coachlib.coaching.rules.rule_advice import rule_answer
from coachlib.coaching.session.last_move import LastMove, half_back, last_move
from coachlib.coaching.wording.callouts import line_text
from coachlib.review.session_end import session_end, verdict_words
from coachlib.review.take_home import moves_made
from tests.answers import voice, worth

OLD, NEW = cl.Line(22, 11), cl.Line(24, 12)


def before_the_move(arrival="high", bowler=None, n_balls=3, **fields):
    session = cl.Session(bowler=bowler or cl.Bowler(), line=OLD, lane="7", **fields)
    for _ in range(n_balls):
        session = cl.observe(session, cl.Shot(crossed_board=11, arrival=arrival, motion="even"))
    return session


def moved(*arrivals, line=NEW, answered="high", bowler=None, **fields):
    """Return a session that answered three balls with a move, and the balls over the new target since."""
    session = cl.change(before_the_move(answered, bowler, **fields), line=line)
    for arrival in arrivals:
        session = cl.observe(
            session, cl.Shot(crossed_board=line.target_board, arrival=arrival, motion="even")
        )
    return session


def advise(session):
    return cl.advise(session, model_on=False)


def judged(session) -> LastMove:
    made = last_move(session)
    assert made is not None
    return made


# What the next balls say


@pytest.mark.parametrize(
    ("arrivals", "outcome", "n_too_far", "n_fell_short"),
    [
        ((), "open", 0, 0),
        (("pocket",), "open", 0, 0),  # one can be luck
        (("pocket", "pocket"), "worked", 0, 0),
        (("high",), "open", 0, 1),
        (("high", "high"), "short", 0, 2),
        (("light",), "open", 1, 0),
        (("light", "far_light"), "far", 2, 0),
        (("light", "pocket"), "open", 0, 0),
        (("nose", "pocket"), "open", 0, 0),
        (("light", "high"), "open", 0, 1),
        (("pocket", "light"), "open", 0, 0),
        (("pocket", "pocket", "high"), "worked", 0, 1),
        (("high", "light", "light"), "far", 0, 0),
        (("high", "pocket", "pocket"), "worked", 0, 0),
        ((None,), "open", 0, 0),
    ],
)
def test_the_next_balls_say_what_became_of_a_move(arrivals, outcome, n_too_far, n_fell_short):
    made = judged(moved(*arrivals))
    assert (made.move, made.old_line, made.answered) == (cl.Move(2, 1), OLD, "high")
    assert (made.outcome, made.n_too_far, made.n_fell_short) == (outcome, n_too_far, n_fell_short)
    assert made.n_balls == len(made.hits) == len(arrivals)


@pytest.mark.parametrize(("arrival", "outcome"), [("high", "far"), ("light", "short"), ("pocket", "worked")])
def test_a_move_for_a_light_ball_is_judged_the_other_way_round(arrival, outcome):
    assert judged(moved(arrival, arrival, line=cl.Line(21, 11), answered="light")).outcome == outcome


def test_only_balls_not_known_to_be_off_the_mark_judge_a_move():
    session = moved("light")
    for crossed in (13.5, 15.0, 9.0):  # a board and a half off, and far off: both tell little of the line
        session = cl.observe(session, cl.Shot(crossed_board=crossed, arrival="light"))
    made = judged(session)
    assert (made.n_balls, len(made.hits), made.n_too_far) == (4, 1, 1)
    unseen = cl.observe(session, cl.Shot(arrival="light"))
    assert judged(unseen).n_too_far == 2


def test_the_first_four_balls_judge_a_move_and_later_ones_are_the_lane():
    four = moved("light", "light", "light", "light")
    assert judged(four).outcome == "far"
    fifth = cl.observe(four, cl.Shot(crossed_board=12, arrival="light"))
    assert (judged(fifth).outcome, judged(fifth).is_judged, judged(fifth).n_too_far) == ("far", False, 0)
    assert "move_went_too_far" in advise(four).rule.rule_ids
    assert "move_went_too_far" not in advise(fifth).rule.rule_ids


def test_a_move_that_answered_nothing_seen_is_not_judged():
    start = cl.change(before_the_move(n_balls=0), line=NEW)
    after_pocket = cl.change(before_the_move("pocket"), line=NEW)
    for session in (start, after_pocket):
        made = judged(cl.observe(session, cl.Shot(crossed_board=12, arrival="light")))
        assert (made.answered, made.outcome, made.n_too_far) == (None, "open", 0)


def test_what_a_move_answered_is_the_last_ball_that_missed_the_pocket_on_the_old_line():
    session = before_the_move("high")
    session = cl.observe(session, cl.Shot(crossed_board=11, arrival="light"))
    session = cl.observe(session, cl.Shot(crossed_board=11, arrival="pocket"))
    assert judged(cl.change(session, line=NEW)).answered == "light"
    spare = cl.observe(before_the_move("high"), cl.Shot(leave=(7,), is_spare=True))
    assert judged(cl.change(spare, line=NEW)).answered == "high"
    twice = cl.change(cl.change(before_the_move("high"), line=cl.Line(23, 11)), line=NEW)
    assert judged(twice).answered == "high"  # feet, then eyes, with no ball between: one move
    assert judged(twice).move == cl.Move(2, 1)


def test_no_move_no_judgment():
    assert last_move(before_the_move()) is None
    assert last_move(cl.change(moved("light"), games_on_lane=0.0)) is None
    assert last_move(cl.change(moved("light"), lane="8")) is None
    ball = cl.load_ball("hybrid_2000")
    assert last_move(cl.change(moved("light"), ball=ball)) is None
    assert last_move(cl.change(before_the_move(), line=NEW, ball=ball)) is None
    farther = cl.Line(24, 12, target_ft=25)
    assert last_move(cl.change(before_the_move(), line=farther)) is None


def test_a_move_is_remembered_while_the_other_lane_is_played():
    away = cl.observe(cl.change(moved("light"), lane="8"), cl.Shot(crossed_board=12, arrival="high"))
    back = cl.change(away, lane="7")
    assert judged(back).n_too_far == 1
    assert judged(cl.observe(back, cl.Shot(crossed_board=12, arrival="light"))).n_too_far == 2


# Half of it


@pytest.mark.parametrize(
    ("feet", "eyes", "back"),
    [
        (2, 1, (-1, -0.5)),
        (3, 2, (-1.5, -1)),
        (4, 2, (-2, -1)),
        (5, 2, (-2.5, -1)),
        (1, 0, (-1, 0)),
        (1, 1, (-1, -1)),
        (0, 1, (0, -1)),
        (-1, 0, (1, 0)),
        (-2, -1, (1, 0.5)),
        (-3, -2, (1.5, 1)),
        (1, -1, (-1, 1)),
        (0.5, 0, (-0.5, 0)),
        (0, -0.5, (0, 0.5)),
        (1.5, 0.5, (-1, -0.5)),
        (2.5, 1.5, (-1.5, -1)),
        (0, 0, (0, 0)),
    ],
)
def test_half_of_a_move_is_rounded_towards_the_old_line(feet, eyes, back):
    assert half_back(cl.Move(feet, eyes)) == cl.Move(*back)


@pytest.mark.parametrize("feet", [half / 2 for half in range(-14, 15)])
@pytest.mark.parametrize("eyes", [-3, -2.5, -1, -0.5, 0, 0.5, 1, 1.5, 2])
def test_never_more_than_the_move_and_never_less_than_half_of_it(feet, eyes):
    back = half_back(cl.Move(feet, eyes))
    for made, undone in ((feet, back.feet_boards), (eyes, back.target_boards)):
        assert abs(made) / 2 <= abs(undone) <= abs(made)
        assert made * undone <= 0
        assert abs(made + undone) <= abs(made) / 2
    assert str(back.feet_boards) != "-0.0"  # a minus nought would be called out as a side


# What is answered


@pytest.mark.parametrize("hand", ["right", "left"])
def test_one_ball_too_far_is_watched_and_it_is_said_what_to_look_for(hand):
    advice = advise(moved("light", bowler=cl.Bowler(hand=hand)))
    assert (advice.kind, advice.move) == ("watch", cl.Move())
    assert advice.rule.rule_ids == ("move_perhaps_too_far",)
    said = cl.say(advice)
    assert said.headline == "One more, same line"
    assert said.look_for == "The same line, over the target: on which side of the pocket does it come in?"
    assert "go back half" in said.then
    assert "you, not the lane" not in said.summary


@pytest.mark.parametrize(
    ("line", "back", "called"),
    [
        (cl.Line(24, 12), cl.Move(-1, -0.5), "Go back half: 1 and ½ {out}"),
        (cl.Line(25, 13), cl.Move(-1.5, -1), "Go back half: 1½ and 1 {out}"),
        (cl.Line(26, 13), cl.Move(-2, -1), "Go back half: 2 and 1 {out}"),
        (cl.Line(23, 11), cl.Move(-1, 0), "Go back: feet 1 {out}, eyes stay"),
        (cl.Line(22, 10.5), cl.Move(0, 0.5), "Go back: feet stay, eyes ½ {in}"),
    ],
)
@pytest.mark.parametrize(
    ("hand", "outside", "inside"), [("right", "right", "left"), ("left", "left", "right")]
)
def test_two_balls_too_far_take_back_half_with_numbers(line, back, called, hand, outside, inside):
    session = moved("light", "light", line=line, bowler=cl.Bowler(hand=hand))
    advice = advise(session)
    assert (advice.kind, advice.move) == ("line", back)
    assert advice.new_line == cl.Line(
        line.feet_board + back.feet_boards, line.target_board + back.target_boards
    )
    assert advice.rule.rule_ids[0] == "move_went_too_far"
    said = cl.say(advice)
    assert said.headline == called.format_map({"out": outside, "in": inside})
    assert said.sentence.startswith(f"{line_text(advice.new_line)}. ")
    assert said.why.startswith("After the move it came in on the other side of the pocket, over the target")


def test_what_went_too_far_to_the_outside_is_taken_back_inward():
    advice = advise(moved("high", "high", line=cl.Line(20, 10), answered="light"))
    assert advice.move == cl.Move(1, 0.5)
    one = advise(moved("high", line=cl.Line(20, 10), answered="light"))
    assert (one.kind, one.rule.rule_ids) == ("watch", ("move_perhaps_too_far",))


@pytest.mark.parametrize("hand", ["right", "left"])
def test_one_ball_across_the_head_pin_is_enough(hand):
    session = moved("crossover", line=cl.Line(20, 10), answered="light", bowler=cl.Bowler(hand=hand))
    advice = advise(session)
    assert advice.move == cl.Move(1, 0.5)
    assert advice.rule.rule_ids[0] == "move_went_too_far"
    nose = advise(moved("nose", line=cl.Line(20, 10), answered="light"))
    assert nose.move.is_stay


def test_a_ball_off_the_mark_takes_nothing_back():
    session = moved("light")
    for crossed in (13.5, 15.0):
        advice = advise(cl.observe(session, cl.Shot(crossed_board=crossed, arrival="light")))
        assert advice.move.is_stay


@pytest.mark.parametrize("arrivals", [("high",), ("nose",), ("far_light",), ("light",), ("pocket",)])
def test_no_second_move_before_two_balls(arrivals):
    assert advise(moved(*arrivals)).move.is_stay


def test_two_balls_still_on_the_old_side_are_a_small_step_more():
    advice = advise(moved("high", "high"))
    assert advice.rule.rule_ids[0] == "move_fell_short"
    assert advice.move == cl.Move(2, 1)
    light = advise(moved("light", "light", line=cl.Line(21, 11), answered="light"))
    assert (light.rule.rule_ids[0], light.move) == ("move_fell_short", cl.Move(-1, 0))


def test_that_a_move_worked_is_said():
    said = cl.say(advise(moved("pocket", "pocket")))
    assert said.why.startswith("Your last move worked.")
    assert cl.say(advise(moved("pocket", "pocket")), to="coach").why.startswith("The last move worked.")
    for arrivals in (("light",), ("pocket",), ("nose", "pocket"), ("pocket", "pocket", "light")):
        assert "last move worked" not in cl.say(advise(moved(*arrivals))).why
    assert "last move worked" not in cl.say(advise(before_the_move("pocket"))).why


@pytest.mark.parametrize(
    ("arrivals", "at_the_lane", "in_the_summary", "in_the_notes"),
    [
        (
            ("nose", "pocket"),
            False,
            "Too few balls to tell.",
            "not clear, 1 of 2 balls on target hit the pocket",
        ),
        (("pocket", "pocket"), True, "The move worked.", "it worked"),
        (("high", "pocket", "pocket"), True, "The move worked: 0 of 3 ", "it worked"),
        (("light", "light"), False, "The move went too far.", "it went too far"),
        (("high", "high"), False, "The move fell short.", "it fell short"),
        (
            ("pocket",),
            False,
            "Too few balls to tell.",
            "too early to tell, one ball on target hit the pocket",
        ),
    ],
)
def test_lane_summary_and_notes_judge_a_move_alike(arrivals, at_the_lane, in_the_summary, in_the_notes):
    session = moved(*arrivals)
    assert ("last move worked" in cl.say(advise(session)).why) is at_the_lane
    end = session_end(session)
    assert verdict_words(end, end.stretches[-1]).startswith(in_the_summary)
    (move,) = moves_made(session, {})
    assert move.after == in_the_notes


@pytest.mark.parametrize("arrival", ["light", "crossover"])
def test_half_back_is_exact_with_the_simulation_too(arrival):
    # The size of the way back is settled: the simulation has no say in it.
    ball, oil = cl.load_ball("hybrid_2000"), cl.load_pattern("house_41")
    answered, line = ("light", cl.Line(20, 10)) if arrival == "crossover" else ("high", cl.Line(25, 13))
    n_balls = 1 if arrival == "crossover" else 2
    session = moved(*[arrival] * n_balls, line=line, answered=answered, ball=ball, pattern=oil)
    advice = cl.advise(session)
    assert advice.move == half_back(judged(session).move)
    assert advice.is_settled


@pytest.mark.parametrize(
    ("arrivals", "kind"), [(("light", "light"), "watch"), (("light", "far_light", "light"), "line")]
)
def test_half_back_at_a_shown_loss_waits_for_one_ball_more_and_then_goes(arrivals, kind):
    ruled = rule_answer(moved(*arrivals), cl.load_rulebook())
    half = ruled.voice.move
    losing = voice(worth(cl.Move(), 8), worth(half, 6), worth(half, 6))
    assert joint_answer(ruled, losing) == (kind, half if kind == "line" else cl.Move())
    gaining = voice(worth(cl.Move(), 8), worth(half, 9), worth(half, 9))
    assert joint_answer(ruled, gaining) == ("line", half)


def test_while_half_back_waits_the_words_say_why_and_when():
    advice = advise(moved("light", "light"))
    said = cl.say(dataclasses.replace(advice, kind="watch", move=cl.Move(), new_line=advice.line))
    assert said.headline == "One more, same line"
    assert "half back would lose" in said.why
    assert said.then == "If the next good ball comes in there too, go back half."


@pytest.mark.parametrize(("answered", "way"), [("high", 1), ("light", -1)])
def test_two_good_balls_still_on_the_old_side_move_the_line_with_the_simulation_too(answered, way):
    line = NEW if answered == "high" else cl.Line(20, 10)
    advice = cl.advise(moved(answered, answered, line=line, answered=answered))
    assert advice.rule.rule_ids[0] == "move_fell_short"
    assert (advice.kind, way * advice.move.feet_boards > 0) == ("line", True)


def test_a_move_of_one_board_goes_back_whole_and_is_not_called_half():
    one = cl.Line(OLD.feet_board + 1, OLD.target_board)
    assert cl.say(advise(moved("light", "light", line=one))).headline == "Go back: feet 1 right, eyes stay"
    assert cl.say(advise(moved("light", "light"))).headline.startswith("Go back half: ")


def test_a_second_move_of_another_size_says_that_the_first_fell_short():
    advice, other = advise(moved("high", "high")), cl.Move(3, 2)
    model = voice(worth(cl.Move(), 6), worth(other, 9), worth(advice.rule.move, 7))
    counted = dataclasses.replace(advice, model=model, move=other, agree=True)
    assert cl.say(counted).why.startswith("The last move fell short.")
