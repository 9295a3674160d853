"""Several balls of one bowler: which turns first, which do the same, what another one is worth in strikes."""

import dataclasses
import functools
import itertools
from collections.abc import Sequence
from typing import Any, Final

import numpy as np

from coachlib.coaching.equipment.bag import SAME_BOARDS, SAME_FT
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import BestLine, best_line
from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.coaching.simulation.what_if import ball_and_pattern, simulate_lines
from coachlib.coaching.wording.callouts import strikes_text
from coachlib.coaching.wording.names import short_name
from coachlib.errors import checked_number, raise_input_errors
from coachlib.study.questions.asker import BALL, starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.question import Accepted, Choice, Level, NumberAsk, Question, QuestionScene
from coachlib.study.questions.what_changes import SIMULATED
from coachlib.world.ball import Ball, load_ball, resurfaced
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.oil import thinned

PATTERNS: Final[dict[Level, tuple[str, ...]]] = {
    "lever": ("house_41",),
    "oil": ("house_41", "house_40"),
    "wear": ("house_41", "flat_42"),
    "thin": ("flat_42", "long_44"),
}
"""Patterns by level; where wear is asked for half of the oil is gone, or more."""

LEAST_APART_FT: Final = 1.5
"""The ball that turns first does so by at least this much, or the case is not asked [ft]."""

SAME_PROB: Final = 0.05
"""Balls whose chances differ by less, one strike in twenty, are about the same (our choice)."""

N_ROUGH: Final = 32
"""Balls at each line at the first look; the promising lines are thrown again with many."""

Sanded = dict[str, Any]
"""A ball by its name in the data, with the pad or the polish put on it since."""

_BALLS: Final[tuple[Sanded, ...]] = (
    {"ball": "hybrid_2000"},
    {"ball": "solid_1000"},
    {"ball": "pearl_polished"},
    {"ball": "hybrid_4000"},
    {"ball": "urethane_500"},
    {"ball": "hybrid_2000", "grit": 500},
    {"ball": "hybrid_2000", "is_polished": True},
    {"ball": "solid_1000", "grit": 3000},
    {"ball": "pearl_polished", "grit": 2000, "is_polished": False},
)
_PAIRS: Final = tuple((_BALLS[one], _BALLS[other]) for one, other in ((1, 2), (4, 2), (5, 6), (1, 3)))
_FILMS: Final[dict[Level, tuple[float, ...]]] = {
    "lever": (1.0,),
    "oil": (1.0, 0.5),
    "wear": (0.5, 0.25),
    "thin": (1.0, 0.5),
}


def turns_first(case: Case, balls: Sequence[Sanded] | None = None, pattern: str = "") -> Question:
    """Return the question which of three balls begins to hook first, all from one line.

    Parameters
    ----------
    balls : sequence of mapping, optional
        Three balls: ``ball`` in the data, and ``grit`` or ``is_polished`` since; drawn if left out.
    pattern : str
        A name in the data; drawn by the level if left out.
    """
    now = starting_session(case.bowler, BALL, pattern or case.pick(PATTERNS[case.level]))
    for asked in _draws(case, balls):
        thrown = [_place(now, _ball_of(one)) for one in asked]
        order = sorted(thrown, key=lambda one: one.hooks_ft)
        if order[1].hooks_ft - order[0].hooks_ft >= LEAST_APART_FT:
            break
    else:
        message = f"balls is {balls}; expected one that hooks {LEAST_APART_FT:g} ft sooner. Choose others."
        raise_input_errors({"balls": message})
    first, last = order[0], order[-1]
    scene = QuestionScene(dataclasses.replace(now, ball=last.ball), now_drawn="lines")
    return case.question(
        scene=scene,
        prompt="You throw three balls on one line. Which begins to hook first?",
        ask=tuple(Choice(one.ball.name, name_of(one.ball)) for one in thrown),
        accepts=(Accepted(first.ball.name),),
        answer_text=f"The {name_of(first.ball)}: at {first.hooks_ft:.0f} ft",
        why=f"Then the {name_of(order[1].ball)} at {order[1].hooks_ft:.0f} ft, the {name_of(last.ball)} at "
        f"{last.hooks_ft:.0f} ft. {_why_first(first.ball, last.ball)}",
        reveal=QuestionScene(scene.now, dataclasses.replace(now, ball=first.ball), "balls", "balls"),
        changes_text="With more oil the balls lie further apart, with less nearer together.",
        source=SIMULATED,
        skills=("equipment",),
    )


def do_the_same(case: Case, balls: Sequence[Sanded] | None = None, pattern: str = "") -> Question:
    """Return the question which two of three balls do the same; arguments as for :func:`turns_first`.

    The same is less than a foot and a board apart, as in :mod:`coachlib.coaching.equipment.bag`.
    """
    now = starting_session(case.bowler, BALL, pattern or case.pick(PATTERNS[case.level]))
    for asked in _draws(case, balls):
        thrown = [_place(now, _ball_of(one)) for one in asked]
        pairs = list(itertools.combinations(thrown, 2))
        same = [pair for pair in pairs if _are_same(*pair)]
        if len(same) == 1 and not any(_are_nearly_same(*pair) for pair in pairs if pair not in same):
            break
    else:
        message = f"balls is {balls}; expected two of three that do the same. Choose others."
        raise_input_errors({"balls": message})
    one, other = same[0]
    third = next(ball for ball in thrown if ball not in (one, other))
    scene = QuestionScene(dataclasses.replace(now, ball=third.ball), now_drawn="lines")
    return case.question(
        scene=scene,
        prompt="You carry three balls. Which two do the same on one line?",
        ask=tuple(Choice(_pair_id(*pair), _pair_text(*pair)) for pair in pairs),
        accepts=(Accepted(_pair_id(one, other)),),
        answer_text=f"{_pair_text(one, other)[0].upper()}{_pair_text(one, other)[1:]}",
        why="They hook within a foot and hit within a board of each other. The "
        f"{name_of(third.ball)} hooks {_ft_apart(third, one)}.",
        reveal=QuestionScene(_with(now, one), _with(now, other), "balls", "balls"),
        changes_text="Sand or polish one of them and they part.",
        source=SIMULATED,
        skills=("equipment",),
    )


def strikes_of_ball(
    case: Case, balls: Sequence[Sanded] | None = None, pattern: str = "", film_frac: float = 0.0
) -> Question:
    """Return the question how often a second ball strikes on its own line, the first being known.

    Parameters
    ----------
    balls : sequence of mapping, optional
        The ball that is known and the one asked for, as for :func:`turns_first`; drawn if left out.
    pattern : str
        A name in the data; drawn by the level if left out.
    film_frac : float
        Share of the oil that is left; drawn by the level if 0.
    """
    first, second, name, left = _two_balls(case, balls, pattern, film_frac)
    now, known = _on_own_line(case, first, name, left)
    then, asked = _on_own_line(case, second, name, left)
    n_known, n_asked = n_of_twenty(known.strike_prob), n_of_twenty(asked.strike_prob)
    return case.question(
        scene=QuestionScene(now, now_strikes=n_known),
        prompt=f"{_oil_words(left)} With the {name_of(first)} you strike about {n_known} in 20. "
        f"You take the {name_of(second)}, on its own line. How many in 20 now?",
        ask=NumberAsk("count", 0.0, float(N_TWENTY), 1.0, N_TWENTY / 2),
        accepts=(
            Accepted(float(n_asked), 1.0, within=1.0),
            Accepted(float(n_asked), 0.5, "Half correct: two off.", within=2.0),
        ),
        answer_text=f"About {strikes_text(asked.strike_prob)}",
        why=_why_strikes(n_asked - n_known, name_of(second), left),
        reveal=QuestionScene(now, then, "balls", "balls", now_strikes=n_known, next_strikes=n_asked),
        changes_text="From the other ball's line, instead of its own, it would lose strikes.",
        source=SIMULATED,
        skills=("equipment",),
    )


def ball_for_oil(
    case: Case, balls: Sequence[Sanded] | None = None, pattern: str = "", film_frac: float = 0.0
) -> Question:
    """Return the question which of two balls strikes more, each on its own line.

    Arguments as for :func:`strikes_of_ball`.
    """
    first, second, name, left = _two_balls(case, balls, pattern, film_frac)
    (now, one), (then, other) = (_on_own_line(case, ball, name, left) for ball in (first, second))
    gain = other.strike_prob - one.strike_prob
    best = "same" if abs(gain) < SAME_PROB else first.name if gain < 0 else second.name
    n_one, n_other = n_of_twenty(one.strike_prob), n_of_twenty(other.strike_prob)
    counts = f"About {n_one} strikes in 20 with the {name_of(first)}, {n_other} with the {name_of(second)}."
    return case.question(
        scene=QuestionScene(now, now_drawn="lines"),
        prompt=f"{_oil_words(left)} Each ball is on its own best line. Which strikes more?",
        ask=(
            Choice(first.name, f"the {name_of(first)}"),
            Choice("same", "about the same"),
            Choice(second.name, f"the {name_of(second)}"),
        ),
        accepts=_accepts_ball(best, gain, first, second),
        answer_text="About the same" if best == "same" else f"The {name_of(first if gain < 0 else second)}",
        why=f"{counts} {_why_ball(best, gain, left)}",
        reveal=QuestionScene(now, then, "balls", "balls", now_strikes=n_one, next_strikes=n_other),
        changes_text="On fresh oil each ball has its line. As the oil goes, a dull ball loses it.",
        source=SIMULATED,
        skills=("equipment",),
    )


def name_of(ball: Ball) -> str:
    """Return a ball's name as a person says it."""
    return short_name(ball.name)


@dataclasses.dataclass(frozen=True)
class _Placed:
    """A ball on the line of the first one."""

    ball: Ball
    hooks_ft: float
    hits_board: float


@functools.lru_cache(maxsize=128)
def _place(session: Session, ball: Ball) -> _Placed:
    path = simulate_lines(dataclasses.replace(session, ball=ball))
    return _Placed(ball, float(np.nan_to_num(path.hook_ft[0], nan=HEAD_PIN_FT)), float(path.arrival_board[0]))


def _draws(case: Case, balls: Sequence[Sanded] | None) -> list[list[Sanded]]:
    """Return the three balls given, or every three there are, in drawn order."""
    if balls is not None:
        return [[balls[int(at)] for at in case.draw.permutation(len(balls))]]
    threes = list(itertools.combinations(_BALLS, 3))
    order = [threes[int(at)] for at in case.draw.permutation(len(threes))]
    return [[three[int(at)] for at in case.draw.permutation(3)] for three in order]


def _ball_of(fields: Sanded) -> Ball:
    """Return a ball by its name in the data, sanded or polished, and named by that."""
    ball = load_ball(str(fields["ball"]))
    if "grit" not in fields and "is_polished" not in fields:
        return ball
    other = resurfaced(ball, float(fields.get("grit", ball.grit)), bool(fields.get("is_polished", False)))
    kind = ball.name.partition("_")[0]
    return dataclasses.replace(other, name=f"{kind}_{'polished' if other.is_polished else f'{other.grit:g}'}")


def _are_same(one: _Placed, other: _Placed) -> bool:
    return (
        abs(one.hooks_ft - other.hooks_ft) < SAME_FT and abs(one.hits_board - other.hits_board) < SAME_BOARDS
    )


def _are_nearly_same(one: _Placed, other: _Placed) -> bool:
    return (
        abs(one.hooks_ft - other.hooks_ft) < 1.5 * SAME_FT
        and abs(one.hits_board - other.hits_board) < 1.5 * SAME_BOARDS
    )


def _with(session: Session, placed: _Placed) -> Session:
    return dataclasses.replace(session, ball=placed.ball)


def _ft_apart(one: _Placed, other: _Placed) -> str:
    later_ft = one.hooks_ft - other.hooks_ft
    return f"{abs(later_ft):.0f} ft {'later' if later_ft > 0 else 'sooner'}"


def _pair_text(one: _Placed, other: _Placed) -> str:
    return f"{name_of(one.ball)} and {name_of(other.ball)}"


def _pair_id(one: _Placed, other: _Placed) -> str:
    return f"{one.ball.name} {other.ball.name}"


def _why_first(first: Ball, last: Ball) -> str:
    if first.grit < last.grit or (last.is_polished and not first.is_polished):
        return "The rougher surface reaches the lane through the oil."
    return "Its cover grips sooner."


def _two_balls(
    case: Case, balls: Sequence[Sanded] | None, pattern: str, film_frac: float
) -> tuple[Ball, Ball, str, float]:
    one, other = case.pick(_PAIRS) if balls is None else balls
    name = pattern or case.pick(PATTERNS[case.level])
    left = film_frac or case.pick(_FILMS[case.level])
    checked_number("film_frac", left, 0.1, 1.5, "", "1 is the oil of the sheet.")
    pair = [_ball_of(one), _ball_of(other)]
    first, second = (pair[int(at)] for at in case.draw.permutation(2))
    return first, second, name, float(left)


def _on_own_line(case: Case, ball: Ball, pattern: str, left: float) -> tuple[Session, BestLine]:
    session = starting_session(case.bowler, BALL, pattern)
    session = dataclasses.replace(session, ball=ball)
    if left != 1.0 and session.pattern is not None:
        session = dataclasses.replace(session, pattern=thinned(session.pattern, left))
    found = _own_line(session)
    return dataclasses.replace(session, line=found.line), found


@functools.lru_cache(maxsize=128)
def _own_line(session: Session) -> BestLine:
    _, film = ball_and_pattern(session)
    return best_line(session, films=[film], n_rough=N_ROUGH)


def _oil_words(left: float) -> str:
    if left == 1.0:
        return "Fresh oil."
    return {0.5: "Half of the oil is gone.", 0.25: "Three quarters of the oil are gone."}.get(
        left, f"{100 * (1 - left):.0f} % of the oil is gone."
    )


def _why_strikes(n_more: int, name: str, left: float) -> str:
    if abs(n_more) <= 1:
        return "On its own line nearly every ball strikes as often. The line differs, not the strikes."
    oil = "With so little oil" if left < 1 else "On this oil"
    return f"{oil} the {name} has {'a better' if n_more > 0 else 'no such good'} line."


def _accepts_ball(best: str, gain: float, first: Ball, second: Ball) -> tuple[Accepted, ...]:
    ahead = first.name if gain < 0 else second.name
    near = ahead if best == "same" else "same"
    if SAME_PROB / 2 < abs(gain) < 1.5 * SAME_PROB:
        return Accepted(best), Accepted(near, 0.5, "Half correct: it is a matter of one strike in twenty.")
    return (Accepted(best),)


def _why_ball(best: str, gain: float, left: float) -> str:
    if best == "same":
        return "On its own line each does its work."
    return "With so little oil the duller ball has lost its good line." if left < 1 else "This oil suits it."
