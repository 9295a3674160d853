"""Reading what a person typed, field by field, so that all wrong fields are told at once."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, get_type_hints

from coachlib.errors import InputError, number_text, raise_input_errors
from coachlib.units import kmh_to_mph, mph_to_kmh
from coachlib.validation import Limits, types_in
from coachlib.world.parsing import read_number

Answers = Mapping[str, Any]
"""What stands in a form: a text or a tick by field name."""

SPEED_UNITS = ("mph", "km/h")
DONT_KNOW = ("", "?", "i don't know", "don't know")


def written_number(number: float | None) -> str:
    """Return a number as it stands in a field: halves as ½, nothing for None."""
    if number is None:
        return ""
    whole, rest = divmod(number, 1)
    if math.isclose(rest, 0.5) and number > 0:
        return f"{int(whole) or ''}½"
    return f"{round(number, 2):g}"


def counted(number: int, noun: str) -> str:
    """Return a count in words: ``1 ball``, ``2 balls``."""
    return f"{number} {noun}{'s' * (number != 1)}"


def raised(words: str) -> str:
    """Return words as the beginning of a sentence: the first letter large."""
    return words[:1].upper() + words[1:]


def quoted(written: str) -> str:
    """Return what was typed as it stands in a message: in quotes, and cut where it is long."""
    return f"“{written if len(written) <= 30 else written[:28] + ' …'}”"


def limits_of(made: type, name: str) -> Limits:
    """Return the allowed range of a number field of a thing."""
    hint = get_type_hints(made, include_extras=True)[name]
    return next(part for part in types_in(hint) if isinstance(part, Limits))


@dataclass
class FormReader:
    """Reads the fields of one form and collects what is wrong with them, by field."""

    answers: Answers
    problems: dict[str, str] = field(default_factory=dict)

    def text(self, name: str) -> str:
        """Return a field's text without blanks at its ends."""
        return str(self.answers.get(name) or "").strip()

    def letters(self, name: str, label: str, most: int, why: str = "") -> str:
        """Return a field's text; a longer one is a problem."""
        text = self.text(name)
        if len(text) > most:
            count = f"it has {number_text(len(text))}, at most {most} fit"
            self.problems[name] = f"{raised(label)}: use fewer letters, {count}{why}."
        return text

    def ticked(self, name: str) -> bool:
        """Return whether a box is ticked."""
        return self.answers.get(name) is True

    def choice(self, name: str, label: str, choices: Sequence[str]) -> str:
        """Return the chosen name, or an empty text where none is chosen; an unknown one is a problem."""
        chosen = self.text(name)
        if chosen in ("", *choices):
            return chosen
        self.problems[name] = f"{raised(label)}: choose one of {', '.join(choices)}, not {quoted(chosen)}."
        return ""

    def number(self, name: str, label: str, limits: Limits, needed: bool = False) -> float | None:
        """Return a field's number, None where it is empty; anything else is a problem, `needed` that too."""
        written = self.text(name)
        allowed = f"{number_text(limits.low)} to {number_text(limits.high)} {limits.unit}"
        if written.lower() in DONT_KNOW:
            if needed:
                self.problems[name] = f"{raised(label)}: type a number, {allowed}. The field is empty."
            return None
        number = read_number(written)
        if number is None:
            form = f"type a number such as 12 or 12½, {allowed}"
            self.problems[name] = f"{raised(label)}: {form}, not {quoted(written)}."
        elif not limits.low <= number <= limits.high:
            self.problems[name] = f"{raised(label)}: type {allowed}, not {number_text(number)}. {limits.fix}"
        else:
            return number
        return None

    def speed_mph(self, name: str, label: str, limits: Limits, unit: str) -> float | None:
        """Return a field's speed in mph, read in the unit chosen on the screen."""
        is_kmh = unit == "km/h"
        low, high = limits.low, limits.high
        if is_kmh:
            low, high = round(mph_to_kmh(low), 2), round(mph_to_kmh(high), 2)
        fix = _unit_hint(read_number(self.text(name)), is_kmh, limits)
        number = self.number(name, label, Limits(low, high, unit, fix))
        if number is None or not is_kmh:
            return number
        return min(max(kmh_to_mph(number), limits.low), limits.high)  # the ends were rounded to be shown

    def made(self, build: Any, **fields: Any) -> Any:
        """Return ``build(**fields)``, or None where it refuses, which is added to the problems."""
        try:
            return build(**fields)
        except InputError as error:
            for name, message in (error.fields or {"form": str(error)}).items():
                self.problems.setdefault(name, message)
        return None

    def finish(self) -> None:
        """Raise what was found wrong, if anything."""
        if self.problems:
            raise_input_errors(self.problems)


def _unit_hint(number: float | None, is_kmh: bool, limits: Limits) -> str:
    """Name the other unit only where the number would be a likely speed in it."""
    if number is not None and limits.low <= (number if is_kmh else kmh_to_mph(number)) <= limits.high:
        other = "mph" if is_kmh else "km/h"
        return f"If this is {other}, choose {other}."
    return "Type the speed at the hand."
