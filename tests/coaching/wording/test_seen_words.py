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


NOT_NOTED = "Nobody noted where it crossed."
ONCE, CROSSED = "You hit your target and", "It crossed 1½ left of the target"
TWICE, THRICE = "You hit your target twice and", "You hit your target three times and"
HIT, NOSE, LIGHT, FAR, POCKET = (off(0.0, name) for name in ("high", "nose", "light", "far_light", "pocket"))
BESIDE, UNNOTED, PINS = off(1.5), cl.Shot(arrival="high"), cl.Shot(leave=(4, 9))


@pytest.mark.parametrize(
    ("shots", "text"),
    [
        ([], ""),
        # each ball on target is counted by its side, and the last named by its own word
        ([HIT, HIT], f"{TWICE} it came in high both times."),
        ([HIT] * 3, f"{THRICE} it came in high each time."),
        ([HIT, HIT, NOSE], f"{THRICE} it came in high each time. The last one went through the nose."),
        ([LIGHT, FAR], f"{TWICE} it came in light both times. The last one came in very light."),
        ([POCKET, POCKET], f"{TWICE} it hit the pocket both times."),
        ([LIGHT, POCKET, POCKET], "The last two balls over your target hit the pocket."),
        ([HIT, LIGHT], "You hit your target and it came in light."),
        # a ball off the mark is never among them, nor is one whose crossing is not known
        ([HIT, BESIDE, HIT], f"{TWICE} it came in high both times."),
        ([HIT, HIT, BESIDE], f"{CROSSED}, within your usual spread, and came in high."),
        ([UNNOTED], f"It came in high. {NOT_NOTED}"),
        ([UNNOTED, UNNOTED], f"It came in high twice. {NOT_NOTED}"),
        ([cl.Shot(leave=(1, 3, 7))], NOT_NOTED),
        ([UNNOTED, UNNOTED, HIT], f"{ONCE} it came in high. In all it came in high three times."),
        # an arrival read off the pins names them
        ([PINS], f"It came in high, by the 4-9 left. {NOT_NOTED}"),
        ([cl.Shot(11, leave=(4, 9))], "You hit your target and it came in high, by the 4-9 left."),
        # only the crossing was noted
        ([cl.Shot(11)], "You hit your target."),
        ([cl.Shot(12.5)], f"{CROSSED}, within your usual spread."),
        ([cl.Shot(14)], "It crossed 3 left of the target."),
    ],
)
def test_the_sentence_is_true_to_the_balls(shots, text):
    assert seen(*shots) == text


def test_a_ball_off_the_mark_is_never_counted_among_those_on_target():
    facts = advised(HIT, HIT, BESIDE).reading.facts
    assert (facts["n_ok"], facts["n_same"]) == (2, 2)
    assert advised(HIT, HIT, off(2.5)).reading.facts["n_ok"] == 2
    assert all("target" not in seen(UNNOTED, UNNOTED, UNNOTED, to=to) for to in ("bowler", "coach"))


def test_pins_are_named_as_the_bowler_sees_them_and_one_without_a_name_is_the_bowler():
    assert seen(PINS, hand="left") == f"It came in high, by the 6-8 left. {NOT_NOTED}"
    assert seen(HIT, bowler=cl.Bowler(), to="coach") == "The bowler hit the target and it came in high."


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"motion": "early"}, "turned early and came in high"),
        ({"motion": "late"}, "turned late and came in high"),
        ({"motion": "skid_long"}, "hardly turned and came in high"),
        ({"motion": "over_hook"}, "turned too sharply and came in high"),
        ({"motion": "roll_out"}, "turned and died and came in high"),
        ({"motion": "even"}, "came in high"),
        ({"arrival": "out"}, "missed the head pin"),
        ({"arrival": "far_light"}, "came in very light"),
        ({"arrival": "light"}, "came in light"),
        ({"arrival": "pocket"}, "hit the pocket"),
        ({"arrival": "nose"}, "went through the nose"),
        ({"arrival": "crossover"}, "crossed over"),
    ],
)
def test_turn_and_arrival_are_told_in_words_and_never_as_a_number(fields, words):
    assert seen(off(0.0, **fields)) == f"You hit your target and it {words}."
    assert seen(off(2.5, **fields)) == f"It crossed 2½ left of the target and {words}."


def test_the_sentence_of_an_answer_begins_with_the_line_and_is_the_same_words():
    advice = advised(off(1.5))
    assert cl.say(advice).sentence == f"Feet 22, target 11. {seen_text(advice, 'right')}"
