"""The columns of a log as a spreadsheet: what was seen first, then the line, then who, ball and oil.

Names are those of the fields, units included; what they belong to (bowler, ball, place …) stands in front.
Boards are counted from the bowler's own side, pins are numbered as on the lane.
"""

import dataclasses
import functools
from collections.abc import Mapping
from typing import Any, get_type_hints

from coachlib.coaching.session.setting import Setting
from coachlib.errors import InputError, checked_number, raise_input_errors
from coachlib.records.spreadsheets.spreadsheet_cells import checked_cell, read_cell, together, written
from coachlib.units import kmh_to_mph, mph_to_kmh
from coachlib.validation import Limits, types_in
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler, SpeedMph
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import ARRIVAL_CLASSES, CENTRE_BOARD
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line, Move
from coachlib.world.oil import PATTERN_NAMES, OilPattern, load_pattern
from coachlib.world.parsing import read_pins
from coachlib.world.shot import Shot

CellTexts = Mapping[str, str]
MEANINGS: dict[str, tuple[str, ...]] = {
    "student": ("student", "name", "bowler", "who"),
    "date": ("date", "day", "when"),
    "lane": ("lane", "lane no", "lane number"),
    "feet_board": ("feet", "feet board", "stance", "stood", "stand", "start board"),
    "target_board": ("target", "target board", "eyes", "aim", "looked at"),
    "target_ft": ("target ft", "target distance", "target distance ft"),
    "crossed_board": ("crossed", "crossed board", "over", "rolled over", "board at arrows"),
    "arrival": ("arrival", "arrived", "pocket", "at the pins", "entry board"),
    "leave_pins": ("leave", "left", "pins left", "leave pins", "pins standing", "standing"),
    "speed_mph": ("speed", "speed mph", "mph"),
    "speed_kmh": ("speed km/h", "speed kmh", "km/h", "kmh", "kph"),
    "breakpoint_board": ("breakpoint", "breakpoint board", "turned at board"),
    "breakpoint_ft": ("breakpoint ft", "turned at ft", "breakpoint distance"),
    "is_spare": ("spare", "is spare", "spare ball", "second ball"),
    "note": ("note", "notes", "remark", "remarks", "comment", "comments"),
}
"""What a column of a sheet made by hand may mean, and how its head may be written; the usual way first.

An exported log has these names too, but "student", "date", "arrival" and "speed_kmh": there stand key, time,
a board or a class, and mph.
"""

ALL_DOWN = "all down"
LIBRARY, MEASURED = "library", "measured"
"""Where the film of a pattern is: in the library under its name, or only in the log."""

_NOT_PLAIN = {
    Shot: ("arrival", "leave"),
    OilPattern: ("film_um",),
}


@dataclasses.dataclass(frozen=True)
class Group:
    """The columns of one kind of thing: its fields' names behind a prefix."""

    kind: Any
    prefix: str = ""

    @property
    def fields(self) -> dict[str, str]:
        """Column by field."""
        left_out = _NOT_PLAIN.get(self.kind, ())
        names = [field.name for field in dataclasses.fields(self.kind) if field.name not in left_out]
        return {name: self.prefix + name for name in names}

    def cells(self, thing: Any) -> dict[str, str]:
        """Return a thing as cells; empty ones for None."""
        return {
            column: "" if thing is None else written(getattr(thing, field))
            for field, column in self.fields.items()
        }

    def made_if_any(self, cells: CellTexts) -> Any:
        """Return the thing that some cells describe; None where nothing stands in any of its columns.

        No name is an empty text here: a cell cannot tell the two apart.
        """
        if not any(cells.get(column) for column in self.fields.values()):
            return None
        return self.made(cells, **({} if cells.get(self.prefix + "name") else {"name": str}))

    def made(self, cells: CellTexts, **more: Any) -> Any:
        """Return the thing that some cells describe; an empty cell leaves its field at the default.

        Parameters
        ----------
        cells : mapping
            By column.
        **more
            Makers, functions that may raise, of fields that have no column of their own.

        Raises
        ------
        InputError
            Naming all columns that are wrong.
        """
        hints = get_type_hints(self.kind, include_extras=True)
        makers = {
            field: functools.partial(read_cell, column, cells.get(column, ""), hints[field])
            for field, column in self.fields.items()
        }
        values, problems = checked_cell(makers | more)
        given = {field: value for field, value in values.items() if value is not None}
        try:
            thing = self.kind(**given)
        except InputError as error:
            wrong = {field: text for field, text in error.fields.items() if field in given or not problems}
            problems = {self.fields.get(field, field): text for field, text in wrong.items()} | problems
        if problems:
            raise_input_errors(problems)
        return thing


SHOT, LINE, BOWLER = Group(Shot), Group(Line), Group(Bowler, "bowler_")
PLACE = Group(Place, "place_")
BALL, PATTERN, MOVE = Group(Ball, "ball_"), Group(OilPattern, "pattern_"), Group(Move, "advice_move_")
SEEN = ("crossed_board", "arrival_board", "arrival_class", "leave_pins")
HELD = ("lane", "games_on_lane", "scoring_started", "goes_on_with_pain")
ADVICE = ("advice_kind", "advice_rules")


def columns() -> tuple[str, ...]:
    """Return all columns of what was seen, held and advised, in their order."""
    observed = dict.fromkeys([*SEEN, *SHOT.fields.values()])
    held = [*LINE.fields.values(), *HELD, *BOWLER.fields.values(), *BALL.fields.values()]
    oil = [*PATTERN.fields.values(), "pattern_film"]
    return (*observed, *ADVICE, *MOVE.fields.values(), *held, *oil, *PLACE.fields.values())


def shot_cells(shot: Shot, hand: Hand) -> dict[str, str]:
    """Return a ball as cells, its pins as numbered on the lane."""
    is_class = isinstance(shot.arrival, str)
    leave = "" if shot.leave is None else " ".join(map(str, own_pins(shot.leave, hand))) or ALL_DOWN
    return SHOT.cells(shot) | {
        "arrival_board": "" if is_class else written(shot.arrival),
        "arrival_class": written(shot.arrival) if is_class else "",
        "leave_pins": leave,
    }


def shot_from_cells(cells: CellTexts, hand: Hand) -> Shot:
    """Return a ball from its cells.

    Raises
    ------
    InputError
        Naming the columns that are wrong.
    """
    column = next((name for name in ("arrival_board", "arrival_class") if cells.get(name)), "arrival")
    makers = {"leave": lambda: _leave(cells, hand), "speed_mph": lambda: _speed_mph(cells)}
    try:
        shot: Shot = SHOT.made(cells, arrival=lambda: _arrival(cells.get(column, "")), **makers)
    except InputError as error:
        places = {"arrival": column, "leave": "leave_pins"}
        wrong = {places.get(field, field): text for field, text in error.fields.items()}
        raise InputError(str(error), wrong) from error
    return shot


def setting_cells(setting: Setting) -> dict[str, str]:
    """Return what held as cells; of the oil all but a measured film."""
    return {
        **LINE.cells(setting.line),
        **{name: written(getattr(setting, name)) for name in HELD},
        **BOWLER.cells(setting.bowler),
        **BALL.cells(setting.ball),
        **PATTERN.cells(setting.pattern),
        "pattern_film": _film(setting.pattern),
        **PLACE.cells(setting.place),
    }


def setting_from_cells(cells: CellTexts, **known: Any) -> Setting:
    """Return what held from its cells; a pattern of the library gets its film back.

    Parameters
    ----------
    cells : mapping
        By column.
    **known
        Fields that are known without a cell, such as the bowler.

    Raises
    ------
    InputError
        Naming the columns that are wrong.
    """
    makers = {
        "bowler": lambda: BOWLER.made(cells),
        "line": lambda: LINE.made(cells),
        "ball": lambda: BALL.made_if_any(cells),
        "pattern": lambda: _pattern(cells),
        "place": lambda: PLACE.made(cells),
        "held": lambda: _held(cells),
    }
    made = together({name: make for name, make in makers.items() if name not in known})
    held: Setting = made.pop("held")
    return dataclasses.replace(held, **made, **known)


def has_lost_film(cells: CellTexts) -> bool:
    """Return whether the oil had a measured film, which a spreadsheet does not hold."""
    return cells.get("pattern_film") == MEASURED


def advice_cells(advice: Mapping[str, Any] | None) -> dict[str, str]:
    """Return an advice as cells: its kind, its rules and its move."""
    if not advice:
        return {}
    move, rules = advice.get("move"), advice.get("rule_ids")
    try:
        made = Move(**move) if isinstance(move, dict) else None
    except InputError:
        made = None
    return {
        "advice_kind": written(str(advice.get("kind", ""))),
        "advice_rules": written(" ".join(map(str, rules)) if isinstance(rules, list | tuple) else ""),
        **MOVE.cells(made),
    }


def advice_from_cells(cells: CellTexts) -> dict[str, Any] | None:
    """Return an advice from its cells; None where there is none.

    Raises
    ------
    InputError
        Naming the columns that are wrong.
    """
    kind = read_cell("advice_kind", cells.get("advice_kind", ""), str)
    if kind is None:
        return None
    rules = read_cell("advice_rules", cells.get("advice_rules", ""), str) or ""
    return {"kind": kind, "move": MOVE.made(cells), "rule_ids": tuple(rules.split())}


def _arrival(cell: str) -> Any:
    """Return a board or a class; what is neither is left to the shot, which knows what it takes."""
    named = cell.strip().lower().replace(" ", "_")
    if not named or named in ARRIVAL_CLASSES:
        return named or None
    try:
        return read_cell("arrival", cell, float)
    except InputError:
        return cell


def _speed_mph(cells: CellTexts) -> float | None:
    speed_mph: float | None = read_cell("speed_mph", cells.get("speed_mph", ""), float)
    speed_kmh: float | None = read_cell("speed_kmh", cells.get("speed_kmh", ""), float)
    if speed_mph is not None or speed_kmh is None:
        return speed_mph
    limits = next(part for part in types_in(SpeedMph) if isinstance(part, Limits))
    low, high = round(mph_to_kmh(limits.low), 2), round(mph_to_kmh(limits.high), 2)
    return kmh_to_mph(checked_number("speed_kmh", speed_kmh, low, high, "km/h", "Is this in mph?"))


def _leave(cells: CellTexts, hand: Hand) -> tuple[int, ...] | None:
    pins = read_pins(cells.get("leave_pins", ""))
    return None if pins is None else own_pins(pins, hand)


def _held(cells: CellTexts) -> Setting:
    """Return lane, games and scoring, on a line of no meaning."""
    hints = get_type_hints(Setting, include_extras=True)
    makers = {name: functools.partial(read_cell, name, cells.get(name, ""), hints[name]) for name in HELD}
    given = {name: value for name, value in together(makers).items() if value is not None}
    return Setting(bowler=Bowler(), line=Line(CENTRE_BOARD, CENTRE_BOARD), **given)


def _film(pattern: OilPattern | None) -> str:
    if pattern is None or not pattern.has_film:
        return ""
    is_ours = pattern.name in PATTERN_NAMES and pattern == load_pattern(pattern.name)
    return LIBRARY if is_ours else MEASURED


def _pattern(cells: CellTexts) -> OilPattern | None:
    pattern: OilPattern | None = PATTERN.made_if_any(cells)
    is_ours = pattern is not None and cells.get("pattern_film") == LIBRARY and pattern.name in PATTERN_NAMES
    return load_pattern(pattern.name) if pattern is not None and is_ours else pattern
