"""Strike chances of many lines with one ball: the same errors everywhere."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.line_chances import EQUAL_PROB, best_line, strikes_prob, throws_on
from coachlib.coaching.trials import meant_release
from coachlib.physics.motion import simulate
from coachlib.physics.scatter import scattered

BALL = cl.load_ball("hybrid_2000")
SESSION = cl.Session(
    bowler=cl.load_bowler("club_right"), line=cl.Line(29, 16), ball=BALL, pattern=cl.load_pattern("house_41")
)
LINES = [cl.Line(29, 16), cl.Line(31, 17), cl.Line(24, 12)]


def test_each_line_is_thrown_as_if_it_were_thrown_alone():
    # limiting case: one line, by the function that scatters a single release
    throws = throws_on(SESSION, LINES, 16)
    for number, line in enumerate(LINES):
        alone = scattered(meant_release(SESSION, [line]), SESSION.bowler, 16, SESSION.seed)
        part = slice(16 * number, 16 * number + 16)
        assert np.ravel(throws.release.launch_deg)[part] == pytest.approx(alone.launch_deg, abs=1e-9)
        assert np.ravel(throws.release.speed_mph)[part] == pytest.approx(alone.speed_mph, abs=1e-12)


def test_a_chance_is_the_mean_over_the_balls_of_its_line():
    throws = throws_on(SESSION, LINES, 32)
    chances = throws.strike_probs(BALL, SESSION.pattern)
    alone = scattered(meant_release(SESSION, LINES[1:2]), SESSION.bowler, 32, SESSION.seed)
    path = simulate(alone, BALL, SESSION.pattern)
    assert chances[1] == pytest.approx(strikes_prob(path, BALL).mean(), abs=1e-9)
    assert chances[0] > chances[2] + 0.05  # the line in the pocket against one that is not


def test_a_ball_in_the_gutter_strikes_never():
    path = simulate(meant_release(SESSION, misses_boards=-8.0), BALL, SESSION.pattern)
    assert path.gutter.all()
    assert strikes_prob(path, BALL).tolist() == [0.0]


def test_the_best_line_is_the_first_of_those_called_equal():
    throws = throws_on(SESSION, LINES)
    best = best_line(SESSION, throws, BALL, SESSION.pattern)
    assert best.line == LINES[0]
    turned = throws_on(SESSION, LINES[::-1])
    chances = turned.strike_probs(BALL, SESSION.pattern)
    assert chances[chances.size - 1] > chances[0] + EQUAL_PROB
    assert best_line(SESSION, turned, BALL, SESSION.pattern).strike_prob == pytest.approx(
        best.strike_prob, abs=EQUAL_PROB
    )


@pytest.mark.parametrize("lines", [[], [cl.Line(20, 12), cl.Line(20, 12, 20.0)]])
def test_lines_must_share_one_distance(lines):
    with pytest.raises(cl.InputError, match="at least one, all with the same target_ft"):
        throws_on(SESSION, lines)
