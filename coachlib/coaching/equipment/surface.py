"""Sanding and polishing: what another surface does to the same ball on the same line, and where it pays.

A surface changes *where* the ball turns. A ball that rolls before the pins has turned as far in the end
with any surface (:mod:`coachlib.physics.motion`). So "a duller ball hooks less on dry boards" is asked
here in three ways: whether it covers fewer boards, how much of its turn is left past the oil, and what
its best line is worth.

Valid for and not modelled: as in :mod:`coachlib.physics.motion`. Dry friction is taken to be the same for
every grit. Pad numbers stand for a usual roughness; no published table was found.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np

from coachlib.coaching.rules.rulebook import fired_rules, load_rulebook
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import playable_lines
from coachlib.coaching.simulation.line_search import N_ROUGH_BALLS, best_line
from coachlib.coaching.simulation.what_if import ball_and_pattern, headings_deg, simulate_lines
from coachlib.errors import checked_choice
from coachlib.world.ball import Ball, resurfaced
from coachlib.world.line import SurfaceChange
from coachlib.world.oil import thinned
from coachlib.world.surface import WORD_GRITS

_WAYS = ("duller", "smoother")
_CHANGES = ("skid_ft", "arrival_board", "late_turn_deg")


@dataclasses.dataclass(frozen=True)
class SurfaceResult:
    """What one surface does on the session's line, the ball thrown as meant.

    Parameters
    ----------
    ball : Ball
        With that surface.
    skid_ft, roll_ft : float
        Where the hook begins, and where the ball rolls; NaN if it does not. [ft]
    arrival_board, entry_deg : float
        At the pins. [board], [deg]
    early_turn_deg, late_turn_deg : float
        How far the heading turns up to the oil's end, and from there to the pins. [deg]
    """

    ball: Ball
    skid_ft: float
    roll_ft: float
    arrival_board: float
    entry_deg: float
    early_turn_deg: float
    late_turn_deg: float


@dataclasses.dataclass(frozen=True)
class SandedAtSpeed:
    """What the same sanding changes at one speed.

    Parameters
    ----------
    speed_mph : float
        At the hand. [mph]
    skid_change_ft, arrival_change_boards, late_turn_change_deg : float
        After less before; arrival + inside. [ft], [boards], [deg]
    """

    speed_mph: float
    skid_change_ft: float
    arrival_change_boards: float
    late_turn_change_deg: float


@dataclasses.dataclass(frozen=True)
class DullerOnLines:
    """A duller and a smoother surface of one ball on every line this bowler could play.

    Parameters
    ----------
    n_lines : int
        Lines on which both reach the pins; 0 where none does, and then no change is known.
    n_lower : int
        Of these, lines on which the duller ball arrives lower: hooks less in boards.
    least_change_boards : float
        Smallest change of arrival, duller less smoother, + inside. [boards]
    late_turn_change_deg : float
        Mean change of the turn left past the oil. [deg]
    """

    n_lines: int
    n_lower: int
    least_change_boards: float
    late_turn_change_deg: float


def by_surface(
    session: Session, grits: Sequence[float] = tuple(WORD_GRITS.values()), with_polish: bool = True
) -> tuple[SurfaceResult, ...]:
    """Return what each surface does to the session's ball on its line.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern and line count.
    grits : sequence of float
        Last pads, any numbers between 180 and 6000; roughness changes smoothly from 500 to 4000. Without
        any: one each for coarse, medium and fine, see :mod:`coachlib.world.surface`.
    with_polish : bool, default True
        Add the ball polished after the last of them.

    Raises
    ------
    InputError
        If ball or pattern are unknown or there is no such pad.
    """
    ball, _ = ball_and_pattern(session)
    balls = [resurfaced(ball, grit) for grit in grits]
    balls += [resurfaced(ball, grits[-1], is_polished=True)] * with_polish
    return tuple(_result(session, one) for one in balls)


def sanded_by_speed(
    session: Session, from_grit: float, to_grit: float, speeds_mph: Sequence[float]
) -> tuple[SandedAtSpeed, ...]:
    """Return what one sanding does at several speeds, everything else of the release the same."""
    ball, _ = ball_and_pattern(session)
    results = []
    for speed_mph in map(float, speeds_mph):
        bowler = dataclasses.replace(session.bowler, speed_mph=speed_mph)
        at_speed = dataclasses.replace(session, bowler=bowler)
        before, after = (_result(at_speed, resurfaced(ball, grit)) for grit in (from_grit, to_grit))
        changes = (getattr(after, name) - getattr(before, name) for name in _CHANGES)
        results.append(SandedAtSpeed(speed_mph, *changes))
    return tuple(results)


def duller_on_lines(session: Session, dull_grit: float = 500.0, smooth_grit: float = 4000.0) -> DullerOnLines:
    """Return whether a duller surface hooks less anywhere on this pattern, asked on every playable line."""
    ball, pattern = ball_and_pattern(session)
    lines = playable_lines(session.bowler, session.line.target_ft)
    arrivals, late = [], []
    for grit in (dull_grit, smooth_grit):
        path = simulate_lines(
            dataclasses.replace(session, ball=resurfaced(ball, grit)), lines, keep_path=True
        )
        arrivals.append(path.arrival_board)
        late.append(path.entry_deg - headings_deg(path)[_last_oiled_ft(pattern.length_ft)])
    change, late_change = arrivals[0] - arrivals[1], late[0] - late[1]
    reached = np.isfinite(change)
    if not reached.any():
        return DullerOnLines(0, 0, np.nan, np.nan)
    return DullerOnLines(
        n_lines=int(reached.sum()),
        n_lower=int((change[reached] < -0.05).sum()),
        least_change_boards=float(change[reached].min()),
        late_turn_change_deg=float(late_change[reached].mean()),
    )


def best_chances_by_film(
    session: Session, grits: Sequence[float], film_fracs: Sequence[float], n_balls: int = N_ROUGH_BALLS
) -> dict[float, tuple[float, ...]]:
    """Return the strike chance on the best line of all playable ones, for each grit on each film.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern and seed count.
    grits : sequence of float
        Last pads.
    film_fracs : sequence of float
        Film against the sheet; below 1 the lane has burnt up.
    n_balls : int
        Balls at each line.

    Returns
    -------
    dict of float to tuple of float
        By grit: a chance a film.
    """
    ball, pattern = ball_and_pattern(session)
    lines = playable_lines(session.bowler, session.line.target_ft)
    films = [thinned(pattern, frac) for frac in film_fracs]
    return {
        float(grit): tuple(best_line(with_ball, lines, [film], n_balls).strike_prob for film in films)
        for grit in grits
        if (with_ball := dataclasses.replace(session, ball=resurfaced(ball, grit)))
    }


def surface_cautions(session: Session, way: SurfaceChange) -> tuple[str, ...]:
    """Return what has to be said before anybody touches a surface, from the rulebook.

    Parameters
    ----------
    session : Session
        Whether scoring has started counts.
    way : {"duller", "smoother"}
        What is meant to be done.
    """
    checked_choice("way", way, _WAYS)
    facts = {"task": "first", "move_surface": way, "scoring_started": session.scoring_started}
    fired = fired_rules(load_rulebook(), facts)
    return tuple(one.text for one in fired if one.kind in ("caution", "reject"))


def _result(session: Session, ball: Ball) -> SurfaceResult:
    _, pattern = ball_and_pattern(session)
    path = simulate_lines(dataclasses.replace(session, ball=ball), keep_path=True)
    headings = headings_deg(path)[:, 0]
    at_oil_end, entry_deg = float(headings[_last_oiled_ft(pattern.length_ft)]), float(path.entry_deg[0])
    return SurfaceResult(
        ball=ball,
        skid_ft=float(path.hook_ft[0]),
        roll_ft=float(path.roll_ft[0]),
        arrival_board=float(path.arrival_board[0]),
        entry_deg=entry_deg,
        early_turn_deg=at_oil_end - float(headings[0]),
        late_turn_deg=entry_deg - at_oil_end,
    )


def _last_oiled_ft(length_ft: float) -> int:
    """Return the last whole stretch of a foot with oil, as a row of headings."""
    return min(int(length_ft), 60) - 1
