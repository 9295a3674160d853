"""From the who-and-line form to bowler, line and lane, and back. Nothing here knows a widget."""

import dataclasses
from collections.abc import Callable
from typing import Any, TypeVar, get_args

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Setting, fields_of
from coachlib.coaching.wording.callouts import To
from coachlib.errors import InputError
from coachlib.views.panels.shared.form import written_speed
from coachlib.views.panels.shared.typed import (
    SPEED_UNITS,
    Answers,
    FormReader,
    limits_of,
    quoted,
    written_number,
)
from coachlib.world.ball import Ball, load_ball
from coachlib.world.bowler import (
    ACCURACY_SD_BOARDS,
    Bowler,
    Hook,
    Walk,
    accuracy_fields,
    accuracy_of,
    walk_from_test,
)
from coachlib.world.hand import HANDS
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern, load_pattern

_Named = TypeVar("_Named", Ball, OilPattern)

WALKS: tuple[str, ...] = (*get_args(Walk), "test")
KNOWN_REVS = "known"
HOOKS: tuple[str, ...] = (*get_args(Hook), KNOWN_REVS)
"""How much it hooks, or that the revs are known: counted revs stand before what was said."""
LISTENERS: tuple[str, ...] = get_args(To)
WALK_TEST_BALLS = (1, 2, 3)
MOST_LANES = 2
MOST_LETTERS = 20
BOWLER_NUMBERS = {
    "stance_ft": ("stance behind the foul line", "stance_ft"),
    "revs": ("revs", "rev_rate_rpm"),
    "rotation": ("axis rotation", "axis_rotation_deg"),
    "spread": ("spread at the target", "arrow_sd_boards"),
    "age": ("age", "age_years"),
}
"""Form field: the word in front of it, and the bowler's field."""
OWN_SIDE: dict[str, bool | None] = {"": None, "quiet": True, "busy": False}
"""How busy the own side of the lane is, as the form says it, and whether that is quiet."""
PLACE_TICKS = {
    "others": "has_others_on_line",
    "feet_stuck": "is_feet_stuck",
    "weather": "has_weather_turned",
    "approach": "is_approach_bad",
}
KEPT_WHEN_EMPTY = ("stance_ft", "spread")
OLDER_ACCURACIES = {"elite": "tour", "220+": "220", "200+": "200", "180+": "180", "160+": "160"}
"""How older forms name a class of accuracy, and how it is named now."""


_BLANK = Setting(Bowler(), Line(feet_board=20, target_board=10))


@dataclasses.dataclass(frozen=True)
class SetUp:
    """What the who-and-line form says.

    Parameters
    ----------
    setting : Setting
        Who throws, the line to play, and the rest of what holds.
    lanes : tuple of str
        The lanes of the pair, one or two.
    to : {"bowler", "coach"}
        Who the sentences speak to.
    speed_unit : {"mph", "km/h"}
        The unit on the screen.
    """

    setting: Setting = _BLANK
    lanes: tuple[str, ...] = ("1",)
    to: To = "bowler"
    speed_unit: str = "mph"


def set_up_from(answers: Answers, known: Bowler | None = None, held: Setting | None = None) -> SetUp:
    """Return what the who-and-line form says.

    Parameters
    ----------
    answers : mapping
        ``name``, ``hand``, ``walk`` (``"test"`` with ``stance_1`` to ``slide_3`` for the walk test),
        ``stance_ft``, ``feet``, ``target``, ``target_ft``, ``ball``, ``pattern``, ``hook`` (how much it
        hooks, or ``"known"`` with ``revs``), ``rotation``, ``speed`` with ``speed_unit``, ``accuracy`` (a
        class) or ``spread``, ``age``, ``two_handed``, ``pain``, ``games``, ``lanes``, ``scoring_started``,
        ``others``, ``feet_stuck``, ``weather`` and ``approach`` (ticked or not), ``own_side``, ``to``. Only
        hand, feet and target must be given.
    known : Bowler, optional
        The bowler so far: what this form does not ask about, or leaves empty, is kept.
    held : Setting, optional
        What holds in the session that runs: its own ball, pattern and lane are kept where the form names
        them.

    Raises
    ------
    InputError
        Naming every wrong field at once.
    """
    form = FormReader(answers)
    unit = form.choice("speed_unit", "speed unit", SPEED_UNITS) or "mph"
    if known is None and not form.text("hand"):  # never guessed: it turns left and right
        form.problems["hand"] = "Choose right- or left-handed."
    line, bowler = _line(form), _bowler(form, unit, known or Bowler())
    games = form.number("games", "games on this lane", limits_of(Session, "games_on_lane"))
    place, lanes, to = _place(form), _lanes(form), form.choice("to", "who we speak to", LISTENERS) or "bowler"
    form.finish()
    setting = Setting(
        bowler=bowler,
        line=line,
        ball=_listed(form.text("ball"), held.ball if held else None, load_ball),
        pattern=_listed(form.text("pattern"), held.pattern if held else None, load_pattern),
        lane=held.lane if held and held.lane in lanes else lanes[0],
        games_on_lane=games or 0.0,
        scoring_started=form.ticked("scoring_started"),
        place=place,
        goes_on_with_pain=held is not None and held.goes_on_with_pain,
    )
    return SetUp(setting, lanes, "coach" if to == "coach" else "bowler", unit)


def set_up_answers(set_up: SetUp) -> dict[str, Any]:
    """Return the form that says this: the way back from :func:`set_up_from`."""
    now = set_up.setting
    bowler, place = now.bowler, now.place
    numbers = {name: written_number(getattr(bowler, field)) for name, (_, field) in BOWLER_NUMBERS.items()}
    accuracy = accuracy_of(bowler)
    return numbers | {
        "name": bowler.name,
        "hand": bowler.hand,
        "walk": bowler.walk,
        "hook": KNOWN_REVS if bowler.rev_rate_rpm is not None else bowler.hook or "",
        "speed": written_speed(bowler.speed_mph, set_up.speed_unit),
        "speed_unit": set_up.speed_unit,
        "accuracy": accuracy,
        "spread": numbers["spread"] if bowler.is_accuracy_known and not accuracy else "",
        "two_handed": bowler.is_two_handed,
        "pain": bowler.pain,
        "feet": written_number(now.line.feet_board),
        "target": written_number(now.line.target_board),
        "target_ft": written_number(now.line.target_ft),
        "ball": now.ball.name if now.ball else "",
        "pattern": now.pattern.name if now.pattern else "",
        "games": written_number(now.games_on_lane),
        "lanes": " ".join(set_up.lanes),
        "scoring_started": now.scoring_started,
        **{name: getattr(place, field) for name, field in PLACE_TICKS.items()},
        "own_side": next(word for word, is_quiet in OWN_SIDE.items() if is_quiet is place.is_own_side_quiet),
        "to": set_up.to,
    }


def blank_answers() -> dict[str, Any]:
    """Return the form before anything is known: no hand, no line, the rest "I don't know"."""
    unknown = ("hand", "feet", "target", "speed", "games", "walk", "accuracy", "spread")
    return set_up_answers(SetUp()) | dict.fromkeys(unknown, "")


def _line(form: FormReader) -> Any:
    fields = {
        "feet_board": form.number("feet", "feet", limits_of(Line, "feet_board"), needed=True),
        "target_board": form.number("target", "target", limits_of(Line, "target_board"), needed=True),
        "target_ft": form.number("target_ft", "target distance", limits_of(Line, "target_ft")),
    }
    typed = {name: number for name, number in fields.items() if number is not None}
    return form.made(Line, **typed) if len(typed) >= 2 and not form.problems else None


def _listed(name: str, held: _Named | None, load: Callable[[str], _Named]) -> _Named | None:
    """Return the ball or pattern of a name: none, the one that is held, or one of the list."""
    if held is not None and name == held.name:
        return held
    return load(name) if name else None


def _place(form: FormReader) -> Place:
    ticked = {field: form.ticked(name) for name, field in PLACE_TICKS.items()}
    own_side = form.choice("own_side", "balls from this side", tuple(OWN_SIDE)[1:])
    return Place(is_own_side_quiet=OWN_SIDE.get(own_side), **ticked)


def _bowler(form: FormReader, unit: str, known: Bowler) -> Any:
    fields: dict[str, Any] = {
        "name": form.text("name"),
        "hand": form.choice("hand", "hand", HANDS) or known.hand,
        "walk": _walk(form) or known.walk,
        "is_two_handed": form.ticked("two_handed"),
        "pain": form.text("pain"),
    }
    for name, (label, field) in BOWLER_NUMBERS.items():
        number = form.number(name, label, limits_of(Bowler, field))
        if number is not None or name not in KEPT_WHEN_EMPTY:
            fields[field] = number
    fields |= _hook(form, fields["rev_rate_rpm"])
    fields |= _accuracy(form, fields.get("arrow_sd_boards"))
    if form.text("speed") != written_speed(known.speed_mph, unit):  # else two conversions would nibble at it
        fields["speed_mph"] = form.speed_mph("speed", "usual speed", limits_of(Bowler, "speed_mph"), unit)
    return form.made(lambda **changes: dataclasses.replace(known, **changes), **fields)


def _accuracy(form: FormReader, spread_boards: float | None) -> dict[str, Any]:
    """Return the spread at the arrows, by a number before a class; nothing where neither stands there."""
    named = form.text("accuracy")
    accuracy = OLDER_ACCURACIES.get(named) or form.choice("accuracy", "accuracy", tuple(ACCURACY_SD_BOARDS))
    if spread_boards is None and accuracy and not form.text("spread"):
        spread_boards = ACCURACY_SD_BOARDS[accuracy]
    return {} if spread_boards is None else accuracy_fields(spread_boards)


def _hook(form: FormReader, revs_rpm: float | None) -> dict[str, Any]:
    """Return how much the ball hooks; revs count only where they are said to be known or nothing is said."""
    hook = form.choice("hook", "hook", HOOKS)
    if hook == KNOWN_REVS:
        revs_rpm = form.number("revs", "revs", limits_of(Bowler, "rev_rate_rpm"), needed=True)
    elif hook:
        return {"hook": hook, "rev_rate_rpm": None}
    return {"hook": None, "rev_rate_rpm": revs_rpm}


def _walk(form: FormReader) -> str:
    """Return how they walk, or what the two-minute test says; nothing where its numbers are not usable."""
    chosen = form.choice("walk", "walk", WALKS)
    if chosen != "test":
        return chosen
    limits, n_before = limits_of(Line, "feet_board"), len(form.problems)
    stances = [form.number(f"stance_{n}", f"stance {n}", limits, needed=True) for n in WALK_TEST_BALLS]
    slides = [form.number(f"slide_{n}", f"slide board {n}", limits, needed=True) for n in WALK_TEST_BALLS]
    if len(form.problems) == n_before:
        try:
            return walk_from_test(tuple(stances), tuple(slides))  # type: ignore[arg-type]
        except InputError as error:
            form.problems["walk"] = str(error)
    return ""


def _lanes(form: FormReader) -> tuple[str, ...]:
    lanes = tuple(dict.fromkeys(form.text("lanes").replace(",", " ").replace("/", " ").split()))
    if len(lanes) > MOST_LANES or any(len(lane) > MOST_LETTERS for lane in lanes):
        form.problems["lanes"] = (
            f"Type one lane, or the two of a pair, such as 7 8, not {quoted(' '.join(lanes))}. "
            f"A lane has at most {MOST_LETTERS} letters."
        )
    return lanes or ("1",)


def changes_wanted(session: Session, wanted: SetUp) -> dict[str, Any]:
    """Return what a filled form changes of a running session; empty where it says what holds already."""
    stated = fields_of(session) | {"games_on_lane": session.games_now}
    return {name: value for name, value in fields_of(wanted.setting).items() if value != stated[name]}


def current_setup(session: Session, preferences: SetUp) -> SetUp:
    """Return what the form shows of a running session; lanes, unit and listener are the panel's own."""
    lanes = preferences.lanes
    now = dataclasses.replace(session.setting, games_on_lane=session.games_now)
    return dataclasses.replace(
        preferences, setting=now, lanes=lanes if session.lane in lanes else (session.lane,)
    )
