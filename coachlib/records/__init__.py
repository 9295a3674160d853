"""What was done: the log of sessions and the students. The only room that keeps a person's data."""

from coachlib.records.log.entries import LoggedSession, NewSession
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.replay import Replay
from coachlib.records.log.student import Student
from coachlib.records.students.students import ListedStudent, Students

__all__ = ["ListedStudent", "Logbook", "LoggedSession", "NewSession", "Replay", "Student", "Students"]
