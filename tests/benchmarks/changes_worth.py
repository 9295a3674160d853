"""Measures on hidden lanes what each kind of change adds to strikes, and writes ``data/changes_worth.csv``.

``python -m tests.benchmarks.changes_worth --seeds 300:330 --ship data``
On every lane some balls are thrown on the starting line of the sheet. Then the belief says which
change of each kind is worth most, and the truth about it is asked of the hidden lane, with other errors than
those that any choice was made by. Each rule of thumb on speed, hand and surface is tried when it first fires.
A finished lane is on disk before the next is counted: stop it, kill it, start it again.
"""

import argparse
import dataclasses
import functools
import itertools
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np

import coachlib as cl
from coachlib.coaching.advice.change_values import resurfaced_one_step, worth_of
from coachlib.coaching.advice.line_values import values_within_reach
from coachlib.coaching.belief.filter import Belief, believe
from coachlib.coaching.rules.rulebook import Fired, fired_rules, load_rulebook
from coachlib.coaching.rules.session_facts import read_session
from coachlib.coaching.simulation.candidate_lines import lines_nearby
from coachlib.coaching.simulation.line_search import most_likely
from coachlib.files import append_lines, whole_lines
from coachlib.study.hidden_lane.hidden_bowler import N_KEPT, N_LOOK, N_SURE, true_chances
from coachlib.study.hidden_lane.hidden_law import Floats
from coachlib.world.line import after_move
from tests.benchmarks.changes_report import COLUMNS, ship
from tests.benchmarks.season import behaviour_key, cell_lane, seeds_of

BOWLERS, PATTERNS = ("club_right", "high_rev_left"), ("house_41", "flat_42")
BALL, OTHER_BALLS = "hybrid_2000", ("solid_1000", "pearl_polished")
N_SEEN, N_RULED = 8, 12
"""Balls before the kinds are asked; balls within which a rule may fire."""

N_TRUE, LOOKED, JUDGED = 256, (0, 1, 2, 3), (4, 5, 6, 7)
"""Balls a draw behind a true chance; draws that one with hindsight chooses by, and those that judge all."""

PLAIN_MOVES = {
    "speed": tuple(cl.Move(speed_mph=more) for more in (-1.0, -0.5, 0.5, 1.0)),
    "hand": tuple(cl.Move(rotation_deg=more) for more in (-10.0, 10.0)),
    "surface": (cl.Move(surface="duller"), cl.Move(surface="smoother")),
}
NO_MOVE = cl.Move()
RULES = ("faster", "slower", "less_rotation", "more_rotation", "duller", "smoother")


@dataclasses.dataclass(frozen=True)
class Change:
    """One change: what kind it is, how it is called, the line, and what differs from how one throws now."""

    kind: str
    name: str
    line: cl.Line
    move: cl.Move = NO_MOVE
    ball: cl.Ball | None = None
    said_gain_prob: float = float("nan")


def measured(bowler: str, pattern: str, seed: int) -> list[str]:
    """Play one lane and return its rows."""
    lane = cell_lane(bowler, pattern, seed, BALL)
    session, rows, tried = lane.start(), [], set[str]()
    for number in range(1, N_RULED + 1):
        session = cl.observe(session, lane.throw(session.line).shot)
        for one in fired(session):
            if one.rule.id not in tried:
                tried.add(one.rule.id)
                rows.append(row(lane, session, ruled(session, one)))
        if number == N_SEEN:
            rows += [row(lane, session, one) for one in (*weighed(session), *by_hindsight(lane, session))]
    return [f"{behaviour_key('advice')},{bowler},{pattern},{seed},{one}" for one in rows]


def fired(session: cl.Session) -> list[Fired]:
    """Return the rules of thumb on speed, hand and surface that fire now."""
    return [one for one in fired_rules(load_rulebook(), read_session(session).facts) if one.rule.id in RULES]


def ruled(session: cl.Session, rule: Fired) -> Change:
    """Return what a rule asks for, in its smaller size."""
    move = rule.moves[0]
    return Change("rule", rule.rule.id, session.line, move, ball_after(session, move))


def weighed(session: cl.Session) -> Iterator[Change]:
    """Yield every change that the belief may choose from, with what it says of it."""
    belief = believe(session)
    yield moved_line(belief, session, "feet and eyes", None)
    for kind, moves in PLAIN_MOVES.items():
        for move in moves:
            yield said(
                belief, session, Change(kind, str(move), session.line, move, ball_after(session, move))
            )
    for name in OTHER_BALLS:
        ball = cl.load_ball(name)
        yield said(belief, session, Change("another ball", name, session.line, ball=ball))
        yield moved_line(belief, session, "another ball and its line", ball)


def said(belief: Belief, session: cl.Session, change: Change) -> Change:
    """Return a change on the same line with what the belief says that it adds."""
    told = worth_of(belief, session.line, session.ball, change.move, change.ball)
    return dataclasses.replace(change, said_gain_prob=told.gain_prob)


def moved_line(belief: Belief, session: cl.Session, kind: str, ball: cl.Ball | None) -> Change:
    """Return the line that is best by the belief, with the ball in the hand or another one."""
    stay = values_within_reach(belief, session.line, session.ball)
    there = values_within_reach(belief, session.line, ball or session.ball)
    move = there.moves[int(there.net.argmax())]
    gain = float(there.net.max()) - float(stay.strike_prob[0] - there.strike_prob[0])
    name = str(move) if ball is None else f"{ball.name} {move}"
    return Change(kind, name, after_move(session.line, move), ball=ball, said_gain_prob=gain)


def by_hindsight(lane: cl.PracticeLane, session: cl.Session) -> Iterator[Change]:
    """Yield the truly best lines, of one who could read the oil."""
    lines = lines_nearby(session.line, session.bowler, 10, 7)
    for name in (BALL, *OTHER_BALLS):
        ball = cl.load_ball(name)
        chances = functools.partial(looked_at, lane, ball)
        line = most_likely(lines, chances, N_LOOK, N_SURE, N_KEPT)
        kind = "feet and eyes" if name == BALL else "another ball and its line"
        yield Change(f"{kind} seen", name, line, ball=ball)


def looked_at(lane: cl.PracticeLane, ball: cl.Ball, lines: Sequence[cl.Line], n_balls: int) -> Floats:
    """Return the true chances of lines, over the draws that may be chosen by."""
    return np.mean([lane.strike_probs(lines, ball, n_balls, draw) for draw in LOOKED], axis=0)


def ball_after(session: cl.Session, move: cl.Move) -> cl.Ball | None:
    """Return the ball in the hand with another surface, if the move asks for one."""
    return resurfaced_one_step(session.ball, move.surface) if move.surface else None


def row(lane: cl.PracticeLane, session: cl.Session, change: Change) -> str:
    """Return a change and the truth about it, as a line of the file."""
    stay = Change("", "", session.line)
    gains = [
        true_prob(lane, session, change, draws) - true_prob(lane, session, stay, draws)
        for draws in (LOOKED, JUDGED)
    ]
    numbers = ",".join(f"{value:.5f}" for value in (change.said_gain_prob, *gains))
    side = read_session(session).side or "not seen"
    return f"{change.kind},{change.name.replace(',', '')},{side},{numbers}"


def true_prob(lane: cl.PracticeLane, session: cl.Session, change: Change, draws: tuple[int, ...]) -> float:
    """Return the true chance of a strike of who throws so on this lane now, mean over some draws."""
    ball, bowler = change.ball or session.ball, lane.hidden.bowler.bowler
    changed = dataclasses.replace(
        bowler,
        speed_mph=bowler.speed_mph + change.move.speed_mph,
        axis_rotation_deg=bowler.axis_rotation_deg + change.move.rotation_deg,
    )
    who, surface = dataclasses.replace(lane.hidden.bowler, bowler=changed), lane.surface(ball)
    judged = (true_chances([change.line], who, ball, surface, N_TRUE, lane.n_thrown, draw) for draw in draws)
    return float(np.mean(list(judged)))


def main() -> None:
    """Measure what is missing, then write the table."""
    options = read_options()
    path = options.out / "changes.csv"
    done = {tuple(line.split(",")[:4]) for line in whole_lines(path)}
    if not path.is_file():
        append_lines(path, [",".join(COLUMNS)])
    for bowler, pattern in itertools.product(BOWLERS, PATTERNS):
        for seed in range(options.first, options.last):
            if (behaviour_key("advice"), bowler, pattern, str(seed)) not in done:
                append_lines(path, measured(bowler, pattern, seed))
        print(f"{bowler} on {pattern} done", flush=True)
    ship(path, behaviour_key("advice"), options)


def read_options() -> argparse.Namespace:
    """Return the seeds, the folder for the rows and the one for the table."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seeds", default="300:330", help="FIRST:LAST, the last one not played")
    parser.add_argument("--out", type=Path, default=Path("build/changes"))
    parser.add_argument("--ship", type=Path, default=None, help="folder for changes_worth.csv")
    options = parser.parse_args()
    options.first, options.last = seeds_of(options.seeds)
    return options


if __name__ == "__main__":
    main()
