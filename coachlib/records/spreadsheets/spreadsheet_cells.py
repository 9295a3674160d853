"""One cell of a spreadsheet: texts that are never a formula there, numbers, ticks, days, and the way back."""

import re
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any

from coachlib.errors import InputError, raise_input_errors, shown
from coachlib.validation import types_in
from coachlib.world.parsing import read_number

_START = r"(^|[;\t\r\n])([\s\"]*)"
_RISKY = re.compile(_START + r"(?=['=+\-@＝＋－＠])")
_GUARDED = re.compile(_START + "'")
_DAY = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})")
_TICKS = {"yes": True, "no": False, "true": True, "false": False, "1": True, "0": False, "x": True}


def safe_text(text: str) -> str:
    """Return a text as it may stand in a cell: where a formula could begin, a quote mark is put before it.

    A formula could begin at the start of a cell, and after ``;``, a tab or a line's end, where some programs
    begin a new one. A quote mark there gets another one, so that :func:`plain_text` gives back every text.
    """
    return _RISKY.sub(r"\1\2'", text)


def plain_text(cell: str) -> str:
    """Return the text that :func:`safe_text` put into a cell."""
    return _GUARDED.sub(r"\1\2", cell)


def written(value: object) -> str:
    """Return a value as a cell: nothing for None, yes or no, a number in full, a text made safe."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return safe_text(value) if isinstance(value, str) else repr(value)


def read_cell(column: str, cell: str, hint: Any) -> Any:
    """Return a cell as what its field holds; an empty one is None.

    Parameters
    ----------
    column : str
        Its column, first word of a message.
    cell : str
        What stands there.
    hint : type
        The field's type.

    Raises
    ------
    InputError
        If a number or a tick is wanted and something else stands there.
    """
    if cell == "":
        return None
    kinds = set(types_in(hint))
    value: float | None
    if bool in kinds:
        value, wanted = _TICKS.get(cell.strip().lower()), "yes or no. Write one of the two."
    elif kinds & {float, int}:
        value, wanted = _number(cell), "a number. Write one, such as 12 or 12.5, and no unit."
    else:
        return plain_text(cell)
    if value is None:
        message = f"{column} is {shown(cell)}; expected {wanted}"
        raise InputError(message, {column: message})
    return value


def read_time(column: str, cell: str) -> datetime:
    """Return a day, or a day and a time; without a zone it is that of this machine.

    Raises
    ------
    InputError
        If something else stands there, or a day that could be two.
    """
    text = cell.strip()
    found = _DAY.fullmatch(text)
    try:
        time = datetime.fromisoformat(f"{found[3]}-{found[2]:0>2}-{found[1]:0>2}" if found else text)
    except ValueError as error:
        message = (
            f"{column} is {shown(cell)}; expected a day such as 2024-10-01 or 1.10.2024, or a date and time "
            "such as 2024-10-01T18:30+03:00. Write it that way."
        )
        raise InputError(message, {column: message}) from error
    return time if time.tzinfo else time.astimezone()


def together(makers: Mapping[str, Callable[[], Any]]) -> dict[str, Any]:
    """Return what each maker makes, by name; where some fail, all their errors are raised as one.

    Raises
    ------
    InputError
        With the fields of all.
    """
    made, problems = checked_cell(makers)
    if problems:
        raise_input_errors(problems)
    return made


def checked_cell(makers: Mapping[str, Callable[[], Any]]) -> tuple[dict[str, Any], dict[str, str]]:
    """Return what each maker makes, by name, and the error messages of those that fail, by field."""
    made: dict[str, Any] = {}
    problems: dict[str, str] = {}
    for name, make in makers.items():
        try:
            made[name] = make()
        except InputError as error:
            problems.update(error.fields or {name: str(error)})
    return made, problems


def _number(cell: str) -> float | None:
    try:
        return float(cell)
    except ValueError:
        return read_number(cell)
