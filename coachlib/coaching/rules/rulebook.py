"""The rulebook: the rules of thumb as data, and which of them fire on what was seen.

The rules stand in ``data/rules.toml``. A club lays its own file beside it: a rule of the same id replaces
ours where it stands, a new id is added, and a setting of the same name replaces ours.
"""

import dataclasses
import functools
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from coachlib.coaching.rules.conditions import n_held
from coachlib.coaching.rules.rule import SECTIONS, Rule, RuleKind, SizedMove
from coachlib.coaching.rules.rule_file import read_rule_file
from coachlib.coaching.rules.vocabulary import FactValue, checked_facts
from coachlib.coaching.session.last_move import half_back
from coachlib.errors import checked_choice
from coachlib.files import data_path
from coachlib.world.line import Move

WALKERS_MOVES = {(2.0, 1.0): (3.0, 1.0), (3.0, 2.0): (4.0, 2.0)}
"""Feet and eyes that shift a walker's line at the pins as far as the printed move shifts a slider's.

Two-and-one is -2 boards for a slide board that follows the stance and only -½ for who walks the line, for
whom three-and-one is -2. Three-and-two (-1) would go half a board the wrong way; four-and-two is -1. Derived,
see :mod:`coachlib.world.levers`.
"""


@dataclasses.dataclass(frozen=True)
class Rulebook:
    """All rules in the file's order, the numbers that limits name, and what each source code stands for."""

    rules: tuple[Rule, ...]
    settings: Mapping[str, float]
    sources: Mapping[str, str]

    def rule(self, rule_id: str) -> Rule:
        """Return the rule of that id, or raise an error that lists the ids."""
        by_id = {rule.id: rule for rule in self.rules}
        return by_id[checked_choice("rule id", rule_id, by_id)]


@dataclasses.dataclass(frozen=True)
class Fired:
    """A rule whose condition holds, with its answer for this shot.

    Parameters
    ----------
    rule : Rule
        The rule.
    kind : str
        Its answer, see :data:`coachlib.coaching.rules.rule.RuleKind`.
    moves : tuple of Move
        With their signs, best first; empty where the rule offers none.
    text : str
        What to do in words, with placeholders; empty where the moves say it.
    n_conditions : int
        How many conditions were met: the more, the more special the rule.
    """

    rule: Rule
    kind: RuleKind
    moves: tuple[Move, ...]
    text: str
    n_conditions: int


def load_rulebook(*club_files: str | Path) -> Rulebook:
    """Return the rulebook, with the rules of clubs laid over it.

    The files are TOML written like ``data/rules.toml``; the later one wins.

    Raises
    ------
    DataFileError
        If a file cannot be read or holds something wrong: names file, rule, field, what is allowed and
        what to do.
    InputError
        If one of `club_files` is no path.
    """
    rulebook = _own_rulebook()
    for path in club_files:
        rulebook = _laid_over(rulebook, path)
    return rulebook


@functools.cache
def _own_rulebook() -> Rulebook:
    return _laid_over(Rulebook((), {}, {}), data_path("rules.toml"))


def _laid_over(rulebook: Rulebook, path: str | Path) -> Rulebook:
    read = read_rule_file(path, rulebook.settings, rulebook.sources)
    rules = {rule.id: rule for rule in (*rulebook.rules, *read.rules)}
    return Rulebook(
        tuple(rules.values()), MappingProxyType(dict(read.settings)), MappingProxyType(dict(read.sources))
    )


def fired_rules(rulebook: Rulebook, facts: Mapping[str, FactValue]) -> tuple[Fired, ...]:
    """Return the rules that fire, in order of precedence.

    Sections come in the order of :data:`coachlib.coaching.rules.rule.SECTIONS`. Inside a section the rule
    with more conditions comes first, then the earlier one.

    Raises
    ------
    InputError
        If a fact is not in the vocabulary or has a value of the wrong kind, or ``task`` is not among them.
    """
    checked_facts(facts)
    task = checked_choice("task", facts.get("task"), ("first", "spare"))
    asked = (rule for rule in rulebook.rules if task in SECTIONS[rule.section].tasks)
    fired = [answer for rule in asked if (answer := _fired(rule, rulebook.settings, facts))]
    return tuple(sorted(fired, key=lambda one: (SECTIONS[one.rule.section].rank, -one.n_conditions)))


def _fired(rule: Rule, settings: Mapping[str, float], facts: Mapping[str, FactValue]) -> Fired | None:
    n_conditions = n_held(rule.when, facts, settings)
    if not n_conditions:
        return None
    answer = next((case for case in rule.cases if n_held(case.when, facts, settings)), rule)
    moves = _resolved(answer.moves, facts)
    if answer.kind is None or (answer.moves and not moves):
        return None
    return Fired(rule, answer.kind, moves, answer.do or rule.do, n_conditions)


def _resolved(moves: tuple[SizedMove, ...], facts: Mapping[str, FactValue]) -> tuple[Move, ...]:
    """Return the moves with their sign and as the bowler walks; by the sign of err none while that is 0.

    What takes half of the last move back comes after the others.
    """
    err_boards = facts.get("err_boards") or 0.0
    sign = (err_boards > 0) - (err_boards < 0)  # type: ignore[operator]
    feet, eyes = (float(facts.get(f"last_move_{part}_boards") or 0.0) for part in ("feet", "target"))
    back = half_back(Move(feet_boards=feet, target_boards=eyes))
    sized = [one for one in moves if one.by != "half_back" and (sign or not one.by)]
    signed = [_scaled(one.move, sign, sign) if one.by else one.move for one in sized]
    walked = map(_walked, signed) if facts.get("walk") == "walk" else signed
    return (*walked, *(back for one in moves if one.by == "half_back" and not back.is_stay))


def _scaled(move: Move, feet: float, eyes: float) -> Move:
    return dataclasses.replace(
        move, feet_boards=feet * move.feet_boards, target_boards=eyes * move.target_boards
    )


def _walked(move: Move) -> Move:
    """Return a move in the size that does for a walker what it does for a slider."""
    size = (abs(move.feet_boards), abs(move.target_boards))
    if size not in WALKERS_MOVES or move.feet_boards * move.target_boards < 0:
        return move
    feet, eyes = WALKERS_MOVES[size]
    return _scaled(move, feet / size[0], eyes / size[1])


def opposite(first: Fired, second: Fired) -> bool:
    """Return whether two rules ask for moves that work against each other at the pins.

    Compared are the best moves of both: where the straight line of a bowler whose slide board follows the
    stance goes at the pins (4 boards a board of eyes, -3 a board of feet), the speed, and the distance looked
    at. A parallel move keeps the angle; it is meant to find other oil and counts by the way the feet go.
    """
    if not first.moves or not second.moves:
        return False
    pairs = zip(_directions(first.moves[0]), _directions(second.moves[0]), strict=True)
    return any(one * other < 0 for one, other in pairs)


def _directions(move: Move) -> tuple[float, float, float]:
    shift_boards = 4.0 * move.target_boards - 3.0 * move.feet_boards
    if move.feet_boards == move.target_boards:
        shift_boards = -move.feet_boards
    return shift_boards, move.speed_mph, move.target_ft
