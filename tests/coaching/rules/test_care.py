"""Care first: pain stops everything until the coach says to go on, a dropped speed comes before any move.

Wanted behaviour: the project's own contract. What a coach says to pain, tiredness, a bad approach and a
growing bowler is common practice, no source; that surfaces stay as they are once scoring starts is the
federation's playing rule 18, as reprinted.
"""

import dataclasses
import itertools

import pytest

import coachlib as cl
from coachlib.coaching.rules.release_facts import speed_down_mph
from coachlib.coaching.wording.advice_text import say
from coachlib.world.bowler import notes_pain

LINE = cl.Line(22, 11)
HIGH = cl.Shot(crossed_board=11, arrival="high", motion="early", leave=(4,))
HANDS = ("right", "left")


def session_of(*shots, **fields):
    setting = {name: fields.pop(name) for name in ("pattern", "scoring_started", "place") if name in fields}
    session = cl.Session(bowler=cl.Bowler(**fields), line=LINE, **setting)
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def at_speeds(*speeds, **fields):
    shots = [cl.Shot(crossed_board=11, arrival="high", speed_mph=speed) for speed in speeds]
    return session_of(*shots, **fields)


# pain


@pytest.mark.parametrize(
    "text",
    ["", " ", "-", "--", "none", "None.", "NO", "no!", "nothing", "n/a", "N / A", "0", "no pain", "nil"],
)
def test_words_for_no_pain_are_none(text):
    assert not notes_pain(text)
    assert not cl.advise(session_of(HIGH, pain=text), model_on=False).is_stopped


@pytest.mark.parametrize(
    "text", ["thumb", "no feeling in the thumb", "knee, none today", "yes", "?1", "numb"]
)
def test_any_other_text_is_pain(text):
    assert notes_pain(text)
    assert cl.advise(session_of(HIGH, pain=text), model_on=False).is_stopped


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("n_balls", [0, 1, 4])
def test_pain_stops_whatever_was_seen_with_the_model_too(hand, n_balls):
    session = session_of(*[HIGH] * n_balls, pain="wrist", hand=hand, pattern=cl.load_pattern("house_41"))
    advice = cl.advise(session)
    assert (advice.kind, advice.move, advice.new_line) == ("stay", cl.Move(), LINE)
    assert advice.is_stopped
    assert (advice.runners_up, advice.stay_strike_prob, advice.move_strike_prob) == ((), None, None)
    assert advice.spare is None
    said = say(advice)
    assert said.headline == "Stop: rest, and have it looked at"
    for word in ("doctor", "physio", "pro shop", "go on"):
        assert word in said.summary
    assert (said.chances, said.model, said.runners_up, said.spare, said.look_for) == ("", "", (), "", "")
    assert not any(word in said.summary for word in (" of 20", "Feet 2", "target 1", "left", "right"))
    assert "wrist" not in said.summary


def test_a_coach_is_spoken_to_of_the_bowler():
    advice = cl.advise(session_of(HIGH, pain="wrist"), model_on=False)
    assert say(advice, to="coach").sentence.startswith("The bowler said")
    assert say(advice, to="bowler").sentence.startswith("You said")


def test_go_on_lets_feet_and_eyes_move_and_nothing_else():
    session = session_of(HIGH, HIGH, HIGH, pain="wrist")
    going = cl.change(session, goes_on_with_pain=True)
    advice = cl.advise(going, model_on=False)
    assert (advice.is_stopped, advice.kind) == (False, "line")
    cautions = " ".join(say(advice).cautions)
    assert "doctor" in cautions
    assert "Feet and eyes only" in cautions
    stuck = dataclasses.replace(going, place=cl.Place(is_feet_stuck=True))
    for motion, arrival in itertools.product(("early", "late", "over_hook", "roll_out"), ("high", "light")):
        seen = stuck
        for _ in range(4):
            seen = cl.observe(seen, cl.Shot(crossed_board=11, arrival=arrival, motion=motion))
            move = cl.advise(seen, model_on=False).move
            assert (move.speed_mph, move.rotation_deg, move.note) == (0, 0, "")


def test_undo_takes_go_on_back_and_another_pain_stops_again():
    session = session_of(HIGH, pain="wrist")
    going = cl.change(session, goes_on_with_pain=True)
    assert cl.undo(going) == session
    assert cl.undo(going).is_stopped
    worse = cl.change(going, bowler=dataclasses.replace(going.bowler, pain="wrist and elbow"))
    assert worse.is_stopped
    assert not cl.undo(worse).is_stopped
    faster = cl.change(going, bowler=dataclasses.replace(going.bowler, speed_mph=16.0))
    assert not faster.is_stopped
    healed = cl.change(going, bowler=dataclasses.replace(going.bowler, pain="none"))
    assert not healed.is_stopped
    assert cl.change(healed, bowler=going.bowler).is_stopped


def test_going_on_is_kept_on_the_other_lane():
    going = cl.change(session_of(HIGH, pain="wrist"), goes_on_with_pain=True)
    assert not cl.change(cl.change(going, lane="2"), lane="1").is_stopped


# a speed that has dropped


@pytest.mark.parametrize("hand", HANDS)
def test_three_balls_a_mile_and_a_half_down_get_rest_before_any_move(hand):
    advice = cl.advise(at_speeds(17.0, 15.5, 15.5, 15.5, speed_mph=17.0, hand=hand), model_on=False)
    assert (advice.kind, advice.move) == ("stay", cl.Move())
    assert advice.rule.rule_ids[0] == "speed_is_down"
    said = say(advice)
    assert said.headline == "Your speed is down 1½ mph: rest"
    assert said.then.startswith("Rest, check for pain, then go back to the old speed.")
    assert say(advice, to="coach").headline == "The bowler’s speed is down 1½ mph: rest"
    before = cl.advise(at_speeds(17.0, 15.5, 15.5, speed_mph=17.0), model_on=False)
    assert "speed_is_down" not in before.rule.rule_ids


@pytest.mark.parametrize(
    ("speeds", "declared", "down"),
    [
        ((16.0, 16.0, 16.0), 17.0, 1.0),  # one mile exactly counts
        ((16.1, 16.0, 16.0), 17.0, None),
        ((15.0, 17.0, 15.0, 15.0), 17.0, None),  # in a row
        ((17.0, 17.2, 16.8, 17.0, 15.5, 15.5, 15.5), None, 1.5),  # own first balls
        ((15.5, 15.5, 15.5), None, None),  # nobody knows yet what is usual
        ((17.0, 15.5, None, 15.5, 15.5), 17.0, 1.5),  # one that was not measured tells nothing
        ((15.0,) * 6, 17.0, 2.0),
        ((15.0,) * 7, 17.0, None),  # six make the speed of the day
        ((15.0,) * 6 + (14.0,) * 3, 17.0, 1.0),  # and from there it may drop again
    ],
)
def test_how_far_the_speed_is_down(speeds, declared, down):
    found = speed_down_mph(at_speeds(*speeds, speed_mph=declared))
    assert found == (None if down is None else pytest.approx(down))


def test_spare_balls_and_a_speed_entered_anew_do_not_count():
    slow_spare = cl.Shot(leave=(), is_spare=True, speed_mph=14.0)
    slow = cl.Shot(crossed_board=11, arrival="high", speed_mph=15.5)
    session = session_of(slow, slow_spare, slow, slow_spare, speed_mph=17.0)
    assert speed_down_mph(session) is None
    down = cl.observe(session, slow)
    assert speed_down_mph(down) == pytest.approx(1.5)
    entered = cl.change(down, bowler=dataclasses.replace(down.bowler, speed_mph=15.5))
    assert speed_down_mph(cl.observe(entered, slow)) is None


def test_pain_comes_before_the_speed():
    assert cl.advise(at_speeds(15.0, 15.0, 15.0, speed_mph=17.0, pain="back"), model_on=False).is_stopped


# cautions


@pytest.mark.parametrize(
    "name", [name for name in cl.pattern_names() if cl.load_pattern(name).kind == "house"]
)
def test_no_house_start_speaks_of_sanding(name):
    said = say(cl.advise(session_of(pattern=cl.load_pattern(name)), model_on=False))
    told = " ".join((*said.cautions, *said.general, said.then)).lower()
    assert not any(word in told for word in ("sand", "mask", "surface"))


def test_sanding_is_wet_by_hand_or_in_a_shop():
    book = cl.load_rulebook()
    told = book.rule("dust_and_rules").do
    for words in (
        "wet, by hand or in a shop",
        "mask",
        "fingers, hair and sleeves clear of anything that turns",
    ):
        assert words in told
    assert "before scoring, and as local rules allow" in told


def test_no_rule_allows_a_surface_between_games():
    # Playing rule 18, as reprinted: not once scoring has started.
    rules = cl.load_rulebook().rules
    texts = [text for rule in rules for text in (rule.do, rule.why, rule.stops, rule.then, rule.look)]
    assert len(texts) > 400
    assert not [text for text in texts if "between games" in text.lower()]
    assert "before the first scored ball" in cl.load_rulebook().rule("order_of_change").then


@pytest.mark.parametrize(
    ("n_balls", "age", "is_said"), [(59, None, 0), (60, None, 1), (61, None, 0), (40, 12, 1)]
)
def test_many_balls_ask_for_rest_and_water(n_balls, age, is_said):
    session = session_of(*[HIGH] * n_balls, age_years=age)
    cautions = " ".join(say(cl.advise(session, model_on=False)).cautions)
    assert ("water" in cautions) == bool(is_said)


def test_a_bad_approach_is_said_before_the_first_ball_and_after_it():
    place = cl.Place(is_approach_bad=True)
    for session in (session_of(place=place), session_of(HIGH, place=place)):
        told = " ".join(say(cl.advise(session, model_on=False)).cautions)
        for words in ("stop", "wipe your sole", "call the staff", "Never slide on it"):
            assert words in told


@pytest.mark.parametrize(("age", "is_young"), [(12.0, True), (17.0, True), (18.0, False), (None, False)])
def test_who_still_grows_is_told_of_a_ball_comfortable_for_three_games(age, is_young):
    cautions = " ".join(say(cl.advise(session_of(age_years=age), model_on=False)).cautions)
    assert ("comfortable for three games" in cautions) is is_young
    assert "tenth" not in cautions
