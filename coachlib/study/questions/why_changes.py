"""Why a ball hits elsewhere after a change, in one sentence, read off the two simulated balls."""

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.callouts import side_text
from coachlib.study.questions.changes import Change
from coachlib.world.hand import Hand
from coachlib.world.levers import pivot_ft

SEEN_TURN_FT = 0.75
"""A hook that begins less than this earlier or later begins about where it did (our guess) [ft]."""


def why_hit(change: Change, now: Session, after: Session, hand: Hand) -> str:
    """Return why the ball hits where it does after the change."""
    turn = _turn_words(now, after)
    if change.feet or change.eyes:
        return _why_move(change, now, hand, turn)
    if change.miss:
        return f"The whole line turns at your feet. {turn}"
    if change.speed_mph:
        less = "less" if change.speed_mph > 0 else "more"
        return f"A {'faster' if change.speed_mph > 0 else 'slower'} ball has {less} time to hook. {turn}"
    if change.rotation_deg or change.tilt_deg or change.revs_rpm:
        return f"{_why_hand(change, now, after)} {turn}"
    if change.games:
        return f"The oil on your line has thinned where everybody rolls. {turn}"
    return turn


def _why_move(change: Change, now: Session, hand: Hand, turn: str) -> str:
    feet, eyes = change.feet, change.eyes
    if feet == eyes:
        return f"Feet and eyes move the same, so the whole line moves over. {turn}"
    crosses_ft = pivot_ft(change.move, now.bowler.walk, now.line.target_ft, now.bowler.stance_ft)
    if 0 < crosses_ft < 60 and feet * eyes > 0:
        more = "more" if abs(feet) > abs(eyes) else "less"
        side = side_text(-feet, hand)
        return (
            f"Your feet move {more} than your eyes, so the new line crosses the old one at "
            f"{crosses_ft:.0f} ft and runs {side} of it from there. {turn}"
        )
    side = side_text(eyes - feet, hand)
    return f"The line now points further {side}. {turn}"


def _why_hand(change: Change, now: Session, after: Session) -> str:
    """Return what another hand does to the ball, with where the hook ends if that is what moves."""
    if change.revs_rpm:
        return "More revs, more hook." if change.revs_rpm > 0 else "Fewer revs, less hook."
    if change.tilt_deg:
        taken = "takes a share of the revs away" if change.tilt_deg > 0 else "gives a share of the revs back"
        return f"{'More' if change.tilt_deg > 0 else 'Less'} tilt {taken}."
    first, second = (line_paths(one, one.line).path.roll_ft[0] for one in (now, after))
    more, way = ("More", "later") if change.rotation_deg > 0 else ("Less", "sooner")
    ends = f": its hook ends {abs(second - first):.0f} ft {way}" if abs(second - first) >= 1 else ""
    return f"{more} rotation, {more.lower()} sideways turn in the ball{ends}."


def _turn_words(now: Session, after: Session) -> str:
    """Return where the ball turns compared with before."""
    first, second = (line_paths(one, one.line) for one in (now, after))
    later = second.breakpoint_ft - first.breakpoint_ft
    if not abs(later) >= SEEN_TURN_FT:
        return "It turns back about where it did."
    return f"It turns back {abs(later):.0f} ft {'later' if later > 0 else 'sooner'}."
