"""The students' panel: sessions read back ball by ball, figures, one thing to work on, a sheet to print."""

import base64
import dataclasses
import threading
from collections.abc import Sequence
from typing import Any

import ipywidgets as W
import traitlets

from coachlib.coaching.bowler_profile.own_numbers import OwnNumber, own_numbers, with_numbers
from coachlib.errors import InputError
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.replay import Replay
from coachlib.records.spreadsheets.export import student_zip
from coachlib.records.students.erasure import erase_student
from coachlib.records.students.students import Students
from coachlib.review.demo_log import own_or_demo
from coachlib.review.trends import SessionTrend, session_trend, student_trends
from coachlib.review.work_on import WorkOn, work_on
from coachlib.views.charts.trends_chart import trends_chart, trends_words
from coachlib.views.panels.shared.lane_picture import LanePicture
from coachlib.views.panels.shared.panel import Panel, action, offered, report_errors
from coachlib.views.panels.shared.parts import View, browser_file, composed, script, styled
from coachlib.views.panels.shared.typed import counted, quoted
from coachlib.views.panels.students.students_pages import (
    Options,
    Page,
    file_word,
    page_to_take_home,
    usual_reader,
)
from coachlib.views.panels.students.students_view import (
    NOBODY,
    TREND_COLUMNS,
    numbers_view,
    replay_scene,
    replay_view,
    sessions_view,
    students_view,
    trend_rows,
    work_on_view,
)
from coachlib.views.print.page import SHEETS, can_make_pdf, page_pdf
from coachlib.views.theme import picture_svg

DEMO = (
    "These students are invented, because your own log has no session yet. Changes here are lost when you "
    "close the page."
)
SAVED = "“{name}” is saved in your browser’s downloads, or where you chose."


class Desk(View):
    """Which student, which session, which ball, and what was said then; see :mod:`students_view`."""

    _esm = script("students/students.js")
    _css = styled("shared/style.css", "students/students.css")

    errors = traitlets.Dict().tag(sync=True)


class Report(View):
    """Figures, the one thing to work on, own numbers and the handout.

    Parameters
    ----------
    errors : dict
        What went wrong, by part.
    page : str
        The handout as it will be printed, empty before it was asked for.
    file : dict
        What the browser is to save, see :func:`~coachlib.views.panels.shared.parts.browser_file`, and the
        ``part`` of the panel that tells who asked.
    """

    _esm = script("students/students_report.js")

    errors = traitlets.Dict().tag(sync=True)
    page = traitlets.Unicode().tag(sync=True)
    file = traitlets.Dict().tag(sync=True)
    can_pdf = traitlets.Bool().tag(sync=True)

    @traitlets.default("can_pdf")
    def _can_pdf(self) -> bool:
        return can_make_pdf()


class StudentsPanel(Panel):
    """The coach's second hour; as the last line of a notebook cell it shows itself.

    Parameters
    ----------
    logbook : Logbook, optional
        The log to read; by default the person's own. One that holds nothing is left alone, and invented
        students are shown instead.
    is_strict : bool, default False
        Raise errors again after they were shown; for tests.
    """

    def __init__(self, logbook: Logbook | None = None, *, is_strict: bool = False) -> None:
        self.is_strict = is_strict
        self.desk, self.lane, self.report = Desk(), LanePicture(), Report()
        self.box: W.Box = composed(desk=self.desk, lane=self.lane, report=self.report)
        self.box.add_class("coach-students")
        self.logbook, self.is_demo = logbook or Logbook(), False
        self.student = self.session = ""
        self.ball, self.n_files = 0, 0
        self.is_drawn = self._is_loading = False
        self.erased: tuple[str, ...] = ()
        self.replay: Replay | None = None
        self.numbers: tuple[OwnNumber, ...] = ()
        self.listen_to(self.desk, self.report)
        self._begin(logbook)

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        return self.box._repr_mimebundle_(**kwargs)

    @property
    def students(self) -> Students:
        """The students of the log that is shown."""
        return Students(self.logbook)

    # how it begins

    @report_errors("desk", "desk")
    def _begin(self, logbook: Logbook | None) -> None:
        self.desk.look = {"note": "", "students": [], "sessions": [], "replay": {}}
        self.report.look = {}
        self.logbook, self.is_demo = own_or_demo(logbook)
        listed = [one.key for one in self.students.listed() if one.n_sessions]
        self.pick(listed[0] if listed else NOBODY)

    # what may be asked for

    @action("desk", "desk")
    def pick(self, student: str) -> None:
        """Show another student, with the newest session."""
        if student != NOBODY:
            self.students.get(student)
        self.student, self.numbers = student, ()
        listed = self._listed()
        self._show_lists()
        self._show_report()
        self.open_session(listed[0].key if listed else "")

    @action("desk", "desk")
    def open_session(self, session: str) -> None:
        """Show another session of the student, from its first ball."""
        self.replay = self.logbook.story(session) if session else None
        self.session, self.report.page = session, ""
        self.show(1 if self.replay and self.replay.session.shots else 0)

    @action("desk", "desk")
    def show(self, ball: int) -> None:
        """Show another ball of the session."""
        n_balls = len(self.replay.session.shots) if self.replay else 0
        self.ball = min(max(int(ball), 1), n_balls)
        self._show_ball()
        if self.replay is not None and self.ball:
            self.lane.show(replay_scene(self.replay, self.ball))
        else:
            self.lane.scene = {}

    @action("desk", "desk")
    def give(self, student: str) -> None:
        """Give the session that is shown to a student, or to nobody."""
        self.logbook.assign(self.session, None if student == NOBODY else student)
        session = self.session
        self.pick(student)
        self.open_session(session)

    @action("report", "about")
    def about(self, alias: str, consent_note: str) -> None:
        """Keep another alias and consent note of the student."""
        self.students.change(
            self.student, lambda one: dataclasses.replace(one, alias=alias, consent_note=consent_note)
        )
        self._show_lists()
        self._show_report()
        ball = self.ball
        self.open_session(self.session)
        self.show(ball)

    @action("report", "about")
    def export(self) -> None:
        """Have the browser save everything that is kept of the student."""
        name = f"{file_word(self.students.get(self.student).shown_name)}.zip"
        self._give_file(name, "application/zip", student_zip(self.logbook, self.student), "about")

    @action("report", "about")
    def erase(self, name: str) -> None:
        """Erase the student with everything kept, if the name typed is the one that is shown."""
        student = self.students.get(self.student)
        if name.strip() != student.shown_name:
            message = (
                f"Type the name as it is shown, {quoted(student.shown_name)}, to erase everything kept of "
                f"this student. You typed {quoted(name)}: nothing was erased. Erasing cannot be undone."
            )
            raise InputError(message, {"erase": message})
        self.erased = erase_student(self.logbook, self.student).words
        self.report.file, self.report.page = {}, ""
        listed = self.students.listed()
        self.pick(listed[0].key if listed else NOBODY)

    @action("report", "numbers")
    def ask_numbers(self) -> None:
        """Tell the student's own numbers from the log."""
        student = self.students.get(self.student)
        replays = self.logbook.stories(row.key for row in reversed(self._listed()))
        self.numbers = own_numbers([one.session for one in replays], student.bowler)
        self._show_report()

    @action("report", "numbers")
    def use_numbers(self, fields: Sequence[str]) -> None:
        """Take the numbers that were chosen over into the student's profile."""
        self.students.change(
            self.student,
            lambda one: dataclasses.replace(one, bowler=with_numbers(one.bowler, self.numbers, fields)),
        )
        self.ask_numbers()
        used = f"{counted(len(fields), 'number')} saved for the next session."
        self.report.look = {**self.report.look, "used": used}

    @report_errors("desk", "desk")
    def draw(self) -> None:
        """Draw the figures now, and from now on with every student."""
        self.is_drawn = True
        self._show_report()

    @offered
    def draw_soon(self) -> None:
        """Draw the figures once the drawing is loaded, which takes seconds in which the panel goes on."""
        if not (self.is_drawn or self._is_loading):
            self._is_loading = True
            threading.Thread(target=self._load_drawing, daemon=True).start()

    @action("report", "handout")
    def make_page(self, options: Options) -> None:
        """Show the handout of the session."""
        self.report.page = self._page(options).text

    @action("report", "handout")
    def save(self, options: Options, kind: str = "html") -> None:
        """Have the browser save the handout as a page or as PDF."""
        page = self._page(options)
        self.report.page = page.text
        if kind == "pdf":
            sheet = SHEETS[1] if options.get("sheet") == SHEETS[1] else SHEETS[0]
            self._give_file(f"{page.stem}.pdf", "application/pdf", page_pdf(page.text, sheet))
        else:
            self._give_file(f"{page.stem}.html", "text/html", page.text.encode())

    # how it is done

    def _load_drawing(self) -> None:
        """Load what draws, in a thread that touches no widget, and tell the panel's own thread."""
        _chart(())
        self._loop.call(self.draw)

    def _page(self, options: Options) -> Page:
        if self.replay is None:
            message = "Choose a session first. None is shown."
            raise InputError(message, {"session": message})
        rows = self._listed()
        at = next(number for number, one in enumerate(rows) if one.key == self.session)
        before = rows[:at:-1]
        earlier = list(zip(before, self.logbook.stories(one.key for one in before), strict=True))
        called = "" if self.student == NOBODY else self.students.get(self.student).called
        return page_to_take_home(rows[at], self.replay, earlier, self._worth(), options, called)

    def _give_file(self, name: str, mime: str, content: bytes, part: str = "handout") -> None:
        self.n_files += 1
        file = browser_file(name, mime, content, self.n_files, SAVED.format(name=name))
        self.report.file = file | {"part": part}

    def _listed(self) -> tuple[LoggedSession, ...]:
        if self.student == NOBODY:
            return tuple(one for one in self.logbook.sessions() if one.student_key is None)
        return self.students.sessions(self.student)

    def _worth(self) -> WorkOn:
        if self.student != NOBODY:
            return work_on(student_trends(self.logbook, self.student))
        listed = self._listed()[::-1]
        replays = self.logbook.stories(one.key for one in listed)
        return work_on([session_trend(*pair) for pair in zip(listed, replays, strict=True)])

    def _show_lists(self) -> None:
        """Show students and sessions; a season of them is read once, not with every ball."""
        n_of_nobody = sum(one.student_key is None for one in self.logbook.sessions())
        self.desk.look = {
            **self.desk.look,
            "note": DEMO if self.is_demo else "",
            "students": students_view(self.students.listed(), n_of_nobody),
            "student": self.student,
            "sessions": sessions_view(self._listed()),
        }

    def _show_ball(self) -> None:
        self.desk.look = {
            **self.desk.look,
            "session": self.session,
            "replay": replay_view(self.replay, self.ball) if self.replay else {},
            "erased": list(self.erased),
        }
        self.erased = ()

    def _show_report(self) -> None:
        """Show what hangs on the student alone; a person who is no student has no figures."""
        if self.student == NOBODY:
            self.report.look = {}
            return
        student, trends = self.students.get(self.student), student_trends(self.logbook, self.student)
        self.report.look = {
            "name": student.shown_name,
            "called": student.called,
            "for": usual_reader(student),
            "alias": student.alias,
            "consent_note": student.consent_note,
            "heads": [list(head) for head in TREND_COLUMNS.items()],
            "rows": trend_rows(trends),
            "chart": _chart(trends) if self.is_drawn else "",
            "tall_chart": _chart(trends, is_tall=True) if self.is_drawn else "",
            "chart_words": trends_words(trends),
            "work_on": work_on_view(work_on(trends)),
            "numbers": numbers_view(self.numbers),
            "used": "",
        }


def _chart(trends: Sequence[SessionTrend], *, is_tall: bool = False) -> str:
    """Return the figures drawn, as an address that shows the drawing and runs nothing."""
    svg = picture_svg(trends_chart(trends, is_tall=is_tall).to_dict())
    return f"data:image/svg+xml;base64,{base64.b64encode(svg.encode()).decode()}"
