"""The lane-side panel: an observed shot in, a feet-and-eyes move and its picture out.

The widgets hold nothing that matters: the session and its log do. Every handler calls one step of the
session, which is put on disk, and then the whole panel is looked at afresh.
"""

from typing import Any

from coachlib.coaching.rules.rulebook import Rulebook
from coachlib.coaching.session.arrivals import last_line_that_worked
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.simulation.paths import get_ready
from coachlib.coaching.wording.callouts import line_text
from coachlib.errors import InputError, raise_input_errors
from coachlib.records.log.logbook import Logbook
from coachlib.views.lane.scene import lane_scene
from coachlib.views.panels.lane_side.answer import (
    AnswerBlock,
    Grounds,
    answer_view,
    before_view,
    stopped_view,
)
from coachlib.views.panels.lane_side.entry import Entry, entry_view
from coachlib.views.panels.lane_side.finding_start import FindingStart
from coachlib.views.panels.lane_side.getting_ready import GettingReady
from coachlib.views.panels.lane_side.live_session import LiveSession
from coachlib.views.panels.lane_side.session_summary import Leaving, SessionSummary
from coachlib.views.panels.lane_side.set_up_form import (
    SetUp,
    changes_wanted,
    current_setup,
    set_up_answers,
    set_up_from,
)
from coachlib.views.panels.lane_side.setup import MyBowlers, WhoAndLine, set_up_view
from coachlib.views.panels.lane_side.spare_ball import TakingSpares, last_leave, open_spare, spare_view
from coachlib.views.panels.lane_side.turns import (
    TakingTurns,
    known_bowler,
    offer_to_go_on,
    owner_of,
    start_for,
    student_choices,
    turn_choices,
)
from coachlib.views.panels.shared.form import doubts, shot_answers, shot_from
from coachlib.views.panels.shared.lane_picture import LanePicture
from coachlib.views.panels.shared.panel import action, report_errors
from coachlib.views.panels.shared.parts import composed
from coachlib.views.panels.shared.shots import Shots, shots_view, undone_words
from coachlib.views.panels.shared.trend import trend_view
from coachlib.views.panels.shared.typed import Answers
from coachlib.world.shot import Shot

MOST_WAIT_S = 2.5
"""So long "Read this shot" waits for the model; then the rule of thumb answers alone. [s]"""


class LaneSide(TakingTurns, Leaving, FindingStart, TakingSpares):
    """The coach's panel at the lane; as the last line of a notebook cell it shows itself.

    Parameters
    ----------
    logbook : Logbook, optional
        Where every ball is kept; by default the person's own log.
    session : Session, optional
        To start with; without one the panel asks who throws, or offers to go on with the last session.
    rulebook : Rulebook, optional
        The rules to advise by, a club's own laid over ours: ``cl.load_rulebook(Path("club.toml"))``.
    model_on : bool, default True
        Whether the model speaks beside the rule of thumb.
    is_strict : bool, default False
        Raise errors again after they were shown; for tests.
    """

    def __init__(
        self,
        logbook: Logbook | None = None,
        session: Session | None = None,
        rulebook: Rulebook | None = None,
        *,
        model_on: bool = True,
        is_strict: bool = False,
    ) -> None:
        self.is_strict, self.rulebook = is_strict, rulebook
        self.ready = GettingReady(lambda: self._loop.call(self.catch_up)) if model_on else None
        self._voices = {"rulebook": rulebook, "ready": self.ready}
        self.logbook = logbook or Logbook()
        self.who, self.entry, self.answer, self.shots = WhoAndLine(), Entry(), AnswerBlock(), Shots()
        self.lane, self.grounds, self.summary = LanePicture(), Grounds(), SessionSummary()
        get_ready()
        names = ("who", "summary", "entry", "answer", "lane", "grounds", "shots")
        self.box = composed(**{name: getattr(self, name) for name in names}, bowlers=MyBowlers())
        self.box.add_class("coach-lane-side")
        self.running = None
        self._drafts = {}
        self._clear()
        self.listen_to(self.who, self.summary, self.entry, self.answer, self.shots)
        if session is not None:
            self.begin(session)
        self.look_for_last()

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        return self.box._repr_mimebundle_(**kwargs)

    # who, line and lane

    @action("who")
    def look_for_last(self) -> None:
        """Look for a session in the log that was not ended; asked again by every page that opens."""
        if self.running is None:
            self.shown.offer = offer_to_go_on(self.logbook)

    @report_errors("who")
    def begin(self, session: Session, preferences: SetUp | None = None) -> None:
        """Put a session into the log and show it."""
        self._show_from_now(LiveSession.start(self.logbook, session, **self._voices), preferences)

    @action("who")
    def set_up(self, typed: Answers) -> None:
        """Start a session from the form, or change what holds from now on."""
        self.who.typed = dict(typed)
        held = self.session.bowler if self.session else None
        wanted = set_up_from(typed, known_bowler(typed, self.logbook, held), self.session)
        if self.running is None:
            session, student = start_for(wanted, typed, self.logbook)
            passed = self.shown.passed_start
            self._show_from_now(LiveSession.start(self.logbook, session, student, **self._voices), wanted)
            self.shown.passed_start = passed
            return
        changes = changes_wanted(self.running.session, wanted)
        if typed.get("games", "") in ("", self.shown.games_shown):
            changes.pop("games_on_lane", None)  # left as it was, though balls were read meanwhile
        if changes:
            self._step("change", changes, "change logged")
        self._prefer(wanted)
        self._give_to_student(typed, wanted.setting.bowler)
        self.shown.is_open = False

    @action("who")
    def change_lane(self, lane: str) -> None:
        """Go to another lane of the pair, which has its own line."""
        if lane != self._run().session.lane:
            self._step("change", {"lane": lane}, f"lane {lane} logged")

    @action("who")
    def open_form(self) -> None:
        """Open who, line and lane."""
        self.who.typed = set_up_answers(current_setup(self._run().session, self.shown.preferences))
        self.who.typed = {**self.who.typed, "student": owner_of(self.logbook, self._run().key) or ""}
        self.shown.games_shown = str(self.who.typed["games"])
        self.shown.is_open = True

    @action("who")
    def close_form(self) -> None:
        """Close who, line and lane without a change."""
        self.shown.is_open = False

    @action("who")
    def set_log_aside(self) -> None:
        """Rename a log that cannot be read, so that a new one starts."""
        self.logbook.set_aside()
        self._clear()

    # the shot

    @action("entry")
    def read(self, typed: Answers, ball: int | None = None) -> None:
        """Read the shot in the form; with `ball`, only if that is the next one: a second tap is none."""
        session, self.entry.typed = self._run().session, dict(typed)
        n_next = len(session.shots) + 1
        if ball is not None and ball != n_next:
            message = f"Mark what you saw of ball {n_next} first. Ball {ball} is read already."
            raise InputError(message)
        shot = shot_from(typed, session.bowler.hand)
        self._ask_once(shot, typed)
        self._step("shot", {"shot": shot}, f"ball {n_next} logged")
        try:
            self._remember_unit(typed)
            self._run().wait_for_model(MOST_WAIT_S)
            self._run().log_advice(self.shown.preferences.to)
        finally:  # the ball is on disk by now, whatever its answer does
            self.entry.stale = True

    @action("entry")
    def move(self) -> None:
        """Take the line advised."""
        advice, watch_for = self._run().advice, self.answer.look.get("look_for", "")
        if advice is not None and advice.new_line != advice.line:
            self._step("change", {"line": advice.new_line}, "move logged")
            self.shown.watch_for = watch_for

    @action("entry")
    def stay(self) -> None:
        """Keep the line; playing on without pressing anything does the same."""
        self.shown.is_settled = True

    @action("entry")
    def back(self) -> None:
        """Go back to the last line of this lane that worked."""
        session = self._run().session
        line = last_line_that_worked(session)
        if line not in (None, session.line) and not session.is_stopped:
            self._step("change", {"line": line}, f"back to {line_text(line).lower()}, logged")

    @action("entry")
    def go_on_with_pain(self) -> None:
        """Let a bowler go on although pain is noted; undo takes it back."""
        if self._run().session.is_stopped:
            self._step("change", {"goes_on_with_pain": True}, "go on, logged")

    # steps back

    @action("entry")
    def undo(self) -> None:
        """Take the last step back; a ball taken back stands in the form again."""
        before = self._run().session
        with self.entry.hold_sync():  # the form is not seen empty in between
            self._step("undo", {}, "")
            after = self._run().session
            self.shown.status = undone_words(before, after)
            if len(after.shots) < len(before.shots) and not before.shots[-1].shot.is_spare:
                self._fill(before.shots[-1])

    @action("entry")
    def correct(self, number: int) -> None:
        """Open an earlier ball in the form."""
        if self.shown.correcting is None:
            self.shown.draft = (self.entry.typed, self.entry.stale)
        self._fill(self._run().session.shots[number - 1])
        self.shown.correcting = number

    @action("entry")
    def save(self, number: int, typed: Answers) -> None:
        """Replace an earlier ball by what the form says; it and the balls after it are answered again."""
        before, self.entry.typed = self._run().session, dict(typed)
        ball = before.shots[number - 1]
        shot = shot_from(typed, ball.setting.bowler.hand)
        self._ask_once(shot, typed)
        self._step("correct", {"number": number, "shot": shot}, f"ball {number} corrected")
        self._remember_unit(typed)
        is_beside = ball.shot.is_spare and shot.is_spare
        if self._run().session != before and not is_beside:
            self._run().answer_again(number, self.shown.preferences.to)

    @action("entry")
    def cancel(self) -> None:
        """Leave an earlier ball as it was."""
        self._end_correction()

    def _fill(self, ball: Observed) -> None:
        hand, unit = ball.setting.bowler.hand, self.shown.preferences.speed_unit
        self.entry.typed, self.entry.stale = shot_answers(ball.shot, hand, unit), False

    def _ask_once(self, shot: Shot, typed: Answers) -> None:
        """Ask back where what was seen does not go together; the same form sent again is taken as it is."""
        was_asked, self.shown.asked = self.shown.asked == dict(typed), dict(typed)
        if not was_asked and (asked := doubts(shot)):
            raise_input_errors(asked)

    # what follows from it

    def refresh(self) -> None:
        """Look at session and log afresh and show them."""
        session, shown = self.session, self.shown
        self.who.look = set_up_view(
            session,
            shown,
            student_choices(self.logbook),
            turn_choices(self.logbook, self.running.key if self.running else None),
        )
        (self.box.remove_class if session else self.box.add_class)("coach-unstarted")
        (self.box.add_class if shown.summary else self.box.remove_class)("coach-ending")
        self.summary.look = shown.summary or {}
        if self.running is not None:
            self.running.ask_model()
            self._show(self.running)

    def catch_up(self) -> None:
        """Show what the model has to say by now; called when it is ready, or has got a step farther."""
        with self._alone:
            if self.running is None:
                return
            is_news = True
            with self.errors_at("entry"):
                is_news = self.running.catch_up(self.shown.preferences.to)
            self.answer.waiting = "" if self.running.session.is_stopped else self.running.waiting
            if is_news:
                self.refresh()

    def _show(self, running: LiveSession) -> None:
        session, advice, shown = running.session, running.advice, self.shown
        to, advised = shown.preferences.to, running.advised()
        text = running.text(to)
        self.answer.waiting = "" if advised.is_stopped else running.waiting
        if advised.is_stopped:
            self.answer.look = stopped_view(session, advised, text)
        elif advice is None:
            self.answer.look = before_view(session, advised, running.text_before(to), shown)
        else:
            self.answer.look = answer_view(session, advice, text, shown.is_settled)
        self.grounds.look = self.answer.look
        self.grounds.trend = trend_view(session)
        left = open_spare(session, shown.passed_spare)
        spare = None if left is None else spare_view(session, left, text.spare)
        self.entry.look = entry_view(
            session,
            shown.preferences.speed_unit,
            shown.correcting,
            spare,
            can_ask_spare=left is None and last_leave(session) is not None,
        )
        self.shots.look = shots_view(session, running.answers(to))
        self.lane.show(lane_scene(session, advice, advised))
