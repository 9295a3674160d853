"""What is published about the ball's own way through the pins, and what the simulated racks show.

The racks: 17 mph, 15 lb, 40 to an arrival; see :func:`coachlib.physics.pins.build.carry_checks.ball_ways`.
"""

from collections.abc import Iterator

from coachlib.physics.pins.build.carry_checks import BallWay, ball_way, ball_ways
from coachlib.physics.pins.build.carry_verdict import SAYING, STUDY, SUMMARY, CheckedFact, pct
from coachlib.physics.pins.carry import strike_prob
from coachlib.physics.pins.carry_table import CarryTable
from coachlib.world.pins import pin_board

NEAR_BOARDS = 1.5
"""So near an exit must be to a published one: boards in articles are rounded, and 1.5 is half a pin gap."""


def way_facts(table: CarryTable) -> tuple[CheckedFact, ...]:
    """Return the statements about where the ball goes and what it hits itself."""
    return (*_at_the_pocket(), _light_strike(table), *_high())


def _way_text(*ways: BallWay) -> str:
    return "; ".join(
        f"board {way.arrival_board:g}: {'-'.join(map(str, way.hits))}, "
        f"leaves on {way.exit_board:.1f} ± {way.exit_sd_boards:.1f}"
        for way in ways
    )


def _at_the_pocket() -> Iterator[CheckedFact]:
    flush = ball_way(17.5, 6.0)
    steep = [way for way in ball_ways() if way.entry_deg >= 4.0]
    where = [f"{way.arrival_board:g} at {way.entry_deg:g} deg" for way in steep if way.hits == (1, 3, 5, 9)]
    yield CheckedFact(
        "the ball alone hits 1, 3, 5 and 9",
        "board 17.5, 6 deg",
        f"{_way_text(flush)}; 1-3-5-9 most often {'at ' + ', '.join(where) if where else 'nowhere'}",
        flush.hits == (1, 3, 5, 9),
        SUMMARY,
    )
    ways = [ball_way(board, 6.0) for board in (17.0, 17.5, 18.0)]
    yield CheckedFact(
        "a flush ball leaves between 8 and 9, near board 19",
        "arrives at 17, clips the 9, leaves near 19",
        _way_text(*ways),
        abs(ways[0].exit_board - 19.0) <= NEAR_BOARDS,
        STUDY,
    )
    light = ball_way(16.5, 6.0)
    yield CheckedFact(
        "the ball of the classic 10-pin leaves near board 14",
        "arrives at 16.5 with angle, leaves near 14",
        _way_text(light),
        abs(light.exit_board - 14.0) <= NEAR_BOARDS,
        STUDY,
    )


def _light_strike(table: CarryTable) -> CheckedFact:
    way = ball_way(16.0, 6.0)
    struck = float(strike_prob(16.0, 6.0, 17.0, 15.0, level_on=False, table=table))
    return CheckedFact(
        "a slightly light ball can strike, leaving outside the 9",
        f"leaves outside board {pin_board(9):.1f}; the 3-pin takes the 10",
        f"{_way_text(way)}; {pct(struck)} strikes",
        way.exit_board < pin_board(9) and struck > 0.5,
        STUDY,
    )


def _high() -> Iterator[CheckedFact]:
    ways = [ball_way(19.0, 4.0), ball_way(19.0, 6.0)]
    yield CheckedFact(
        "high: the head pin takes the 5, the ball hits the 8",
        "1-3-8, no 5",
        _way_text(*ways),
        all(8 in way.hits and 5 not in way.hits for way in ways),
        "federation seminar, 2009, quoted second-hand",
    )
    ways = [way for way in ball_ways() if way.entry_deg == 6.0 and way.arrival_board >= 18.0]
    yield CheckedFact(
        "the 9-pin: the ball goes 1-3-5-8",
        "steep, a little high",
        _way_text(*ways),
        any(way.hits == (1, 3, 5, 8) for way in ways),
        SAYING,
    )
