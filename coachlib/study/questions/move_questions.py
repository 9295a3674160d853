"""Naming the move: which move of feet and eyes brings the ball back to the pocket, or whether to stay.

Every choice is thrown by the simulation. Whatever brings the ball into the pocket is right, and so is the
rulebook's own answer to three such balls; where the two differ the reason says so.
"""

import dataclasses
import functools
from collections.abc import Sequence
from typing import Final, Literal

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.session.session import Session, observe
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import half_text, is_at_head_pin
from coachlib.coaching.wording.callouts import lowered, move_text
from coachlib.errors import checked_choice, raise_input_errors
from coachlib.study.questions.asker import BALL, starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.question import Accepted, Choice, Level, Question, QuestionScene
from coachlib.study.questions.what_changes import CAME_IN, HOUSE_PATTERNS, came_in_text, coming_in
from coachlib.world.bowler import Walk
from coachlib.world.lane import POCKET_BOARD, POCKET_HALF_BOARDS
from coachlib.world.line import Move
from coachlib.world.shot import Shot

CameIn = Literal["high", "pocket", "light", "worn"]
"""Where good balls come in now; "worn": from the pocket on fresh oil, wherever on the oil as it is."""

CAME: Final = ("high", "pocket", "light", "worn")
_BY_LEVEL: Final[dict[Level, tuple[CameIn, ...]]] = {
    "lever": ("high", "light"),
    "oil": ("high", "light", "pocket"),
    "wear": ("worn", "worn", "pocket"),
    "thin": ("high", "light", "pocket", "worn"),
}
_PATTERNS: Final[dict[Level, tuple[str, ...]]] = {
    "lever": HOUSE_PATTERNS,
    "oil": (*HOUSE_PATTERNS, "flat_42"),
    "wear": ("house_40", "house_41", "steps_39"),
    "thin": ("flat_42", "short_36", "long_44"),
}
_MOVES: Final = ((2.0, 1.0), (1.0, 1.0), (2.0, 2.0), (3.0, 1.0))
"""Moves inside to choose from, beside the rulebook's own; outside for a light ball [boards]."""

_BOARDS: Final[dict[str, tuple[float, ...]]] = {
    "high": (18.5, 19.0, 19.5),
    "pocket": (17.5,),
    "light": (15.0, 15.5, 16.0),
}
"""Where the balls come in, if it is drawn [board]."""

N_CHOICES = 4
WORN_GAMES = (2.0, 3.0)
_MOST_TRIES = 20


def name_the_move(
    case: Case,
    came_in: str = "",
    games: float = 0.0,
    moves: Sequence[tuple[float, float]] | None = None,
    walk: Walk = "slide",
    ball: str = BALL,
    pattern: str = "",
) -> Question:
    """Return the question which move answers three balls over the target, or whether to stay.

    Parameters
    ----------
    came_in : {"high", "pocket", "light", "worn"}
        Where the balls come in; drawn by the level if left out.
    games : float
        Games played on the line, for "worn"; drawn if left out. [games]
    moves : sequence of (float, float), optional
        Feet and eyes to choose from beside to stay, `+` inside; else a few usual ones and the rulebook's own.
        [boards]
    walk : {"slide", "walk"}
        How the one who is asked walks.
    ball, pattern : str
        Names in the data; the pattern is drawn by the level if left out.

    Raises
    ------
    InputError
        If none of the moves brings such a ball to the pocket.
    """
    where = checked_choice("came_in", came_in, CAME) if came_in else case.pick(_BY_LEVEL[case.level])
    for _ in range(_MOST_TRIES):
        start = starting_session(
            dataclasses.replace(case.bowler, walk=walk), ball, pattern or case.pick(_PATTERNS[case.level])
        )
        now, worn = _lane(case, start, where, CAME_IN.get(came_in), games)
        hits = _hits(now, moves)
        if _is_fair(hits) and (where == "pocket") == _is_in_pocket(hits[Move()]):
            return _question(case, now, worn, hits)
    message = f"came_in is {where!r}; expected balls that one of the moves answers. Choose another."
    raise_input_errors({"came_in": message})


def _question(case: Case, now: Session, worn: Change, hits: dict[Move, float]) -> Question:
    best = _best(hits)
    moves = [list(hits)[int(at)] for at in case.draw.permutation(len(hits))]
    scene = QuestionScene(now, now_drawn="balls", next_drawn="nothing")
    reveal = scene
    if not best.is_stay:
        reveal = dataclasses.replace(scene, next=changed(now, _change(best)), next_drawn="balls")
    played = f"Four bowlers like you have thrown {worn.games:g} games on your line. " if worn.games else ""
    return case.question(
        scene=scene,
        prompt=f"{played}{_three_times(hits[Move()])} What do you do?",
        ask=tuple(Choice(_id(one), _name(case, one)) for one in moves),
        accepts=_accepts(case, hits, best, rule_move(now)),
        answer_text=_name(case, best),
        why=_why(case, hits, best, now),
        reveal=reveal,
        changes_text="On other oil another move fits. Two balls on the new line are the judge.",
        source="Simulated; rule of thumb",
        skills=("moves",),
    )


def _three_times(was: float) -> str:
    text = came_in_text(was)
    return f"Three times {text[0].lower()}{text[1:]}"


def _best(hits: dict[Move, float]) -> Move:
    """Return the move whose ball hits nearest the middle of the pocket; for a ball in it, to stay."""
    if _is_in_pocket(hits[Move()]):
        return Move()
    return min(hits, key=lambda one: abs(hits[one] - POCKET_BOARD))


def _lane(
    case: Case, start: Session, where: str, board: float | None, games: float
) -> tuple[Session, Change]:
    """Return the lane the balls are thrown on, and what has worn it; without a board it is drawn."""
    if where != "worn":
        return coming_in(start, board or case.pick(_BOARDS[where])), Change()
    fresh = coming_in(start, CAME_IN["pocket"])
    worn = Change(games=float(games or case.pick(WORN_GAMES)))
    return changed(fresh, worn), worn


def _hits(now: Session, moves: Sequence[tuple[float, float]] | None) -> dict[Move, float]:
    """Return where the ball hits after each of the moves to choose from, to stay first [board]."""
    if moves is None:
        sign = 1.0 if line_paths(now, now.line).arrival_board >= POCKET_BOARD else -1.0
        ruled = rule_move(now) or Move()
        offered = [
            ruled,
            *(Move(feet_boards=sign * feet, target_boards=sign * eyes) for feet, eyes in _MOVES),
        ]
    else:
        offered = [Move(feet_boards=float(feet), target_boards=float(eyes)) for feet, eyes in moves]
    wanted = list(dict.fromkeys([Move(), *offered]))[:N_CHOICES]
    after = {one: changed(now, _change(one)) for one in wanted}
    return {one: line_paths(session, session.line).arrival_board for one, session in after.items()}


def rule_move(now: Session) -> Move | None:
    """Return what the rulebook answers to three balls over the target, seen to turn where they usually do.

    None where it answers with something else than feet and eyes; all zero where it stays.
    """
    hit = round(2 * line_paths(now, now.line).arrival_board) / 2
    shot = Shot(crossed_board=now.line.target_board, arrival=hit, motion="even")
    advice = advise(functools.reduce(observe, [shot] * 3, now), model_on=False)
    move = Move(feet_boards=advice.move.feet_boards, target_boards=advice.move.target_boards)
    is_known = advice.kind == "stay" or (advice.kind == "line" and move == advice.move)
    return move if is_known else None


def _is_fair(hits: dict[Move, float]) -> bool:
    """Return whether a choice brings the ball to the pocket, one does not, and all are on the pins."""
    are_in = [_is_in_pocket(board) for board in hits.values()]
    return all(map(is_at_head_pin, hits.values())) and any(are_in) and not all(are_in)


def _accepts(case: Case, hits: dict[Move, float], best: Move, ruled: Move | None) -> tuple[Accepted, ...]:
    """Return what counts: whatever finds the pocket, the rule's own answer, and by half half of the way."""
    was = abs(hits[Move()] - POCKET_BOARD)
    accepts = [Accepted(_id(best))]
    for move, board in hits.items():
        at = f"it hits at {half_text(board)}"
        if move == best:
            continue
        if best.is_stay:
            kept = Accepted(_id(move), 0.5, f"Half correct: {at}. But nothing asked for a move.")
            accepts += [kept] * _is_in_pocket(board)
        elif _is_in_pocket(board):
            accepts.append(Accepted(_id(move), 1.0, f"That works too: {at}."))
        elif move == ruled:
            other = f"{lowered(_name(case, best))} at {half_text(hits[best])}"
            accepts.append(Accepted(_id(move), 1.0, f"The rule of thumb. On this oil {at}, {other}."))
        elif abs(board - POCKET_BOARD) < was / 2:
            accepts.append(Accepted(_id(move), 0.5, f"Half correct: {at}."))
    return tuple(accepts)


def _is_in_pocket(board: float) -> bool:
    return abs(board - POCKET_BOARD) <= POCKET_HALF_BOARDS


def _why(case: Case, hits: dict[Move, float], best: Move, now: Session) -> str:
    """Return where every choice hits, the best one first, and how much later that one turns."""
    others = sorted((one for one in hits if one != best), key=lambda one: abs(hits[one] - POCKET_BOARD))
    first = f"{_name(case, best)}: at {half_text(hits[best])}{_turn_words(now, best)}."
    rest = ", ".join(f"{lowered(_name(case, one))} at {half_text(hits[one])}" for one in others)
    return f"{first} The others: {rest}."


def _turn_words(now: Session, move: Move) -> str:
    if move.is_stay:
        return ""
    after = changed(now, _change(move))
    later = line_paths(after, after.line).breakpoint_ft - line_paths(now, now.line).breakpoint_ft
    if not abs(later) >= 1:
        return ""
    return f", and it turns {abs(later):.0f} ft {'later' if later > 0 else 'sooner'}"


def _change(move: Move) -> Change:
    return Change(feet=move.feet_boards, eyes=move.target_boards)


def _id(move: Move) -> str:
    return f"{move.feet_boards:+g} {move.target_boards:+g}"


def _name(case: Case, move: Move) -> str:
    return "Stay" if move.is_stay else move_text(move, case.hand)
