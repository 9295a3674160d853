"""A session that is running: each step is on disk before it counts."""

from collections.abc import Mapping
from typing import Any

from coachlib.coaching.advice import Advice, advise
from coachlib.coaching.rulebook import Rulebook
from coachlib.coaching.session import Observed, Session
from coachlib.coaching.words import To
from coachlib.records.events import stepped
from coachlib.records.logbook import Logbook
from coachlib.views.panels.answer import headline
from coachlib.views.panels.shots import session_at


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
        self._answers: dict[tuple[int, To], str] = {}

    @classmethod
    def start(cls, logbook: Logbook, session: Session, rulebook: Rulebook | None = None) -> "Running":
        """Return a session that was just put into the log."""
        return cls(logbook, logbook.start(session), session, 0, rulebook)

    @classmethod
    def again(cls, logbook: Logbook, key: str, rulebook: Rulebook | None = None) -> "Running":
        """Return a session of the log, to go on with."""
        return cls(logbook, key, logbook.replay(key), None, rulebook)

    @property
    def advice(self) -> Advice | None:
        """The answer to the last ball; None where something was changed since."""
        events = self.session.events
        return advise(self.session, self.rulebook) if events and isinstance(events[-1], Observed) else None

    def step(self, kind: str, payload: Mapping[str, Any]) -> None:
        """Take one step: tried on the session, then put on disk, then held.

        Raises
        ------
        InputError, DataFileError
            If the step is not allowed or could not be written; then nothing was changed.
        """
        after = stepped(self.session, kind, dict(payload))
        number = self.logbook.append(self.key, kind, payload)
        is_alone = self.n_events is not None and number == self.n_events + 1
        self.session = after if is_alone else self.logbook.replay(self.key)  # another notebook wrote as well
        self.n_events = number
        first_changed = payload["number"] if kind == "correct" else len(self.session.shots) + 1
        self._answers = {key: words for key, words in self._answers.items() if key[0] < first_changed}

    def log_advice(self) -> None:
        """Keep the answer beside its ball."""
        advice = advise(self.session, self.rulebook)
        said = {"kind": advice.kind, "move": advice.move, "rule_ids": advice.rule.rule_ids}
        self.n_events = self.logbook.append(self.key, "advice", said)

    def answers(self, to: To) -> dict[int, str]:
        """Return what was answered to each ball, by its number; only balls not asked before cost time."""
        numbers = [seen.number for seen in self.session.shots]
        for number in numbers:
            if (number, to) not in self._answers:
                then = advise(session_at(self.session, number), self.rulebook)
                self._answers[number, to] = headline(then, to)
        return {number: self._answers[number, to] for number in numbers}
