"""The trend chart as numbers and words. Invariants; the bowler is invented."""

from coachlib import Bowler, Line, Session, Shot, change, observe
from coachlib.views.panels.shared.trend import HIGH_BOARD, LOW_BOARD, trend_view

STRIKE, HIGH = Shot(arrival="pocket", leave=()), Shot(crossed_board=12, arrival="high", leave=(4,))


def _session(hand: str = "right") -> Session:
    session = observe(Session(Bowler(hand=hand), Line(22, 12), lane="7"), HIGH)  # type: ignore[arg-type]
    return observe(change(session, line=Line(24, 13)), STRIKE)


def test_balls_moves_and_pocket_stand_where_they_belong() -> None:
    look = trend_view(_session())
    assert look["balls"] == [
        {"number": 1, "board": 18.7, "is_strike": False},
        {"number": 2, "board": 17.5, "is_strike": True},
    ]
    assert look["moves"] == [{"before": 1, "words": "2 and 1 left"}]
    low, high = look["pocket_board"]
    assert low < 17.5 < high < 18.7


def test_a_line_changed_since_the_last_ball_is_drawn_after_it() -> None:
    look = trend_view(change(_session(), line=Line(22, 12)))
    assert [move["before"] for move in look["moves"]] == [1, 2]
    assert look["moves"][1]["words"] == "2 and 1 right"


def test_words_are_turned_for_a_left_hander_and_boards_are_not() -> None:
    right, left = trend_view(_session()), trend_view(_session("left"))
    assert left["balls"] == right["balls"]
    assert left["moves"][0]["words"] == "2 and 1 right"


def test_a_ball_far_off_stands_at_the_edge_and_one_not_seen_nowhere() -> None:
    session = _session()
    for shot in (Shot(arrival=5.0), Shot(arrival=30.0), Shot(crossed_board=12)):
        session = observe(session, shot)
    assert [ball["board"] for ball in trend_view(session)["balls"][2:]] == [LOW_BOARD, HIGH_BOARD, None]
    assert "ball 5 not seen" in trend_view(session)["alt"]


def test_the_chart_in_words() -> None:
    assert trend_view(_session())["alt"] == (
        "Hits on lane 7, oldest first: ball 1 board 18.7; 2 and 1 left; ball 2 board 17½, strike."
    )


def test_a_lane_without_balls_has_no_words() -> None:
    look = trend_view(change(_session(), lane="8"))
    assert (look["balls"], look["alt"]) == ([], "")


def test_another_target_distance_is_told_as_the_line() -> None:
    look = trend_view(change(_session(), line=Line(24, 13, 12)))
    assert look["moves"][1]["words"] == "Feet 24, target 13 at 12 ft"
