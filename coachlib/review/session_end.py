"""What a session comes to when it is left: what worked, each line, spares, one thing, where to start.

No score, average, percentage or rank: counts of balls that were seen, nothing else.
"""

import dataclasses
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any, NamedTuple

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Setting
from coachlib.coaching.wording.callouts import line_text, lowered, move_text
from coachlib.coaching.wording.names import said_name
from coachlib.review.evening import (
    DOINGS,
    Doing,
    EveningBall,
    SpareCount,
    Stretch,
    evening_balls,
    spares_tried,
)
from coachlib.review.take_home import start_next_time
from coachlib.review.trends import trend_of
from coachlib.review.work_on import WorkOn, work_on
from coachlib.world.hand import Hand
from coachlib.world.line import Line

FEWEST_NOTED = 3
"""A line with fewer balls is never said to have worked here (our guess)."""

CLEAR_SHARE = 0.2
"""By so much the share of pocket balls changes where a move is said to have helped or not (our guess)."""

_UNDATED = datetime(1970, 1, 1, tzinfo=UTC)  # the figures of one session do not hang on its day


class PainNote(NamedTuple):
    """Pain noted in a session: where, as typed, whether to go on was said, and balls thrown without that."""

    where: str
    went_on: bool
    n_thrown: int = 0


@dataclasses.dataclass(frozen=True)
class SessionEnd:
    """The facts of a session that is left.

    Parameters
    ----------
    name, lanes
        As the bowler is shown, may be empty; where they played, the first lane first.
    balls, stretches
        All first balls, oldest first; the lines in the order in which they were played.
    worked, before_it : Stretch or None
        The stretch that worked best, if one may be said to have; the one before it on that lane, where the
        move from there is what worked.
    n_target_noted, n_on_target : int
        First balls whose crossing was noted, and those that did not miss the target.
    spares : tuple of SpareCount
        Spares made of those tried, by kind; only kinds that were tried.
    has_pain, pains
        Whether pain is noted of the bowler; where it hurt in the course of the session, each note once.
    one_thing : WorkOn
        What to work on.
    start, start_why
        Where to start next time, and why there, or why nowhere.
    """

    name: str
    lanes: tuple[str, ...]
    balls: tuple[EveningBall, ...]
    stretches: tuple[Stretch, ...]
    worked: Stretch | None
    before_it: Stretch | None
    n_target_noted: int
    n_on_target: int
    spares: tuple[SpareCount, ...]
    has_pain: bool
    pains: tuple[PainNote, ...]
    one_thing: WorkOn
    start: Line | None
    start_why: str

    @property
    def doings(self) -> tuple[tuple[Doing, int], ...]:
        """How many balls that missed the pocket were whose doing, in the order of ``DOINGS``."""
        found = [ball.doing for ball in self.balls]
        return tuple((doing, found.count(doing)) for doing in DOINGS)


def session_end(session: Session, advice: Mapping[int, Mapping[str, Any]] | None = None) -> SessionEnd:
    """Return what a session comes to; nothing is simulated, and the session stays as it is.

    Parameters
    ----------
    session : Session
        When it is left.
    advice : mapping of int to mapping, optional
        What was answered at the lane, by the number of the ball, see
        :func:`coachlib.review.evening.evening_balls`.
    """
    balls, stretches = evening_balls(session, advice)
    noted = [ball for ball in session.first_balls if ball.shot.crossed_board is not None]
    off_target = {ball.number for ball in balls if ball.is_off_target}
    worked, before_it = _what_worked(stretches)
    start, start_why = start_next_time(session)
    return SessionEnd(
        name=session.bowler.name,
        lanes=tuple(dict.fromkeys(one.lane for one in stretches)),
        balls=balls,
        stretches=stretches,
        worked=worked,
        before_it=before_it,
        n_target_noted=len(noted),
        n_on_target=sum(ball.number not in off_target for ball in noted),
        spares=spares_tried(session.shots),
        has_pain=session.bowler.has_pain,
        pains=_pains(session),
        one_thing=work_on([trend_of(session, {}, "", _UNDATED)]),
        start=start,
        start_why=start_why,
    )


def session_end_words(end: SessionEnd, hand: Hand) -> tuple[str, ...]:
    """Return a session's end in sentences: what worked first, the next start last; pain before all."""
    pain = (PAIN_WORDS if end.has_pain else "", pains_words(end.pains))
    if not end.balls:
        return (*filter(None, pain), "No ball was read in this session.")
    start = "" if end.start is None else f"{lowered(line_text(end.start))}. "
    sentences = (
        *pain,
        worked_words(end, hand),
        *(f"{_place(end, one)}: {stretch_words(one)}." for one in end.stretches),
        _doings_words(end),
        _spares_words(end.spares),
        f"One thing: {one_thing_words(end)}",
        f"Next start: {start}{end.start_why}",
    )
    return tuple(filter(None, sentences))


PAIN_WORDS = (
    "You noted pain. Rest, and have it looked at by a doctor or a physio before you bowl again. A pro shop "
    "can check span and weight."
)


def worked_words(end: SessionEnd, hand: Hand) -> str:
    """Return the headline: the move or line that worked, else what else went well, else the plain truth."""
    one, before = end.worked, end.before_it
    if one is not None and before is not None:
        moved = "changing to" if one.move is not None and one.move.is_stay else "moving"
        return (
            f"What worked: {moved} {move_words(one, hand)}, before ball {one.first_number}. "
            f"{before.n_credited} of {before.n_noted} over the target and in the pocket before it, "
            f"{one.n_credited} of {one.n_noted} after."
        )
    if one is not None:
        count = f"{one.n_credited} of {one.n_noted} over the target and in the pocket"
        return f"What worked: {lowered(line_text(one.line))}. {count}."
    n_made, n_tried = sum(kind.n_made for kind in end.spares), sum(kind.n_tried for kind in end.spares)
    if n_made >= FEWEST_NOTED and 2 * n_made > n_tried:
        return f"What worked: your spares. {n_made} of {n_tried} made."
    is_aim_to_do = end.one_thing.is_seen and end.one_thing.need == "aim"
    if not is_aim_to_do and end.n_on_target >= FEWEST_NOTED and 3 * end.n_on_target >= 2 * end.n_target_noted:
        return f"What worked: your aim. You hit your target {end.n_on_target} of {end.n_target_noted} times."
    return "No line was steady yet. Your notes are a start for next time."


def stretch_words(one: Stretch) -> str:
    """Return how a line did: ``feet 25, target 14: 11 of 18 in the pocket, 2 of them off target``."""
    return f"{stretch_line_words(one)}: {stretch_count_words(one)}"


def stretch_line_words(one: Stretch) -> str:
    """Return the line of a stretch, with the ball where that was changed: ``feet 25, target 14``."""
    return lowered(line_text(one.line)) + (
        f", {said_name(one.ball)}" if one.ball and one.is_other_ball else ""
    )


def stretch_count_words(one: Stretch) -> str:
    """Return what a stretch brought: ``11 of 18 in the pocket, 2 of them off target``."""
    if not one.n_noted:
        return f"{one.n_balls} ball{'s' * (one.n_balls != 1)}, where they hit was not noted"
    n_off = one.n_pocket - one.n_credited
    off = (
        "" if not n_off else ", but off target" if n_off == one.n_pocket else f", {n_off} of them off target"
    )
    return f"{one.n_pocket} of {one.n_noted} in the pocket{off}"


def stretch_head_words(end: SessionEnd, one: Stretch, hand: Hand) -> str:
    """Return what led to a stretch, with its lane where there were more: ``lane 8, 3 and 2 left``."""
    lane = f"lane {one.lane}, " if len(end.lanes) > 1 else ""
    return lane + move_words(one, hand)


_MOVE_WORDS = {"worked": "The move worked", "short": "The move fell short", "far": "The move went too far"}


def verdict_words(end: SessionEnd, one: Stretch) -> str:
    """Return what became of a stretch: of a move as it is judged at the lane, of another change by counts."""
    was = _stretch_before(end.stretches, one)
    is_move = was is not None and _is_of_line(one)
    if is_move and one.outcome != "open":
        return f"{_MOVE_WORDS[one.outcome]}{_counts_words(was, one)}."
    if one.n_noted < FEWEST_NOTED:
        return "Too few balls to tell."
    if was is None or was.n_noted < FEWEST_NOTED:
        return _alone_words(one)
    gain = one.n_credited / one.n_noted - was.n_credited / was.n_noted
    if is_move:
        verdict = "The move did not help" if gain <= -CLEAR_SHARE else "Not clear whether the move helped"
        return f"{verdict}{_counts_words(was, one)}."
    if abs(gain) < CLEAR_SHARE:
        return f"About the same{_counts_words(was, one)}."
    return f"The change {'helped' if gain > 0 else 'did not help'}{_counts_words(was, one)}."


def _is_of_line(one: Stretch) -> bool:
    """Return whether feet or eyes alone led to a stretch."""
    return one.move is not None and not one.move.is_stay and not one.is_other_ball


def _alone_words(one: Stretch) -> str:
    """Return how a line did that no other may be held against."""
    if 2 * one.n_credited > one.n_noted:
        return "It worked."
    if one.n_pocket > one.n_credited == 0:
        return "It found the pocket, but not over the target."
    return f"It did not find the pocket{' often' * bool(one.n_pocket)}."


def _counts_words(was: Stretch | None, one: Stretch) -> str:
    """Return the counts of two lines beside each other; empty where there are too few."""
    if was is None or min(was.n_noted, one.n_noted) < FEWEST_NOTED:
        return ""
    is_later_off = one.outcome == "worked" and 2 * one.n_credited <= one.n_noted
    return (
        f"{' at first' * is_later_off}: {was.n_credited} of {was.n_noted} over the target and in the pocket "
        f"before, {one.n_credited} of {one.n_noted} after"
    )


def _doings_words(end: SessionEnd) -> str:
    """Return who was behind the balls that missed the pocket; empty where none did."""
    n_all = sum(n for _, n in end.doings)
    whose = ", ".join(f"{doing} {n}" for doing, n in end.doings if n)
    one_or_more = f"ball{'s' * (n_all != 1)} that missed the pocket"
    return f"You or the lane? Of the {n_all} {one_or_more}: {whose}." if whose else ""


def pains_words(pains: Sequence[PainNote]) -> str:
    """Return where it hurt and what was done about it: ``Noted: right knee. Stopped for it.`` and so on."""
    return " ".join(f"Noted: {one.where.rstrip('. ')}. {_done_for(one)}" for one in pains)


def _done_for(pain: PainNote) -> str:
    if pain.went_on:
        return "You chose to go on."
    if not pain.n_thrown:
        return "Stopped for it."
    return f"{pain.n_thrown} more ball{'s were' if pain.n_thrown > 1 else ' was'} thrown with it."


def _spares_words(spares: Sequence[SpareCount]) -> str:
    """Return spares made of those tried; empty where none was."""
    made = ", ".join(f"{one.kind} {one.n_made} of {one.n_tried}" for one in spares)
    return f"Spares made: {made}." if made else ""


def one_thing_words(end: SessionEnd) -> str:
    """Return the one thing to work on, and what to do about it."""
    thing = end.one_thing
    head = ": ".join(filter(None, (lowered(thing.headline), thing.figure))) + ". " if thing.is_seen else ""
    return f"{head}{thing.drill.title}: {thing.drill.do}"


def move_words(one: Stretch, hand: Hand) -> str:
    """Return what led to a stretch, short: ``3 and 2 left``; ``start`` for the first of a lane."""
    if one.move is None:
        return "start"
    moved = "" if one.move.is_stay else lowered(move_text(one.move, hand))
    other = said_name(one.ball) or "another ball"
    return ", ".join(filter(None, (moved, other if one.is_other_ball else ""))) or "same line"


def _place(end: SessionEnd, one: Stretch) -> str:
    balls = f"from ball {one.first_number}"
    return f"Lane {one.lane}, {balls}" if len(end.lanes) > 1 else balls[:1].upper() + balls[1:]


def _what_worked(stretches: Sequence[Stretch]) -> tuple[Stretch | None, Stretch | None]:
    """Return the steadiest stretch, and the one before it on its lane if that was clearly worse."""
    steady = [one for one in stretches if one.n_noted >= FEWEST_NOTED and 2 * one.n_credited > one.n_noted]
    if not steady:
        return None, None
    best = max(steady, key=lambda one: one.n_credited / (one.n_noted + 2))  # few balls count less (our guess)
    before = _stretch_before(stretches, best)
    is_better = before is not None and before.n_noted >= 2 and 2 * before.n_credited <= before.n_noted
    has_worked = best.outcome == "worked" or not _is_of_line(best)
    return best, before if is_better and has_worked else None


def _stretch_before(stretches: Sequence[Stretch], one: Stretch) -> Stretch | None:
    """Return the stretch before one on its lane, where a move or a change led from there."""
    if one.move is None:
        return None
    earlier = stretches[: stretches.index(one)]
    return next((before for before in reversed(earlier) if before.lane == one.lane), None)


def _pains(session: Session) -> tuple[PainNote, ...]:
    """Return every note of pain in the order in which it was made, each once."""
    went_on: dict[str, bool] = {}
    for setting in session.settings:
        if setting.bowler.has_pain:
            where = _where(setting)
            went_on[where] = went_on.get(where, False) or setting.goes_on_with_pain
    hurt = [_where(ball.setting) for ball in session.shots]
    return tuple(PainNote(where, is_on, hurt.count(where)) for where, is_on in went_on.items())


def _where(setting: Setting) -> str:
    """Return where it hurts, as it was typed; empty where nothing does."""
    return " ".join(setting.bowler.pain.split()) if setting.bowler.has_pain else ""
