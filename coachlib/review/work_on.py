"""What to work on: one thing, told from the figures of a student's last sessions, with a drill.

Each figure is held against a yardstick. What lies beyond it even at the careful end of its range counts as
seen; of several the one farthest beyond is named. Where nothing does, that is the answer.

Yardsticks: the spread at the arrows against that of an average of about 200 (US Bowler, July 2012, p. 11; see
:data:`coachlib.world.bowler.ACCURACY_SD_BOARDS`; the source itself: give or take 20 %), widened by what the
eye adds (:data:`coachlib.coaching.simulation.observer.CROSSING_SD_BOARDS`, our guess); few crossings, or a
spread far beyond, against the accuracy set for the bowler; the mean arrival against half the pocket's width;
the slide board by the saying that it must not vary by more than two boards. Speed and spares: our guess.
"""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from coachlib.coaching.simulation.observer import CROSSING_SD_BOARDS
from coachlib.coaching.wording.accuracy_words import NOT_ENTERED, average_text, spreads_text
from coachlib.review.trends import LIKELY_PROB, Count, MeasuredSpread, SessionTrend
from coachlib.study.questions.drills import Drill, Need, drill_for
from coachlib.world.bowler import ACCURACY_SD_BOARDS, USUAL_ACCURACY
from coachlib.world.lane import POCKET_HALF_BOARDS

N_SESSIONS = 3
"""So many last sessions count (our guess: older ones were another bowler)."""

FEWEST_BALLS, FEWEST_SPARES = 10, 6
"""Fewer are not judged (our guess)."""

FEWEST_CROSSED = 5
"""So many crossings are enough to be held against the class entered for the bowler (our guess)."""

WIDER = 1.5
"""A spread so many times that of the class entered is worth working on (our guess)."""

AIM_SD_BOARDS = math.hypot(ACCURACY_SD_BOARDS["200"], CROSSING_SD_BOARDS)
"""The spread of an average of about 200 as an eye behind the foul line notes it."""

SPEED_SD_MPH = 0.5
"""A speed that varies by more is worth working on (our guess)."""

SLIDE_SD_BOARDS = 0.86
"""Spread of a slide board whose five balls lie within two boards: 2 over 2.326, the mean range of five
normals."""

SPARES_MISSED_FRAC = 0.3
"""Three of ten single pins missed are worth working on (our guess)."""


class Finding(NamedTuple):
    """One figure beside its yardstick.

    Parameters
    ----------
    need : str
        What it belongs to, see :data:`coachlib.study.questions.drills.NEEDS`.
    found, low, yardstick : float
        The figure, the careful end of its range, and what it is held against, in one unit.
    n_balls : int
        Balls behind it.
    lane : str
        Where it is the figure of one lane.
    is_high : bool
        For an arrival: whether it is high of the pocket.
    entered_sd_boards : float or None
        For a spread at the arrows: the one entered for the bowler, or assumed, where it is held against
        that. [boards]
    is_accuracy_known : bool
        Whether that one was entered.
    """

    need: Need
    found: float
    low: float
    yardstick: float
    n_balls: int
    lane: str = ""
    is_high: bool = False
    entered_sd_boards: float | None = None
    is_accuracy_known: bool = False

    @property
    def is_seen(self) -> bool:
        """Whether it lies beyond its yardstick even at the careful end."""
        return self.low > self.yardstick


class WorkOn(NamedTuple):
    """The one thing to work on.

    Parameters
    ----------
    need, headline, why : str
        Which kind of thing, what it is, and the figure behind it.
    drill : Drill
        What to do about it.
    is_seen : bool
        Whether a figure lies beyond its yardstick; if not, nothing stands out.
    figure : str
        The figure in a few words, where the headline wants it beside it.
    """

    need: Need
    headline: str
    why: str
    drill: Drill
    is_seen: bool
    figure: str = ""


def work_on(trends: Sequence[SessionTrend]) -> WorkOn:
    """Return the one thing to work on.

    Parameters
    ----------
    trends : sequence of SessionTrend
        Of one student, the oldest first, from :func:`coachlib.review.trends.student_trends`.
    """
    found = findings(trends)
    beyond = [one for one in found if one.is_seen]
    if not beyond:
        return WorkOn("reading", "Nothing stands out", _nothing(found), drill_for("reading"), False)
    worst = max(beyond, key=_excess)
    figure = f"a spread of {worst.found:.1f} boards over {worst.n_balls} balls" if worst.need == "aim" else ""
    return WorkOn(worst.need, _headline(worst), finding_words(worst), drill_for(worst.need), True, figure)


def findings(trends: Sequence[SessionTrend]) -> tuple[Finding, ...]:
    """Return every figure with enough balls behind it, of the last :data:`N_SESSIONS` sessions."""
    last = trends[-N_SESSIONS:]
    found = [
        _of_aim(last),
        _of_spread("speed", [one.speed_mph for one in last], SPEED_SD_MPH),
        _of_spread("walk", [one.drift_boards for one in last], SLIDE_SD_BOARDS),
        *(
            _of_lane(lane, last)
            for lane in dict.fromkeys(lane for one in last for lane in one.arrival_err_boards)
        ),
        _of_spares([one.single_pin_spares for one in last]),
    ]
    return tuple(one for one in found if one is not None)


def finding_words(one: Finding) -> str:
    """Return a figure in a sentence, with its yardstick and the balls behind it."""
    if one.entered_sd_boards is not None:
        return (
            f"The balls cross the arrows with a spread of {one.found:.1f} boards ({one.n_balls} balls as "
            f"noted). {_accuracy_words(one)}, which looks like {one.yardstick:.1f} to the eye. "
            f"Work on it from {WIDER:g} times that (our guess)."
        )
    if one.need == "aim":
        return (
            f"The balls cross the arrows with a spread of {one.found:.1f} boards ({one.n_balls} balls as "
            f"noted, likely more than {one.low:.1f}). Usual by average: {spreads_text()}. To the eye the "
            f"{USUAL_ACCURACY} looks like {one.yardstick:.1f}."
        )
    if one.need == "line":
        side = "high" if one.is_high else "light"
        return (
            f"On lane {one.lane} the ball hits {one.found:.1f} boards {side} of the pocket on average "
            f"({one.n_balls} balls, likely more than {one.low:.1f}). The pocket is {one.yardstick:.1f} "
            "boards wide to each side."
        )
    if one.need == "spares":
        n_missed = round(one.found * one.n_balls)
        return f"Missed: {n_missed} of {one.n_balls} single pins. Work on them from three of ten."
    what, unit = ("The speed varies", "mph") if one.need == "speed" else ("The slide board varies", "boards")
    return (
        f"{what} by {one.found:.1f} {unit} ({one.n_balls} balls, likely more than {one.low:.1f}). "
        f"Up to {one.yardstick:.1f} is fine."
    )


def _accuracy_words(one: Finding) -> str:
    """Return the accuracy that a spread is held against, and whether anybody entered it."""
    boards = f"{one.entered_sd_boards:.2f}"
    if not one.is_accuracy_known:
        return f"Accuracy: {NOT_ENTERED}, {boards}"
    names = [name for name, sd in ACCURACY_SD_BOARDS.items() if sd == one.entered_sd_boards]
    return f"Accuracy entered: {', '.join([*map(average_text, names), boards])}"


def _headline(one: Finding) -> str:
    if one.need == "line":
        return f"The line on lane {one.lane}: it hits {'high' if one.is_high else 'light'}"
    return {
        "aim": "Hitting the target",
        "speed": "The same speed each time",
        "walk": "The same slide board each time",
        "spares": "Single pins",
    }[one.need]


def _excess(one: Finding) -> float:
    return one.low / one.yardstick


def _nothing(found: Sequence[Finding]) -> str:
    if not found:
        return "Too early to tell. Note crossing, hit or speed of ten balls, or try six single pins."
    return "Work on reading the lane."


def _of_aim(last: Sequence[SessionTrend]) -> Finding | None:
    """Return the spread at the arrows beside that of a 200 average or the one entered, the farther off."""
    misses = [one.arrow_miss_boards for one in last]
    known = [_of_spread("aim", misses, AIM_SD_BOARDS)]
    entered = last[-1].entered_sd_boards if last else None
    if entered is not None:
        usual = math.hypot(entered, CROSSING_SD_BOARDS)
        one = _of_spread("aim", misses, usual, FEWEST_CROSSED)
        if one is not None and one.found > WIDER * usual:  # clearly wider
            is_known = last[-1].is_accuracy_known
            low = min(one.low, one.found / WIDER)
            known.append(one._replace(low=low, entered_sd_boards=entered, is_accuracy_known=is_known))
    return max((one for one in known if one is not None), key=_excess, default=None)


def _of_spread(
    need: Need, spreads: Iterable[MeasuredSpread | None], yardstick: float, fewest: int = FEWEST_BALLS
) -> Finding | None:
    """Return the spread within sessions, all of them together, with the low end of its range."""
    known = [one for one in spreads if one is not None and one.sd is not None]
    n_balls, n_free = sum(one.n_balls for one in known), sum(one.n_balls - 1 for one in known)
    if n_balls < fewest:
        return None
    from scipy.special import chdtri

    squares = math.fsum((one.sd or 0.0) ** 2 * (one.n_balls - 1) for one in known)
    low = math.sqrt(squares / float(chdtri(n_free, (1.0 - LIKELY_PROB) / 2.0)))
    return Finding(need, math.sqrt(squares / n_free), low, yardstick, n_balls)


def _of_lane(lane: str, trends: Iterable[SessionTrend]) -> Finding | None:
    """Return the mean arrival on a lane of the last session that was there, with the low end of its range."""
    known = [one.arrival_err_boards[lane] for one in trends if lane in one.arrival_err_boards]
    last = known[-1]
    if last.n_balls < FEWEST_BALLS or last.sd is None:
        return None
    from scipy.special import stdtrit

    sure = float(stdtrit(last.n_balls - 1, (1.0 + LIKELY_PROB) / 2.0))
    low = max(0.0, abs(last.mean) - sure * last.sd / math.sqrt(last.n_balls))
    return Finding("line", abs(last.mean), low, POCKET_HALF_BOARDS, last.n_balls, lane, last.mean > 0)


def _of_spares(counts: Iterable[Count]) -> Finding | None:
    """Return the share of single pins missed, with the low end of its range (Wilson's)."""
    counts = list(counts)
    n_tried, n_made = sum(one.n_tried for one in counts), sum(one.n_made for one in counts)
    if n_tried < FEWEST_SPARES:
        return None
    from scipy.stats import binomtest

    found = binomtest(n_tried - n_made, n_tried)
    low = float(found.proportion_ci(LIKELY_PROB, method="wilson").low)
    return Finding("spares", float(found.statistic), low, SPARES_MISSED_FRAC, n_tried)
