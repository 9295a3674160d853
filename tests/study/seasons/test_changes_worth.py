"""The measuring of changes on hidden lanes: the truth that it asks, and that it goes on after a stop."""

import sys

import numpy as np
import pytest

import coachlib as cl

pytest.importorskip("joblib", reason="the season's settings come with the extra 'pins'")

from tests.benchmarks import changes_worth
from tests.benchmarks.changes_worth import Change, by_hindsight, fired, ruled, true_prob
from tests.hidden_lanes import lane


@pytest.fixture(scope="module")
def hidden():
    return lane(seed=4)


def test_the_truth_of_no_change_is_the_lane_s_own_over_some_draws(hidden):
    session = hidden.start()
    stay = Change("", "", session.line)
    own = np.mean([hidden.strike_probs([session.line], draw=draw)[0] for draw in (4, 5)])
    assert true_prob(hidden, session, stay, (4, 5)) == pytest.approx(own, abs=1e-12)


def test_a_changed_hand_is_thrown_and_the_lane_is_left_as_it_was(hidden):
    session = hidden.start()
    before = hidden.hidden
    stay = true_prob(hidden, session, Change("", "", session.line), (4,))
    for move in (cl.Move(speed_mph=1.0), cl.Move(rotation_deg=-10)):
        assert true_prob(hidden, session, Change("", "", session.line, move), (4,)) != stay
    assert hidden.hidden is before


def test_who_sees_all_finds_no_worse_line_than_the_one_played(hidden):
    session = hidden.start()
    best = next(iter(by_hindsight(hidden, session)))
    looked = changes_worth.LOOKED
    stay = Change("", "", session.line)
    assert true_prob(hidden, session, best, looked) >= true_prob(hidden, session, stay, looked) - 0.01


def test_a_rule_is_tried_as_it_fires(hidden):
    session = hidden.start()
    assert fired(session) == []
    for _ in range(3):
        shot = cl.Shot(crossed_board=session.line.target_board, arrival="high", motion="early")
        session = cl.observe(session, shot)
    changes = {one.rule.id: ruled(session, one) for one in fired(session)}
    assert changes["faster"].move.speed_mph == 0.5
    assert changes["smoother"].ball.grit > session.ball.grit


def test_a_finished_lane_is_not_played_again(monkeypatch, tmp_path, capsys):
    monkeypatch.setattr(changes_worth, "behaviour_key", lambda policy: f"what {policy} does")
    played = []

    def measured(bowler, pattern, seed):
        played.append((bowler, pattern, seed))
        place = f"{changes_worth.behaviour_key('advice')},{bowler},{pattern},{seed}"
        rules = f"{place},rule,faster,high,nan,0.01,0.02"
        return [f"{place},speed,0.5 mph faster,high,0.05,0.01,0.02", rules]

    monkeypatch.setattr(changes_worth, "measured", measured)
    arguments = ["", "--out", str(tmp_path), "--ship", str(tmp_path), "--seeds"]
    for seeds in ("300:301", "300:302"):
        monkeypatch.setattr(sys, "argv", [*arguments, seeds])
        changes_worth.main()
    assert len(played) == len(set(played)) == 8  # 2 bowlers, 2 patterns, 2 seeds
    assert "kind,speed,8,8,2.000" in (tmp_path / "changes_worth.csv").read_text()
    assert "faster: high" in capsys.readouterr().out
