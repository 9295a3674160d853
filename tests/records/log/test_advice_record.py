"""An advice in the log: what is kept can be written and read back, with the model and without. Invariants."""

import json

from coachlib import Bowler, Line, Session, Shot, advise, observe, say
from coachlib.records.log.advice_record import advice_payload, ball_of, headline_of, why_of
from coachlib.records.log.events import event_text, read_event

SEEN = observe(
    Session(bowler=Bowler(), line=Line(22, 12)), Shot(crossed_board=12, arrival="high", leave=(4,))
)


def test_without_the_model_there_are_no_chances() -> None:
    advice = advise(SEEN, model_on=False)
    kept = advice_payload(advice, say(advice).headline)
    assert set(kept) == {"kind", "move", "rule_ids", "new_line", "headline", "verdict", "is_big"}
    assert kept["kind"] == advice.kind
    assert headline_of(kept) == say(advice).headline


def test_with_the_model_its_chances_and_verdict_are_kept_as_plain_numbers() -> None:
    advice = advise(SEEN)
    assert advice.model is not None
    assert advice.cause.bowler_prob is not None
    text = event_text(advice_payload(advice, "Stay"))
    kept = read_event("advice", text)
    assert kept == json.loads(text)["payload"]
    assert kept["stay_strike_prob"] == round(advice.model.stay.strike_prob, 4)
    assert kept["bowler_prob"] == round(advice.cause.bowler_prob, 4)
    assert (kept["n_balls"], kept["agree"], kept["verdict"]) == (1, advice.agree, advice.cause.verdict)
    assert kept["new_line"]["feet_board"] == advice.new_line.feet_board


def test_an_advice_kept_before_words_were_has_none() -> None:
    assert headline_of({"kind": "stay", "rule_ids": ["two_and_one"]}) == ""
    assert headline_of({"headline": 5}) == ""


def test_the_reason_is_kept_where_one_was_given() -> None:
    advice = advise(SEEN, model_on=False)
    assert why_of(advice_payload(advice, "Stay", "It can be luck.")) == "It can be luck."
    assert why_of(advice_payload(advice, "Stay")) == ""


def test_the_ball_is_kept_where_it_is_named() -> None:
    kept = advice_payload(advise(SEEN, model_on=False), "Stay", ball=3)
    assert (ball_of(kept, 5), ball_of(kept, 2), ball_of({}, 5)) == (3, 2, 5)
