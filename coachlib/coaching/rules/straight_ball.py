"""A straight ball needs no oil: where the line meets the pins is geometry, and so is the move that helps.

The line goes from the laydown over the target straight on. Where balls that hit the target met the pins says
how far the line is off the pocket; a board of eyes or feet shifts it there by the lever of
:mod:`coachlib.world.levers`. Nothing here speaks of oil, turn or friction. The first choice is the eyes
alone with the feet kept, then the feet alone, then both, each only if it brings the line into the pocket on
paper; else whatever comes nearest.

Valid for a ball that hardly hooks, see :func:`coachlib.world.usual.throws_straight`. Deflection and the
strike itself are another matter: straight lines carry less than hooking ones whatever is moved.
"""

import itertools
from collections.abc import Mapping
from statistics import fmean
from typing import Any, Literal

from coachlib.coaching.rules.other_moves import pins_shift_boards, small_move
from coachlib.coaching.rules.rule import Rule
from coachlib.coaching.rules.rulebook import Fired
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.ball_reading import arrival_board
from coachlib.coaching.session.lane_history import boards_on_target, hits_among, lane_balls
from coachlib.coaching.session.session import Session
from coachlib.errors import InputError
from coachlib.world.bowler import Bowler
from coachlib.world.lane import HEAD_PIN_FT, POCKET_BOARD, POCKET_HALF_BOARDS
from coachlib.world.levers import fits_problems, move_between
from coachlib.world.line import Line, Move, after_move
from coachlib.world.parsing import boards_text
from coachlib.world.usual import throws_straight, with_hook_of

LEAST_ON_TARGET = 2
"""So many balls over the target tell where the line goes."""

MOST_NAMED_BOARDS = 6.0
"""A miss of the pocket by more is named by where it goes, not by boards: no eye counts them there."""

_EYES_STEP_BOARDS, _MOST_EYES_BOARDS = 0.5, 4.0
_MOST_FEET_BOARDS = 8
_SHADE_BOARDS = 0.25

StraightKind = Literal["stay", "watch", "line"]


def is_straight(session: Session) -> bool:
    """Return whether the ball in the hand goes straight as this bowler throws it, so that geometry answers.

    Few revs alone do not say so: where the rotation is not known, a ball that takes hold can turn.
    """
    bowler, ball = session.bowler, session.ball
    are_revs_all = bowler.rev_rate_rpm is not None and bowler.axis_rotation_deg is None
    if are_revs_all and (ball is None or ball.cover != "plastic"):
        return False
    return throws_straight(bowler, ball)


def straight_move(line: Line, bowler: Bowler, off_boards: float, is_feet_stuck: bool = False) -> Move:
    """Return the move of feet and eyes that brings a straight line to the pocket on paper.

    The smallest one that comes nearest; all zero where the line is in the pocket or nothing fits. Walk,
    stance distance and limits of the bowler count. `off_boards` is how far inside of 17.5 the line meets the
    pins, light is negative. [boards]
    """
    if abs(off_boards) <= POCKET_HALF_BOARDS:
        return Move()

    def left_boards(move: Move) -> float:
        return abs(off_boards + pins_shift_boards(move, line, bowler))

    def rank(move: Move) -> tuple[float, float]:
        return round(left_boards(move) / _SHADE_BOARDS), move.size_boards

    n_steps = round(_MOST_EYES_BOARDS / _EYES_STEP_BOARDS)
    eyes = [_EYES_STEP_BOARDS * step for step in range(-n_steps, n_steps + 1)]
    feet = [0] if is_feet_stuck else range(-_MOST_FEET_BOARDS, _MOST_FEET_BOARDS + 1)
    moves = [Move(feet_boards=float(f), target_boards=e) for f, e in itertools.product(feet, eyes) if f or e]
    fitting = sorted((move for move in moves if _fits(move, line, bowler)), key=rank)
    for alone in ("feet_boards", "target_boards"):  # the eyes alone, then the feet alone
        best = next((move for move in fitting if not getattr(move, alone)), None)
        if best is not None and left_boards(best) <= POCKET_HALF_BOARDS:
            return best
    return fitting[0] if fitting and left_boards(fitting[0]) < abs(off_boards) else Move()


def straight_answer(
    session: Session, facts: Mapping[str, FactValue], is_young: bool = False
) -> tuple[StraightKind, Move, Fired]:
    """Return what a straight ball asks for after the last ball: kind, move and the rule that says so.

    The facts are those of :mod:`coachlib.coaching.rules.session_facts`; ``side`` is missing before the first
    ball. `is_young` keeps moves small.
    """
    if not facts.get("n_shots"):
        return _answer("straight_start")
    if facts.get("is_strike"):
        return _answer("straight_lucky" if facts.get("side") in ("high", "light") else "straight_strike")
    if facts.get("side") is None:
        return _answer("straight_unseen")
    if facts.get("has_crossing") is False:
        return _answer("straight_no_crossing")
    if facts.get("is_on_target") is False:
        return _after_miss(session, facts)
    return _after_hit(session, is_young)


def _after_miss(session: Session, facts: Mapping[str, FactValue]) -> tuple[StraightKind, Move, Fired]:
    miss = abs(float(facts["miss_boards"]))  # type: ignore[arg-type]
    at_pins = miss * HEAD_PIN_FT / session.line.target_ft
    far = "far enough for the gutter" if at_pins > POCKET_BOARD else f"{boards_text(at_pins)} at the pins"
    if facts.get("side") == "pocket" or not facts.get("is_miss_same_way_as_err"):
        return _answer("straight_odd_miss", miss=_n_boards(miss))
    return _answer("straight_missed", miss=_n_boards(miss), far=far)


def _after_hit(session: Session, is_young: bool) -> tuple[StraightKind, Move, Fired]:
    boards = boards_on_target(session)
    if len(boards) < LEAST_ON_TARGET:
        return _answer("straight_once")
    if min(boards) < POCKET_BOARD - POCKET_HALF_BOARDS and max(boards) > POCKET_BOARD + POCKET_HALF_BOARDS:
        return _answer("straight_both_sides")
    line, bowler = session.line, with_hook_of(session.bowler, session.ball)
    here = fmean(boards) - POCKET_BOARD
    others = _from_other_lines(session, bowler)
    off = fmean([*boards, *others]) - POCKET_BOARD
    is_there = abs(off) <= POCKET_HALF_BOARDS
    times = {2: "twice", 3: "three times", 4: "four times"}.get(len(boards), f"{len(boards)} times")
    if abs(here) > POCKET_HALF_BOARDS and (is_there or off * here < 0.0):
        return _answer("straight_between", n=times, off=_off_words(here))
    words = {"off": _off_words(off), "n": times + " here, and counting your other lines" * bool(others)}
    counted = max(-MOST_NAMED_BOARDS, min(MOST_NAMED_BOARDS, off))  # what no eye counts asks for no more
    move = straight_move(line, bowler, counted, session.place.is_feet_stuck)
    if move.is_stay:
        return _answer("straight_holds" if is_there else "straight_stuck", None, **words)
    move = small_move(move, line, bowler) if is_young else move
    shift = pins_shift_boards(move, line, bowler)
    words |= {
        "how": _how(move),
        "shift": _n_boards(shift),
        "way": "{inside}" if shift > 0 else "{outside}",
        "lands": _lands_words(off + shift) if counted == off else "towards the pocket",
        "first": "One small step first. " if is_young else "",
    }
    return _answer("straight_line", move, **words)


def _from_other_lines(session: Session, bowler: Bowler) -> list[float]:
    """Return where the balls over the targets of other lines would have met the pins on this one [board].

    A straight ball's line is geometry, so that they tell as much as those of the line played.
    """
    boards = []
    for event in hits_among(lane_balls(session), session.bowler):
        board, line = arrival_board(event.shot), event.line
        is_alike = event.ball == session.ball and line.target_ft == session.line.target_ft
        if line != session.line and board is not None and is_alike:
            boards.append(board + pins_shift_boards(move_between(line, session.line), line, bowler))
    return boards


def _fits(move: Move, line: Line, bowler: Bowler) -> bool:
    try:
        new = after_move(line, move)
    except InputError:
        return False
    is_trusted = bowler.comfort_board is None or new.feet_board <= max(bowler.comfort_board, line.feet_board)
    return is_trusted and not fits_problems(new, bowler, line)


def _answer(name: str, move: Move | None = None, **words: str) -> tuple[StraightKind, Move, Fired]:
    """Return the answer of a rule of this file, its texts filled with words."""
    fields: dict[str, Any] = {"section": "A", "kind": "stay", "do": _SAME, "look": _AGAIN} | _RULES[name]
    filled = {field: text.format_map(words) for field, text in fields.items()}
    rule = Rule(id=name, when={}, grade="derived", src=("geometry",), **filled)
    kind: StraightKind = "line" if move else "watch" if rule.kind == "watch" else "stay"
    return kind, move or Move(), Fired(rule, fields["kind"], (move,) if move else (), rule.do, 1)


def _how(move: Move) -> str:
    def part(what: str, boards: float) -> str:
        return f"{what} {_n_boards(boards)} " + ("{inside}" if boards > 0 else "{outside}")

    if not move.feet_boards:
        return f"{part('Target', move.target_boards)}, feet stay"
    if not move.target_boards:
        return f"{part('Feet', move.feet_boards)}, same target"
    return f"{part('Feet', move.feet_boards)}, {part('target', move.target_boards)}"


def _n_boards(boards: float) -> str:
    return f"{boards_text(boards)} board{'' if abs(boards) <= 1 else 's'}"


def _off_words(off_boards: float) -> str:
    if abs(off_boards) > MOST_NAMED_BOARDS:
        return "far past the head pin" if off_boards > 0 else "far short of the pocket"
    if abs(off_boards) <= POCKET_HALF_BOARDS:
        return "in the pocket"
    half_boards = round(2.0 * off_boards) / 2.0
    return f"{_n_boards(half_boards or 0.5)} {'high' if off_boards > 0 else 'light'}"


def _lands_words(off_boards: float) -> str:
    return "into the pocket" if abs(off_boards) <= POCKET_HALF_BOARDS else f"to {_off_words(off_boards)}"


_SAME = "Same line again."
_AGAIN = "The same line, and your eyes on the target until the ball is over it."
_RULES: dict[str, dict[str, str]] = {
    "straight_start": {
        "section": "F",
        "kind": "start",
        "title": "a straight ball",
        "do": "A straight ball goes where you aim it: from your feet over the target at the pocket.",
        "why": "It hardly turns, so two balls over your target show where your line goes.",
        "look": "Note where it crosses and where it hits.",
    },
    "straight_strike": {
        "title": "it struck: leave it",
        "why": "It struck. Nothing speaks against the line.",
    },
    "straight_lucky": {
        "title": "it struck, but not through the pocket",
        "why": "It struck, but not through the pocket. That was luck. One ball is no reason to move.",
    },
    "straight_both_sides": {
        "title": "high and light over one target",
        "do": "Same line, and the same ball each time.",
        "why": "Over the same target it came in high and light. Speed or release differs from ball to ball. "
        "No other line cures that.",
        "look": "Throw the same ball again: same steps, same speed. On which side does it come in?",
    },
    "straight_between": {
        "title": "the pocket lies between two lines",
        "do": "Same line, and the same ball each time.",
        "why": "On target {n}, this line hits {off}. The line before missed on the other side, so the pocket "
        "lies between them.",
        "look": "Throw the same ball again: same steps, same speed. On which side does it come in?",
    },
    "straight_unseen": {
        "kind": "watch",
        "title": "see where it hits",
        "why": "We did not see where it hit the pins.",
        "look": "Note where it hits the pins.",
    },
    "straight_no_crossing": {
        "kind": "watch",
        "title": "note the crossing",
        "why": "Without the crossing we cannot tell your aim from your line.",
        "look": "Note the board it crosses at your target.",
    },
    "straight_missed": {
        "title": "the missed target explains it",
        "do": "Same line, and hit the target.",
        "why": "You missed your target by {miss}. For a straight ball that is {far}.",
    },
    "straight_odd_miss": {
        "kind": "watch",
        "title": "missed the target",
        "do": "Same line, and hit the target.",
        "why": "You missed your target by {miss}, so this ball cannot judge the line.",
    },
    "straight_once": {
        "kind": "watch",
        "title": "once is no pattern",
        "do": "One more on the same line.",
        "why": "One ball over the target is not enough. Two show where your line goes.",
    },
    "straight_holds": {
        "title": "your line reaches the pocket",
        "why": "On target {n}, and your line hits the pocket. A single ball off it is aim.",
    },
    "straight_stuck": {
        "title": "no better straight line",
        "why": "On target {n}, your line hits {off}, and no other line here comes nearer.",
    },
    "straight_line": {
        "section": "B",
        "kind": "move",
        "title": "move a straight ball by geometry",
        "do": "",
        "why": "{first}On target {n}, your line hits {off}. {how}: then it hits {shift} farther {way}, "
        "{lands}.",
        "look": "Hit the new target twice: does your line reach the pocket?",
        "stops": "The ball hooks, or you did not really hit the target.",
        "then": "Two balls over the new target decide.",
    },
}
