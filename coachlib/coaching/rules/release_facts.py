"""What a ball's release tells beside the bowler's own: its speed, and where the foot slid."""

from statistics import fmean

from coachlib.coaching.rules.change_facts import (
    mean_known,
)
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.ball_reading import (
    PocketSide,
    side_of,
)
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.world.bowler import Bowler
from coachlib.world.levers import slide_foot_board

OWN_SPEED_BALLS = 4  # so many last balls make the own usual speed, instead of the profile's


def release_facts(last: Observed, session: Session) -> dict[str, FactValue]:
    """Return what a ball's speed and slide board tell, beside the bowler's own."""
    facts: dict[str, FactValue] = {}
    shot, others = last.shot, [seen for seen in session.first_balls if seen.number < last.number]
    if shot.speed_mph is not None:
        speeds = [seen.shot.speed_mph for seen in others if seen.shot.speed_mph is not None]
        recent = speeds[-OWN_SPEED_BALLS:]
        own_mph = fmean(recent) if len(recent) == OWN_SPEED_BALLS else session.bowler.speed_mph
        facts |= {} if own_mph is None else _speed_facts(shot.speed_mph - own_mph, side_of(shot))
    drift = _usual_drift_boards(others, session.bowler)
    if shot.slide_board is not None and drift is not None:
        off = shot.slide_board - slide_foot_board(last.line, session.bowler) - drift
        facts["slide_diff_boards"], facts["abs_slide_diff_boards"] = off, abs(off)
    return facts


def _speed_facts(diff_mph: float, side: PocketSide | None) -> dict[str, FactValue]:
    return {
        "speed_diff_mph": diff_mph,
        "abs_speed_diff_mph": abs(diff_mph),
        "is_speed_fitting": (diff_mph < 0 and side == "high") or (diff_mph > 0 and side == "light"),
    }


def _usual_drift_boards(others: list[Observed], bowler: Bowler) -> float | None:
    if bowler.drift_boards is not None:
        return bowler.drift_boards
    return mean_known(
        seen.shot.slide_board - slide_foot_board(seen.line, bowler)
        for seen in others
        if seen.shot.slide_board is not None
    )
