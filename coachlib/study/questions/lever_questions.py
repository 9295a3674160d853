"""Questions of geometry alone: what a move of feet and eyes does to the straight line.

References
----------
.. [1] Similar triangles; :mod:`coachlib.world.levers` says where the two formulas come from.
"""

import dataclasses
import math

from coachlib.coaching.wording.callouts import move_text, side_text
from coachlib.study.questions.asker import starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, change_text, changed
from coachlib.study.questions.question import Accepted, Choice, NumberAsk, Question, QuestionScene
from coachlib.world.bowler import Walk
from coachlib.world.levers import board_at, line_shift_boards, pivot_ft
from coachlib.world.line import Move
from coachlib.world.parsing import boards_text

MOVES = ((2, 1), (3, 1), (3, 2), (4, 2), (5, 3))
PAPER = "Similar triangles, straight line"


def where_lines_cross(case: Case, move: tuple[float, float] | None = None, walk: Walk = "slide") -> Question:
    """Return the question where the old line and the new one cross.

    Parameters
    ----------
    move : tuple of float, optional
        Feet and eyes, `+` inside; drawn among those that cross before the pins. [boards]
    walk : {"slide", "walk"}
        How the one who is asked walks.
    """
    feet, eyes = move or case.pick([one for one in MOVES if 0 < _pivot(one, walk) < 60])
    now = starting_session(dataclasses.replace(case.bowler, walk=walk))
    after = changed(now, Change(feet=float(feet), eyes=float(eyes)))
    crosses_ft = _pivot((feet, eyes), walk)
    board = board_at(now.line, now.bowler, crosses_ft)
    said = move_text(Move(feet_boards=float(feet), target_boards=float(eyes)), case.hand)
    outside = side_text(-feet, case.hand)
    scene = QuestionScene(now, after, "lines", "nothing")
    return case.question(
        scene=scene,
        prompt=f"{said}. {_walk_words(walk)} Where does the new line cross the old one?",
        ask=NumberAsk("ft", 0.0, 60.0, 5.0, 15.0),
        accepts=(
            Accepted(crosses_ft, 1.0, within=4.0),
            Accepted(crosses_ft, 0.5, "Near: the lines cross a little off from there.", within=10.0),
        ),
        answer_text=f"At {crosses_ft:.0f} ft",
        why=f"Your feet move more than your eyes, so the line turns. From {crosses_ft:.0f} ft to the pins it "
        f"runs {outside} of the old one.",
        reveal=dataclasses.replace(scene, next_drawn="lines", cross_ft=crosses_ft, cross_board=board),
        changes_text="Feet and eyes by the same number: the lines never cross.",
        source=PAPER,
        skills=("levers",),
    )


def move_on_paper(
    case: Case, move: tuple[float, float] | None = None, walk: Walk = "slide", at_ft: float = 60.0
) -> Question:
    """Return the question how far a move shifts the straight line at some distance.

    Parameters
    ----------
    move, walk
        As for :func:`where_lines_cross`; any move.
    at_ft : float
        How far from the foul line. [ft]
    """
    feet, eyes = move or case.pick([(1, 1), *MOVES])
    now = starting_session(dataclasses.replace(case.bowler, walk=walk))
    after = changed(now, Change(feet=float(feet), eyes=float(eyes)))
    shift = float(line_shift_boards(Move(feet_boards=float(feet), target_boards=float(eyes)), at_ft, walk))
    where = {0.0: "at the foul line", 60.0: "at the pins"}.get(at_ft, f"at {at_ft:g} ft")
    choices = _shift_choices(case, shift)
    scene = QuestionScene(now, after, "lines", "nothing")
    text = _shift_text(case, shift)
    return case.question(
        scene=scene,
        prompt=f"{change_text(Change(feet=float(feet), eyes=float(eyes)), case.hand)} {_walk_words(walk)} "
        f"How far does the straight line move {where}?",
        ask=choices,
        accepts=(Accepted(_shift_id(shift)),),
        answer_text=f"{text[0].upper()}{text[1:]}",
        why=_shift_why(case, (feet, eyes), walk, at_ft, text),
        reveal=dataclasses.replace(scene, next_drawn="lines"),
        changes_text=f"Walking {'straight' if walk == 'walk' else 'toward your target'} would give "
        f"{_shift_text(case, _other_walk(move or (feet, eyes), walk, at_ft))}.",
        source=PAPER,
        skills=("levers",),
    )


def _pivot(move: tuple[float, float], walk: Walk) -> float:
    at_ft = pivot_ft(Move(feet_boards=float(move[0]), target_boards=float(move[1])), walk)
    return at_ft if math.isfinite(at_ft) else -1.0


def _walk_words(walk: Walk) -> str:
    return "You slide straight." if walk == "slide" else "You walk toward your target."


def _shift_choices(case: Case, shift: float) -> tuple[Choice, ...]:
    """Return four shifts to choose from, the wrong ones those of the usual wrong ideas, in a drawn order."""
    wrong = [-shift, shift / 2, 2 * shift, shift - 2, shift + 1, 0.0]
    kept = [shift]
    for one in wrong:
        if len(kept) < 4 and all(abs(one - other) >= 0.45 for other in kept):
            kept.append(one)
    order = case.draw.permutation(len(kept))
    return tuple(Choice(_shift_id(kept[int(at)]), _shift_text(case, kept[int(at)])) for at in order)


def _shift_id(shift: float) -> str:
    return f"{shift:+.2f}"


def _shift_text(case: Case, shift: float) -> str:
    if abs(shift) < 0.05:
        return "it stays where it is"
    unit = "board" if abs(shift) <= 1 else "boards"
    return f"{boards_text(shift)} {unit} {side_text(shift, case.hand)}"


def _other_walk(move: tuple[float, float], walk: Walk, at_ft: float) -> float:
    other: Walk = "walk" if walk == "slide" else "slide"
    moved = Move(feet_boards=float(move[0]), target_boards=float(move[1]))
    return float(line_shift_boards(moved, at_ft, other))


def _shift_why(case: Case, move: tuple[float, float], walk: Walk, at_ft: float, text: str) -> str:
    feet, eyes = move
    if feet == eyes:
        return "Feet and eyes move the same, so the whole line moves over and its angle stays."
    if at_ft == 0 and walk == "slide":
        return "You slide straight, so your ball starts as far over as your feet have moved."
    if walk == "slide":
        times = at_ft / 15.0
        side = side_text(eyes - feet, case.hand)
        return (
            f"At the foul line you are {boards_text(feet)} over. By the target, 15 ft on, the line has come "
            f"back {boards_text(feet - eyes)} to the {side}. It keeps turning, {boards_text(times)} times as "
            f"much by {at_ft:g} ft: {text}."
        )
    return (
        "You walk along your line, so your slide foot moves only half way over and the line turns half as "
        f"much: {text}."
    )
