"""What a person sees: scenes, charts and panels. Nothing here computes what the coaching rooms decide.

Charts, tables and panels can be imported from here; each is loaded when it is first asked for.
"""

from typing import Any

from coachlib.roofs import load_from, places_of

_CHARTS, _PANELS = "coachlib.views.charts", "coachlib.views.panels"
_ROOMS = {
    f"{_CHARTS}.bag_chart": "bag_chart",
    f"{_CHARTS}.balls_chart": "balls_chart",
    f"{_CHARTS}.carry_tables": "changes_chart facts_table numbers_table reasons_table steps_table "
    "strike_changes_table",
    f"{_CHARTS}.lesson_charts": "Curve curves_chart",
    f"{_CHARTS}.lesson_rows": "answers_chart estimates_chart move_answers",
    f"{_CHARTS}.levers_chart": "levers_chart levers_table",
    f"{_CHARTS}.season_tables": "groups_table held_table kept_chart reliability_chart scores_table "
    "ways_table",
    f"{_CHARTS}.trends_chart": "trends_chart",
    "coachlib.views.lane.lane_chart": "lane_chart",
    "coachlib.views.lane.scene": "lane_scene lines_scene",
    "coachlib.views.print.worksheet_lane": "lane_svg",
    "coachlib.views.print.worksheet_words": "hook_text move_answer predict_rows predict_texts read_answer",
    "coachlib.views.theme": "enable_pictures",
    f"{_PANELS}.clinic.clinic": "Clinic",
    f"{_PANELS}.compare_balls.compare_balls": "CompareBalls",
    f"{_PANELS}.lane_side.lane_side": "LaneSide",
    f"{_PANELS}.lesson.lesson": "LessonPanel lesson_picture",
    f"{_PANELS}.practice.practice_lane": "PracticePanel",
    f"{_PANELS}.practice.practice_view": "headline_seen",
    f"{_PANELS}.shared.parts": "ProgressBar",
    f"{_PANELS}.shared.warm_up": "warm_up",
    f"{_PANELS}.students.students": "StudentsPanel",
    f"{_PANELS}.try_move.try_move": "TryMove move_scene",
}
_PLACES = places_of(_ROOMS)


def __getattr__(name: str) -> Any:
    """Return what has this name from its room."""
    return load_from(_PLACES, __name__, name)
