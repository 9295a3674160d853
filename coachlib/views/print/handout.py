"""The handout: one page of a session for the student, or for a parent, to take home.

HTML with the lane as inline SVG; black on white, A4 and letter. For PDF give it to
:func:`coachlib.views.print.page.page_pdf`.
"""

from datetime import datetime

from coachlib.coaching.wording.callouts import line_text, lowered
from coachlib.coaching.wording.names import said_name
from coachlib.review.take_home import TakeHome, line_record_words
from coachlib.views.lane.lane_chart import lane_chart
from coachlib.views.lane.scene import simulated_scene
from coachlib.views.print.page import filled, own_markup
from coachlib.views.theme import INK, INK2, picture_svg

N_ROWS = 4
"""Lines to fill in by hand."""


def handout(taken: TakeHome, *, title: str = "Lane notes", coach: str = "", place: str = "") -> str:
    """Return one page to print, as HTML.

    Parameters
    ----------
    taken : TakeHome
        From :func:`coachlib.review.take_home.take_home`.
    title, coach, place : str, optional
        What stands on top; taken as plain text.
    """
    session = taken.session
    lanes, n_balls = session.lanes, len(session.shots)
    lanes_text = f"lane{'s' * (len(lanes) > 1)} {' and '.join(lanes)}"
    things = [said_name(thing.name) for thing in (session.ball, session.pattern) if thing is not None]
    who = [f"{session.bowler.hand}-handed", *things, f"{n_balls} ball{'s' * (n_balls != 1)}"]
    return filled(
        "handout.html",
        title=", ".join(filter(None, (title, taken.name))),
        where=" · ".join(filter(None, (place, day_text(taken.started), lanes_text))),
        who=" · ".join(who + [f"coach: {coach}"] * bool(coach)),
        taken=taken,
        start=lowered(line_text(taken.start)) if taken.start else "",
        worked=[(one.lane, line_record_words(one)) for one in taken.worked],
        lane=own_markup(_lane(taken)),
        n_rows=N_ROWS,
    )


def day_text(started: datetime) -> str:
    """Return the day of the session, as on this machine's clock: ``Tuesday 15 September 2026``."""
    when = started.astimezone()
    return f"{when:%A} {when.day} {when:%B %Y}"


def _lane(taken: TakeHome) -> str:
    """Return the lane with the line to start on: one line, so ink alone."""
    session = taken.session
    first = session.shots[0].line if session.shots else session.line
    scene = simulated_scene(session, taken.start or first)
    scene["deck"] = []  # what pins might do is no part of what was done
    if (path := scene["played"]["path"]) is not None:
        path["count_text"], path["dots"] = "", [[board, rank, 0.0] for board, rank, _ in path["dots"]]
    return picture_svg(lane_chart(scene).to_dict()).replace(INK2, INK)
