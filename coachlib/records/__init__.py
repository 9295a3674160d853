"""What was done: the log of sessions and the students. The only room that keeps a person's data."""

from coachlib.records.entries import LoggedSession, NewSession
from coachlib.records.logbook import Logbook
from coachlib.records.story import Story
from coachlib.records.student import Student
from coachlib.records.students import ListedStudent, Students

__all__ = ["ListedStudent", "Logbook", "LoggedSession", "NewSession", "Story", "Student", "Students"]
