"""What the balls tell of a bowler, in sentences: how much is known now, and what they cannot tell."""

from coachlib.coaching.bowler_profile.bowler_estimate import NAMES, BowlerEstimate, Estimate

_WORDS = {"rev_rate_rpm": "revs", "axis_rotation_deg": "rotation", "film_frac": "film"}


def estimate_lines(estimate: BowlerEstimate) -> tuple[str, ...]:
    """Return what is told, one sentence a number, then what stands in for what.

    Parameters
    ----------
    estimate : BowlerEstimate
        From :func:`coachlib.coaching.bowler_profile.bowler_estimate.estimate_bowler`.
    """
    told = [_line(name, getattr(estimate, name)) for name in NAMES]
    tied = [
        f"The balls cannot tell {_WORDS[one]} from {_WORDS[other]}: each can stand in for the other."
        for one, other in estimate.tied
    ]
    return (f"Balls weighed: {estimate.n_balls}.", *told, *tied)


def _line(name: str, estimate: Estimate) -> str:
    now = _amount(name, estimate.mean, estimate.sd)
    before = _amount(name, estimate.assumed_mean, estimate.assumed_sd)
    if estimate.is_told:
        return f"{_WORDS[name].capitalize()}: {now}. Assumed before: {before}."
    return f"{_WORDS[name].capitalize()}: the balls cannot tell. Believed: {now}; assumed before: {before}."


def _amount(name: str, mean: float, sd: float) -> str:
    if name == "film_frac":
        return f"{100 * mean:.0f} % of the sheet, give or take {100 * sd:.0f}"
    unit = " rpm" if name == "rev_rate_rpm" else "°"
    return f"{mean:.0f}{unit}, give or take {sd:.0f}"
