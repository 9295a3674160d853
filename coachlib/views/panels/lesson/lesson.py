"""The lesson panel: a picture, a question, your bet, then the answer drawn over it.

The widgets hold nothing that matters, the play does: every handler takes one step of it, and the whole panel
is looked at afresh.
"""

from typing import Any

import traitlets

from coachlib.errors import checked_choice, checked_thing
from coachlib.study.lessons.lesson import Lesson, load_lesson
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import Answer
from coachlib.views.lane.lane_chart import lane_chart
from coachlib.views.panels.lesson.lesson_play import LessonPlay
from coachlib.views.panels.lesson.lesson_view import bet_view, control_view, head_view, lesson_scene
from coachlib.views.panels.lesson.try_it import STEPS, Tried, tried_scene, tried_view
from coachlib.views.panels.shared.lane_picture import LanePicture
from coachlib.views.panels.shared.panel import Panel, action
from coachlib.views.panels.shared.parts import PANELS, View, browser_file, composed, script, styled
from coachlib.views.print.lesson_handout import lesson_handout
from coachlib.world.bowler import Bowler
from coachlib.world.hand import checked_hand
from coachlib.world.oil import pattern_names

SAVED = "Saved as {name}. Open it in the browser and print it: questions on one page, answers on the other."


class LessonHead(View):
    """The thread, the question and its answer; it also carries the panels' style sheet."""

    _esm = script("lesson/lesson_head.js")
    _css = styled("shared/style.css")


class LessonControl(View):
    """The bet, and what comes after it.

    `errors` says what was wrong with it, under ``form``; `file` is the handout for the browser to save.
    """

    _esm = script("lesson/lesson_control.js")
    _css = PANELS / "lesson/lesson.css"

    errors = traitlets.Dict().tag(sync=True)
    file = traitlets.Dict().tag(sync=True)


class TryIt(View):
    """Feet, eyes, speed and pattern to change by hand; `errors` says what cannot be, under ``form``."""

    _esm = script("lesson/try_it.js")

    errors = traitlets.Dict().tag(sync=True)


class LessonPanel(Panel):
    """A lesson; as the last line of a notebook cell it shows itself.

    Parameters
    ----------
    lesson : str or Lesson
        The name of a lesson that comes with the library, or one of your own.
    bowler : Bowler, optional
        Whose numbers the questions are made with; by default a right-handed club bowler's.
    is_strict : bool, default False
        Raise errors again after they were shown; for tests.

    Raises
    ------
    InputError
        If there is no such lesson.
    """

    def __init__(
        self, lesson: str | Lesson, bowler: Bowler | None = None, *, is_strict: bool = False
    ) -> None:
        taught = load_lesson(lesson) if isinstance(lesson, str) else checked_thing("lesson", lesson, Lesson)
        self.is_strict = is_strict
        self.play = LessonPlay(taught, bowler or usual_learner())
        self.tried: Tried | None = None
        self.head, self.lane, self.control, self.try_it = (
            LessonHead(),
            LanePicture(view="whole"),
            LessonControl(),
            TryIt(),
        )
        self.box = composed(
            question=self.head, lane=self.lane, control=self.control, change=self.try_it
        ).add_class("coach-lesson")
        self.listen_to(self.head, self.control, self.try_it)
        self.refresh()

    def _repr_mimebundle_(self, **kwargs: Any) -> Any:
        return self.box._repr_mimebundle_(**kwargs)

    @action("control", "form")
    def bet(self, answer: Answer) -> None:
        """Answer the question."""
        self.play = self.play.bet_on(answer)

    @action("control", "form")
    def skip(self) -> None:
        """Show the answer without a bet."""
        self.play = self.play.skip()

    @action("control", "form")
    def again(self) -> None:
        """Take the bet back."""
        self.play = self.play.again()

    @action("control", "form")
    def forward(self) -> None:
        """Go on."""
        self.play = self.play.forward()

    @action("control", "form")
    def back(self) -> None:
        """Go back to the question before."""
        self.play = self.play.back()

    @action("control", "form")
    def hand(self, hand: str) -> None:
        """Ask everything from the beginning as the other hand sees it."""
        self.play = self.play.restart(usual_learner(checked_hand(hand)))

    @action("control", "form")
    def handout(self) -> None:
        """Give the lesson as pages to print."""
        lesson, number = self.play.lesson, self.control.file.get("number", 0) + 1
        page = lesson_handout(lesson, self.play.bowler.hand).encode()
        name = f"{lesson.id}.html"
        self.control.file = browser_file(name, "text/html", page, number, SAVED.format(name=name))

    @action("try_it", "form")
    def change(self, name: str, by: float) -> None:
        """Change feet, eyes or speed by some steps."""
        checked_choice("name", name, tuple(STEPS))
        self._try((self.tried or Tried()).stepped(name, float(by)))

    @action("try_it", "form")
    def on_pattern(self, pattern: str) -> None:
        """Play it on another oil pattern; an empty name is the question's own."""
        checked_choice("pattern", pattern, ("", *pattern_names()))
        was = self.tried or Tried()
        self._try(Tried(was.feet, was.eyes, was.speed, pattern))

    @action("try_it", "form")
    def as_asked(self) -> None:
        """Put everything back to the question."""
        self.tried = None

    def _try(self, tried: Tried) -> None:
        question = self.play.question
        if question is not None:
            tried_scene(question.scene.now, tried)  # raises before anything is kept
            self.tried = tried

    def refresh(self) -> None:
        """Look at the play afresh and show it."""
        play = self.play
        if play.bet is None:
            self.tried = None
        self.head.look, self.control.look = head_view(play), control_view(play)
        self.lane.layout.display = "none" if play.question is None else ""
        question = play.question
        if question is None or play.bet is None:
            self.try_it.look = {}
        else:
            self.try_it.look = tried_view(question.scene.now, self.tried or Tried()) | {
                "is_changed": self.tried is not None
            }
        self._draw()

    def _draw(self) -> None:
        """Draw the question, its answer, or what was changed by hand."""
        question = self.play.question
        if question is None:
            return
        with self.lane.hold_sync():
            self.lane.bet = {} if self.tried else bet_view(self.play)
            scene = tried_scene(question.scene.now, self.tried) if self.tried else lesson_scene(self.play)
            if scene is not None:
                self.lane.show(scene)


def lesson_picture(lesson: str, title: str = "") -> Any:
    """Return the lane of a lesson's first question as a picture, for who reads and does not run."""
    play = LessonPlay(load_lesson(lesson))
    question, scene = play.question, lesson_scene(play)
    return None if question is None or scene is None else lane_chart(scene, title or question.prompt)
