"""Manners that are due in every answer, whatever was thrown; each returns what is wrong, or nothing.

They are the promises a coach holds the panel to: no number off the lane, no contradiction on one screen, no
gain shown that is none, care before sanding.
"""

import re
from collections.abc import Callable

from coachlib import Advice
from coachlib.coaching.session.ball_reading import missed_boards
from coachlib.coaching.simulation.outcomes import n_of_twenty
from tests.sequence_checks import COUNTS, NUMBER, board, holds
from tests.sequence_play import OF_THE_BALL, Answer

FIRST_BOARD, LAST_BOARD = 1.0, 39.0
HIGHEST, LIGHTEST = 39.5 - 17.5, 17.5 - 0.5
DEAD_ON_BOARDS = 0.5

_BOARD = re.compile(rf"\b(?:board|target) ({NUMBER})(?![\d¼½¾]| boards?\b)", re.IGNORECASE)
_OFF = re.compile(rf"({NUMBER}) boards? (?:too )?(high|light)\b", re.IGNORECASE)


def off_the_lane(answer: Answer) -> str:
    """Find boards below 1 or above 39, and balls higher or lighter than the lane is wide."""
    text = "\n".join(answer.texts())
    wrong = [told for told in _BOARD.findall(text) if not FIRST_BOARD <= board(told) <= LAST_BOARD]
    limits = {"high": HIGHEST, "light": LIGHTEST}
    wrong += [f"{told} {side}" for told, side in _OFF.findall(text) if board(told) > limits[side.lower()]]
    return f"boards off the lane: {wrong}" if wrong else ""


def stay_against_the_lane(answer: Answer) -> str:
    """Find "stay" above "more likely the lane" and a board and a half or more to one side."""
    text = "\n".join(answer.texts())
    is_lane = any(holds(phrase, text, "right") for phrase in ("more likely the lane", "probably the lane"))
    is_far = any(board(told) >= 1.5 for told, _ in _OFF.findall(text))
    is_stay = answer.part("headline").lower().startswith("stay")
    return "stay, though the lane is blamed and the ball far off" if is_stay and is_lane and is_far else ""


def gain_of_nothing(answer: Answer) -> str:
    """Find counts of strikes beside a move that adds less than one in twenty."""
    advice = answer.advice
    if advice is None or advice.kind != "line" or not COUNTS.search(answer.part("chances")):
        return ""
    moved, stayed = advice.move_strike_prob, advice.stay_strike_prob
    if moved is None or stayed is None or n_of_twenty(moved) > n_of_twenty(stayed):
        return ""
    return f"a move is shown with no gain: {answer.part('chances')!r}"


def parallel_unexplained(answer: Answer) -> str:
    """Find a move of the simulation that on paper points the other way and is not explained."""
    advice = answer.advice
    if advice is None or advice.model is None or advice.kind != "line" or advice.move == advice.rule.move:
        return ""
    feet, eyes = advice.move.feet_boards, advice.move.target_boards
    is_same_way = feet * eyes > 0 and abs(eyes) >= abs(feet)
    reasons = ("same angle", "into more oil", "drier boards", "on paper")
    told = any(holds(phrase, answer.part("why"), "right") for phrase in reasons)
    return (
        f"{feet:g} and {eyes:g} is not explained: {answer.part('why')!r}" if is_same_way and not told else ""
    )


def dead_on_blamed(answer: Answer) -> str:
    """Find "you, not the lane" for a ball dead on the target, "without a miss" for a missed one."""
    advice = answer.advice
    last = None if advice is None else advice.reading.last
    if advice is None or last is None or last.shot.crossed_board is None or last.shot.is_spare:
        return ""
    miss = abs(last.shot.crossed_board - last.line.target_board)
    told = "\n".join(answer.part(name) for name in OF_THE_BALL)
    is_slow = last.shot.speed_mph is not None  # the bowler's speed may be named, not the aim
    is_blamed = advice.cause.verdict == "bowler" and not is_slow
    if miss <= DEAD_ON_BOARDS and (is_blamed or holds("you, not the lane", told, "right")):
        return "the bowler is blamed for a ball dead on the target"
    is_missed = bool(missed_boards(last.shot, last.line, advice.session.bowler))
    return "a missed ball is told as no miss" if is_missed and holds("without a miss", told, "right") else ""


def careless(answer: Answer) -> str:
    """Find sanding without its cautions or after scoring started, and hand or speed advised with pain."""
    advice = answer.advice
    if advice is None:
        return ""
    if advice.move.surface and advice.session.scoring_started:
        return "a surface after scoring started"
    cautions = answer.part("cautions")
    if advice.move.surface and not all(holds(word, cautions, "right") for word in ("mask", "wet|dust")):
        return f"a surface without its cautions: {cautions!r}"
    return _against_pain(advice)


def _against_pain(advice: Advice) -> str:
    is_sore = advice.session.bowler.pain.strip().lower() not in ("", "no", "none", "-")
    is_strain = bool(advice.move.rotation_deg) or advice.move.speed_mph > 0
    return "more speed or hand with pain" if is_sore and is_strain else ""


def left_over(answer: Answer) -> str:
    """Find places that were not filled in and numbers that are none."""
    text = "\n".join(answer.texts())
    found = re.findall(r"\{\w*\}|\bnan\b|\bNone\b|\bnull\b|\binf\b", text)
    return f"left over in the words: {found}" if found else ""


MANNERS: tuple[Callable[[Answer], str], ...] = (
    off_the_lane,
    stay_against_the_lane,
    gain_of_nothing,
    parallel_unexplained,
    dead_on_blamed,
    careless,
    left_over,
)
