"""A light ball on the target: it turned late on much oil, or early on little, or nobody saw it turn.

The rule of thumb looks at the turn first. The simulation throws both answers on the lane and counts strikes.
What it can not show is in print only: that a ball which rolled out early hits with less force.
"""

import dataclasses
import functools
from typing import Final, Literal

import numpy as np

from coachlib.coaching.equipment.ball_comparison import EYES_REACH_BOARDS, FEET_REACH_BOARDS
from coachlib.coaching.rules.rulebook import Fired, fired_rules, load_rulebook
from coachlib.coaching.rules.session_facts import read_session
from coachlib.coaching.session.session import Session, observe
from coachlib.coaching.simulation.candidate_lines import line_if_it_fits, lines_nearby, playable_lines
from coachlib.coaching.simulation.line_search import as_simulated, best_line, line_chances
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.simulation.what_if import ball_and_pattern, simulate_lines
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.coaching.wording.callouts import count_text, side_text, strikes_text
from coachlib.coaching.wording.names import short_name
from coachlib.errors import InputError, checked_choice, raise_input_errors
from coachlib.study.questions.asker import starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.question import Accepted, Choice, Question, QuestionScene
from coachlib.study.questions.what_changes import coming_in
from coachlib.world.ball import load_ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import arrival_class, class_limits
from coachlib.world.line import Move
from coachlib.world.oil import thinned
from coachlib.world.shot import Motion, Shot

Turned = Literal["late", "early", "unseen"]
"""What was seen of the ball on its way."""

TURNED: Final = ("late", "early", "unseen")
SMOOTHER: Final = "pearl_polished"
"""The smoother ball that is thrown instead."""

_MOTIONS: Final[dict[str, Motion | None]] = {"late": "late", "early": "early", "unseen": None}
_GAMES: Final = {"late": 0.0, "early": 2.0, "unseen": 2.0}
_FRESH: Final = tuple(
    (ball, pattern, 1.0)
    for pattern in ("flat_42", "long_44")
    for ball in ("hybrid_2000", "hybrid_4000", SMOOTHER)
)
_BURNT: Final = (
    ("solid_1000", "house_41", 0.5),
    ("hybrid_2000", "house_41", 0.25),
    ("solid_1000", "flat_42", 0.5),
)
_OUT: Final = tuple(
    Move(feet_boards=float(feet), target_boards=float(eyes)) for feet, eyes in ((-1, 0), (-2, 0), (-2, -1))
)
_LIGHT_BOARD, _ROLLS_BY_FT, _N_BALLS = 15.8, 46.0, 256
_WORTH_PROB = 0.025
"""Half a strike in twenty: for less nobody changes the ball (our choice)."""


def light_ball(case: Case, turned: str = "", ball: str = "", pattern: str = "") -> Question:
    """Return the question what to do about a ball that hits the target and comes in light.

    Parameters
    ----------
    turned : {"late", "early", "unseen"}
        How it was seen to turn; drawn if left out.
    ball, pattern : str
        Names in the data, of a lane on which a ball comes in light so; drawn if left out.

    Raises
    ------
    InputError
        If there is no such turn, or this bowler's ball comes in light so on none of the lanes.
    """
    if turned:
        checked_choice("turned", turned, TURNED)
    seen, now = _drawn_lane(case, turned, ball, pattern)
    thrown = None if seen == "unseen" else _thrown(now)
    rule = _rule_way(dataclasses.replace(now, games_on_lane=_GAMES[seen]), seen)
    best = _best_way(thrown)
    out = side_text(-1, case.hand)
    hits = half_text(line_paths(now, now.line).arrival_board)
    scene = QuestionScene(now, now_drawn="nothing" if seen == "unseen" else "balls")
    return case.question(
        scene=scene,
        prompt=f"{_lane_words(_GAMES[seen])} Three balls hit your target and come in light, at {hits}. "
        f"{_seen_words(now, seen)} What now?",
        ask=(
            Choice("out", f"move feet {out}"),
            Choice("smoother", "a smoother ball, on its own line"),
            Choice("watch", "one more ball: watch where it turns"),
        ),
        accepts=_accepts(best, rule, thrown),
        answer_text=_answer_text(best, thrown, out),
        why=_why(best, thrown, out),
        reveal=_reveal(now, best, thrown),
        changes_text=f"Late, it wants feet {out}. Early, a smoother ball. Not seen, one more look.",
        source="Rules of thumb in print, strikes simulated",
        skills=("light",),
    )


@dataclasses.dataclass(frozen=True)
class _Thrown:
    """What the answers strike: to stay, the best small move outside, a smoother ball on its own line."""

    stays_prob: float
    moved: Session
    moved_prob: float
    smoother: Session
    smoother_prob: float


@functools.lru_cache(maxsize=64)
def light_on_little_oil(bowler: Bowler, ball: str, pattern: str, film_frac: float) -> Session | None:
    """Return the bowler on the outermost line on which a good ball turns early and comes in light.

    None where there is none: the ball rolls before 46 ft, and hits between the limits of a light ball.
    """
    start = starting_session(bowler, ball, pattern)
    _, laid = ball_and_pattern(start)
    worn = dataclasses.replace(start, pattern=thinned(laid, film_frac))
    lines = playable_lines(bowler)
    path = simulate_lines(worn, lines)
    low, high = class_limits("light")[0], _LIGHT_BOARD + 0.7
    is_light = (path.arrival_board > low) & (path.arrival_board < high) & (path.roll_ft < _ROLLS_BY_FT)
    found = np.flatnonzero(is_light).tolist()
    if not found:
        return None
    return dataclasses.replace(worn, line=lines[min(found, key=lambda one: lines[one].feet_board)])


def _drawn_lane(case: Case, turned: str, ball: str, pattern: str) -> tuple[str, Session]:
    """Return how the ball was seen to turn, and a lane on which it comes in light in that way."""
    asked = [turned] if turned else [TURNED[int(at)] for at in case.draw.permutation(len(TURNED))]
    for seen in asked:
        known = _FRESH if seen == "late" else _BURNT
        lanes = [one for one in known if ball in ("", one[0]) and pattern in ("", one[1])]
        for number in case.draw.permutation(len(lanes)):
            session = _light(case.bowler, *lanes[int(number)])
            if session is not None:
                return seen, session
    message = f"turned is {turned!r}; expected a way in which such a ball comes in light. Leave it out."
    raise_input_errors({"turned": message})


def _light(bowler: Bowler, ball: str, pattern: str, film_frac: float) -> Session | None:
    """Return a line on which the ball comes in light: near the usual one on fresh oil, else far inside."""
    if film_frac < 1.0:
        return light_on_little_oil(bowler, ball, pattern, film_frac)
    try:
        session = coming_in(starting_session(bowler, ball, pattern), _LIGHT_BOARD)
    except InputError:
        return None
    is_light = arrival_class(line_paths(session, session.line).arrival_board) == "light"
    return session if is_light else None


@functools.lru_cache(maxsize=64)
def _thrown(now: Session) -> _Thrown:
    """Return what each answer strikes on this oil."""
    _, film = ball_and_pattern(now)
    fitting = [line_if_it_fits(now.line, move, now.bowler) for move in _OUT]
    lines = [now.line, *(line for line in fitting if line is not None)]
    chances = line_chances(as_simulated(now), lines, [film], _N_BALLS)[0].tolist()
    out = max(range(1, len(lines)), key=chances.__getitem__, default=0)
    other = dataclasses.replace(now, ball=load_ball(SMOOTHER))
    found = best_line(other, lines_nearby(now.line, now.bowler, FEET_REACH_BOARDS, EYES_REACH_BOARDS), [film])
    return _Thrown(
        stays_prob=chances[0],
        moved=dataclasses.replace(now, line=lines[out]),
        moved_prob=chances[out],
        smoother=dataclasses.replace(other, line=found.line),
        smoother_prob=found.strike_prob,
    )


def _rule_way(now: Session, seen: str) -> str:
    """Return what the first rule of thumb that names one of the answers asks for after three such balls."""
    session = now
    for _ in range(3):
        shot = Shot(crossed_board=now.line.target_board, arrival="light", motion=_MOTIONS[seen])
        session = observe(session, shot)
    fired = fired_rules(load_rulebook(), read_session(session).facts)
    return next(filter(None, map(_way_of_rule, fired)), "")


def _way_of_rule(fired: Fired) -> str:
    if fired.kind == "watch":
        return "watch"
    move = fired.moves[0] if fired.kind == "move" and fired.moves else Move()
    if move.feet_boards < 0:
        return "out"
    return "smoother" if move.feet_boards > 0 or move.ball == "weaker" or move.surface == "smoother" else ""


def _best_way(thrown: _Thrown | None) -> str:
    if thrown is None:
        return "watch"
    return "smoother" if thrown.smoother_prob > thrown.moved_prob + _WORTH_PROB else "out"


def _accepts(best: str, rule: str, thrown: _Thrown | None) -> tuple[Accepted, ...]:
    accepts = [Accepted(best)]
    if rule and rule != best:
        why = "That is the rule of thumb. In the simulation the other answer strikes more."
        accepts.append(Accepted(rule, 1.0, why))
    elif thrown is not None and best == "smoother":
        why = f"Half correct: about {strikes_text(thrown.moved_prob)}, and the smoother ball has more."
        accepts.append(Accepted("out", 0.5, why))
    elif thrown is not None and thrown.smoother_prob > thrown.moved_prob - _WORTH_PROB:
        why = "Half correct: as many strikes, but a board of feet is simpler."
        accepts.append(Accepted("smoother", 0.5, why))
    return tuple(accepts)


def _answer_text(best: str, thrown: _Thrown | None, out: str) -> str:
    if thrown is None or best == "watch":
        return "One more ball: watch where it turns"
    if best == "out":
        return f"Move feet {out}"
    name = thrown.smoother.ball.name if thrown.smoother.ball else SMOOTHER
    return f"The smoother ball: {short_name(name)}"


def _why(best: str, thrown: _Thrown | None, out: str) -> str:
    if thrown is None or best == "watch":
        return f"Turned late, it wants feet {out}. Turned early, it does not. You have not seen which."
    struck = strikes_text(thrown.moved_prob)
    if best == "out":
        return f"It turned too late to get back. Feet {out}: less oil, a sooner turn, about {struck}."
    return (
        f"It turned early and rolled before it was back. Feet {out}: about {struck}. "
        f"Smoother: about {strikes_text(thrown.smoother_prob)}."
    )


def _reveal(now: Session, best: str, thrown: _Thrown | None) -> QuestionScene:
    """Return the best answer drawn over the light ball; where one had to look, what was to be seen."""
    if thrown is None:
        return QuestionScene(now)
    other, prob = thrown.moved, thrown.moved_prob
    if best == "smoother":
        other, prob = thrown.smoother, thrown.smoother_prob
    stays, struck = n_of_twenty(thrown.stays_prob), n_of_twenty(prob)
    return QuestionScene(now, other, "balls", "balls", now_strikes=stays, next_strikes=struck)


def _lane_words(games: float) -> str:
    return f"{count_text(games).capitalize()} games on this lane." if games else "Fresh oil."


def _seen_words(now: Session, seen: str) -> str:
    if seen == "unseen":
        return "You did not see where they turn."
    turn_ft = line_paths(now, now.line).path.roll_ft[0]
    return f"They turn {seen} and roll from {turn_ft:.0f} ft on."
