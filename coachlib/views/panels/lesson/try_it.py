"""Change it yourself: feet, eyes, speed and pattern of a question's lane, and the lane answers at once."""

import dataclasses
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS, arrival_text, is_at_head_pin
from coachlib.coaching.wording.callouts import side_text, strikes_text
from coachlib.coaching.wording.names import said_name
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.question import QuestionScene
from coachlib.views.lane.question_scene import question_scene
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.world.hand import Hand
from coachlib.world.lane import arrival_class
from coachlib.world.oil import pattern_names
from coachlib.world.parsing import boards_text
from coachlib.world.usual import as_usual

STEPS = {"feet": 1.0, "eyes": 0.5, "speed": 0.5}
"""How much one press changes. [boards], [boards], [mph]"""


@dataclasses.dataclass(frozen=True)
class Tried:
    """What was changed by hand: `feet`, `eyes` + inside [boards], `speed` [mph], `pattern` by its name."""

    feet: float = 0.0
    eyes: float = 0.0
    speed: float = 0.0
    pattern: str = ""

    @property
    def change(self) -> Change:
        """The same as a change of a session."""
        return Change(feet=self.feet, eyes=self.eyes, speed_mph=self.speed, pattern=self.pattern)

    def stepped(self, name: str, by: float) -> "Tried":
        """Return one of them changed by a number of steps."""
        return dataclasses.replace(self, **{name: getattr(self, name) + by * STEPS[name]})


def tried_scene(now: Session, tried: Tried) -> LaneScene:
    """Return the lane with the ball of the question and the one that was changed.

    Raises
    ------
    InputError
        If the change leads off the lane or the approach.
    """
    return question_scene(QuestionScene(now, changed(now, tried.change), "balls", "balls"))


def tried_view(now: Session, tried: Tried) -> dict[str, Any]:
    """Return the controls with their words, and the answer in a sentence."""
    hand, after = now.bowler.hand, changed(now, tried.change)
    speed_mph = as_usual(after.bowler, after.ball).speed_mph or 0.0
    rows = [
        _row("feet", "Feet", f"on {boards_text(after.line.feet_board)}", _ends(hand)),
        _row("eyes", "Target", f"on {boards_text(after.line.target_board)}", _ends(hand)),
        _row("speed", "Speed", f"{speed_mph:g} mph", (("slower", -1.0), ("faster", 1.0))),
    ]
    names = [["", "as in the question"], *([name, said_name(name)] for name in pattern_names())]
    return {"rows": rows, "patterns": names, "pattern": tried.pattern, "answer": answer_text(after)}


def answer_text(session: Session) -> str:
    """Return where the ball hits and how often it strikes, in a sentence."""
    paths = line_paths(session, session.line)
    board = paths.arrival_board
    if not is_at_head_pin(board):
        return f"Your ball ends {arrival_text(board)}."
    does = ARRIVAL_WORDS[arrival_class(board)].does
    return f"Your ball {does}, {arrival_text(board)}. About {strikes_text(paths.n_strikes / 20)}."


def _row(name: str, title: str, text: str, ends: tuple[tuple[str, float], ...]) -> dict[str, Any]:
    return {"name": name, "title": title, "text": text, "ends": [{"text": end, "by": by} for end, by in ends]}


def _ends(hand: Hand) -> tuple[tuple[str, float], ...]:
    """Return the two buttons as they lie on the page, left of the number and right of it."""
    inside = side_text(1, hand)
    ends = ((side_text(1, hand), 1.0), (side_text(-1, hand), -1.0))
    return ends if inside == "left" else ends[::-1]
