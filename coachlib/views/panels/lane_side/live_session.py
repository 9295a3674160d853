"""A session that is running: each step is on disk before it counts."""

import dataclasses
from collections.abc import Mapping
from typing import Any

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.rules.rulebook import Rulebook
from coachlib.coaching.session.session import Session, session_at
from coachlib.coaching.session.setting import Corrected, Event, Observed
from coachlib.coaching.wording.advice_text import Said, say
from coachlib.coaching.wording.callouts import To
from coachlib.records.log.advice_record import advice_payload, headline_of
from coachlib.records.log.entries import Step
from coachlib.records.log.logbook import Logbook
from coachlib.views.panels.lane_side.getting_ready import GettingReady

MOST_AGAIN = 10
"""So many balls are answered once more with the model after a correction: a sixth of a second each."""


class LiveSession:
    """A session and its place in the log.

    Parameters
    ----------
    n_events : int or None
        How many events the log has of it; None: not known yet.
    rulebook : Rulebook or None
        The rules to advise by; None: ours.
    ready : GettingReady or None
        Knows when the model can speak; None: the rule of thumb alone answers.
    """

    def __init__(
        self,
        logbook: Logbook,
        key: str,
        session: Session,
        n_events: int | None = None,
        rulebook: Rulebook | None = None,
        ready: GettingReady | None = None,
    ) -> None:
        self.logbook, self.key, self.session, self.n_events = logbook, key, session, n_events
        self.rulebook, self.ready = rulebook, ready
        self.preferences: dict[str, Any] | None = None
        self.model_on, self.waiting = False, ""
        self._headlines: dict[int, str] = {}
        self._kept: tuple[Session, bool, Advice] | None = None
        self._kept_text: tuple[Advice, To, Said] | None = None

    @classmethod
    def start(
        cls, logbook: Logbook, session: Session, student_key: str | None = None, **voices: Any
    ) -> "LiveSession":
        """Return a session that was just put into the log, under a student if one is named."""
        return cls(logbook, logbook.start(session, student_key), session, 0, **voices)

    @classmethod
    def again(cls, logbook: Logbook, key: str, **voices: Any) -> "LiveSession":
        """Return a session of the log, to go on with."""
        story = logbook.story(key)
        running = cls(logbook, key, story.session, **voices)
        running._remember(story.advice)
        running.preferences = logbook.latest(key, "preferences")
        return running

    @property
    def advice(self) -> Advice | None:
        """The answer to the last first ball; None where something was changed since."""
        steps = (event for event in reversed(self.session.events) if not _is_beside_the_line(event))
        return self.advised() if isinstance(next(steps, None), Observed) else None

    def step(self, kind: str, payload: Mapping[str, Any]) -> None:
        """Take one step: tried on the session as logged and put on disk, then held.

        Raises
        ------
        InputError, DataFileError
            If the step is not allowed or could not be written; then nothing was changed.
        """
        number, story = self.logbook.step(self.key, kind, payload)
        is_alone = self.n_events is not None and number == self.n_events + 1
        if not is_alone or kind in ("undo", "correct"):  # what was said of a ball may hold no longer
            self._headlines = {}
        self._remember(story.advice)
        self.session, self.n_events = story.session, number

    def log_advice(self, to: To) -> None:
        """Keep the answer beside its ball, as it was said."""
        text = self.text(to)
        self._note(("advice", advice_payload(self.advised(), text.headline, text.why)))
        self._headlines[len(self.session.shots)] = text.headline

    def answer_again(self, number: int, to: To) -> None:
        """Answer a corrected ball and those after it once more, and keep that beside each.

        The model speaks where it can do so at once and few balls are asked for, else the rule of thumb.
        """
        after = [ball.number for ball in self.session.first_balls if ball.number >= number]
        is_few = len(after) <= MOST_AGAIN
        advices = [self._at(ball, is_few) for ball in after]
        words = [say(advice, to=to) for advice in advices]
        steps = [
            ("advice", advice_payload(advice, text.headline, text.why, ball))
            for ball, advice, text in zip(after, advices, words, strict=True)
        ]
        if steps:
            self._note(*steps)
        self._headlines |= {ball: text.headline for ball, text in zip(after, words, strict=True)}

    def _at(self, ball: int, may_ask_model: bool) -> Advice:
        """Return the answer to an earlier ball, as it is seen now."""
        then = session_at(self.session, ball)
        if may_ask_model and self.ready is not None and self.ready.is_ready(then):
            try:
                return advise(then, self.rulebook)
            except Exception:  # whatever it was: the rule of thumb goes on, and the panel says so
                self.ready.give_up(then)
        return advise(then, self.rulebook, model_on=False)

    def prefer(self, **preferences: Any) -> None:
        """Keep the lanes of the pair, the listener and the unit, where they are others than those kept."""
        if preferences != self.preferences:
            self._note(("preferences", preferences))
            self.preferences = preferences

    def text(self, to: To) -> Said:
        """Return the answer to the session as it stands in words; asked again it costs nothing."""
        advice, kept = self.advised(), self._kept_text
        if kept is None or kept[0] is not advice or kept[1] != to:
            kept = self._kept_text = (advice, to, say(advice, to=to))
        return kept[2]

    def text_before(self, to: To) -> Said:
        """Return what is said before a ball: how to start on a new lane, and what to take care of."""
        text = self.text(to)
        if self.advised().reading.last is None:
            return text
        return dataclasses.replace(text, look_for="", then="", notes=(), chances="")

    def _note(self, *steps: Step) -> None:
        """Log events that do not change the session."""
        number = self.logbook.append_all(self.key, steps)
        is_alone = self.n_events is not None and number == self.n_events + len(steps)
        self.n_events = number if is_alone else None

    def answers(self, to: To) -> dict[int, str]:
        """Return what was answered to each ball, by its number.

        That is what was said then; a ball of which the log kept no words is answered by the rule of thumb.
        """
        numbers = [ball.number for ball in self.session.first_balls]
        for number in numbers:
            if number not in self._headlines:
                then = advise(session_at(self.session, number), self.rulebook, model_on=False)
                self._headlines[number] = say(then, to=to).headline
        answers = {number: self._headlines[number] for number in numbers}
        if self.advice is not None:  # as it stands in large type above the list
            answers[numbers[-1]] = self.text(to).headline
        return answers

    def ask_model(self) -> None:
        """Let the model speak if it can answer at once, and have it made ready if not."""
        if self.ready is None:
            return
        self.ready.want(self.session)
        self.model_on = self.ready.is_ready(self.session)
        if self.model_on:
            try:
                self.advised()
            except Exception:  # whatever it was: the rule of thumb goes on, and the panel says so
                self.ready.give_up(self.session)
                self.model_on = False
        self.waiting = self.ready.words(self.session)

    def wait_for_model(self, most_s: float) -> None:
        """Wait for the model, but not longer than so many seconds."""
        if self.ready is not None:
            self.ready.wait(self.session, most_s)
            self.ask_model()

    def catch_up(self, to: To) -> bool:
        """Return whether the model speaks since just now; then its answer is kept beside the ball too."""
        was_on = self.model_on
        self.ask_model()
        is_news = self.model_on and not was_on
        if is_news and self.advice is not None and not self.session.shots[-1].shot.is_spare:
            self.log_advice(to)
        return is_news

    def advised(self) -> Advice:
        """Return the answer to the session as it stands; asked again it costs nothing."""
        kept = self._kept
        if kept is None or kept[0] is not self.session or kept[1] is not self.model_on:
            advice = advise(self.session, self.rulebook, model_on=self.model_on)
            kept = self._kept = (self.session, self.model_on, advice)
        return kept[2]

    def _remember(self, advice: Mapping[int, Mapping[str, Any]]) -> None:
        """Take what was said from the log."""
        said = {number: headline_of(payload) for number, payload in advice.items()}
        self._headlines |= {number: words for number, words in said.items() if words}


def _is_beside_the_line(event: Event) -> bool:
    """Return whether an event leaves the answer as it is: a correction, or a ball at pins already left."""
    return isinstance(event, Corrected) or (isinstance(event, Observed) and event.shot.is_spare)
