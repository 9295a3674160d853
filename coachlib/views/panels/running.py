"""A session that is running: each step is on disk before it counts."""

import dataclasses
from collections.abc import Mapping
from typing import Any

from coachlib.coaching.advice import Advice, advise
from coachlib.coaching.rulebook import Rulebook
from coachlib.coaching.session import Observed, Session, session_at
from coachlib.coaching.words import Said, To, say
from coachlib.records.events import stepped
from coachlib.records.logbook import Logbook
from coachlib.views.panels.answer import headline


class Running:
    """A session and its place in the log.

    Parameters
    ----------
    logbook : Logbook
        Where it is kept.
    key : str
        Its place there.
    session : Session
        As it stands in the log.
    n_events : int or None
        How many events the log has of it; None: not known yet.
    rulebook : Rulebook or None
        The rules to advise by; None: ours.
    """

    def __init__(
        self,
        logbook: Logbook,
        key: str,
        session: Session,
        n_events: int | None = None,
        rulebook: Rulebook | None = None,
    ) -> None:
        self.logbook, self.key, self.session, self.n_events = logbook, key, session, n_events
        self.rulebook = rulebook
        self.preferences: dict[str, Any] | None = None
        self._answers: dict[tuple[int, To], str] = {}

    @classmethod
    def start(cls, logbook: Logbook, session: Session, rulebook: Rulebook | None = None) -> "Running":
        """Return a session that was just put into the log."""
        return cls(logbook, logbook.start(session), session, 0, rulebook)

    @classmethod
    def again(cls, logbook: Logbook, key: str, rulebook: Rulebook | None = None) -> "Running":
        """Return a session of the log, to go on with."""
        running = cls(logbook, key, logbook.replay(key), None, rulebook)
        running.preferences = logbook.latest(key, "preferences")
        return running

    @property
    def advice(self) -> Advice | None:
        """The answer to the last ball; None where something was changed since."""
        is_ball = isinstance(self.session.last_step, Observed)
        return advise(self.session, self.rulebook) if is_ball else None

    def step(self, kind: str, payload: Mapping[str, Any]) -> None:
        """Take one step: tried on the session, then put on disk, then held.

        Raises
        ------
        InputError, DataFileError
            If the step is not allowed or could not be written; then nothing was changed.
        """
        before = self.session
        after = before if kind == "undo" else stepped(before, kind, dict(payload))
        number = self.logbook.append(self.key, kind, payload)
        is_alone = self.n_events is not None and number == self.n_events + 1
        is_known = (
            is_alone and kind != "undo"
        )  # the log knows what came last, and what another notebook wrote
        self.session = after if is_known else self.logbook.replay(self.key)
        self.n_events = number
        kept = _n_same(before.shots, self.session.shots)
        self._answers = {key: words for key, words in self._answers.items() if key[0] <= kept}

    def log_advice(self) -> None:
        """Keep the answer beside its ball."""
        advice = advise(self.session, self.rulebook)
        said = {"kind": advice.kind, "move": advice.move, "rule_ids": advice.rule.rule_ids}
        self._note("advice", said)

    def prefer(self, **preferences: Any) -> None:
        """Keep the lanes of the pair, the listener and the unit, where they are others than those kept."""
        if preferences != self.preferences:
            self._note("preferences", preferences)
            self.preferences = preferences

    def before(self, to: To) -> Said:
        """Return what is said before a ball: how to start on a new lane, and what to take care of."""
        advice = advise(self.session, self.rulebook)
        said = say(advice, to=to)
        if advice.reading.last is None:
            return said
        return dataclasses.replace(said, look_for="", then="", notes=())

    def _note(self, kind: str, payload: Mapping[str, Any]) -> None:
        """Log an event that does not change the session."""
        number = self.logbook.append(self.key, kind, payload)
        is_alone = self.n_events is not None and number == self.n_events + 1
        self.n_events = number if is_alone else None

    def answers(self, to: To) -> dict[int, str]:
        """Return what was answered to each ball, by its number; only balls not asked before cost time."""
        numbers = [seen.number for seen in self.session.shots]
        for number in numbers:
            if (number, to) not in self._answers:
                then = advise(session_at(self.session, number), self.rulebook)
                self._answers[number, to] = headline(then, to)
        return {number: self._answers[number, to] for number in numbers}


def _n_same(before: tuple[Observed, ...], after: tuple[Observed, ...]) -> int:
    """Return how many balls, from the first on, are the same in both."""
    differing = (i for i, (was, now) in enumerate(zip(before, after, strict=False)) if was != now)
    return next(differing, min(len(before), len(after)))
