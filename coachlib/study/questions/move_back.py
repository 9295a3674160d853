"""Which move brings the ball back to the pocket after something has changed: oil, surface or ball."""

import dataclasses
from collections.abc import Iterator, Mapping
from typing import Any, Final

import numpy as np

from coachlib.coaching.rules.rule_advice import rule_answer
from coachlib.coaching.rules.rulebook import fired_rules, load_rulebook
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.session import Session, observe
from coachlib.coaching.simulation.candidate_lines import line_if_it_fits
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.coaching.wording.callouts import lowered, move_text
from coachlib.errors import raise_input_errors
from coachlib.study.questions.asker import BALL
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, change_of, change_text, changed
from coachlib.study.questions.lane_draws import drawn_lane
from coachlib.study.questions.question import Accepted, Choice, Question, QuestionScene
from coachlib.study.questions.what_changes import SIMULATED, came_in_text
from coachlib.study.questions.why_changes import SEEN_TURN_FT
from coachlib.world.bowler import Walk
from coachlib.world.lane import POCKET_BOARD, POCKET_HALF_BOARDS
from coachlib.world.line import Move
from coachlib.world.parsing import boards_text
from coachlib.world.shot import Motion, Shot

MOVES: Final = tuple(
    Move(feet_boards=float(feet), target_boards=float(eyes))
    for feet, eyes in ((0, 0), (1, 0), (2, 1), (1, 1), (3, 2), (4, 2), (-1, 0), (-2, -1), (-1, -1), (-4, -2))
)
"""What is offered: to stay, and the trade's small and large moves to both sides."""

TWO_AND_ONE: Final = (MOVES[2], MOVES[7])

NEAR_BOARDS: Final = 1.3
"""A ball this near to the middle of the pocket is half a correct answer (our choice) [boards]."""

LEAST_OFF_BOARDS: Final = 1.2
"""Nearer to the middle of the pocket nobody is asked to move (our choice) [boards]."""

_N_SEEN = 3
_CHANGES: Final[tuple[dict[str, Any], ...]] = (
    {"games": 2.0},
    {"games": 3.0},
    {"ball": "solid_1000"},
    {"ball": "pearl_polished"},
    {"grit": 500.0},
    {"grit": 1000.0},
)


def move_back(
    case: Case,
    change: Mapping[str, Any] | None = None,
    came_in: str = "pocket",
    walk: Walk = "slide",
    ball: str = BALL,
    pattern: str = "",
) -> Question:
    """Return the question which move brings the ball back to the pocket after a change.

    Parameters
    ----------
    change : mapping, optional
        Fields of :class:`coachlib.study.questions.changes.Change`; drawn if left out.
    came_in, walk, ball, pattern
        As for :func:`coachlib.study.questions.lane_draws.drawn_lane`.

    Raises
    ------
    InputError
        If none of the moves brings it back.
    """
    now = drawn_lane(case, came_in, walk, ball, pattern)
    made, after, hits = _drawn_change(case, now, change)
    best = _nearest(hits)
    rule = rule_for_ball(now, after) if made.ball else rule_move(now, after, made.games)
    offered = _offered(best, rule, hits)
    order = [offered[int(at)] for at in case.draw.permutation(len(offered))]
    new = line_if_it_fits(after.line, best, after.bowler)
    moved = dataclasses.replace(after, line=new or after.line)
    said = move_text(best, case.hand)
    return case.question(
        scene=QuestionScene(now, after, "balls", "balls"),
        prompt=f"{change_text(made, case.hand)} {_now(came_in_text(hits[Move()]))} "
        "Which move brings you back to the pocket?",
        ask=tuple(Choice(_id(one), lowered(move_text(one, case.hand))) for one in order),
        accepts=tuple(_accepted(one, best, rule, hits) for one in offered if _counts(one, rule, hits)),
        answer_text=f"{said}: it hits at {half_text(hits[best])}",
        why=_why_back(best, hits),
        reveal=QuestionScene(after, moved, "balls", "balls"),
        changes_text="On other oil the same change asks for another move.",
        source=SIMULATED,
        skills=("moves",),
    )


def rule_move(now: Session, after: Session, games: float = 0.0) -> Move | None:
    """Return the move of feet and eyes that the rules of thumb ask for after three such balls on the target.

    None where they ask for something else.
    """
    first, second = (line_paths(one, one.line) for one in (now, after))
    later_ft = second.breakpoint_ft - first.breakpoint_ft
    motion: Motion = "early" if later_ft <= -SEEN_TURN_FT else "late" if later_ft >= SEEN_TURN_FT else "even"
    session = dataclasses.replace(after, games_on_lane=games, events=())
    for _ in range(_N_SEEN):
        shot = Shot(crossed_board=after.line.target_board, arrival=second.arrival_board, motion=motion)
        session = observe(session, shot)
    answer = rule_answer(session, load_rulebook())
    return answer.voice.move if answer.kind == "line" and answer.voice.move.is_feet_and_eyes else None


def rule_for_ball(now: Session, after: Session) -> Move | None:
    """Return the move that the rules of thumb lay under a stronger or a weaker ball."""
    first, second = (line_paths(one, one.line) for one in (now, after))
    kind = "stronger" if second.arrival_board > first.arrival_board else "weaker"
    facts: dict[str, FactValue] = {"task": "first", "move_ball": kind, "move_feet_boards": 0.0}
    fired = fired_rules(load_rulebook(), facts | {"move_target_boards": 0.0})
    return next((one.moves[0] for one in fired if one.rule.id == f"{kind}_ball_line"), None)


def _drawn_change(
    case: Case, now: Session, change: Mapping[str, Any] | None
) -> tuple[Change, Session, dict[Move, float]]:
    """Return the change, the lane after it, and where the ball then hits after each move that fits."""
    given = [_CHANGES[int(at)] for at in case.draw.permutation(len(_CHANGES))] if change is None else [change]
    for fields in given:
        made = change_of(fields)
        after = changed(now, made)
        hits = dict(_hits(after))
        best_off, off = (abs(hits[one] - POCKET_BOARD) for one in (_nearest(hits), Move()))
        if best_off <= POCKET_HALF_BOARDS and off >= LEAST_OFF_BOARDS:
            return made, after, hits
    message = f"change is {change}; expected one that a small move takes back. Choose another."
    raise_input_errors({"change": message})


def _hits(session: Session) -> Iterator[tuple[Move, float]]:
    fitting = [(one, line_if_it_fits(session.line, one, session.bowler)) for one in MOVES]
    moves = [(move, line) for move, line in fitting if line is not None]
    boards = simulate_lines(session, [line for _, line in moves]).arrival_board
    yield from zip((move for move, _ in moves), np.nan_to_num(boards, nan=-99.0).tolist(), strict=True)


def _nearest(hits: Mapping[Move, float]) -> Move:
    """Return the shortest move that finds the pocket, else the one that comes nearest."""
    off = {one: max(abs(board - POCKET_BOARD), POCKET_HALF_BOARDS / 2) for one, board in hits.items()}
    return min(off, key=lambda one: (off[one], one.size_boards))


def _offered(best: Move, rule: Move | None, hits: Mapping[Move, float]) -> list[Move]:
    """Return four moves: the best, the rule's, a 2-and-1, the opposite, to stay, others of the same side."""
    opposite = Move(feet_boards=-best.feet_boards, target_boards=-best.target_boards)
    two_and_one = next((one for one in TWO_AND_ONE if one.feet_boards * best.feet_boards > 0), Move())
    same_way = [one for one in hits if one.feet_boards * best.feet_boards > 0]
    ruled = [rule] if rule is not None else []
    wanted = [best, *ruled, two_and_one, opposite, Move(), *sorted(same_way, key=_size, reverse=True)]
    return [one for one in dict.fromkeys(wanted) if one in hits][:4]


def _size(move: Move) -> float:
    return move.size_boards


def _counts(move: Move, rule: Move | None, hits: Mapping[Move, float]) -> bool:
    off, stays_off = (abs(hits[one] - POCKET_BOARD) for one in (move, Move()))
    return move == rule or off <= min(NEAR_BOARDS, stays_off - 0.5)


def _accepted(move: Move, best: Move, rule: Move | None, hits: Mapping[Move, float]) -> Accepted:
    if move == best:
        return Accepted(_id(move))
    there = f"hits at {half_text(hits[move])}"
    if abs(hits[move] - POCKET_BOARD) <= POCKET_HALF_BOARDS:
        return Accepted(_id(move), 1.0, f"That {there}: the pocket too.")
    if move == rule:
        return Accepted(_id(move), 1.0, f"That is the rule of thumb. In the simulation it {there} here.")
    return Accepted(_id(move), 0.5, f"Half correct: it {there}.")


def _why_back(best: Move, hits: Mapping[Move, float]) -> str:
    off, back = hits[Move()] - POCKET_BOARD, hits[Move()] - hits[best]
    return (
        f"You are {_boards(off)} too {'high' if off > 0 else 'light'}. On this oil the move "
        f"{'takes off' if back > 0 else 'adds'} {_boards(back)}."
    )


def _boards(size: float) -> str:
    half = round(2 * abs(size)) / 2
    return f"{boards_text(half)} {'board' if half <= 1 else 'boards'}"


def _now(sentence: str) -> str:
    return f"Now you{sentence.removeprefix('You')}"


def _id(move: Move) -> str:
    return f"{int(move.feet_boards):+d} {int(move.target_boards):+d}"
