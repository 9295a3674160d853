"""What was done: the log of sessions. The only room that keeps a person's data."""

from coachlib.records.logbook import Logbook, LoggedSession

__all__ = ["Logbook", "LoggedSession"]
