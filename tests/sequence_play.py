"""Plays a scripted sequence of `sequences/lane_side.toml`: from its lines to the session and its answer."""

import dataclasses
import tomllib
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

import coachlib as cl
from coachlib.coaching.wording.changes_words import voices_text
from coachlib.views.panels.shared.form import shot_answers, shot_from
from coachlib.world.hand import Hand
from coachlib.world.line import after_move
from coachlib.world.oil_shape import with_typical_film
from tests.hidden_lanes import mirrored

FILE = Path(__file__).parent / "sequences" / "lane_side.toml"
BEGINNING = {
    "bowler": "club",
    "ball": "hybrid_2000",
    "pattern": "house_41",
    "line": [22, 12],
    "games_on_lane": 0.0,
    "scoring_started": False,
    "feet_stuck": False,
    "others_on_line": False,
    "quiet_side": False,
    "colder_hall": False,
    "bad_approach": False,
    "model": None,
    "must_not": {},
}
NAMED = {"name", "topics", "source", "steps", "must"}
BALL_WORDS = {"cross", "arrival", "leave", "motion", "speed", "hit", "spare", "turned", "stance", "slide"}
FOLDED = ("source", "stops")
OF_THE_BALL = ("headline", "sentence", "why", "cause", "odd")


@dataclasses.dataclass(frozen=True)
class Answer:
    """What came out: the answer, its words, or the words of the error where an entry was refused."""

    advice: cl.Advice | None
    said: cl.Said | None
    refused: str = ""

    def texts(self, without: tuple[str, ...] = FOLDED) -> tuple[str, ...]:
        """Return everything a person can read, the folded sources left out."""
        if self.advice is None or self.said is None:
            return (self.refused,)
        parts = dataclasses.asdict(self.said)
        words = [parts[name] for name in parts if name not in without]
        flat = [one for part in words for one in ([part] if isinstance(part, str) else part)]
        return (*flat, voices_text(self.advice, self.advice.session.bowler.hand))

    def part(self, name: str) -> str:
        """Return one part of what is said."""
        text = getattr(self.said, name, "")
        return text if isinstance(text, str) else " ".join(text)


@cache
def written() -> Mapping[str, Any]:
    """Return the file."""
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def sequences() -> tuple[dict[str, Any], ...]:
    """Return the sequences, each with how it begins filled in."""
    return tuple(BEGINNING | one for one in written()["sequence"])


def played(sequence: Mapping[str, Any], hand: Hand) -> Answer:
    """Return the answer after the last step, as a bowler of this hand gets it."""
    session = _begun(sequence, hand)
    try:
        for step in sequence["steps"]:
            session = _after(session, step)
    except cl.InputError as error:
        return Answer(None, None, str(error))
    advice = cl.advise(session, model_on=bool(sequence["model"]))
    return Answer(advice, cl.say(advice))


def _begun(sequence: Mapping[str, Any], hand: Hand) -> cl.Session:
    (feet, target), named = sequence["line"], sequence["pattern"]
    return cl.Session(
        bowler=_bowler(sequence["bowler"], hand),
        ball=_ball(sequence["ball"]),
        pattern=_pattern(named if isinstance(named, str) else tuple(named), hand),
        line=cl.Line(feet, target),
        games_on_lane=sequence["games_on_lane"],
        scoring_started=sequence["scoring_started"],
        place=cl.Place(
            is_feet_stuck=sequence["feet_stuck"],
            has_others_on_line=sequence["others_on_line"],
            is_own_side_quiet=None if sequence["quiet_side"] == "" else sequence["quiet_side"],
            has_weather_turned=sequence["colder_hall"],
            is_approach_bad=sequence["bad_approach"],
        ),
    )


_ball = cache(cl.load_ball)


def _bowler(name: str | Mapping[str, Any], hand: Hand) -> cl.Bowler:
    """Return a bowler of the file by name, or the club bowler with something else about them."""
    club, others = written()["bowlers"]["club"], written()["bowlers"]
    known = dict(others[name]) if isinstance(name, str) else {**club, **name}
    return cl.Bowler(hand=hand, **known)


@cache
def _pattern(name: str | tuple[Any, ...], hand: Hand) -> cl.OilPattern | None:
    """Return an oil by name, or one of so many feet and mL, flat unless its kind is told."""
    if not name:
        return None
    if not isinstance(name, str):
        length_ft, volume_ml, kind = (*name, "flat")[:3]
        return with_typical_film(cl.OilPattern("told", length_ft, kind), volume_ml)
    pattern = cl.load_pattern(name)
    return pattern if hand == "right" else mirrored(pattern)


def _after(session: cl.Session, step: Mapping[str, Any]) -> cl.Session:
    """Return the session after one step."""
    if "correct" in step:
        rest = {word: value for word, value in step.items() if word != "correct"}
        return cl.correct(session, step["correct"], _shot(session, rest))
    if set(step) <= BALL_WORDS:
        return cl.observe(session, _shot(session, step))
    word = next(iter(step))
    extra = {"line": cl.Line(*step["line"])} if "line" in step else {}
    return _CHANGES[word](session, step[word], extra)


def _shot(session: cl.Session, step: Mapping[str, Any]) -> cl.Shot:
    """Return a ball as the panel's form takes it down; the miss becomes the board crossed."""
    crossed = None if "cross" not in step else session.line.target_board + step["cross"]
    hand = session.bowler.hand
    turned_ft, turned_board = step.get("turned", (None, None))
    shot = cl.Shot(
        crossed_board=crossed,
        arrival=step.get("arrival"),
        leave=None if "leave" not in step else tuple(step["leave"]),  # a right-hander's pins: the own frame
        motion=step.get("motion"),
        speed_mph=step.get("speed"),
        hit=step.get("hit"),
        breakpoint_ft=turned_ft,
        breakpoint_board=turned_board,
        start_board=step.get("stance"),
        slide_board=step.get("slide"),
        is_spare=step.get("spare", False),
    )
    return _as_noted(shot, hand)


@cache
def _as_noted(shot: cl.Shot, hand: Hand) -> cl.Shot:
    return shot_from(shot_answers(shot, hand, "mph"), hand)


_CHANGES: dict[str, Callable[[cl.Session, Any, dict[str, Any]], cl.Session]] = {
    "move": lambda session, move, _: cl.change(session, line=after_move(session.line, cl.Move(*move))),
    "oiled": lambda session, _, __: cl.change(session, games_on_lane=0.0),
    "lane": lambda session, lane, extra: cl.change(session, lane=lane, **extra),
    "ball": lambda session, ball, _: cl.change(session, ball=cl.load_ball(ball)),
    "games": lambda session, games, _: cl.change(session, games_on_lane=games),
    "scoring": lambda session, is_on, _: cl.change(session, scoring_started=is_on),
    "pain": lambda session, pain, _: cl.change(
        session, bowler=dataclasses.replace(session.bowler, pain=pain)
    ),
    "go_on": lambda session, is_on, _: cl.change(session, goes_on_with_pain=is_on),
    "undo": lambda session, _, __: cl.undo(session),
}
STEP_WORDS = {*_CHANGES, *BALL_WORDS, "correct", "line"}
