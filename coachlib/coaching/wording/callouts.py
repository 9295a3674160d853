"""How boards, sides, moves and lines are called out, as the bowler sees them from behind the foul line.

Small pieces of the sentences of :mod:`coachlib.coaching.wording.advice_text`, used by the pictures too. Here
the own frame becomes left and right.
"""

import re
from collections.abc import Mapping
from typing import Literal

from coachlib.coaching.rules.rule import Rule
from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.world.hand import Hand, inside_side, outside_side, own_pins
from coachlib.world.line import Line, Move
from coachlib.world.parsing import board_text, boards_text

To = Literal["bowler", "coach"]
"""Who is spoken to."""

_COUNTS: dict[float, str] = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five"}


def of_twenty(prob: float) -> str:
    """Return a chance as a count of twenty balls: ``"6 of 20"``."""
    return f"{n_of_twenty(prob)} of {N_TWENTY}"


def strikes_text(prob: float) -> str:
    """Return a chance of striking: ``"7 strikes in 20"``."""
    n = n_of_twenty(prob)
    return f"{n} strike{'' if n == 1 else 's'} in {N_TWENTY}"


def strikes_beside_text(new_prob: float, old_prob: float, same: str = "about the same") -> str:
    """Return a chance of striking beside the one before it: ``"7 strikes in 20, up from 5"``."""
    new, old = n_of_twenty(new_prob), n_of_twenty(old_prob)
    if new == old:
        return f"{strikes_text(new_prob)}, {same}"
    return f"{strikes_text(new_prob)}, {'up' if new > old else 'down'} from {old}"


def move_text(move: Move, hand: Hand) -> str:
    """Return a move as the bowler sees it, e.g. ``"2 and 1 left"``."""
    parts = [f"{move.ball} ball"] * bool(move.ball)
    parts += [_feet_and_eyes(move, hand)] * move.is_feet_and_eyes
    if move.target_ft:
        parts.append(f"look {abs(move.target_ft):g} ft {'farther' if move.target_ft > 0 else 'closer'}")
    if move.speed_mph:
        parts.append(_speed(move.speed_mph))
    if move.rotation_deg:
        parts.append(f"{'more' if move.rotation_deg > 0 else 'less'} rotation")
    parts += [f"{move.surface} surface"] * bool(move.surface)
    parts += [move.note] * bool(move.note)
    text = ", ".join(parts) or "stay"
    return text[0].upper() + text[1:]


def line_text(line: Line) -> str:
    """Return a line as it is called out, e.g. ``"Feet 24, target 13"``."""
    at = "" if line.target_ft == 15 else f" at {line.target_ft:g} ft"
    return f"Feet {board_text(line.feet_board)}, target {board_text(line.target_board)}{at}"


def side_text(boards: float, hand: Hand) -> str:
    """Return the side a difference of boards points to: left or right as seen from behind the bowler."""
    return inside_side(hand) if boards > 0 else outside_side(hand)


def with_sides(template: str, hand: Hand, numbers: Mapping[str, float]) -> str:
    """Return a rule's text with its sides and pins as this bowler sees them."""
    pins = {f"pin_{pin}": str(own_pins((pin,), hand)[0]) for pin in range(1, 11)}
    sides = {"inside": inside_side(hand), "outside": outside_side(hand)}
    counted = {
        name: count_text(value) if name == "patience" else board_text(value)
        for name, value in numbers.items()
    }
    return template.format_map(pins | sides | counted)


_THEY = {"you": "they", "your": "their", "yours": "theirs", "yourself": "themselves"}
_TO_THEM = re.compile(r"\b(shows|lets|near|to|for) you\b")
_TO_YOU = re.compile(r"\b(you|yours?|yourself)\b", re.IGNORECASE)


def about_bowler(text: str, to: To) -> str:
    """Return a text that says "you" as a coach reads it: "they", which takes the same verbs."""
    if to == "bowler":
        return text

    def they(found: re.Match[str]) -> str:
        word = _THEY[found[0].lower()]
        return word.capitalize() if found[0][0].isupper() else word

    return _TO_YOU.sub(they, _TO_THEM.sub(r"\1 them", text))


def rule_name(rule: Rule, hand: Hand, numbers: Mapping[str, float]) -> str:
    """Return a rule as a person reads it: its title as this bowler sees it, and its grade."""
    title = with_sides(rule.title, hand, numbers)
    return f"{title[:1].upper()}{title[1:]} ({rule.grade})"


def count_text(value: float) -> str:
    """Return a small count in letters, anything else as :func:`boards_text` writes it."""
    return _COUNTS.get(value) or boards_text(value)


def _feet_and_eyes(move: Move, hand: Hand) -> str:
    feet, eyes = move.feet_boards, move.target_boards
    if feet * eyes > 0:
        return f"{boards_text(feet)} and {boards_text(eyes)} {side_text(feet, hand)}"
    feet_part = f"feet {boards_text(feet)} {side_text(feet, hand)}" if feet else "feet stay"
    eyes_part = f"eyes {boards_text(eyes)} {side_text(eyes, hand)}" if eyes else "eyes stay"
    return f"{feet_part}, {eyes_part}"


def _speed(speed_mph: float) -> str:
    size = "half a mph" if abs(speed_mph) == 0.5 else f"{abs(speed_mph):g} mph"
    return f"{size} {'faster' if speed_mph > 0 else 'slower'}"


def lowered(text: str) -> str:
    """Return a text that goes on after a colon or a comma: its first letter small."""
    return text[:1].lower() + text[1:]
