"""What a rule of thumb is: its section, its condition, what it answers, and what it says."""

import dataclasses
from typing import Literal

from coachlib.coaching.rules.conditions import Condition
from coachlib.world.line import Move

RuleKind = Literal["stay", "watch", "pass", "move", "add", "reject", "start", "note", "caution"]
"""What a rule answers.

``stay`` and ``watch`` change nothing; ``pass`` is a gate that hands on to the arrival moves; ``move``
offers moves, best first; ``add`` goes with the move under consideration; ``reject`` forbids that move;
``start`` says where to begin; ``note`` is worth saying beside the answer; ``caution`` is a line of its own.
"""

GRADES = ("in print", "common practice", "derived", "in print, size derived")
PLACEHOLDERS = ("inside", "outside", "patience", "exit_board", *(f"pin_{pin}" for pin in range(1, 11)))


_ANSWERS: tuple[RuleKind, ...] = ("stay", "watch", "move", "note", "reject", "caution")


@dataclasses.dataclass(frozen=True)
class Section:
    """A letter of the rulebook: what it is about, its rank among rules that fire, for which ball, and how.

    A rule of a kind that is not among `kinds` would never be heard there.
    """

    title: str
    rank: int
    tasks: tuple[str, ...] = ("first",)
    kinds: tuple[RuleKind, ...] = (*_ANSWERS, "add")


SECTIONS = {
    "J": Section("people and cautions", 0, ("first", "spare"), ("note", "reject", "caution", "stay")),
    "A": Section("bowler or lane?", 1, kinds=(*_ANSWERS, "pass")),
    "C": Section("the lane is changing", 2),
    "D": Section("how the ball reacts", 3),
    "B": Section("moves for the hit", 4),
    "E": Section("carry", 5),
    "F": Section("where to start", 6, kinds=(*_ANSWERS, "start")),
    "G": Section("speed, hand, loft", 7),
    "H": Section("surface and ball", 8),
    "I": Section("spares", 9, ("spare",), ("stay", "watch", "move", "note")),
}
"""The sections in order of precedence."""


@dataclasses.dataclass(frozen=True)
class SizedMove:
    """A move as a rule states it.

    ``by = "err_sign"``: stated for a high ball, turned for a light one. ``by = "half_back"``: the last move
    of the line is taken back by half, see :func:`coachlib.coaching.session.last_move.half_back`.
    """

    move: Move
    by: Literal["", "err_sign", "half_back"] = ""


@dataclasses.dataclass(frozen=True)
class Case:
    """One of several answers of a rule: the first whose condition holds is given."""

    when: Condition
    kind: RuleKind
    moves: tuple[SizedMove, ...] = ()
    do: str = ""


@dataclasses.dataclass(frozen=True)
class Rule:
    """One rule of thumb; texts are for a person and hold placeholders such as ``{inside}``.

    Parameters
    ----------
    id, section, title : str
        Name, letter of the section, and a short plain title.
    when : mapping
        The condition.
    why, look, stops, then : str
        The reason, what to look for next, when the rule stops being true, and what then.
    grade, src : str, tuple of str
        How well it is founded, and the codes of its sources.
    kind : str or None
        The answer; None where only the cases answer.
    moves : tuple of SizedMove
        Best first, feet and eyes before the rest.
    do : str
        What to do, where a move does not say it.
    cases : tuple of Case
        Answers that depend on more; they come before the rule's own.
    """

    id: str
    section: str
    title: str
    when: Condition
    why: str
    grade: str
    src: tuple[str, ...]
    kind: RuleKind | None = None
    moves: tuple[SizedMove, ...] = ()
    do: str = ""
    look: str = ""
    stops: str = ""
    then: str = ""
    cases: tuple[Case, ...] = ()
