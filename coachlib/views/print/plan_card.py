"""The game plan on one page to print: the line, its picture, its room, and what to do if it goes wrong.

One HTML text with the lane as inline SVG; no script, nothing from elsewhere. It is black on white and fits A4
and letter.
"""

from coachlib.coaching.plan.plan import Plan
from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.coaching.wording.plan_words import say_plan
from coachlib.views.lane.lane_chart import lane_chart
from coachlib.views.lane.scene import simulated_scene
from coachlib.views.print.page import filled, own_markup
from coachlib.views.theme import picture_svg
from coachlib.world.hand import Hand


def plan_card(plan: Plan, title: str = "Game plan", hand: Hand | None = None) -> str:
    """Return the plan as one HTML page: write it to a file and open it in a browser.

    Parameters
    ----------
    plan : Plan
        From :func:`coachlib.plan`.
    title : str, default "Game plan"
        What stands on top, e.g. with a date; taken as plain text.
    hand : {"right", "left"}, optional
        Whose left and right in the words; the bowler's own if left out.

    Raises
    ------
    InputError
        If `plan` is no plan or `hand` is unknown.
    """
    words = say_plan(plan, hand)
    n_strikes = None if plan.strike_prob is None else n_of_twenty(plan.strike_prob)
    counts = [] if n_strikes is None else [n_strikes]
    lane = lane_chart(simulated_scene(plan.session, plan.line, n_told=counts))
    return filled(
        "plan_card.html",
        title=title,
        words=words,
        n_strikes=n_strikes,
        n_twenty=N_TWENTY,
        lane=own_markup(picture_svg(lane.to_dict())),
    )
