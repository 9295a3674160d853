"""Panels: what a person touches in a notebook. The only room with widgets, one file a part."""

from coachlib.views.panels.lane_side.lane_side import LaneSide
from coachlib.views.panels.practice.practice_lane import PracticePanel
from coachlib.views.panels.scoresheet.scoresheet import ScoreSheet
from coachlib.views.panels.shared.lane_picture import LanePicture
from coachlib.views.panels.students.students import StudentsPanel

__all__ = ["LanePicture", "LaneSide", "PracticePanel", "ScoreSheet", "StudentsPanel"]
