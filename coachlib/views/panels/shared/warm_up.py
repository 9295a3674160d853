"""Loading beforehand what the first page needs, so that whoever opens one does not wait for it."""

from coachlib import Bowler, Line, Session, Shot, advise, load_pattern, observe, say
from coachlib.views import lane_chart, lane_scene
from coachlib.views.panels.clinic import clinic
from coachlib.views.panels.compare_balls import compare_balls
from coachlib.views.panels.lane_side import lane_side
from coachlib.views.panels.practice import practice_lane
from coachlib.views.panels.students import students
from coachlib.views.panels.try_move import try_move

PANELS = (clinic, compare_balls, lane_side, practice_lane, students, try_move)


def warm_up() -> None:
    """Load all panels and answer one invented ball; nothing is written and nothing shown."""
    session = Session(Bowler(), Line(25, 14), pattern=load_pattern("house_41"))
    session = observe(session, Shot(14, arrival="high"))
    advice = advise(session)
    say(advice)
    lane_chart(lane_scene(session, advice))
