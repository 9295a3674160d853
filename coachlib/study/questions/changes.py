"""One thing that changes between two balls: a move, speed, hand, ball, surface, oil, or a miss.

The sizes are a question's; what the change does to the ball is the simulation's.
"""

import dataclasses
import functools
from collections.abc import Mapping
from typing import Annotated, Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.what_if import thrower_of
from coachlib.coaching.wording.callouts import move_text, side_text
from coachlib.coaching.wording.names import short_name
from coachlib.physics.wear import wear_after_games
from coachlib.validation import Letters, Limits, thing
from coachlib.world.ball import load_ball, resurfaced
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand
from coachlib.world.line import Line, Move, after_move
from coachlib.world.oil import OilPattern, load_pattern
from coachlib.world.parsing import boards_text
from coachlib.world.usual import as_usual

LEAST_MPH, MOST_MPH = 8.0, 25.0


@thing
class Change:
    """What is different the next time; what is left at 0 or empty stays.

    Parameters
    ----------
    feet, eyes : float
        Move of feet and eyes, `+` inside. [boards]
    miss : float
        How far inside of the target the ball crosses, laydown kept. [boards]
    speed_mph : float
        Faster, or slower. [mph]
    rotation_deg, tilt_deg : float
        More axis rotation or axis tilt, or less. [deg]
    revs_rpm : float
        More revolutions, or fewer. [rpm]
    ball, pattern : str
        Another ball or pattern of the data, by its name.
    grit : float
        The last pad on the ball in the hand. [grit]
    is_polished : bool
        Whether polish was put on after that pad.
    games : float
        Games since, of this bowler and three others who play like them. [games]
    """

    feet: Annotated[float, Limits(-15, 15, "boards")] = 0.0
    eyes: Annotated[float, Limits(-15, 15, "boards")] = 0.0
    miss: Annotated[float, Limits(-6, 6, "boards")] = 0.0
    speed_mph: Annotated[float, Limits(-4, 4, "mph")] = 0.0
    rotation_deg: Annotated[float, Limits(-45, 45, "deg")] = 0.0
    tilt_deg: Annotated[float, Limits(-20, 20, "deg")] = 0.0
    revs_rpm: Annotated[float, Limits(-250, 250, "rpm")] = 0.0
    ball: Annotated[str, Letters(40)] = ""
    pattern: Annotated[str, Letters(40)] = ""
    grit: Annotated[float, Limits(0, 10000, "grit")] = 0.0
    is_polished: bool = False
    games: Annotated[float, Limits(0, 6, "games")] = 0.0

    @property
    def move(self) -> Move:
        """The move of feet and eyes."""
        return Move(feet_boards=self.feet, target_boards=self.eyes)


def change_of(fields: Mapping[str, Any]) -> Change:
    """Return the change of a file's table, whole numbers taken as numbers; an InputError as of Change."""
    given: Any = {name: float(one) if type(one) is int else one for name, one in fields.items()}
    return Change(**given)


def changed(session: Session, change: Change) -> Session:
    """Return the session after a change; its line, bowler, ball and pattern may be others.

    Raises
    ------
    InputError
        If the change leads off the lane or the approach, or ball or pattern are unknown.
    """
    line = after_move(session.line, change.move)
    line = dataclasses.replace(line, target_board=line.target_board + change.miss)
    ball = load_ball(change.ball) if change.ball else session.ball
    if ball is not None and (change.grit or change.is_polished):
        ball = resurfaced(ball, change.grit or ball.grit, change.is_polished)
    pattern = load_pattern(change.pattern) if change.pattern else session.pattern
    if pattern is not None and change.games:
        pattern = _worn(dataclasses.replace(session, pattern=pattern), change.games)
    return dataclasses.replace(
        session, line=line, ball=ball, pattern=pattern, bowler=_changed_bowler(session, change)
    )


def change_text(change: Change, hand: Hand) -> str:
    """Return a change as a sentence to who throws, such as ``You move feet 2 left, eyes 1 left``."""
    parts = [
        _move_words(change, hand),
        f"You miss your target by {boards_text(change.miss)} to the {side_text(change.miss, hand)}"
        if change.miss
        else "",
        _more("You throw it", change.speed_mph, "mph", ("faster", "slower")),
        _more("You come round the ball", change.rotation_deg, "degrees", ("more", "less")),
        _more("Your axis tilts", change.tilt_deg, "degrees", ("more", "less")),
        _more("You turn it", change.revs_rpm, "revs", ("more", "fewer")),
        f"You take the {short_name(change.ball)}" if change.ball else "",
        f"You play it on the {short_name(change.pattern)} pattern" if change.pattern else "",
        f"Your ball was sanded with a {change.grit:g} pad" if change.grit else "",
        "It is polished" if change.is_polished else "",
        f"Four bowlers like you have thrown {_games(change.games)}" if change.games else "",
    ]
    return " ".join(f"{part}." for part in parts if part)


def _move_words(change: Change, hand: Hand) -> str:
    if not (change.feet or change.eyes):
        return ""
    if change.feet and change.eyes:
        feet, eyes = side_text(change.feet, hand), side_text(change.eyes, hand)
        return f"You move feet {boards_text(change.feet)} {feet}, eyes {boards_text(change.eyes)} {eyes}"
    text = move_text(change.move, hand)
    return f"You move: {text[0].lower()}{text[1:]}"


def _more(head: str, size: float, unit: str, ways: tuple[str, str]) -> str:
    return f"{head} {boards_text(size)} {unit} {ways[size < 0]}" if size else ""


def _games(games: float) -> str:
    return "one game" if games == 1 else f"{boards_text(games)} games"


def _changed_bowler(session: Session, change: Change) -> Bowler:
    if not (change.speed_mph or change.rotation_deg or change.tilt_deg or change.revs_rpm):
        return session.bowler
    usual = as_usual(session.bowler, session.ball)
    return dataclasses.replace(
        usual,
        speed_mph=(usual.speed_mph or 0.0) + change.speed_mph,
        rev_rate_rpm=(usual.rev_rate_rpm or 0.0) + change.revs_rpm,
        axis_rotation_deg=(usual.axis_rotation_deg or 0.0) + change.rotation_deg,
        axis_tilt_deg=(usual.axis_tilt_deg or 0.0) + change.tilt_deg,
    )


@functools.lru_cache(maxsize=32)
def _worn(session: Session, games: float) -> OilPattern:
    """Return the pattern after four bowlers on lines a board or two apart have played on it."""
    pattern = session.pattern
    lines = [_beside(session.line, boards) for boards in (0.0, -1.0, 1.0, 2.0)]
    throwers = [thrower_of(dataclasses.replace(session, line=line)) for line in lines]
    assert pattern is not None
    return wear_after_games(pattern, throwers, games)


def _beside(line: Line, boards: float) -> Line:
    return after_move(line, Move(feet_boards=boards, target_boards=boards))
