"""What a student takes home from a session: the line that worked, the moves and why, where to start.

Everything here comes from the log of one session; nothing is simulated or decided anew. Counts of pins are
told only where they are asked for.
"""

import dataclasses
import itertools
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.coaching.session.arrivals import credits_line, is_off_target
from coachlib.coaching.session.ball_reading import arrival_class
from coachlib.coaching.session.last_move import FEWEST_JUDGING, JUDGING_BALLS, outcome_between
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Changed, Observed
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import line_text, lowered, move_text
from coachlib.records.log.advice_record import why_of
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.replay import Replay
from coachlib.review.trends import SessionTrend, session_trend
from coachlib.review.work_on import work_on
from coachlib.study.questions.drills import Drill
from coachlib.world.levers import move_between
from coachlib.world.line import Line

MOST_MOVES = 4
"""More do not fit on one page; the last ones are told."""

FRESH_GAMES = 0.7  # as the phases of coaching.session
FEWEST_BALLS = 2
"""With fewer balls a line is never said to have worked (our guess)."""

_ASKING = {
    "speed": "More or less speed only as far as the body likes it.",
    "hand": "A new release puts new strain on the hand: little by little, and with somebody who knows.",
    "ball": "Weight and span of a ball are for a qualified person to fit.",
    "surface": "Sand wet, by hand or in a shop, with a mask and eye protection. Keep fingers, hair and "
    "sleeves clear of anything that turns. Only before scoring, and as local rules allow.",
}
PAIN = "Pain was noted: ask a doctor or a physio, and a pro shop about the fit, before you bowl again."
STOP = "If thumb, wrist, back or knee hurts, stop and say so."


class LineRecord(NamedTuple):
    """How a line did on a lane; a ball worked if it credits the line, see ``coaching.session.arrivals``."""

    lane: str
    line: Line
    n_balls: int
    n_worked: int

    @property
    def has_worked(self) -> bool:
        """Whether the line may be said to have worked: more than half of two balls at least."""
        return self.n_balls >= FEWEST_BALLS and 2 * self.n_worked > self.n_balls

    @property
    def share(self) -> float:
        """The share of balls that worked; two are added that did not, so that few count less (our guess)."""
        return self.n_worked / (self.n_balls + 2)


class MoveMade(NamedTuple):
    """One change of line: where, before which ball, in words, why, and what the next ball did."""

    lane: str
    before_ball: int
    words: str
    why: str
    after: str


@dataclasses.dataclass(frozen=True)
class TakeHome:
    """What stands on a student's sheet.

    Parameters
    ----------
    name, started, session
        As the student is shown; when the session was, and as it ended.
    worked : tuple of LineRecord
        The best line of each lane.
    moves, n_moves
        The last moves made, oldest first, and how many were made in all.
    start, start_why
        Where to start next time, None where no ball hit the pocket on target; why there.
    drill, drill_why
        One thing to try, and what it is for.
    cautions, scores : tuple of str
        Each on a line of its own; pins and strikes, empty unless asked for.
    """

    name: str
    started: datetime
    session: Session
    worked: tuple[LineRecord, ...]
    moves: tuple[MoveMade, ...]
    n_moves: int
    start: Line | None
    start_why: str
    drill: Drill
    drill_why: str
    cautions: tuple[str, ...]
    scores: tuple[str, ...] = ()


def take_home(
    listed: LoggedSession, replay: Replay, *, drill: Drill | None = None, with_scores: bool = False
) -> TakeHome:
    """Return what a student takes home from a session.

    Parameters
    ----------
    listed, replay
        Its line in the list, and :meth:`coachlib.records.Logbook.story` of it: the bowler bears the name that
        is shown.
    drill : Drill, optional
        The one to try; by default for what this session says to work on.
    with_scores : bool, default False
        Whether strikes, pins and spares are told, e.g. not to a parent unless that was agreed.
    """
    session = replay.session
    figures = session_trend(listed, replay)
    worth = work_on([figures])
    made = moves_made(session, replay.advice)
    start, why = start_next_time(session)
    chosen = worth.drill if drill is None else drill
    return TakeHome(
        name=session.bowler.name,
        started=listed.started,
        session=session,
        worked=best_lines(line_records(session)),
        moves=made[-MOST_MOVES:],
        n_moves=len(made),
        start=start,
        start_why=why,
        drill=chosen,
        drill_why=worth.headline if chosen == worth.drill else "",
        cautions=(PAIN,) * session.bowler.has_pain + cautions(session, replay.advice, chosen),
        scores=_scores(figures) if with_scores else (),
    )


def line_records(session: Session) -> tuple[LineRecord, ...]:
    """Return how each line did on each lane, in the order in which they were first thrown."""
    balls: dict[tuple[str, Line], list[bool]] = {}
    for ball in session.first_balls:
        balls.setdefault((ball.lane, ball.line), []).append(credits_line(ball))
    return tuple(LineRecord(lane, line, len(did), sum(did)) for (lane, line), did in balls.items())


def best_lines(records: Sequence[LineRecord]) -> tuple[LineRecord, ...]:
    """Return the line of each lane that did best; none for a lane on which no ball worked."""
    lanes = dict.fromkeys(one.lane for one in records)
    best = (max((one for one in records if one.lane == lane), key=lambda one: one.share) for lane in lanes)
    return tuple(one for one in best if one.n_worked)


def start_next_time(session: Session) -> tuple[Line | None, str]:
    """Return the line to start on next time and why: with the oil fresh again, the first that worked.

    Where none did, the best so far, and it is called no more than that.
    """
    records = line_records(session)
    first = next((one for one in records if one.has_worked), None)
    if first is not None:
        games = session.shots[0].setting.games_on_lane
        lane = "on a fresh lane" if games < FRESH_GAMES else f"on a lane {games:g} games old"
        return first.line, f"The first line that worked, {lane}: {_count_words(first)}."
    best = max(records, key=lambda one: one.share, default=None)
    if best is not None and best.n_worked:
        return best.line, f"The best so far: {_count_words(best)}. Be ready to move."
    return None, "No line found the pocket yet. Begin with the starting line for the oil of that day."


def _count_words(one: LineRecord) -> str:
    """Return how many balls of a line worked: ``3 of 4 balls hit the pocket on target``."""
    return f"{one.n_worked} of {one.n_balls} ball{'s' * (one.n_balls != 1)} hit the pocket on target"


def line_record_words(one: LineRecord) -> str:
    """Return how the line of a lane did; it is said to have worked only where more than half came in."""
    line, count = lowered(line_text(one.line)), _count_words(one)
    return f"{line} worked, {count}" if one.has_worked else f"best so far: {line}, {count}"


def moves_made(session: Session, advice: Mapping[int, Mapping[str, Any]]) -> tuple[MoveMade, ...]:
    """Return every change of line on a lane, oldest first, with the reason that was given for it."""
    n_balls, made = 0, []
    for event in session.events:
        if isinstance(event, Observed):
            n_balls = event.number
        elif isinstance(event, Changed) and event.was.lane == event.now.lane:
            if event.was.line != event.now.line:
                made.append(_move(event, n_balls, session, advice))
    return tuple(made)


def _move(
    event: Changed, n_balls: int, session: Session, advice: Mapping[int, Mapping[str, Any]]
) -> MoveMade:
    lane, line, hand = event.now.lane, event.now.line, event.now.bowler.hand
    words = f"{move_text(move_between(event.was.line, line), hand)}: {lowered(line_text(line))}"
    on_lane = [ball for ball in session.shots if ball.lane == lane]
    before = (
        advice[ball.number] for ball in reversed(on_lane) if ball.number <= n_balls and ball.number in advice
    )
    answer = next(before, {})
    new_line = answer.get("new_line")
    is_advised = isinstance(new_line, dict) and all(
        new_line.get(name) == getattr(line, name) for name in ("feet_board", "target_board")
    )
    firsts = [ball for ball in on_lane if not ball.shot.is_spare]
    since = [ball for ball in firsts if ball.number > n_balls]
    here = list(itertools.takewhile(lambda ball: ball.line == line, since))
    came = _came_words([ball for ball in firsts if ball.number <= n_balls], here)
    return MoveMade(lane, n_balls + 1, words, why_of(answer) if is_advised else "Chosen at the lane.", came)


_OUTCOMES = {"worked": "it worked", "short": "it fell short", "far": "it went too far"}


def _came_words(before: Sequence[Observed], after: Sequence[Observed]) -> str:
    """Return what became of a move, as it is judged at the lane; the next ball's part is told on its own."""
    outcome = outcome_between(before, after)
    if outcome != "open":
        return _OUTCOMES[outcome]
    if not after:
        return ""
    hits = [ball for ball in after if not is_off_target(ball)][:JUDGING_BALLS]
    if len(hits) >= FEWEST_JUDGING:
        return f"not clear, {sum(map(credits_line, hits))} of {len(hits)} balls on target hit the pocket"
    if not hits:
        return "too early to tell, because the next ball missed the target"
    named = arrival_class(hits[0].shot)
    return f"too early to tell, one ball on target {ARRIVAL_WORDS[named].did}" if named else ""


def cautions(session: Session, advice: Mapping[int, Mapping[str, Any]], drill: Drill) -> tuple[str, ...]:
    """Return what to take care of after a session, each on a line of its own; pain noted is told elsewhere.

    Parameters
    ----------
    session, drill
        As it ended; the one to try.
    advice : mapping of int to mapping
        What was answered, by the number of the ball.
    """
    bowler = session.bowler
    kinds = dict.fromkeys(str(payload.get("kind")) for payload in advice.values())
    texts = [STOP, *(_ASKING[kind] for kind in kinds if kind in _ASKING)]
    if bowler.age_years is not None and bowler.age_years < load_rulebook().settings["growing_years"]:
        texts.append(
            "Use a ball that stays comfortable for three games. Have weight and fit checked as you grow."
        )
    return (*texts, drill.caution) if drill.caution else tuple(texts)


def _scores(figures: SessionTrend) -> tuple[str, ...]:
    strikes, singles, pins = figures.strikes, figures.single_pin_spares, figures.first_ball_pins
    lines = [
        f"Strikes: {strikes.n_made} of {strikes.n_tried} first balls." if strikes.n_tried else "",
        "" if pins is None else f"Pins of a first ball: {pins.mean:.1f} on average.",
        f"Single pins: {singles.n_made} of {singles.n_tried}." if singles.n_tried else "",
    ]
    return tuple(filter(None, lines))
