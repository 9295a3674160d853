"""From the forms of the practice panel to a game, and to a line and a ball. Nothing here knows a widget."""

from collections.abc import Mapping
from typing import Any

from coachlib.errors import number_text
from coachlib.study.game.practice_game import N_SCORED, PracticeGame
from coachlib.views.panels.shared.typed import Answers, FormReader, limits_of, quoted, raised, written_number
from coachlib.world.ball import Ball, ball_names, load_ball
from coachlib.world.bowler import Bowler, bowler_names, load_bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern, pattern_names

COUNTS = {"12": "one game", "24": "two games", "36": "three games"}
"""Balls that count, and how many games of first balls that is."""

MOST_LANE_NUMBER = 999_999
FIRST_BALL, FIRST_PATTERN = "hybrid_2000", "house_41"


def known_bowlers(own: Bowler | None) -> dict[str, Bowler]:
    """Return the bowlers to choose from by name: a person's own first, then those of the library."""
    shipped = {name: load_bowler(name) for name in bowler_names()}
    return shipped if own is None else {own.name or "you": own, **shipped}


def start_answers(bowlers: Mapping[str, Bowler], lane_number: int) -> dict[str, str]:
    """Return the form of a new game."""
    return {
        "bowler": next(iter(bowlers)),
        "ball": FIRST_BALL,
        "pattern": FIRST_PATTERN,
        "lane_number": str(lane_number),
        "n_scored": str(N_SCORED),
    }


def game_from(typed: Answers, bowlers: Mapping[str, Bowler]) -> PracticeGame:
    """Return the game that a filled form starts.

    Parameters
    ----------
    typed : mapping
        ``bowler`` (one of `bowlers`), ``ball``, ``pattern``, ``lane_number`` and ``n_scored``.

    Raises
    ------
    InputError
        Naming every wrong field at once, or if no line fits the bowler.
    """
    form = FormReader(typed)
    bowler = _chosen(form, "bowler", "bowler", tuple(bowlers))
    ball = _chosen(form, "ball", "ball", ball_names())
    pattern = _chosen(form, "pattern", "oil pattern", pattern_names())
    count = _chosen(form, "n_scored", "balls that count", tuple(COUNTS))
    number = _lane_number(form)
    form.finish()
    return PracticeGame(load_pattern(pattern), bowlers[bowler], load_ball(ball), number, int(count))


def line_and_ball(typed: Answers) -> tuple[Line, Ball]:
    """Return what stands in the form of the next throw: ``feet``, ``target`` and ``ball``.

    Raises
    ------
    InputError
        Naming every wrong field at once.
    """
    form = FormReader(typed)
    feet = form.number("feet", "feet", limits_of(Line, "feet_board"), needed=True)
    target = form.number("target", "target", limits_of(Line, "target_board"), needed=True)
    ball = _chosen(form, "ball", "ball", ball_names())
    form.finish()
    made: Any = form.made(Line, feet_board=feet, target_board=target)
    form.finish()
    return made, load_ball(ball)


def throw_answers(game: PracticeGame) -> dict[str, str]:
    """Return the form of the next throw: what is held now."""
    line, ball = game.session.line, game.session.ball
    return {
        "feet": written_number(line.feet_board),
        "target": written_number(line.target_board),
        "ball": "" if ball is None else ball.name,
    }


def _chosen(form: FormReader, name: str, label: str, choices: tuple[str, ...]) -> str:
    chosen = form.choice(name, label, choices)
    if not chosen and name not in form.problems:
        form.problems[name] = f"{raised(label)}: choose one of the list. Nothing is chosen."
    return chosen


def _lane_number(form: FormReader) -> int:
    written = form.text("lane_number")
    if written.isascii() and written.isdigit() and len(written) <= len(str(MOST_LANE_NUMBER)):
        return int(written)
    what = f"not {quoted(written)}" if written else "the field is empty"
    form.problems["lane_number"] = (
        f"Lane number: type a whole number, 0 to {number_text(MOST_LANE_NUMBER)}, {what}. "
        "The same number is the same lane for everybody."
    )
    return 0
