"""What the rule of thumb says as one voice, and the notes and cautions that stand beside it."""

import dataclasses
from collections.abc import Mapping

from coachlib.coaching.rules.rule import RuleKind
from coachlib.coaching.rules.rulebook import Fired, Rulebook, fired_rules
from coachlib.coaching.rules.session_facts import Reading
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.session import Session
from coachlib.errors import InputError
from coachlib.world.levers import fits_problems, target_on_line
from coachlib.world.line import Line, Move, after_move


@dataclasses.dataclass(frozen=True)
class RuleVoice:
    """What a coach would say with no computer.

    Parameters
    ----------
    move : Move
        The move of the rule; all zero for "stay" and "watch".
    fired : tuple of Fired
        The rule that decided, first; then those that go with it.
    against : tuple of Fired
        Rules that point the opposite way; not empty means that both are said.
    forbidden : tuple of Fired
        The rules that forbid every move of the deciding rule; not empty means that another lever is named
        for that reason, or none.
    numbers : mapping of str to float
        What texts may name: ``patience``, and ``exit_board`` where the length of the oil is known.
    """

    move: Move = dataclasses.field(default_factory=Move)
    fired: tuple[Fired, ...] = ()
    against: tuple[Fired, ...] = ()
    forbidden: tuple[Fired, ...] = ()
    numbers: Mapping[str, float] = dataclasses.field(default_factory=dict)

    @property
    def reason(self) -> str:
        """Why, in one clause, in the own frame."""
        return self._text("why")

    @property
    def look_for(self) -> str:
        """What to see next, in the own frame."""
        return self._text("look")

    @property
    def stops(self) -> str:
        """Where the rule stops being true, in the own frame."""
        return self._text("stops")

    @property
    def rule_ids(self) -> tuple[str, ...]:
        """The ids of the rules behind the answer."""
        return tuple(one.rule.id for one in self.fired)

    @property
    def grades(self) -> tuple[str, ...]:
        """How well each of them is founded."""
        return tuple(one.rule.grade for one in self.fired)

    def _text(self, field: str) -> str:
        return own_frame(getattr(self.fired[0].rule, field), self.numbers) if self.fired else ""


def fired_with(
    session: Session, book: Rulebook, reading: Reading, move: Move, kind: RuleKind
) -> tuple[Fired, ...]:
    """Return the rules of one kind that fire on the facts and a move under consideration."""
    facts = with_move(session, reading.facts, move)
    return tuple(one for one in fired_rules(book, facts) if one.kind == kind)


def notes_beside(session: Session, book: Rulebook, reading: Reading, move: Move) -> tuple[Fired, ...]:
    """Return what is worth saying beside a move, and about the bowler before the first ball."""
    about_people = reading.facts.get("n_shots") == 0
    if not (about_people or move.is_feet_and_eyes or move.ball or move.rotation_deg):
        return ()
    notes = fired_with(session, book, reading, move, "note")
    return tuple(one for one in notes if (one.rule.section == "J") == about_people)


def cautions_beside(session: Session, book: Rulebook, reading: Reading, move: Move) -> tuple[Fired, ...]:
    """Return the cautions that go with a move, each to be said on a line of its own."""
    cautions, of_start = _cautions(session, book, reading, move)
    # no start is told any more once a ball was thrown
    return tuple(one for one in cautions if not session.shots or one not in of_start)


def start_cautions(session: Session, book: Rulebook, reading: Reading, move: Move) -> tuple[Fired, ...]:
    """Return those of the cautions that go with the start by the amount of oil alone."""
    return () if session.shots else _cautions(session, book, reading, move)[1]


def _cautions(
    session: Session, book: Rulebook, reading: Reading, move: Move
) -> tuple[tuple[Fired, ...], tuple[Fired, ...]]:
    """Return all cautions, and those that would be silent if the amount of oil were unknown."""
    cautions = fired_with(session, book, reading, move, "caution")
    dry = dataclasses.replace(reading, facts={**reading.facts, "oil_volume_ml": None})
    known = {one.rule.id for one in fired_with(session, book, dry, move, "caution")}
    return cautions, tuple(one for one in cautions if one.rule.id not in known)


def own_frame(template: str, numbers: Mapping[str, float]) -> str:
    """Return a rule's text in the own frame: inside, outside, and own-frame pins."""
    words = {f"pin_{pin}": str(pin) for pin in range(1, 11)}
    sides = {"inside": "inside", "outside": "outside"}
    return template.format_map(words | sides | {name: f"{value:g}" for name, value in numbers.items()})


def with_move(session: Session, facts: Mapping[str, FactValue], move: Move) -> dict[str, FactValue]:
    """Return the facts and those of a move that is to be checked by the rules."""
    return {
        **facts,
        "move_feet_boards": move.feet_boards,
        "move_target_boards": move.target_boards,
        "move_target_ft": move.target_ft,
        "move_inside_boards": max(0.0, move.feet_boards),
        "move_speed_mph": move.speed_mph,
        "move_rotation_deg": move.rotation_deg,
        "move_surface": move.surface,
        "move_ball": move.ball,
        "has_move_note": bool(move.note),
        "is_move_off_lane": bool(move_problems(session, move)),
    }


def move_problems(session: Session, move: Move) -> tuple[str, ...]:
    """Return why a move cannot be made on this lane by this bowler; empty when it can."""
    if not (move.is_feet_and_eyes or move.target_ft):
        return ()
    if move.feet_boards and session.place.is_feet_stuck:
        return ("the feet cannot move here",)
    try:
        return fits_problems(line_after(session, move), session.bowler, session.line)
    except InputError as error:
        return tuple(str(error).splitlines())


def line_after(session: Session, move: Move) -> Line:
    """Return the line after a move; another target distance stays on the same straight line.

    Raises
    ------
    InputError
        If the new line lies off the lane or the approach.
    """
    line = after_move(session.line, move)
    if not move.target_ft:
        return line
    return target_on_line(line, session.bowler, line.target_ft + move.target_ft)
