"""The lane of a question: what is shown before the bet, and the answer drawn over it.

Two throws may differ in more than the line: in speed, hand, ball, surface or oil. Then both lie on the oil of
the second.
"""

import dataclasses

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.simulation.paths import LinePaths, line_paths
from coachlib.study.questions.question import Drawn, QuestionScene
from coachlib.views.lane.scene import lines_scene
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.views.lane.scene_paths import drawn_line, drawn_paths
from coachlib.views.lane.scene_words import note_of, summary_of


def question_scene(asked: QuestionScene) -> LaneScene:
    """Return what is to be drawn of a question.

    Parameters
    ----------
    asked : QuestionScene
        Who throws what, and what of it is shown.

    Raises
    ------
    InputError, ModelError
        If a ball that is to be drawn cannot be thrown.
    """
    now, after = asked.now, asked.next
    thrown = [_paths(now, asked.now_strikes)] if asked.now_drawn == "balls" else []
    if after is not None and asked.next_drawn == "balls":
        thrown.append(_paths(after, asked.next_strikes))
    drawn = drawn_paths(thrown)
    seen = None if asked.seen is None else Observed(1, asked.seen, now.setting)
    pattern = now.pattern if after is None or asked.next_drawn == "nothing" else after.pattern
    scene = lines_scene(now.bowler, now.line, seen=seen, pattern=pattern, is_plain=True)
    scene["source"] = "sheet" if thrown else "lines"
    scene["played"] = drawn_line(now.line, now.bowler, drawn[0] if asked.now_drawn == "balls" else None)
    if after is not None:
        path = drawn[-1] if asked.next_drawn == "balls" else None
        scene["advised"] = drawn_line(after.line, after.bowler, path)
    scene["is_asked"] = (asked.now_drawn if after is None else asked.next_drawn) == "nothing"
    scene["note"] = note_of(scene, thrown) if _shows_lines(asked.now_drawn, thrown) else ""
    scene["summary"] = summary_of(scene)
    return scene


def _paths(session: Session, n_strikes: int | None) -> LinePaths:
    return dataclasses.replace(line_paths(session, session.line), n_told=n_strikes)


def _shows_lines(drawn: Drawn, thrown: list[LinePaths]) -> bool:
    return bool(thrown) or drawn == "lines"
