"""Questions about the rule of 31: where it says a ball should leave the oil, and where it fails.

The rule is held against the line that strikes most often among all that can be played, simulated on house
patterns of other lengths. Starting lines would be no test of it: the usual target follows the rule already.
"""

import functools
from typing import Final

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import playable_lines
from coachlib.coaching.simulation.line_search import best_line, exit_boards
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.coaching.wording.callouts import side_text
from coachlib.errors import raise_input_errors
from coachlib.study.questions.asker import BALL, PATTERN, starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.question import Accepted, Choice, NumberAsk, Question, QuestionScene
from coachlib.world.ball import load_ball
from coachlib.world.bowler import Bowler
from coachlib.world.oil import OilPattern
from coachlib.world.oil_shape import with_typical_film

RULE: Final = "Rule of thumb, and the best simulated line"
RULE_FT: Final = 31.0
NEAR_BOARDS: Final = 1.5
"""Up to here the rule is called near; a bowler's own aim scatters by a board (our choice) [boards]."""

_LENGTHS_FT = (34.0, 36.0, 38.0, 39.0, 40.0, 42.0, 43.0, 44.0, 46.0)


def rule_of_31(case: Case, length_ft: float = 0.0) -> Question:
    """Return the question on which board a ball should leave the oil; drawn among the usual lengths.

    Parameters
    ----------
    length_ft : float
        How far the oil goes; drawn if left out. [ft]
    """
    long_ft = length_ft or case.pick(_LENGTHS_FT[1:-1])
    best, leaves = best_exit(case.bowler, long_ft)
    board = long_ft - RULE_FT
    simulated = (
        f"In the simulation the line that strikes most often leaves the oil on board {half_text(leaves)}."
    )
    return case.question(
        scene=QuestionScene(best, now_drawn="nothing"),
        prompt=f"The oil is {long_ft:g} ft long. On which board should your ball leave it?",
        ask=NumberAsk("board", 1.0, 25.0, 0.5, 20.0, long_ft),
        accepts=(
            Accepted(board, 1.0, f"Rule of 31: {long_ft:g} less 31 is {board:g}. {simulated}", within=0.5),
            Accepted(round(2 * leaves) / 2, 1.0, f"{simulated} The rule of 31 says {board:g}.", within=1.0),
            Accepted(board, 0.5, f"Half correct: near the rule of 31, which says {board:g}.", within=2.0),
        ),
        answer_text=f"Board {board:g} by the rule of 31",
        why=f"The length of the oil in feet, less 31: {long_ft:g} less 31 is {board:g}. {simulated}",
        reveal=QuestionScene(best, now_drawn="balls"),
        changes_text="The longer the oil, the further inside.",
        source=RULE,
        skills=("rule of 31",),
    )


def past_the_rule(case: Case, length_ft: float = 0.0) -> Question:
    """Return the question where the best line leaves the oil beside what the rule of 31 says.

    Parameters
    ----------
    length_ft : float
        How far the oil goes; drawn if left out. [ft]
    """
    long_ft = length_ft or case.pick(_LENGTHS_FT)
    best, leaves = best_exit(case.bowler, long_ft)
    board = long_ft - RULE_FT
    off = leaves - board
    answer = "there" if abs(off) < NEAR_BOARDS else "inside" if off > 0 else "outside"
    accepts = [Accepted(answer)]
    if abs(abs(off) - NEAR_BOARDS) < 0.5:
        near = "there" if answer != "there" else "inside" if off > 0 else "outside"
        accepts.append(Accepted(near, 0.5, f"Half correct: it is {abs(off):.1f} boards off."))
    return case.question(
        scene=QuestionScene(best, now_drawn="nothing"),
        prompt=f"The oil is {long_ft:g} ft long. The rule of 31 says: leave it on board {board:g}. Where "
        "does the line that strikes most often leave it?",
        ask=(
            Choice("outside", f"further {side_text(-1, case.hand)}"),
            Choice("there", "about there"),
            Choice("inside", f"further {side_text(1, case.hand)}"),
        ),
        accepts=tuple(accepts),
        answer_text=f"On board {half_text(leaves)}",
        why=_why_off(off, board, leaves),
        reveal=QuestionScene(best, now_drawn="balls"),
        changes_text="It is nearest on house patterns of 36 to 41 ft.",
        source=RULE,
        skills=("rule of 31",),
    )


def best_exit(bowler: Bowler, length_ft: float) -> tuple[Session, float]:
    """Return a bowler on the best line on a house pattern of a length, and where it leaves the oil [board].

    Raises
    ------
    InputError
        If there is no house pattern of this length.
    """
    if not 33 <= length_ft <= 47:
        message = f"length_ft is {length_ft:g}; expected 33 to 47 ft. Choose the length of a house pattern."
        raise_input_errors({"length_ft": message})
    return _best_exit(bowler, length_ft)


@functools.lru_cache(maxsize=64)
def _best_exit(bowler: Bowler, length_ft: float) -> tuple[Session, float]:
    pattern = with_typical_film(OilPattern("house", length_ft, "house"))
    usual = starting_session(bowler, BALL, PATTERN)
    session = Session(bowler=usual.bowler, ball=load_ball(BALL), pattern=pattern, line=usual.line)
    line = best_line(session, playable_lines(session.bowler), (pattern,)).line
    best = Session(bowler=session.bowler, ball=session.ball, pattern=pattern, line=line)
    paths = line_paths(best, line)
    return best, float(exit_boards(paths.path, paths.pattern)[0])


def _why_off(off: float, board: float, leaves: float) -> str:
    if abs(off) < NEAR_BOARDS:
        said = f"board {board:g}, and {half_text(leaves)} in the simulation"
        return f"Near the usual lengths the rule is good: {said}."
    where = "short" if off > 0 else "long"
    return (
        f"On {where} oil the rule goes too far: board {board:g}, against {half_text(leaves)} in the "
        "simulation. A foot of oil is worth less than a board."
    )
