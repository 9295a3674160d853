"""From what a person saw and typed to a shot, and back. Nothing here knows a widget.

A form is a mapping of field names to texts (and ticks), as people count at the lane: boards from the bowler's
own side, pins as numbered on the deck, speed in the unit they chose.
"""

from typing import Any, get_args

from coachlib.coaching.session.ball_reading import is_gutter_ball
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.units import mph_to_kmh
from coachlib.validation import Limits
from coachlib.views.panels.shared.typed import (
    SPEED_UNITS,
    Answers,
    FormReader,
    limits_of,
    written_number,
)
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import ARRIVAL_CLASSES, HIGH_EDGE_BOARD, LOW_EDGE_BOARD, MISSES_HEAD_PIN
from coachlib.world.parsing import read_pins
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Hit, Motion, Shot

MOTIONS: tuple[str, ...] = get_args(Motion)
HITS: tuple[str, ...] = get_args(Hit)
NUMBERS = {
    "breakpoint_board": "board where it turned",
    "breakpoint_ft": "distance where it turned",
    "start_board": "start board",
    "slide_board": "slide board",
}
"""Fields of the form that are fields of the shot, and the words in front of them."""
HIT_WORDS = {"flat": "hit flat", "ringing": "pin flew round it"}
AGAIN = "Check both. If that is what you saw, press the button again."
MOST_NOTE_LETTERS = 200
GUTTER = "gutter"
"""An arrival in the form: a ball in the gutter, which counts as ``out`` and leaves all ten pins."""

ARRIVAL_LIMITS = Limits(
    0, 40, "boards", "Count at the head pin, from the bowler's own side. The pocket is 17½."
)


def shot_from(answers: Answers, hand: Hand) -> Shot:
    """Return the shot a form describes, in the own frame.

    Parameters
    ----------
    answers : mapping
        ``crossed``, ``arrival`` (a class, or ``gutter``) or ``arrival_board``, ``leave``, ``motion``,
        ``speed`` with ``speed_unit``, ``breakpoint_board``, ``breakpoint_ft``, ``start_board``,
        ``slide_board``, ``hit``, ``is_spare``, ``note``; what is missing or empty was not seen.
    hand : {"right", "left"}
        The bowling hand; pins are turned by it.

    Raises
    ------
    InputError
        Naming every wrong field at once.
    """
    form = FormReader(answers)
    unit = form.choice("speed_unit", "speed unit", SPEED_UNITS) or "mph"
    fields: dict[str, Any] = {
        "crossed_board": form.number("crossed", "where it crossed", limits_of(Shot, "crossed_board")),
        "arrival": _arrival(form),
        "leave": _leave(form, hand),
        "motion": form.choice("motion", "how it turned", MOTIONS) or None,
        "speed_mph": form.speed_mph("speed", "speed", limits_of(Shot, "speed_mph"), unit),
        **{name: form.number(name, label, limits_of(Shot, name)) for name, label in NUMBERS.items()},
        "hit": form.choice("hit", "the last pin", HITS) or None,
        "is_spare": form.ticked("is_spare"),
        "note": form.letters("note", "note", MOST_NOTE_LETTERS, " in the table of balls"),
    }
    if form.text("arrival") == GUTTER and fields["leave"] is None and not fields["is_spare"]:
        fields["leave"] = ALL_PINS
    if not form.problems:
        _check_what_was_seen(form, fields)
    shot: Any = form.made(Shot, **fields) if not form.problems else None
    form.finish()
    return shot


def shot_answers(shot: Shot, hand: Hand, speed_unit: str = "mph") -> dict[str, Any]:
    """Return the form that describes a shot: the way back from :func:`shot_from`."""
    is_class = isinstance(shot.arrival, str)
    return {
        "crossed": written_number(shot.crossed_board),
        "arrival": GUTTER if is_gutter_ball(shot) else shot.arrival if is_class else "",
        "arrival_board": "" if is_class else written_number(shot.arrival_board),
        "leave": leave_text(shot.leave, hand),
        "motion": shot.motion or "",
        "speed": written_speed(shot.speed_mph, speed_unit),
        "speed_unit": speed_unit,
        **{name: written_number(getattr(shot, name)) for name in NUMBERS},
        "hit": shot.hit or "",
        "is_spare": shot.is_spare,
        "note": shot.note,
    }


def doubts(shot: Shot) -> dict[str, str]:
    """Return what does not go together in a first ball, by field; rare things happen, so it is only asked.

    A ball that meets the head pin takes it down, one that misses it leaves it, and a ball in the gutter takes
    no pin.
    """
    if shot.is_spare:
        return {}
    met, leave, crossed = shot.arrival_class, shot.leave, shot.crossed_board
    found: dict[str, str] = {}
    if met is not None and leave is not None and (met in MISSES_HEAD_PIN) != (1 in leave):
        pin_1 = "pin 1 standing" if 1 in leave else "pin 1 down"
        found["leave"] = f"{AGAIN} You said {ARRIVAL_WORDS[met].name} and {pin_1}, which do not go together."
    if _is_in_gutter(crossed) and (met not in (None, *MISSES_HEAD_PIN) or leave not in (None, ALL_PINS)):
        found["crossed"] = f"{AGAIN} Board {written_number(crossed)} is the gutter, yet the ball met pins."
    return found


def leave_text(leave: tuple[int, ...] | None, hand: Hand) -> str:
    """Return pins left as numbered on the lane: ``4 9``, ``all down``, or nothing where not seen."""
    if leave is None:
        return ""
    return " ".join(str(pin) for pin in own_pins(leave, hand)) or "all down"


def written_speed(speed_mph: float | None, unit: str) -> str:
    """Return a speed as it stands in a field, in the unit on the screen."""
    if speed_mph is None:
        return ""
    return f"{round(mph_to_kmh(speed_mph) if unit == 'km/h' else speed_mph, 2):g}"


def _arrival(form: FormReader) -> float | str | None:
    chosen = form.choice("arrival", "how it hit", (*ARRIVAL_CLASSES, GUTTER))
    chosen = "out" if chosen == GUTTER else chosen
    typed = form.number("arrival_board", "the board it hit", ARRIVAL_LIMITS)
    return typed if typed is not None else chosen or None


def _leave(form: FormReader, hand: Hand) -> tuple[int, ...] | None:
    pins = form.made(read_pins, text=form.text("leave"))
    return None if pins is None else own_pins(pins, hand)


def _is_in_gutter(crossed_board: float | None) -> bool:
    """Return whether a ball was marked in a gutter at the target."""
    return crossed_board is not None and not LOW_EDGE_BOARD <= crossed_board <= HIGH_EDGE_BOARD


def _check_what_was_seen(form: FormReader, fields: dict[str, Any]) -> None:
    """Want something to be seen, and of a first ball that took no pin where it went."""
    if fields["is_spare"]:
        return
    crossed, arrival, leave = (fields[name] for name in ("crossed_board", "arrival", "leave"))
    if crossed is arrival is leave is None:
        form.problems["form"] = (
            "Tap at least one of the three: where it crossed, how it hit, or the pins left. All are empty."
        )
    elif leave == ALL_PINS and arrival is None and not _is_in_gutter(crossed):
        form.problems["arrival"] = (
            "Tap “gutter”, “missed” or “past”: all ten pins stand, and how it missed them is empty."
        )
