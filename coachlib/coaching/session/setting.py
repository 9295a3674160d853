"""What holds in a session until it is changed, and what may happen in one: a ball, a change, a correction."""

import dataclasses
from typing import Annotated, Any

from coachlib.validation import Letters, Limits, thing
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

LaneName = Annotated[str, Letters(20, least=1)]
Games = Annotated[float, Limits(0, 60, "games", "Count the games played on this lane since it was oiled.")]


@thing
class Setting:
    """What holds until it is changed.

    Parameters
    ----------
    bowler : Bowler
        Who throws.
    line : Line
        The line being played on this lane.
    ball : Ball or None
        The ball in the hand.
    pattern : OilPattern or None
        None: not known.
    lane : str
        The lane of the pair, as the centre numbers it.
    games_on_lane : float
        Games played on this lane since it was oiled, as last stated.
    scoring_started : bool
        From then on no surface may be altered.
    place : Place
        What was told of lane and hall; it holds for both lanes of the pair.
    goes_on_with_pain : bool
        Whether the coach said to go on although pain is noted; pain noted anew takes it back.
    """

    bowler: Bowler
    line: Line
    ball: Ball | None = None
    pattern: OilPattern | None = None
    lane: LaneName = "1"
    games_on_lane: Games = 0.0
    scoring_started: bool = False
    place: Place = Place()
    goes_on_with_pain: bool = False


def fields_of(setting: Setting) -> dict[str, Any]:
    """Return what holds, by the names of the fields of :class:`Setting`; also of a whole session."""
    return {field.name: getattr(setting, field.name) for field in dataclasses.fields(Setting)}


@thing
class Observed:
    """One ball seen, with what held when it was thrown."""

    number: int
    shot: Shot
    setting: Setting

    @property
    def line(self) -> Line:
        """The line it was thrown on."""
        return self.setting.line

    @property
    def lane(self) -> str:
        """The lane it was thrown on."""
        return self.setting.lane

    @property
    def ball(self) -> Ball | None:
        """The ball it was thrown with."""
        return self.setting.ball


@thing
class Changed:
    """A change of line, ball, lane or anything else that holds until changed.

    ``is_oiled`` says that the lane has fewer games now than were played on it: it was oiled again.
    """

    was: Setting
    now: Setting
    is_oiled: bool = False

    @property
    def is_move(self) -> bool:
        """Whether line or ball changed."""
        return self.was.line != self.now.line or self.was.ball != self.now.ball

    @property
    def is_oiled_anew(self) -> bool:
        """Whether the lane was oiled again; a log of older versions tells it by fewer games stated."""
        is_less = self.was.lane == self.now.lane and self.now.games_on_lane < self.was.games_on_lane
        return self.is_oiled or is_less


@thing
class Corrected:
    """A ball that was seen differently; the ball itself already holds what is right now."""

    number: int
    was: Shot
    now: Shot

    @property
    def is_of_spare(self) -> bool:
        """Whether it was a spare ball and still is one: no answer to a first ball hangs on it."""
        return self.was.is_spare and self.now.is_spare


Event = Observed | Changed | Corrected
