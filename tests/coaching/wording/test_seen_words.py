"""What the last ball did, in one sentence that is true to the mark, to the bowler and to the coach.

The wanted words are our own (the style of the house: a coach's plain words). Which ball is on target follows
from the mark: within a board of it, half a board for a keen eye; the usual spread is nine balls of ten, 1.645
standard deviations of a normal distribution.
"""

import pytest

import coachlib as cl
from coachlib.coaching.wording.seen_words import seen_text

USUAL = cl.Bowler(name="Aino", arrow_sd_boards=1.10)  # a club bowler: on target within 1, spread 1.8 boards
KEEN = cl.Bowler(name="Aino", arrow_sd_boards=0.65)  # half a board is told apart, spread 1.1 boards
WIDE = cl.Bowler(name="Aino", arrow_sd_boards=1.60)  # spread 2.6 boards


def advised(*shots, bowler=USUAL, **fields):
    session = cl.Session(bowler=bowler, line=cl.Line(22, 11), **fields)
    for shot in shots:
        session = cl.observe(session, shot)
    return cl.advise(session, model_on=False)


def seen(*shots, hand="right", to="bowler", **fields):
    return seen_text(advised(*shots, **fields), hand, to)


def off(boards, arrival="high", **more):
    return cl.Shot(crossed_board=11 + boards, arrival=arrival, **more)


ON, WITHIN, MISSED = "on", "within", "missed"


@pytest.mark.parametrize(
    ("bowler", "boards", "how"),
    [
        (KEEN, 0.0, ON),
        (KEEN, 0.5, ON),
        (KEEN, 1.0, WITHIN),
        (KEEN, 1.5, MISSED),
        (KEEN, 2.5, MISSED),
        (USUAL, 0.5, ON),
        (USUAL, 1.0, ON),
        (USUAL, 1.5, WITHIN),
        (USUAL, 2.5, MISSED),
        (WIDE, 1.0, ON),
        (WIDE, 1.5, WITHIN),
        (WIDE, 2.5, WITHIN),
        (WIDE, 3.0, MISSED),
    ],
)
@pytest.mark.parametrize("sign", [1, -1])
@pytest.mark.parametrize(
    ("hand", "inside", "outside"), [("right", "left", "right"), ("left", "right", "left")]
)
@pytest.mark.parametrize(
    ("to", "whose", "who"), [("bowler", "your", "You"), ("coach", "the bowler's", "Aino")]
)
def test_on_target_is_said_only_of_a_ball_on_the_mark(
    bowler, boards, how, sign, hand, inside, outside, to, whose, who
):
    text = seen(off(sign * boards), bowler=bowler, hand=hand, to=to)
    called = {0.5: "½", 1.0: "1", 1.5: "1½", 2.5: "2½", 3.0: "3"}.get(boards, "")
    crossed = f"It crossed {called} {inside if sign > 0 else outside} of the target"
    expected = {
        ON: f"{who} hit {'your' if to == 'bowler' else 'the'} target and it came in high.",
        WITHIN: f"{crossed}, within {whose} usual spread, and came in high.",
        MISSED: f"{crossed} and came in high.",
    }[how]
    assert text == expected


def test_a_ball_off_the_mark_is_never_counted_among_those_on_target():
    on = off(0.0)
    assert seen(on, on) == "You hit your target twice and it came in high both times."
    assert seen(on, off(1.5), on) == "You hit your target twice and it came in high both times."
    last_off = seen(on, on, off(1.5))
    assert last_off == "It crossed 1½ left of the target, within your usual spread, and came in high."
    facts = advised(on, on, off(1.5)).reading.facts
    assert (facts["n_ok"], facts["n_same"]) == (2, 2)
    assert advised(on, on, off(2.5)).reading.facts["n_ok"] == 2


def test_each_ball_is_named_by_its_side_and_the_last_by_its_own_word():
    on, nose = off(0.0), off(0.0, "nose")
    assert seen(on, on, on) == "You hit your target three times and it came in high each time."
    told = seen(on, on, nose)
    assert told == (
        "You hit your target three times and it came in high each time. The last one went through the nose."
    )
    light, far = off(0.0, "light"), off(0.0, "far_light")
    assert seen(light, far) == (
        "You hit your target twice and it came in light both times. The last one came in very light."
    )
    pocket = off(0.0, "pocket")
    assert seen(pocket, pocket) == "You hit your target twice and it hit the pocket both times."
    assert seen(light, pocket, pocket) == "The last two balls over your target hit the pocket."
    assert seen(on, light) == "You hit your target and it came in light."


def test_an_unknown_crossing_is_said_to_be_unknown_and_never_on_target():
    unseen = cl.Shot(arrival="high")
    assert seen(unseen) == "It came in high. Where it crossed was not noted."
    assert seen(unseen, unseen) == "It came in high twice. Where it crossed was not noted."
    assert seen(cl.Shot(leave=(1, 3, 7))) == "Where it crossed was not noted."
    for to in ("bowler", "coach"):
        assert "target" not in seen(unseen, unseen, unseen, to=to)


def test_balls_of_unknown_crossing_are_not_counted_as_hits_of_the_target():
    told = seen(cl.Shot(arrival="high"), cl.Shot(arrival="high"), off(0.0))
    assert told == "You hit your target and it came in high. In all it came in high three times."
    assert "target three times" not in told


def test_an_arrival_read_off_the_pins_names_them_as_the_bowler_sees_them():
    shot = cl.Shot(leave=(4, 9))
    assert seen(shot) == "It came in high, by the 4-9 left. Where it crossed was not noted."
    assert seen(shot, hand="left") == "It came in high, by the 6-8 left. Where it crossed was not noted."
    hit = cl.Shot(crossed_board=11, leave=(4, 9))
    assert seen(hit) == "You hit your target and it came in high, by the 4-9 left."


@pytest.mark.parametrize(
    ("motion", "words"),
    [
        ("early", "turned early and came in high"),
        ("late", "turned late and came in high"),
        ("skid_long", "hardly turned and came in high"),
        ("over_hook", "turned too sharply and came in high"),
        ("roll_out", "turned and died and came in high"),
        ("even", "came in high"),
    ],
)
def test_the_turn_is_told_where_it_was_seen(motion, words):
    assert seen(off(0.0, motion=motion)) == f"You hit your target and it {words}."
    assert seen(off(2.5, motion=motion)) == f"It crossed 2½ left of the target and {words}."


@pytest.mark.parametrize(
    ("arrival", "words"),
    [
        ("out", "missed the head pin"),
        ("far_light", "came in very light"),
        ("light", "came in light"),
        ("pocket", "hit the pocket"),
        ("high", "came in high"),
        ("nose", "went through the nose"),
        ("crossover", "crossed over"),
    ],
)
def test_where_it_came_in_is_told_in_words_and_never_as_a_number(arrival, words):
    assert seen(off(0.0, arrival)) == f"You hit your target and it {words}."


def test_a_ball_of_which_only_the_crossing_was_noted():
    assert seen(cl.Shot(crossed_board=11)) == "You hit your target."
    assert seen(cl.Shot(crossed_board=12.5)) == "It crossed 1½ left of the target, within your usual spread."
    assert seen(cl.Shot(crossed_board=14)) == "It crossed 3 left of the target."


def test_a_bowler_without_a_name_is_the_bowler_and_nothing_is_said_before_the_first_ball():
    nameless = cl.Bowler()
    assert seen(off(0.0), bowler=nameless, to="coach") == "The bowler hit the target and it came in high."
    assert seen() == ""


def test_the_sentence_of_an_answer_begins_with_the_line_and_is_the_same_words():
    advice = advised(off(1.5))
    assert cl.say(advice).sentence == f"Feet 22, target 11. {seen_text(advice, 'right')}"
