"""A bowler's own numbers, told from their logged balls and offered to their profile, never applied unasked.

Plain statistics where a number was noted (speed, aim, start and slide board), the belief's numbers
(:mod:`coachlib.coaching.bowler_profile.bowler_estimate`) for revs and rotation. Each number says how many
balls are behind it, how sure it is, and why it is not offered where the balls cannot tell. What the eye adds
to a spread is taken out again (:data:`coachlib.coaching.simulation.observer.CROSSING_SD_BOARDS`,
:class:`coachlib.coaching.belief.parameters.BeliefNumbers`, both our guess). Grade: derived.
"""

import contextlib
import dataclasses
import math
from collections.abc import Iterable, Sequence
from statistics import fmean, stdev
from typing import Any, NamedTuple, get_args

from coachlib.coaching.belief.parameters import DEFAULT_NUMBERS
from coachlib.coaching.bowler_profile.bowler_estimate import BowlerEstimate, estimate_bowler
from coachlib.coaching.session.ball_reading import arrival_board, miss_lever
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.wording.callouts import side_text
from coachlib.errors import InputError, checked_choice
from coachlib.world.bowler import Bowler, Walk, accuracy_fields
from coachlib.world.lane import ARROWS_FT, POCKET_BOARD
from coachlib.world.levers import slide_foot_board

FEWEST_BALLS = 10
"""Fewer tell no mean and no spread (our guess)."""

TWENTY_TO_ONE = 2.0 * math.log(20.0)
"""So much better must one way of walking explain the slide boards (twice a log-likelihood)."""

SAME_SDS = 2.0
"""A number within so many of its own errors of the one kept is not offered (our guess)."""

LAYDOWN = (
    "From slide foot to ball: the log cannot tell, because nobody notes where the ball is laid down. Measure "
    "it: note both boards for five balls. Their difference is the number."
)


class OwnNumber(NamedTuple):
    """One number of a bowler, as kept and as the balls tell it.

    Parameters
    ----------
    field : str
        The bowler's field, empty where it has none.
    kept, told : float, str or None
        Now, and by the balls; told is None where they cannot tell.
    n_balls : int
        Balls behind it.
    words : str
        What a person reads: the number, how sure it is, or why it cannot be told.
    is_offered : bool
        Whether it is told and differs from the one kept.
    """

    field: str
    kept: float | str | None
    told: float | str | None
    n_balls: int
    words: str
    is_offered: bool


def own_numbers(sessions: Sequence[Session], bowler: Bowler) -> tuple[OwnNumber, ...]:
    """Return what the balls of some sessions tell of their bowler.

    Parameters
    ----------
    sessions : sequence of Session
        Of one bowler, the oldest first.
    bowler : Bowler
        Their numbers as kept.
    """
    shots = [ball for session in sessions for ball in session.first_balls]
    walk = _walk(shots, bowler)
    return (
        *_speed(shots, bowler),
        _aim(shots, bowler),
        walk,
        _drift(shots, bowler, walk.told or bowler.walk),
        *_spun(sessions, bowler),
        _boards_a_mph(shots),
        OwnNumber("", bowler.laydown_offset_boards, None, 0, LAYDOWN, False),
    )


def with_numbers(bowler: Bowler, numbers: Iterable[OwnNumber], fields: Sequence[str]) -> Bowler:
    """Return the bowler with the numbers that were chosen.

    Parameters
    ----------
    bowler : Bowler
        As kept.
    numbers : iterable of OwnNumber
        From :func:`own_numbers`.
    fields : sequence of str
        The fields to take over.

    Raises
    ------
    InputError
        If one of them is not offered.
    """
    offered: dict[str, Any] = {one.field: one.told for one in numbers if one.is_offered}
    for field in fields:
        checked_choice("fields", field, tuple(offered), "Choose among those that are offered.")
    chosen = {field: offered[field] for field in fields}
    if "arrow_sd_boards" in chosen:
        chosen |= accuracy_fields(chosen["arrow_sd_boards"])
    return dataclasses.replace(bowler, **chosen)


def _speed(shots: Sequence[Observed], bowler: Bowler) -> tuple[OwnNumber, OwnNumber]:
    speeds = [ball.shot.speed_mph for ball in shots if ball.shot.speed_mph is not None]
    n_balls = len(speeds)
    if n_balls < FEWEST_BALLS:
        return (
            _few("Speed", n_balls, "a speed", "speed_mph", bowler),
            _few("Speed from ball to ball", n_balls, "a speed", "speed_sd_mph", bowler),
        )
    mean, error = fmean(speeds), stdev(speeds) / math.sqrt(n_balls)
    spread, off = _without_eye(speeds, DEFAULT_NUMBERS.speed_seen_sd_mph)
    words = f"Speed: {mean:.1f} mph, give or take {max(error, 0.1):.1f} ({n_balls} balls)."
    spread_words = f"Speed from ball to ball: {spread:.1f} mph, the eye's error taken out."
    return (
        _estimated("speed_mph", bowler, round(mean, 1), error, n_balls, words),
        _estimated("speed_sd_mph", bowler, round(spread, 1), off, n_balls, spread_words),
    )


def _aim(shots: Sequence[Observed], bowler: Bowler) -> OwnNumber:
    misses = [
        ball.shot.crossed_board - ball.line.target_board
        for ball in shots
        if ball.shot.crossed_board is not None and min(ARROWS_FT) <= ball.line.target_ft <= max(ARROWS_FT)
    ]
    if len(misses) < FEWEST_BALLS:
        return _few("Spread at the arrows", len(misses), "a crossing", "arrow_sd_boards", bowler)
    spread, off = _without_eye(misses, DEFAULT_NUMBERS.crossing_sd_boards)
    words = (
        f"Spread at the arrows: {spread:.1f} boards, give or take {max(off, 0.1):.1f} ({len(misses)} balls), "
        "the eye's error taken out."
    )
    found = _estimated("arrow_sd_boards", bowler, round(max(spread, 0.1), 2), off, len(misses), words)
    return found if bowler.is_accuracy_known else found._replace(kept=None)  # what is assumed was not kept


def _without_eye(values: Sequence[float], eye_sd: float) -> tuple[float, float]:
    """Return a spread without what the eye added, and how far off it may be."""
    observed = stdev(values)
    spread = math.sqrt(max(observed**2 - eye_sd**2, 0.01))
    return spread, observed**2 / (spread * math.sqrt(2.0 * (len(values) - 1)))


def _walk(shots: Sequence[Observed], bowler: Bowler) -> OwnNumber:
    """Return which way of walking the slide boards fit, each way allowed a steady drift."""
    noted = _feet(shots)
    if len(noted) < FEWEST_BALLS:
        return _few("Walk", len(noted), "start and slide board", "walk", bowler)
    offs = [_offs(noted, dataclasses.replace(bowler, walk=way)) for way in get_args(Walk)]
    squares = [math.fsum((off - fmean(some)) ** 2 for off in some) for some in offs]
    (least, better), (most, _) = sorted(zip(squares, get_args(Walk), strict=True))
    gain = len(noted) * math.log(max(most, 1e-9) / max(least, 1e-9))
    if gain < TWENTY_TO_ONE:
        words = f"Walk: you stood on too few boards in {len(noted)} balls. Do the two-minute walk test."
        return OwnNumber("walk", bowler.walk, None, len(noted), words, False)
    how = "straight ahead" if better == "slide" else "toward the target"
    words = f"Walk: {how} ({len(noted)} balls)."
    return OwnNumber("walk", bowler.walk, better, len(noted), words, better != bowler.walk)


def _offs(noted: Sequence[Observed], bowler: Bowler) -> list[float]:
    """Return how far inside of the straight walk each slide board was [boards]."""
    return [
        (ball.shot.slide_board or 0.0)
        - slide_foot_board(dataclasses.replace(ball.line, feet_board=ball.shot.start_board or 0.0), bowler)
        for ball in noted
    ]


def _feet(shots: Iterable[Observed]) -> list[Observed]:
    return [ball for ball in shots if ball.shot.start_board is not None and ball.shot.slide_board is not None]


def _drift(shots: Sequence[Observed], bowler: Bowler, walk: object) -> OwnNumber:
    noted = _feet(shots)
    if len(noted) < FEWEST_BALLS:
        return _few("Drift", len(noted), "start and slide board", "drift_boards", bowler)
    offs = _offs(noted, dataclasses.replace(bowler, walk="walk" if walk == "walk" else "slide"))
    mean, error = fmean(offs), stdev(offs) / math.sqrt(len(offs))
    way = side_text(mean, bowler.hand)
    words = (
        f"Drift: the slide foot ends {abs(mean):.1f} boards {way} of the straight walk, give or take "
        f"{max(error, 0.1):.1f} ({len(offs)} balls)."
    )
    return _estimated("drift_boards", bowler, round(mean, 1), error, len(offs), words)


def _spun(sessions: Sequence[Session], bowler: Bowler) -> tuple[OwnNumber, ...]:
    """Return revs and rotation as the last session tells them whose balls can be used."""
    estimate = None
    for session in reversed(sessions):
        with contextlib.suppress(InputError):
            estimate = estimate_bowler(dataclasses.replace(session, bowler=bowler))
            break
    names = {"rev_rate_rpm": ("Revs", " rpm"), "axis_rotation_deg": ("Rotation", "°")}
    return tuple(_spun_number(field, *names[field], estimate, bowler) for field in names)


def _spun_number(
    field: str, label: str, unit: str, all_three: BowlerEstimate | None, bowler: Bowler
) -> OwnNumber:
    kept = getattr(bowler, field)
    if all_three is None:
        words = f"{label}: needs a session with ball and pattern chosen and the hits noted."
        return OwnNumber(field, kept, None, 0, words, False)
    estimate = getattr(all_three, field)
    amount = f"{estimate.mean:.0f}{unit}, give or take {estimate.sd:.0f}"
    n_balls, is_tied = all_three.n_balls, any(field in pair for pair in all_three.tied)
    if estimate.is_told and not is_tied:
        words = f"{label}: {amount} from {n_balls} balls of one lane, simulated and not measured."
        return _estimated(field, bowler, round(estimate.mean), estimate.sd, n_balls, words)
    words = f"{label}: {n_balls} balls of one lane do not show it. Film it or count it."
    if estimate.is_told:
        words = f"{label}: {amount} by the balls, but another number would explain them too. Not offered."
    return OwnNumber(field, kept, None, n_balls, words, False)


def _boards_a_mph(shots: Sequence[Observed]) -> OwnNumber:
    """Return how many boards a mph moves this bowler's arrival, within balls of one line on one lane."""
    pairs = _speed_pairs(shots)
    n_groups = len({key for key, _, _ in pairs})
    n_free = len(pairs) - n_groups - 1
    squares = math.fsum(speed**2 for _, speed, _ in pairs)
    if n_free < FEWEST_BALLS or squares < 1.0:
        return _few("Boards a mph", len(pairs), "speed, crossing and arrival")
    slope = math.fsum(speed * err for _, speed, err in pairs) / squares
    rest = math.fsum((err - slope * speed) ** 2 for _, speed, err in pairs) / n_free
    error = math.sqrt(rest / squares)
    side = "lighter" if slope < 0 else "higher"
    sure = "" if abs(slope) > 2.0 * error else " That may still be nothing."
    words = (
        f"A mph faster hit {abs(slope):.1f} boards {side}, give or take {error:.1f} ({len(pairs)} balls)."
        f"{sure} The usual figure is 2 lighter."
    )
    return OwnNumber("", None, round(slope, 1), len(pairs), words, False)


def _speed_pairs(shots: Sequence[Observed]) -> list[tuple[object, float, float]]:
    """Return, by lane, line and ball, how speed and arrival differ from their means, misses taken out."""
    groups: dict[object, list[tuple[float, float]]] = {}
    for ball in shots:
        board, shot = arrival_board(ball.shot), ball.shot
        if board is None or shot.speed_mph is None or shot.crossed_board is None:
            continue
        lever = miss_lever(ball.setting.bowler, ball.line.target_ft)
        err = board - POCKET_BOARD - lever * (shot.crossed_board - ball.line.target_board)
        groups.setdefault((ball.lane, ball.line, ball.ball), []).append((shot.speed_mph, err))
    return [
        (key, speed - fmean(one for one, _ in group), err - fmean(two for _, two in group))
        for key, group in groups.items()
        if len(group) > 1
        for speed, err in group
    ]


def _estimated(field: str, bowler: Bowler, value: float, error: float, n_balls: int, words: str) -> OwnNumber:
    kept: float | None = getattr(bowler, field)
    is_other = kept is None or abs(value - kept) > max(SAME_SDS * error, 1e-9)
    return OwnNumber(field, kept, value, n_balls, words, is_other)


def _few(label: str, n_balls: int, what: str, field: str = "", bowler: Bowler | None = None) -> OwnNumber:
    words = f"{label}: note {what} of at least {FEWEST_BALLS} balls. So far you noted {n_balls}."
    return OwnNumber(field, getattr(bowler, field, None), None, n_balls, words, False)
