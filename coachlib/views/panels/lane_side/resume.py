"""The offer to go on where the last session stopped, made when a panel opens."""

from typing import Any

from coachlib.errors import DataFileError
from coachlib.records.log.logbook import Logbook

NEW = {"action": "start_new", "words": "New session"}


def offer_to_go_on(logbook: Logbook) -> dict[str, Any] | None:
    """Return words and choices for a session that was not closed, or for a log that cannot be read.

    Parameters
    ----------
    logbook : Logbook
        The person's log.

    Returns
    -------
    dict or None
        ``words`` and ``choices``; None where nothing is open.
    """
    try:
        key = logbook.latest_open()
    except DataFileError as error:
        choices = [{"action": "set_log_aside", "words": "Keep that file under another name, start a new log"}]
        return {"words": str(error), "choices": choices}
    if key is None:
        return None
    try:
        return {"words": open_words(logbook, key), "choices": [{"action": "go_on", "words": "Go on"}, NEW]}
    except DataFileError as error:
        return {"words": str(error), "choices": [NEW]}


def open_words(logbook: Logbook, key: str) -> str:
    """Return who threw what when in the session not closed: ``Maija, ball 7, lane 8, 25 Nov 14:05``."""
    logged = next(one for one in logbook.sessions() if one.key == key)
    session = logbook.replay(key)
    when = logged.last_event.astimezone()
    who = session.bowler.name or "no name"
    balls = f"ball {len(session.shots)}" if session.shots else "no ball yet"
    return f"The last session was not ended: {who}, {balls}, lane {session.lane}, {when.day} {when:%b %H:%M}."
