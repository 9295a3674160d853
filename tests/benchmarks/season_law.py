"""Fits the half films of the hidden laws, and shows what hidden laws do beside the model's.

``python tests/benchmarks/season_law.py`` prints, for each form and steepness, the half film over roughness at
which seven bowlers on two patterns arrive on average where the model's law brings them, how far single
arrivals then differ, and how the begin of the hook moves. The fitted numbers stand in
`coachlib/study/hidden_lane/hidden_law.py`.
"""

import sys
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import coachlib as cl
from coachlib.physics.motion import ground_of
from coachlib.physics.pins.carry import strike_prob_of
from coachlib.study.hidden_lane.hidden_bowler import N_ERRORS, as_said
from coachlib.study.hidden_lane.hidden_law import (
    STEEPNESS,
    WET_COEF,
    HiddenLaw,
    hidden_surface,
)

BALL = cl.load_ball("hybrid_2000")
PATTERNS = ("house_41", "flat_42")
BOWLERS = tuple(name for name in cl.bowler_names() if name != "junior_left")
N_LINES = 12


def cases():
    """Yield release, pattern and path under the model's law: each bowler's best twelve lines, as meant."""
    for pattern in map(cl.load_pattern, PATTERNS):
        for name in BOWLERS:
            bowler = as_said(cl.load_bowler(name))
            stances = np.arange(12.0, 40.0)
            lines = [
                cl.Line(feet, eyes)
                for feet in stances
                for eyes in np.arange(feet - 19, feet - 6, 0.5)
                if eyes >= 1
            ]
            path = cl.simulate(
                bowler.releases(lines, np.zeros((1, N_ERRORS))), BALL, pattern, keep_path=False
            )
            best = np.argsort(-strike_prob_of(path, BALL.weight_lb))[:N_LINES]
            release = bowler.releases([lines[number] for number in best], np.zeros((1, N_ERRORS)))
            yield release, pattern, cl.simulate(release, BALL, pattern, keep_path=False)


def differences(law, thrown):
    """Return how far arrivals [boards] and begins of the hook [ft] differ from the model's law."""
    boards, hooks_ft = [], []
    for release, pattern, model in thrown:
        film_um = ground_of(pattern, "right").film_um[:, 1:-1]
        hidden = hidden_surface(film_um, BALL, law).roll(release, BALL)
        boards.append(hidden.arrival_board - model.arrival_board)
        hooks_ft.append(hidden.hook_ft - model.hook_ft)
    return np.concatenate(boards), np.concatenate(hooks_ft)


def fitted(form, steepness, thrown):
    """Return the half film over roughness at which arrivals agree on average, by halving."""
    low, high = 0.1, 3.0
    for _ in range(16):
        half = (low * high) ** 0.5
        boards, _ = differences(HiddenLaw(form, steepness, half, wet_coef=WET_COEF[form]), thrown)
        low, high = (half, high) if np.nanmean(boards) < 0.0 else (low, half)
    return half


def main():
    """Print one line a form and steepness."""
    thrown = list(cases())
    for form, powers in STEEPNESS.items():
        for steepness in powers:
            half = fitted(form, steepness, thrown)
            boards, hooks_ft = differences(HiddenLaw(form, steepness, half, wet_coef=WET_COEF[form]), thrown)
            print(
                f"{form} {steepness:g}: half_lambda {half:.3f}; arrivals differ by {np.nanstd(boards):.2f} "
                f"boards (sd), the hook begins {np.nanmean(hooks_ft):+.1f} ft"
            )


if __name__ == "__main__":
    main()
