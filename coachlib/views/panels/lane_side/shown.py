"""What the panel shows beside session and log."""

import dataclasses
from typing import Any

from coachlib.views.panels.lane_side.set_up_form import SetUp
from coachlib.views.panels.shared.typed import Answers


@dataclasses.dataclass
class Shown:
    """What the panel shows beside session and log, and may forget.

    Parameters
    ----------
    preferences : SetUp
        The lanes of the pair, the speed unit and who the sentences speak to.
    offer : dict or None
        A last session to go on with.
    status : str
        What was logged last.
    watch_for : str
        What to look for after a move.
    start_words : str
        What was said of the starting line that was asked for last.
    n_starts : int
        How often one was asked for, so that the page sees each answer.
    planned : SetUp or None
        What the form said with the starting line that was found last.
    is_open : bool
        Whether the who-and-line form stands open.
    is_settled : bool
        Whether it was said that the line stays.
    correcting : int or None
        The earlier ball in the form.
    asked : mapping
        The form that was asked about: sent again unchanged it is taken.
    put_by : tuple of dict and bool
        What stood in the form before an earlier ball was opened, and whether it was read.
    passed_spare : int or None
        The first ball whose spare was passed over.
    summary : dict or None
        The summary of the session that is about to end.
    ending : str or None
        Its place in the log.
    games_shown : str
        The games on this lane as the form showed them when it was opened.
    start_line : tuple of two str, optional
        Feet and target suggested, where others were typed already.
    """

    preferences: SetUp = dataclasses.field(default_factory=SetUp)
    offer: dict[str, Any] | None = None
    status: str = ""
    watch_for: str = ""
    start_words: str = ""
    n_starts: int = 0
    planned: SetUp | None = None
    is_open: bool = False
    is_settled: bool = False
    correcting: int | None = None
    asked: Answers = dataclasses.field(default_factory=dict)
    draft: tuple[dict[str, Any], bool] = ({}, False)
    games_shown: str = ""
    passed_spare: int | None = None
    summary: dict[str, Any] | None = None
    ending: str | None = None
    start_line: tuple[str, str] | None = None
