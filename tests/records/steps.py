"""Steps of a session drawn at random, for what must hold of any."""

from hypothesis import strategies as st

from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import ARRIVAL_CLASSES
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern, load_pattern
from coachlib.world.shot import Shot
from tests.hostile import hostile_texts

WORDS = st.text(max_size=9) | st.sampled_from(hostile_texts(60, most_letters=60))
_boards = st.floats(0, 40)
SHOTS = st.builds(
    Shot,
    crossed_board=_boards,
    arrival=st.none() | _boards | st.sampled_from(ARRIVAL_CLASSES),
    leave=st.none() | st.sets(st.integers(1, 10)),
    motion=st.none() | st.sampled_from(("early", "even", "late", "roll_out")),
    speed_mph=st.none() | st.floats(8, 25),
    hit=st.none() | st.just("flat"),
    is_spare=st.booleans(),
    note=WORDS,
)
_balls = st.builds(Ball, name=WORDS, grit=st.floats(180, 6000), is_polished=st.booleans())
_patterns = st.builds(OilPattern, name=WORDS, length_ft=st.floats(20, 55))
CHANGES = st.fixed_dictionaries(
    {},
    optional={
        "line": st.builds(Line, st.floats(-5, 45), st.floats(1, 39), st.floats(5, 45)),
        "ball": st.none() | _balls,
        "pattern": st.none() | st.just(load_pattern("house_41")) | _patterns,
        "bowler": st.builds(
            Bowler,
            name=WORDS,
            hand=st.sampled_from(("left", "right")),
            speed_mph=st.floats(8, 25),
            pain=WORDS,
        ),
        "lane": st.sampled_from(("1", "=7", "8 b")),
        "games_on_lane": st.floats(0, 60),
        "scoring_started": st.booleans(),
        "place": st.builds(
            Place,
            has_others_on_line=st.booleans(),
            is_own_side_quiet=st.none() | st.booleans(),
            is_feet_stuck=st.booleans(),
            has_weather_turned=st.booleans(),
        ),
    },
)
SHOT_STEPS = st.tuples(st.just("shot"), st.fixed_dictionaries({"shot": SHOTS}))
CHANGE_STEPS = st.tuples(st.just("change"), CHANGES)
