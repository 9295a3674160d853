"""One published statement about carry beside what the simulator says, and why they differ where they do."""

import math
from typing import NamedTuple

STUDY = "P. Ridenour, federation research, quoted in a bowling wiki"
SUMMARY = "summary of federation papers, quoted second-hand"
COLUMN = "J. Thomas, column on six televised games"
SAYING = "glossaries and coaching pages"


class CheckedFact(NamedTuple):
    """A statement, what is expected and what is simulated, as texts; `agrees` is None where not tested."""

    statement: str
    expected: str
    simulated: str
    agrees: bool | None
    source: str

    @property
    def verdict(self) -> str:
        """The verdict in one word or two."""
        return {True: "agrees", False: "differs", None: "not tested"}[self.agrees]

    @property
    def why(self) -> str:
        """Why the two differ; empty where they agree or nobody knows."""
        return "" if self.agrees else WHY.get(self.statement, "")


_LEVEL = (
    "The level of carry is uncertain by about 10 in 100, and the factor that sets it sees pocket hits only."
)
WHY = {
    "the 4-9 next, higher still": "The 4-7 is commoner there, and the 7 alone.",
    "the bucket, light": (
        "Next to none of the racks left it. Its 2-4-5 comes near board 14, mostly under a light ball. Why "
        "the 8 never stays with them is not known."
    ),
    "the 9-pin, steep and a little high": (
        "It is seen there, but commoner where the ball crosses over to the far side of the head pin."
    ),
    "8-10 and 5-7, light and flat": "The 5 alone is commoner there; the 5-7 stays farther outside.",
    "the 2-8 and the 2-10, thin": (
        "They come, near board 14, but seldom: nearer the pocket the 2 goes, farther out the 1 stays as well."
    ),
    "the ball alone hits 1, 3, 5 and 9": (
        "It does so half a board farther inside. Friction and restitution between ball and pin were never "
        "published, and both turn the ball."
    ),
    "a flush ball leaves between 8 and 9, near board 19": (
        "It does so a board farther inside. The article may count boards at first contact, which would be "
        "half a board of it; the rest is the simulator's."
    ),
    "the 9-pin: the ball goes 1-3-5-8": (
        "Where the ball reaches the 8, the head pin has taken the 5 already. Only the commonest way of each "
        "arrival is kept."
    ),
    "a professional's strikes, all first balls": _LEVEL,
    "strikes among a professional's pocket hits": _LEVEL,
    "strikes of ten professionals in 14 games": _LEVEL,
    "6 to 8 deg, in an older club text": (
        "Texts disagree. In the simulator more angle never hurts up to 8 deg, but the gain gets smaller."
    ),
    "strikes do not hang on the strikes before, within a game": (
        "Simulated balls are independent. A second paper (Dorsey-Palmateer and Smith, Am. Statistician, "
        "2004) finds that some professionals' are not; that would lie in the bowler, not in the rack."
    ),
    "strikes by board, angle and speed, the whole grid": "It was plotted; no readable numbers were found.",
}
"""The reason for each known difference, by statement."""


def wilson_interval(n_hits: int, n_balls: int) -> tuple[float, float]:
    """Return the 95 % interval of a share, 1.96 standard errors to each side after Wilson."""
    from scipy.stats import binomtest

    found = binomtest(n_hits, n_balls).proportion_ci(math.erf(1.96 / math.sqrt(2.0)), method="wilson")
    return float(found.low), float(found.high)


def pct(share: float, error: float | None = None) -> str:
    """Return a share in percent, as published shares are given, with one standard error if there is one."""
    return f"{100 * share:.0f} %" + (f" ± {100 * error:.0f}" if error else "")
