"""What the lessons and notebooks use beside the public face, under one roof: import it from here.

Files and rooms may move; these names stay. Each is loaded when it is first asked for. Charts, tables and
panels stand in :mod:`coachlib.views`.
"""

from typing import Any

from coachlib.roofs import load_from, places_of

_COACHING = "coachlib.coaching"
_ROOMS = {
    f"{_COACHING}.bowler_profile.bowler_estimate": "estimate_bowler estimate_lines",
    f"{_COACHING}.bowler_profile.own_numbers": "own_numbers",
    f"{_COACHING}.simulation.leave_forecast": "deck_words leaves_of",
    f"{_COACHING}.simulation.line_search": "best_line on_starting_line",
    f"{_COACHING}.simulation.candidate_lines": "playable_lines",
    f"{_COACHING}.simulation.observer": "seen_shots",
    f"{_COACHING}.simulation.what_if": (
        "aim_rooms_boards arrival_changes_boards headings_deg meant_release simulate_lines thrower_of"
    ),
    f"{_COACHING}.wording.changes_words": "worth_line",
    f"{_COACHING}.wording.surface_words": "surface_text",
    "coachlib.physics.flare": "flare",
    "coachlib.physics.motion": "loss_when_rolled_mph turn_when_rolled_deg",
    "coachlib.physics.pins.build.carry_checks": "ball_way number_checks step_checks",
    "coachlib.physics.pins.build.carry_errors": "strike_prob_error",
    "coachlib.physics.pins.build.carry_facts": "published_facts scattered_strike_frac",
    "coachlib.physics.pins.build.carry_ship": "read_shipped_racks",
    "coachlib.physics.pins.carry_file": "shipped_table",
    "coachlib.physics.pins.first_hit": "first_hit",
    "coachlib.physics.wear": "wear_after wear_after_games",
    "coachlib.records.spreadsheets.csv_log": "import_sessions sessions_csv",
    "coachlib.records.spreadsheets.own_sheet": "import_own_sheet preview",
    "coachlib.records.spreadsheets.sheet": "read_sheet",
    "coachlib.review.demo_log": "demo_log",
    "coachlib.review.take_home": "take_home",
    "coachlib.review.trends": "student_trends",
    "coachlib.review.work_on": "work_on",
    "coachlib.study.game.practice_end": "practice_end",
    "coachlib.study.game.practice_game": "PracticeGame",
    "coachlib.study.game.practice_words": "again_text fell_text kept_text lines_head lines_text lost_text",
    "coachlib.study.questions.ask": "make_question",
    "coachlib.study.questions.asker": "starting_session usual_learner",
    "coachlib.study.questions.changes": "Change changed",
    "coachlib.study.questions.pin_questions": "rule_side side_shares",
    "coachlib.study.questions.question": "mark",
    "coachlib.study.questions.stray_balls": "same_side_prob",
    "coachlib.study.questions.what_changes": "coming_in",
    "coachlib.study.questions.worksheet_levels": "LEVELS",
    "coachlib.study.questions.worksheet_tasks": "MoveTask PredictTask ReadTask",
    "coachlib.study.questions.worksheets": "worksheet worksheets",
    "coachlib.study.seasons.change_figures": "changes_notes changes_table",
    "coachlib.study.seasons.season_figures": "season_honesty season_notes season_scores",
    "coachlib.world.layout": "Layout",
    "coachlib.world.line": "after_move",
    "coachlib.world.oil": "thinned",
    "coachlib.world.oil_shape": "ramp_pattern with_typical_film",
    "coachlib.world.surface": "with_surface",
    f"{_COACHING}.equipment": "bag ball_comparison ball_plan ball_sensitivity field_test layouts surface",
    f"{_COACHING}.simulation": "what_if",
    f"{_COACHING}.wording": "bag_words ball_comparison_words field_test_words",
}
_PLACES = places_of(_ROOMS)

__all__ = sorted(_PLACES)


def __getattr__(name: str) -> Any:
    """Return what has this name from its room."""
    return load_from(_PLACES, __name__, name)
