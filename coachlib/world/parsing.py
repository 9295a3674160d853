"""Numbers and pins as a person writes them, in a form or in a sheet of their own."""

import re

from coachlib.errors import InputError, raise_input_errors
from coachlib.world.pins import ALL_PINS, checked_pins

ALL_DOWN = ("all down", "all", "strike", "x", "0")
NOT_SEEN = ("", "?", "not seen")

_QUARTERS = ("", "¼", "½", "¾")
_FRACTIONS = {"": 0.0, "½": 0.5, "1/2": 0.5, "¼": 0.25, "1/4": 0.25, "¾": 0.75, "3/4": 0.75}
_NUMBER = re.compile(r"([+-]?)(\d*)(?:[.,](\d+))?\s*(½|¼|¾|(?<!\d)[13]/[24])?")


def read_number(text: str) -> float | None:
    """Return the number a person wrote, or None: ``12.5``, ``12,5``, ``12½`` and ``12 1/2`` are the same."""
    found = _NUMBER.fullmatch(text.strip().replace("−", "-"))
    if not found or not any(found.groups()[1:]):
        return None
    sign, whole, decimals, fraction = (part or "" for part in found.groups())
    size = float(f"{whole or 0}.{decimals or 0}") + _FRACTIONS[fraction]
    return -size if sign == "-" else size


def read_pins(text: str) -> tuple[int, ...] | None:
    """Return the pins a person typed as numbered on the lane; () for all down, None for not seen.

    Raises
    ------
    InputError
        If something else than pin numbers stands there, a pin does not exist, or one is given twice.
    """
    written = text.strip().lower()
    if written in NOT_SEEN:
        return None
    if written in ALL_DOWN:
        return ()
    words = [word for word in re.split(r"[\s,;.+/–-]+", written) if word]
    wrong = [word for word in words if not word.isascii() or not word.isdigit() or int(word) not in ALL_PINS]
    if wrong:
        message = f"{_pin_hint(wrong[0])} {', '.join(wrong)[:40]} is no pin from 1 to 10."
        raise InputError(message, {"leave": message})
    try:
        return checked_pins([int(word) for word in words])
    except InputError:
        twice = ", ".join(sorted({word for word in words if words.count(word) > 1}))
        raise_input_errors({"leave": f"Type each pin left once, 1 to 10. {twice} stands there twice."})


def _pin_hint(word: str) -> str:
    if word.isascii() and word.isdigit() and "0" not in word and len(set(word)) == len(word) > 1:
        return f"Put a space between two pins, such as {' '.join(word)}."
    return "Type the pins left, such as 4 9, or “all down”, or “not seen”."


def board_text(board: float) -> str:
    """Return a board, or a number of boards, as people write it: ``12``, ``12½``, ``¼``, ``1.3``, ``−1½``."""
    size = abs(board)
    quarters = round(size * 4)
    if abs(quarters / 4 - size) < 0.005:
        whole, text = quarters // 4, _QUARTERS[quarters % 4]
        written = f"{whole or ''}{text}" if text else str(whole)
    else:
        written = f"{size:.1f}"
    return f"−{written}" if board < 0 and float(f"{size:.2f}") else written


def boards_text(boards: float) -> str:
    """Return a number of boards without its sign: ``"1½"``."""
    return board_text(abs(boards))
