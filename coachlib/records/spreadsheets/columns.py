"""The columns of a log as a spreadsheet: what was seen first, then the line, then who, ball and oil.

Names are those of the fields, units included; what they belong to (bowler, ball, place …) stands in front.
Boards are counted from the bowler's own side, pins are numbered as on the lane.
"""

import dataclasses
import functools
from collections.abc import Callable, Mapping
from typing import Any, get_type_hints

from coachlib.coaching.session.setting import Setting
from coachlib.errors import InputError, raise_input_errors
from coachlib.records.spreadsheets.spreadsheet_cells import checked_cell, read_cell, together, written
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import CENTRE_BOARD
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line, Move
from coachlib.world.oil import PATTERN_NAMES, OilPattern, load_pattern
from coachlib.world.parsing import read_pins
from coachlib.world.shot import Shot

CellTexts = Mapping[str, str]
ALL_DOWN = "all down"
LIBRARY, MEASURED = "library", "measured"
"""Where the film of a pattern is: in the library under its name, or only in the log."""

_NOT_PLAIN = {
    Shot: ("arrival", "leave"),
    OilPattern: ("film_um",),
}


@dataclasses.dataclass(frozen=True)
class Group:
    """The columns of one thing.

    Parameters
    ----------
    kind : type
        The thing.
    prefix : str
        In front of its fields' names.
    """

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

    def is_empty(self, cells: CellTexts) -> bool:
        """Return whether nothing stands in any of the columns."""
        return not any(cells.get(column) for column in self.fields.values())

    def made(self, cells: CellTexts, **more: Any) -> Any:
        """Return the thing that some cells describe; an empty cell leaves its field at the default.

        Parameters
        ----------
        cells : mapping
            By column.
        **more
            Fields that have no column of their own, or makers of them: functions that may raise.

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
    seen = dict.fromkeys([*SEEN, *SHOT.fields.values()])
    held = [*LINE.fields.values(), *HELD, *BOWLER.fields.values(), *BALL.fields.values()]
    oil = [*PATTERN.fields.values(), "pattern_film"]
    return (*seen, *ADVICE, *MOVE.fields.values(), *held, *oil, *PLACE.fields.values())


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
    try:
        shot: Shot = SHOT.made(cells, arrival=lambda: _arrival(cells), leave=lambda: _leave(cells, hand))
    except InputError as error:
        arrival = "arrival_board" if cells.get("arrival_board") else "arrival_class"
        wrong = {arrival if field == "arrival" else field: text for field, text in error.fields.items()}
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


def setting_from_cells(cells: CellTexts) -> Setting:
    """Return what held from its cells; a pattern of the library gets its film back.

    Raises
    ------
    InputError
        Naming the columns that are wrong.
    """
    made = together(
        {
            "bowler": lambda: BOWLER.made(cells),
            "line": lambda: LINE.made(cells),
            "ball": lambda: None if BALL.is_empty(cells) else BALL.made(cells, **_empty_name(BALL, cells)),
            "pattern": lambda: _pattern(cells),
            "place": lambda: PLACE.made(cells),
            "held": lambda: _held(cells),
        }
    )
    held: Setting = made.pop("held")
    return dataclasses.replace(held, **made)


def has_lost_film(cells: CellTexts) -> bool:
    """Return whether the oil had a measured film, which a spreadsheet does not hold."""
    return cells.get("pattern_film") == MEASURED


def advice_cells(said: Mapping[str, Any] | None) -> dict[str, str]:
    """Return an advice as cells: its kind, its rules and its move."""
    if not said:
        return {}
    move = _move(said.get("move"))
    rules = said.get("rule_ids")
    ids = " ".join(map(str, rules)) if isinstance(rules, list | tuple) else ""
    return {
        "advice_kind": written(str(said.get("kind", ""))),
        "advice_rules": written(ids),
        **MOVE.cells(move),
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


def _move(given: Any) -> Move | None:
    try:
        return Move(**given) if isinstance(given, dict) else None
    except InputError:
        return None


def _arrival(cells: CellTexts) -> Any:
    board = read_cell("arrival_board", cells.get("arrival_board", ""), float)
    return (cells.get("arrival_class", "").strip() or None) if board is None else board


def _leave(cells: CellTexts, hand: Hand) -> tuple[int, ...] | None:
    try:
        pins = read_pins(cells.get("leave_pins", ""))
    except InputError as error:
        raise InputError(str(error), {"leave_pins": str(error)}) from error
    return None if pins is None else own_pins(pins, hand)


def _held(cells: CellTexts) -> Setting:
    """Return lane, games and scoring, on a line of no meaning."""
    hints = get_type_hints(Setting, include_extras=True)
    makers = {name: functools.partial(read_cell, name, cells.get(name, ""), hints[name]) for name in HELD}
    given = {name: value for name, value in together(makers).items() if value is not None}
    return Setting(bowler=Bowler(), line=Line(CENTRE_BOARD, CENTRE_BOARD), **given)


def _empty_name(group: Group, cells: CellTexts) -> dict[str, Callable[[], str]]:
    """Return the maker of a name that was written as an empty text, which a cell cannot tell from none."""
    return {} if cells.get(group.prefix + "name") else {"name": str}


def _film(pattern: OilPattern | None) -> str:
    if pattern is None or not pattern.has_film:
        return ""
    is_ours = pattern.name in PATTERN_NAMES and pattern == load_pattern(pattern.name)
    return LIBRARY if is_ours else MEASURED


def _pattern(cells: CellTexts) -> OilPattern | None:
    if PATTERN.is_empty(cells):
        return None
    pattern: OilPattern = PATTERN.made(cells, **_empty_name(PATTERN, cells))
    return (
        load_pattern(pattern.name)
        if cells.get("pattern_film") == LIBRARY and pattern.name in PATTERN_NAMES
        else pattern
    )
