"""A score sheet by taps, beside a session of the log: strikes and leaves are on disk with each ball."""

from collections.abc import Sequence
from typing import Any

import traitlets

from coachlib.coaching.session.scoresheet import (
    FrameLeaves,
    LeftPins,
    games_of,
    is_frame_over,
    marks_of,
    rolls_of,
    sheet_steps,
)
from coachlib.coaching.session.session import Session
from coachlib.errors import InputError
from coachlib.records.log.logbook import Logbook
from coachlib.views.panels.shared.panel import Panel, action, report_errors
from coachlib.views.panels.shared.parts import View, script, styled
from coachlib.world import game
from coachlib.world.hand import Hand, own_pins
from coachlib.world.pins import ALL_PINS


class ScoreSheet(Panel, View):
    """The sheet of one session's game, see :func:`sheet_view`; as the last line of a cell it shows itself.

    A ball of the sheet that the log has already is mended where its pins differ; any other is added. It
    begins with the game that is not finished, or with the ball after the last one.

    Parameters
    ----------
    logbook : Logbook, optional
        The log; by default the person's own.
    session_key : str, optional
        The session; by default the one written to last that was not ended.
    is_strict : bool, default False
        Raise errors again after they were shown; for tests.
    """

    _esm = script("scoresheet/scoresheet.js")
    _css = styled("shared/style.css", "scoresheet/scoresheet.css")

    errors = traitlets.Dict().tag(sync=True)

    def __init__(
        self, logbook: Logbook | None = None, session_key: str | None = None, *, is_strict: bool = False
    ) -> None:
        super().__init__()
        self.is_strict, self.logbook = is_strict, logbook or Logbook()
        self.key = session_key or ""
        self.frames: tuple[FrameLeaves, ...] = ()
        self.first_ball = 1
        self._n_steps: list[int] = []
        self._session: Session | None = None
        self.add_class("coach")
        self.listen_to(self)
        self._begin()

    @report_errors(part="sheet")
    def _begin(self) -> None:
        self.look = {"frames": [], "title": "", "pins": []}
        self.key = self.key or self.logbook.latest_open() or ""
        self._session = self._current()
        self.frames, self.first_ball = unfinished_game(self._session)
        self._show()

    @action(part="sheet")
    def ball(self, pins: Sequence[int]) -> None:
        """Enter a ball: the pins that stand after it, as numbered on the lane; none for all down."""
        session = self._current()
        leave = own_pins(pins, session.bowler.hand)
        frames = with_ball(self.frames, leave)
        found = sheet_steps(session, frames, self.first_ball)
        if found.steps:
            self.logbook.append_all(self.key, found.steps)
        self._session = self.logbook.replay(self.key)
        self.frames = frames
        self._n_steps.append(len(found.steps))
        self._show(left_out=len(frames) in found.left_out)

    @action(part="sheet")
    def take_back(self) -> None:
        """Take the last ball of the sheet back, in the log too."""
        session = self._current()
        if not self._n_steps:
            message = "Correct that ball on the lane side. No ball of this sheet is left to take back."
            raise InputError(message)
        if self._session != session:
            message = (
                "Take the ball back on the lane side. The session was changed there since: it now has "
                f"{len(session.shots)} balls."
            )
            raise InputError(message)
        n_steps = self._n_steps[-1]
        if n_steps:
            self.logbook.append_all(self.key, [("undo", {})] * n_steps)
        self._n_steps.pop()
        self.frames = without_last(self.frames)
        self._session = self.logbook.replay(self.key)
        self._show()

    @action(part="sheet")
    def new_game(self) -> None:
        """Begin another game with the next ball of the session."""
        session = self._current()
        self.frames, self.first_ball, self._n_steps = (), len(session.shots) + 1, []
        self._session = session
        self._show()

    def _current(self) -> Session:
        """Return the session as the log has it now: another panel may have added balls."""
        if not self.key:
            message = "Start a session on the lane side first. None is open to keep the balls in."
            raise InputError(message)
        return self.logbook.replay(self.key)

    def _show(self, *, left_out: bool = False) -> None:
        bowler = (self._session or self._current()).bowler
        look = sheet_view(self.frames, bowler.hand, bowler.name, left_out=left_out)
        self.look = {**look, "can_undo": bool(self._n_steps)}


def unfinished_game(session: Session) -> tuple[tuple[FrameLeaves, ...], int]:
    """Return the frames of the game that is not finished, and the ball with which it began.

    Where the balls logged do not make a sheet (pins not noted, spare balls left out), the sheet begins empty
    with the first ball, to be filled in.
    """
    try:
        games = games_of(ball.shot for ball in session.shots)
    except InputError:
        return (), 1
    if not games or game.is_complete(rolls_of(games[-1])):
        return (), len(session.shots) + 1
    n_before = sum(len(frame) for one in games[:-1] for frame in one)
    return games[-1], n_before + 1


def with_ball(frames: tuple[FrameLeaves, ...], leave: LeftPins) -> tuple[FrameLeaves, ...]:
    """Return the sheet with one more ball.

    Raises
    ------
    InputError
        If the game is over, or a pin stands that was down before.
    """
    if game.is_complete(rolls_of(frames)):
        message = "Press “New game” for the next ball. This game is over."
        raise InputError(message, {"frames": message})
    is_new = not frames or is_frame_over(frames)
    after = (*frames, (leave,)) if is_new else (*frames[:-1], (*frames[-1], leave))
    rolls_of(after)  # raises where a pin stands that was down
    return after


def without_last(frames: tuple[FrameLeaves, ...]) -> tuple[FrameLeaves, ...]:
    """Return the sheet without its last ball."""
    if not frames:
        return ()
    last = frames[-1][:-1]
    return (*frames[:-1], last) if last else frames[:-1]


def standing_pins(frames: tuple[FrameLeaves, ...]) -> LeftPins:
    """Return the pins that stand before the next ball, own frame; none when the game is over."""
    if game.is_complete(rolls_of(frames)):
        return ()
    if not frames or is_frame_over(frames):
        return ALL_PINS
    return frames[-1][-1] or ALL_PINS


def sheet_view(
    frames: tuple[FrameLeaves, ...], hand: Hand, name: str, *, left_out: bool = False
) -> dict[str, Any]:
    """Return how the sheet looks, the pins as numbered on the lane.

    Parameters
    ----------
    frames : tuple of frames
        Pins standing after each ball, own frame.
    left_out : bool, default False
        Whether the last ball could not come into the log, since later balls were logged already.
    """
    rolls = rolls_of(frames)
    sums = ("" if one.running_score is None else str(one.running_score) for one in game.frames(rolls))
    cells = [{"marks": mark, "sum": total} for mark, total in zip(marks_of(frames), sums, strict=True)]
    cells += [{"marks": "", "sum": ""}] * (game.N_FRAMES - len(cells))
    is_over = game.is_complete(rolls)
    standing = standing_pins(frames)
    return {
        "name": name,
        "frames": cells,
        "title": "The game is over." if is_over else _title(frames),
        "pins": list(own_pins(standing, hand)),
        "is_over": is_over,
        "all_down": "Spare" if standing != ALL_PINS else "Strike",
        "best": "" if is_over or not rolls else f"Best score still possible: {game.max_possible(rolls)}",
        "note": _LEFT_OUT if left_out else "",
    }


_LEFT_OUT = (
    "This ball is on the sheet only. Later balls are in the log already, and the log keeps their order."
)


def _title(frames: tuple[FrameLeaves, ...]) -> str:
    is_new = not frames or is_frame_over(frames)
    frame, ball = (len(frames) + 1, 1) if is_new else (len(frames), len(frames[-1]) + 1)
    return f"Frame {frame}, ball {ball}: tap the pins left"
