"""Sentences: left and right as the bowler sees them, numbers as they are called out."""

import re

import pytest

import coachlib as cl
from coachlib.coaching.wording.callouts import about_bowler
from coachlib.world.parsing import boards_text

HIGH = cl.Shot(crossed_board=11, arrival="high", motion="early")


def said(*shots, hand="right", to="bowler", **fields):
    session = cl.Session(bowler=cl.Bowler(hand=hand, **fields), line=cl.Line(22, 11))
    for shot in shots:
        session = cl.observe(session, shot)
    return cl.say(cl.advise(session, model_on=False), to=to)


def test_a_move_is_told_whole():
    told = said(HIGH, HIGH, HIGH)
    assert told.headline == "2 and 1 left"
    assert told.sentence == (
        "Feet 24, target 12. You hit your target three times and it came in high each time. "
        "The last one turned early."
    )
    assert "2 boards right at the pins, pivot at 30 ft" in told.rule
    assert told.source.startswith("High: two and one left (in print")
    assert told.look_for
    assert told.then
    assert told.chances == ""


def test_a_walker_is_told_the_walkers_lever():
    told = said(HIGH, HIGH, HIGH, walk="walk")
    move = cl.advise(_session_of(walk="walk"), model_on=False).move
    shift = cl.line_shift_boards(move, 60, "walk")
    assert f"{boards_text(shift)} board" in told.rule


def _session_of(**fields):
    session = cl.Session(bowler=cl.Bowler(**fields), line=cl.Line(22, 11))
    for _ in range(3):
        session = cl.observe(session, HIGH)
    return session


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_split_from_the_pocket_is_bad_luck_or_a_flat_hit_and_no_praise(hand):
    shot = cl.Shot(crossed_board=11, arrival="pocket", leave=(7, 10))
    session = cl.observe(cl.Session(bowler=cl.Bowler(hand=hand), line=cl.Line(22, 11)), shot)
    said = cl.say(cl.advise(session, model_on=False))
    assert said.headline == "Stay"
    assert said.why == "A 7-10 from the pocket is bad luck or a flat hit. No reason to move yet."


def test_a_coach_is_never_spoken_to_as_the_bowler():
    assert about_bowler("You walk toward your target. That shows you more.", "coach") == (
        "They walk toward their target. That shows them more."
    )
    assert about_bowler("Your own line", "bowler") == "Your own line"
    for rule in cl.load_rulebook().rules:
        told = " ".join(about_bowler(text, "coach") for text in (rule.why, rule.stops, rule.then, rule.do))
        assert not re.search(r"(?i)\byour?\b", told)


@pytest.mark.parametrize("crossed", [10, 11, 12, 12.5, 9.5, None])
@pytest.mark.parametrize("arrival", ["high", "nose", "light", "pocket"])
@pytest.mark.parametrize("to", ["bowler", "coach"])
def test_a_ball_that_did_not_miss_is_never_the_bowlers_doing(crossed, arrival, to):
    shot = cl.Shot(crossed_board=crossed, arrival=arrival)
    for n_balls in (1, 2):
        told = said(*[shot] * n_balls, to=to)
        assert "not the lane" not in told.summary
        assert "missed target" not in told.summary


PLAIN_HIGH, NOSE = cl.Shot(crossed_board=11, arrival="high"), cl.Shot(crossed_board=11, arrival="nose")
LIGHT = cl.Shot(crossed_board=11, arrival="light", motion="late")
PULLED, WIDE = cl.Shot(crossed_board=14, arrival="nose"), cl.Shot(crossed_board=14, arrival="pocket")
SLOW = cl.Shot(crossed_board=11, arrival="high", speed_mph=15.5)
SLID = cl.Shot(crossed_board=11, arrival="high", slide_board=26)
CROSSED_3 = "Feet 22, target 11. It crossed 3 {} of the target and hit the pocket."
FOUR, SEVEN, TEN = cl.Shot(11, "high", (4,)), cl.Shot(11, "pocket", (7,)), cl.Shot(11, "pocket", (10,))
STRAIGHT = "Feet {}, target 20, straight at the {}-pin."
JUDGE = "Judge it after two balls on target. If both come in {}, go back half."


@pytest.mark.parametrize(
    ("shots", "fields", "name", "text"),
    [
        ([], {}, "headline", "Feet 22, target 11"),
        ([PULLED], {}, "headline", "That was you, not the lane"),
        ([PULLED], {"to": "coach"}, "headline", "That was the bowler, not the lane"),
        ([SLOW], {"speed_mph": 17.0}, "headline", "Same line, at your usual speed"),
        ([SLID], {"drift_boards": 0.0}, "headline", "Same line, same slide board"),
        ([PLAIN_HIGH] * 2, {}, "headline", "One more, same line"),
        # the side of a miss is the one the bowler sees
        ([WIDE], {}, "sentence", CROSSED_3.format("left")),
        ([WIDE], {"hand": "left"}, "sentence", CROSSED_3.format("right")),
        ([cl.Shot(8, arrival="pocket")], {}, "sentence", CROSSED_3.format("right")),
        ([cl.Shot(8, arrival="pocket")], {"hand": "left"}, "sentence", CROSSED_3.format("left")),
        # a move too far shows on the other side
        ([PLAIN_HIGH] * 3, {}, "then", JUDGE.format("light")),
        ([LIGHT] * 3, {}, "then", JUDGE.format("high")),
        ([cl.Shot(crossed_board=11, arrival="pocket", leave=())], {}, "spare", ""),
    ],
)
def test_a_text_is_word_for_word(shots, fields, name, text):
    assert getattr(said(*shots, **fields), name) == text


@pytest.mark.parametrize(
    ("shots", "fields", "name", "text"),
    [
        # the nose is counted by its side and not as the nose
        ([PLAIN_HIGH] * 2 + [NOSE], {}, "sentence", "in high each time. The last one went through the nose."),
        ([cl.Shot(11, leave=(1, 3, 7))] * 2, {}, "why", "these pins do not show it"),
        # who stays is told what to do
        ([SLID], {"drift_boards": 0.0}, "then", "Bring the slide foot back"),
        ([SLOW], {"speed_mph": 17.0}, "then", "at your usual speed"),
        ([PULLED], {}, "then", "hit the target"),
        ([cl.Shot(arrival="high")], {}, "then", "note where the ball crosses"),
        # waiting says how long
        ([PLAIN_HIGH] * 2, {}, "why", "twice"),
        ([PLAIN_HIGH] * 2, {}, "why", "three"),
        ([FOUR], {}, "spare", f"^{STRAIGHT.format(23, '4')} With the strike ball: feet 17½, target 11."),
        ([SEVEN], {"hand": "left"}, "spare", f"^{STRAIGHT.format(22, '10')}"),
        ([TEN], {}, "spare", f"^{STRAIGHT.format(31, '10')}"),
        ([TEN], {}, "summary", f"For this spare: {STRAIGHT.format(31, '10')}"),
    ],
)
def test_a_text_says_so(shots, fields, name, text):
    assert text in f"^{getattr(said(*shots, **fields), name)}"  # ^ is where it begins


@pytest.mark.parametrize(("shot", "fields"), [(SLOW, {"speed_mph": 17.0}), (SLID, {"drift_boards": 0.0})])
def test_a_ball_on_target_that_was_thrown_otherwise_is_not_called_a_miss(shot, fields):
    assert "not the lane" not in said(shot, **fields).summary


def test_a_left_hander_hears_own_sides_and_pins():
    told = said(HIGH, HIGH, HIGH, hand="left")
    assert told.headline == "2 and 1 right"
    six = said(cl.Shot(crossed_board=11, arrival="high", leave=cl.own_pins((6,), "left")), hand="left")
    four = said(cl.Shot(crossed_board=11, arrival="high", leave=(4,)))
    assert four.headline.replace("left", "right") == six.headline
    assert re.search(r"\b6\b", six.why)
    assert re.search(r"\b4\b", four.why)


def test_watching_gives_its_own_reason_and_not_that_of_the_move():
    session = cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11), games_on_lane=2.0)
    for _ in range(3):
        session = cl.observe(session, cl.Shot(crossed_board=11, arrival="light"))
    told = cl.say(cl.advise(session, model_on=False))
    assert told.headline == "One more, same line"
    assert "watch where it turns" in told.why
    assert "friction" not in told.why


def test_a_young_bowler_is_told_a_small_move_in_words_of_its_own():
    told = said(*[cl.Shot(crossed_board=11, arrival="nose")] * 3, age_years=10.0)
    assert told.headline in ("1 and ½ left", "Feet ½ left, eyes stay")
    assert told.why == "One small step, about half of a grown-up's. Then throw two good balls."
    assert "Twice" not in told.why + told.then


def test_the_quiet_side_is_noted_under_inside_moves_only():
    inside = said(*[cl.Shot(crossed_board=11, arrival="high")] * 3, hand="left")
    outside = said(*[cl.Shot(crossed_board=11, arrival="light", motion="late")] * 3, hand="left")
    assert any("half a move to the right" in note for note in inside.notes)
    assert outside.notes == ()


def test_what_to_know_of_a_bowler_is_noted_before_the_first_ball():
    assert said(is_two_handed=True).notes
    assert said(cl.Shot(crossed_board=11, arrival="pocket"), is_two_handed=True).notes == ()


def test_no_placeholder_is_left_over():
    for motion in ("early", "even", "late", "skid_long", "over_hook", "roll_out", None):
        for arrival in ("out", "light", "pocket", "high", "nose", "crossover"):
            for leave in ((), (10,), (4,), (2, 8), (4, 6, 7, 10)):
                shot = cl.Shot(crossed_board=11, arrival=arrival, leave=leave, motion=motion)
                told = said(shot, shot, shot, shot)
                assert "{" not in " ".join([told.summary, told.rule, told.why, told.stops, told.spare])


@pytest.mark.parametrize(
    ("arguments", "text"), [({"hand": "both"}, "hand is 'both'"), ({"to": "parent"}, "to is 'parent'")]
)
def test_nonsense(arguments, text):
    advice = cl.advise(cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11)), model_on=False)
    with pytest.raises(cl.InputError, match=text):
        cl.say(advice, **arguments)
