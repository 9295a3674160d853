"""What a layout makes of a ball: numbers of core and track, and what they are worth on the lane.

By mechanics alone a drilled core moves the ball by at most 0.15 board. A layout that does more does it
through fresh cover in the track, and how much that is worth is our guess; both are told apart here.
"""

import dataclasses
from collections.abc import Sequence
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.what_if import ball_and_pattern, simulate_lines
from coachlib.physics.flare import USUAL_TURNS, Flare, flare
from coachlib.physics.friction import fresh_frac
from coachlib.world.ball import Ball
from coachlib.world.layout import Layout, laid_out

BY_MECHANICS_BOARDS = 0.15
"""Most that a core's swing moves the ball (derived; tests/published/test_full_tensor.py) [boards]."""

SHOP = (
    "Drilling is for a qualified shop, which also knows the local rules. One change at a time, and stop if "
    "the grip hurts."
)


@dataclasses.dataclass(frozen=True, eq=False)
class DrilledEffect:
    """One layout of a ball on the session's line.

    Parameters
    ----------
    layout : Layout
        How it is drilled.
    ball : Ball
        The ball with it.
    flare : Flare
        Where the axis goes.
    arrival_change_boards : float
        Against the ball as it was, almost all of it through fresh cover: our guess. [boards]
    skid_change_ft : float
        Change of where the hook begins, the same way. [ft]
    """

    layout: Layout
    ball: Ball
    flare: Flare
    arrival_change_boards: float
    skid_change_ft: float


def drilled_effects(
    session: Session, layouts: Sequence[Layout], n_turns: float = USUAL_TURNS
) -> tuple[DrilledEffect, ...]:
    """Return what each layout makes of the session's ball on its line.

    Raises
    ------
    InputError
        If ball or pattern are unknown, or the rules forbid a layout.
    """
    ball, _ = ball_and_pattern(session)
    was = simulate_lines(session)
    effects = []
    for layout in layouts:
        drilled = laid_out(ball, layout)
        now = simulate_lines(dataclasses.replace(session, ball=drilled))
        arrival, skid = now.arrival_board[0] - was.arrival_board[0], now.hook_ft[0] - was.hook_ft[0]
        track = flare(ball, layout, n_turns)
        effects.append(DrilledEffect(layout, drilled, track, float(arrival), float(skid)))
    return tuple(effects)


def layouts_table(effects: Sequence[DrilledEffect]) -> Any:
    """Return a table, one row a layout, every column with its unit; the last column is our guess.

    Returns
    -------
    pandas.DataFrame
    """
    import pandas as pd

    return pd.DataFrame([_row(one) for one in effects])


def layout_lines(effect: DrilledEffect) -> tuple[str, ...]:
    """Return what one layout does, in sentences: what is mechanics, what is guessed, and who drills."""
    return (
        f"{layout_text(effect.ball, effect.layout)} from your axis, {flare_text(effect.ball, effect.flare)}.",
        f"The core itself moves the ball by at most {BY_MECHANICS_BOARDS:g} board.",
        f"Fresh cover on the lane, our guess: {effect.arrival_change_boards:+.1f} boards at the pins.",
        SHOP,
    )


def layout_text(ball: Ball, layout: Layout) -> str:
    """Return where the pin lies, and for an asymmetric core the mass bias: ``Pin 4 in``."""
    bias = f" and mass bias {layout.bias_in:.3g} in" if ball.intermediate_in > 0.0 else ""
    return f"Pin {layout.pin_to_axis_in:g} in{bias}"


def flare_text(ball: Ball, found: Flare) -> str:
    """Return how far the track spreads in words; for an asymmetric core with how unsure it is."""
    known = f" ({found.low_in:.1f} to {found.high_in:.1f}, as well as a layout is known)"
    unsure = "" if ball.intermediate_in == 0.0 else known
    return f"flare spreads over about {found.flare_in:.1f} in{unsure}, rings {found.ring_gap_in:.2f} in apart"


def _row(one: DrilledEffect) -> dict[str, str]:
    layout, found = one.layout, one.flare
    return {
        "pin_to_axis_in": f"{layout.pin_to_axis_in:g}",
        "mass_bias_to_axis_in": f"{layout.bias_in:.3g}" if one.ball.intermediate_in > 0.0 else "",
        "rg_about_axis_in": f"{one.ball.spin_rg_in:.3f}",
        "kappa": f"{one.ball.kappa:.3f}",
        "track_in": f"{found.flare_in:.1f} ({found.low_in:.1f} to {found.high_in:.1f})",
        "fresh_cover_frac": f"{fresh_frac(one.ball):.2f}",
        "arrival_change_boards": f"{one.arrival_change_boards:+.1f}",
    }
