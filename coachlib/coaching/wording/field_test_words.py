"""What a field test of two balls says: what is told apart, what is not, and how many shots would tell."""

from collections.abc import Sequence
from typing import Any

from coachlib.coaching.equipment.field_test import WORTH_BOARDS, BallTest, TestedBall
from coachlib.coaching.wording.callouts import side_text
from coachlib.world.hand import Hand
from coachlib.world.parsing import board_text


def sheet_lines(test: BallTest, hand: Hand) -> tuple[str, ...]:
    """Return the sheet's sentences.

    Parameters
    ----------
    test : BallTest
        From :func:`coachlib.coaching.equipment.field_test.field_test`.
    hand : {"right", "left"}
        The bowling hand, for the sides.
    """
    n_each, fewest = test.n_each_needed, min(test.first.n_arrivals, test.second.n_arrivals)
    needed = (
        f"To show a difference of {board_text(WORTH_BOARDS)} board 4 times in 5, throw {n_each} with each."
    )
    lines = (
        _ball(test.first),
        _ball(test.second),
        _arrival(test, hand),
        "" if test.is_told_apart or fewest >= n_each else needed,
        _strikes(test),
        ""
        if test.is_in_turn
        else "You did not throw the balls in turn, so the lane may be what differs. Throw them in pairs.",
    )
    return tuple(filter(None, lines))


def sheet_table(order: Sequence[str]) -> Any:
    """Return the empty sheet for a field test, one row a shot in the order to throw.

    Parameters
    ----------
    order : sequence of str
        From :func:`coachlib.coaching.equipment.field_test.order_of_shots`.

    Returns
    -------
    pandas.DataFrame
        Columns to fill in by hand: board crossed at the target, arrival board, pins left.
    """
    import pandas as pd

    empty = [""] * len(order)
    columns = {"ball": list(order), "crossed_board": empty, "arrival_board": empty, "pins_left": empty}
    return pd.DataFrame(columns, index=pd.RangeIndex(1, len(order) + 1, name="shot"))


def _ball(one: TestedBall) -> str:
    strikes = f", {one.n_strikes} of {one.n_leaves} strikes" if one.n_leaves else ""
    return (
        f"{one.name}: {one.n_arrivals} shots hit board {one.arrival_board:.1f} on average, "
        f"give or take {one.arrival_sd_boards:.1f}{strikes}."
    )


def _arrival(test: BallTest, hand: Hand) -> str:
    n_shots = test.first.n_arrivals + test.second.n_arrivals
    low, high = test.low_boards, test.high_boards
    band = f"{_sided(low, hand)} to {_sided(high, hand)}"
    if not test.is_told_apart:
        return f"{n_shots} shots are too few to tell these apart: {test.second.name} may hit {band}."
    return f"{test.second.name} hits {_sided(test.difference_boards, hand)}, somewhere between {band}."


def _sided(boards: float, hand: Hand) -> str:
    size = board_text(round(abs(boards), 1))
    return f"{size} board{'' if abs(boards) <= 1 else 's'} {side_text(boards, hand)}"


def _strikes(test: BallTest) -> str:
    if test.strike_prob_value is None:
        return ""
    if test.strike_prob_value < 0.05:
        name = max(test.second, test.first, key=lambda one: one.n_strikes / one.n_leaves).name
        n = round(100 * test.strike_prob_value)
        times = "1 time in 100 or less" if test.strike_prob_value < 0.015 else f"{n} times in 100"
        return f"{name} strikes more. Chance alone would do this {times}."
    if test.n_each_for_strikes is None:
        return "Both strike alike so far."
    return (
        f"Chance alone could make this difference in strikes. To be sure of it, throw about "
        f"{test.n_each_for_strikes} with each."
    )
