"""Getting the tables of the model ready in the background, so that nobody waits for them at the lane.

The first answer of the model for a bowler, ball and pattern needs a table that takes seconds. It is made in
a thread as soon as these are known; until then the rule of thumb answers alone. The thread touches no widget:
it calls `tell`, which has to bring the news to the panel's own thread.
"""

import dataclasses
import threading
import time
from collections.abc import Callable, Hashable

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.advice.answer_balls import answer_balls
from coachlib.coaching.belief.table_cache import ball_table, belief_setting
from coachlib.coaching.session.session import Session
from coachlib.world.ball import Ball

QUIET_S = 1.0
"""For so long nothing is said of the work. [s]"""

PARTS = 10
FAILED = "The simulation stopped, so there are no chances here. You get the rule of thumb alone."

_ONE_AT_A_TIME = threading.Lock()


@dataclasses.dataclass
class _Job:
    """The tables of one bowler on one pattern, for some balls and a target distance."""

    started_s: float = dataclasses.field(default_factory=time.monotonic)
    done_frac: float = 0.0
    has_failed: bool = False
    ended: threading.Event = dataclasses.field(default_factory=threading.Event)


class GettingReady:
    """Knows for which sessions the model can answer at once, and works towards it."""

    def __init__(self, tell: Callable[[], None]) -> None:
        self._tell = tell
        self._jobs: dict[Hashable, _Job] = {}

    def want(self, session: Session) -> None:
        """Begin with what a session needs, if that was not begun."""
        key = _needs(session)
        if key not in self._jobs:
            self._jobs[key] = _Job()
            threading.Thread(target=self._work, args=(self._jobs[key], session), daemon=True).start()

    def is_ready(self, session: Session) -> bool:
        """Return whether the model can answer at once."""
        job = self._jobs.get(_needs(session))
        return job is not None and job.ended.is_set() and not job.has_failed

    def wait(self, session: Session, most_s: float) -> None:
        """Wait until the work for a session is done, but not longer than so many seconds."""
        self.want(session)
        self._jobs[_needs(session)].ended.wait(most_s)

    def give_up(self, session: Session) -> None:
        """Answer such sessions without the model from now on."""
        job = self._jobs.setdefault(_needs(session), _Job())
        job.has_failed = True
        job.ended.set()

    def words(self, session: Session) -> str:
        """Return what is to be said of the work; empty while it is short and when all is well."""
        job = self._jobs.get(_needs(session))
        if job is None:
            return ""
        if job.has_failed:
            return FAILED
        if job.ended.is_set() or time.monotonic() - job.started_s < QUIET_S:
            return ""
        return f"Getting the simulation ready: {int(PARTS * job.done_frac)} of {PARTS} …"

    def _work(self, job: _Job, session: Session) -> None:
        def progress(done_frac: float) -> None:
            job.done_frac = done_frac
            if time.monotonic() - job.started_s >= QUIET_S:
                self._tell()

        try:
            with _ONE_AT_A_TIME:
                _make_tables(session, progress)
        except Exception:  # whatever it was: the rule of thumb goes on, and the panel says so
            job.has_failed = True
        job.ended.set()
        self._tell()


def _make_tables(session: Session, progress: Callable[[float], None]) -> None:
    """Fill the library's own memory with all that an answer for this session needs."""
    setting = belief_setting(session.bowler, session.pattern, ball=session.ball)
    for ball in _balls(session):
        ball_table(setting, ball, progress)
    answer_balls(session, advise(session), [session.line])


def _needs(session: Session) -> Hashable:
    setting = belief_setting(session.bowler, session.pattern, ball=session.ball)
    return setting, _balls(session), session.line.target_ft


def _balls(session: Session) -> frozenset[Ball | None]:
    return frozenset({session.ball, *(one.ball for one in session.first_balls)})
