"""How the practice panel looks: who plays what, what was seen, the next throw, and the end of the game."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import line_text
from coachlib.coaching.wording.names import said_name, short_name
from coachlib.study.game.practice_end import PracticeEnd, WayPlayed
from coachlib.study.game.practice_game import PracticeGame
from coachlib.study.game.practice_words import (
    SHARED,
    WAY_NAMES,
    again_text,
    fell_text,
    lines_head,
    lines_text,
    lost_text,
    moves_text,
    whole,
)
from coachlib.study.game.true_balls import true_balls
from coachlib.views.lane.scene import lines_scene
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.views.lane.scene_words import summary_of
from coachlib.views.panels.practice.practice_form import COUNTS
from coachlib.views.panels.shared.form import leave_text
from coachlib.views.panels.shared.shots import seen_words, way_seen
from coachlib.views.panels.shared.typed import raised, written_number
from coachlib.world.ball import ball_names
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand, inside_side
from coachlib.world.oil import pattern_names
from coachlib.world.parsing import board_text
from coachlib.world.shot import Shot

TEN = 10
BIG = "Practice is over. The first decision now is your biggest one. Take your time."
HIDDEN = (
    "You see the oil sheet, and of each ball what an eye behind the foul line sees. The lane is not quite "
    "its sheet, you are not quite the bowler you chose, and others play here too."
)
WAYS_READ = (
    "Below, the same balls played in other ways. The number is the strikes kept: it rates the balls thrown, "
    "before the luck of the pins. Beside it, how many struck."
)
AGAIN = "The same balls, played other ways"

TRUE_BALLS = (
    "The game is over, so here is the real lane: twenty balls on the line you threw last, with your own "
    "misses, on the oil as it lies now. The thick line is a good shot. The oil drawn is still the sheet’s."
)
"""The caption of the lane picture at the end."""


def start_view(game: PracticeGame | None, bowlers: Mapping[str, Bowler], is_sure: bool) -> dict[str, Any]:
    """Return how the form of a new game looks, or the bar of a running one.

    `is_sure` says that a new game needs no second question: the running one is over.
    """
    return {
        "is_started": game is not None,
        "is_sure": is_sure,
        "line": "" if game is None else _who(game),
        "bowlers": _options(bowlers),
        "balls": _options(ball_names()),
        "patterns": _options(pattern_names()),
        "counts": [[count, f"{count}: {words}"] for count, words in COUNTS.items()],
        "hidden": HIDDEN,
    }


def throw_view(game: PracticeGame) -> dict[str, Any]:
    """Return how the form of the next throw looks."""
    n_many = min(TEN, game.n_left)
    return {
        "is_over": game.is_over,
        "n_thrown": game.n_thrown,
        "inside_side": inside_side(game.bowler.hand),
        "title": _next_title(game),
        "n_many": n_many if n_many > 1 else 0,
        "many_text": _many_text(game, n_many),
        "balls": _options(ball_names()),
    }


def seen_view(game: PracticeGame, n_now: int = 1) -> dict[str, Any]:
    """Return what is said while the game runs: what was seen of the `n_now` last balls, what comes now."""
    shots, hand = game.session.shots, game.bowler.hand
    if not shots:
        return _view(
            label="Before the first ball",
            headline=line_text(game.session.line),
            sentence="Your starting line on this sheet.",
            why=f"{game.n_practice} practice balls, then {game.n_scored} count. Move whenever you like.",
        )
    last = shots[-1].shot
    way = ", ".join(filter(None, way_seen(last)))
    return _view(
        label=f"Seen of ball {len(shots)}",
        big=BIG if game.n_thrown == game.n_practice else "",
        headline=headline_seen(last, hand),
        sentence=f"{raised(way)}." if way else "",
        why=_strikes_seen([ball.shot for ball in shots[-n_now:]]) if n_now > 1 else "",
    )


def waiting_view(game: PracticeGame) -> dict[str, Any]:
    """Return what is said while the end is worked out."""
    words = (
        "Never moving, the rule of thumb, our advice and somebody who sees the oil now play your "
        f"{game.n_scored} balls."
    )
    return _view(label=f"All {game.n_thrown} balls are thrown", headline=AGAIN, sentence=words)


def end_view(game: PracticeGame, end: PracticeEnd) -> dict[str, Any]:
    """Return what is said and drawn at the end."""
    return _view(
        kind="stay",
        label=f"All {game.n_thrown} balls are thrown",
        headline=lines_head(end),
        sentence=lines_text(end),
        why=WAYS_READ,
        rows=[_row(way, end.n_scored) for way in end.ways],
        tells=[
            ["Where you lost most", lost_text(end)],
            ["With luck, and without", fell_text(end)],
            ["The same lane again", again_text(game)],
            ["How far to trust it", SHARED],
        ],
        summary=f"{lines_head(end)}. {lines_text(end)} {lost_text(end)}",
    )


def balls_view(game: PracticeGame) -> dict[str, Any]:
    """Return the table of balls, newest first."""
    return {
        "rows": [
            {
                "number": one.number,
                "is_practice": one.number <= game.n_practice,
                "line": f"{written_number(one.line.feet_board)}, {written_number(one.line.target_board)}",
                "ball": "" if one.ball is None else short_name(one.ball.name),
                "seen": seen_words(one.shot, game.bowler.hand),
            }
            for one in reversed(game.session.shots)
        ]
    }


def practice_scene(game: PracticeGame) -> LaneScene:
    """Return the lane as the player may see it: the sheet, the line, the next one, and the last ball.

    When the game is over also where balls really go on it, on the line of the last one.
    """
    session = game.session
    last = session.shots[-1] if session.shots else None
    played = session.line if last is None else last.line
    if not game.is_over:
        return lines_scene(session.bowler, played, session.line, seen=last, pattern=session.pattern)
    thrown = [true_balls(game)]
    scene = lines_scene(session.bowler, played, seen=last, pattern=session.pattern, thrown=thrown)
    scene["source"], scene["note"] = "hidden", TRUE_BALLS
    scene["summary"] = summary_of(scene)
    return scene


def headline_seen(shot: Shot, hand: Hand) -> str:
    """Return arrival and pins of a ball in a few words: ``"High, pins 4 9"``, ``"Came in on 17½"``."""
    parts = []
    if isinstance(shot.arrival, str):
        parts.append(ARRIVAL_WORDS[shot.arrival].short)
    elif shot.arrival_board is not None:
        parts.append(f"hit board {board_text(shot.arrival_board)}")
    if shot.leave is not None:
        pins = leave_text(shot.leave, hand)
        parts.append(f"pins {pins}" if shot.leave else pins)
    return raised(", ".join(parts) or "nobody saw hit or pins")


def _strikes_seen(shots: Sequence[Shot]) -> str:
    """Return how many of the last balls struck; where pins were not seen, of how many that can be said."""
    n_balls, n_seen = len(shots), sum(shot.leave is not None for shot in shots)
    struck = f"{sum(shot.leave == () for shot in shots) or 'none'}"
    if n_seen == n_balls:
        return f"Of the last {n_balls} balls {struck} struck."
    if not n_seen:
        return f"Nobody saw the pins of the last {n_balls} balls."
    return f"You saw the pins of {n_seen} of the last {n_balls} balls: {struck} struck."


def _row(way: WayPlayed, n_scored: int) -> dict[str, Any]:
    return {
        "name": raised(WAY_NAMES[way.name]),
        "kept_frac": round(way.kept / n_scored, 4),
        "kept": whole(way.kept),
        "note": f"{way.n_fell} struck, {moves_text(way)}",
        "is_you": way.name == "you",
    }


def _view(**words: Any) -> dict[str, Any]:
    spoken_parts = ("label", "headline", "sentence", "big", "why")
    look = {"kind": "before", **dict.fromkeys(spoken_parts, ""), "rows": [], "tells": [], **words}
    spoken = [look[part] for part in spoken_parts]
    return {"summary": ". ".join(part.rstrip(".") for part in spoken if part) + ".", **look}


def _next_title(game: PracticeGame) -> str:
    number = game.n_thrown + 1
    if game.is_practice:
        return f"Practice ball {number} of {game.n_practice}"
    return f"Ball {number} of {game.n_practice + game.n_scored}"


def _many_text(game: PracticeGame, n_many: int) -> str:
    if game.is_practice:
        return f"Throw {n_many}, the rest of practice"
    return "Throw ten" if n_many == TEN else f"Throw the last {n_many}"


def _who(game: PracticeGame) -> str:
    who, hand = said_name(game.bowler.name), f"{game.bowler.hand}-handed"
    parts = [who, "" if who.endswith(hand) else hand, said_name(game.pattern.name)]
    return " · ".join([*filter(None, parts), f"lane number {game.seed}"])


def _options(names: Iterable[str]) -> list[list[str]]:
    return [[name, said_name(name)] for name in names]
