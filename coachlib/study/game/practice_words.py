"""What the end of a practice game says: strikes kept, pins that fell, and where most was lost."""

from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.callouts import line_text, lowered, strikes_text
from coachlib.coaching.wording.names import short_name
from coachlib.study.game.practice_end import YOU, PracticeEnd, WayPlayed
from coachlib.study.game.practice_game import PracticeGame

WAY_NAMES = {
    YOU: "you",
    "never move": "never moving",
    "rulebook": "the rulebook",
    "advice": "our advice",
    "oracle": "somebody who sees the oil",
}
"""Every way of playing as it stands in a sentence."""

SHARED = (
    "Game and coach share one simulation of ball, oil and pins. So the game compares ways of playing on the "
    "same lane, and promises no strikes. Somebody who sees the oil knows the lane but not the misses to "
    "come, so over so few balls they can fall behind. So can our advice."
)


def whole(strikes: float) -> str:
    """Return a number of strikes as it is told, a whole one."""
    return f"{strikes:.0f}"


def lines_head(end: PracticeEnd) -> str:
    """Return what your lines were good for, without any luck: ``"Your lines were good for 21 strikes …"``."""
    return (
        f"Your lines were good for {whole(sum(one.line_prob for one in end.lost))} strikes in {end.n_scored}"
    )


def lines_text(end: PracticeEnd) -> str:
    """Return what the best lines were good for, and how many of your balls struck."""
    best = whole(sum(one.better_prob for one in end.lost))
    struck = f"With the luck of hand and pins you struck {times_text(end)}."
    return f"The best lines here were good for {best}. {struck}"


def times_text(end: PracticeEnd) -> str:
    """Return how often you struck: ``once``, ``23 times``."""
    n = end.ways[0].n_fell
    return {0: "never", 1: "once", 2: "twice"}.get(n, f"{n} times")


def kept_text(end: PracticeEnd) -> str:
    """Return ``"You kept 21 strikes in 36. The others: never moving 18, the rulebook 19, …"``."""
    yours, *others = end.ways
    theirs = ", ".join(f"{WAY_NAMES[way.name]} {whole(way.kept)}" for way in others)
    return f"You kept {whole(yours.kept)} strikes in {end.n_scored}. The others: {theirs}."


def fell_text(end: PracticeEnd) -> str:
    """Return how many strikes really fell, and why that is not what is compared."""
    fell = ", ".join(f"{WAY_NAMES[way.name]} {way.n_fell}" for way in end.ways)
    return (
        f"Strikes that fell: {fell}. “Kept” rates the balls you threw, before the luck of the pins. Never "
        "moving stays on the line where practice ended."
    )


def moves_text(way: WayPlayed) -> str:
    """Return how often a way of playing moved: ``"no move"``, ``"1 move"``, ``"4 moves"``."""
    return f"{way.n_moves or 'no'} move{'s' if way.n_moves > 1 else ''}"


def lost_text(end: PracticeEnd) -> str:
    """Return on which ball most was lost against the best line, with both lines."""
    worst = end.worst
    if worst is None:
        return "On no ball did the best line add one strike in 20."
    return (
        f"You lost most on ball {worst.ball_number}: {lowered(line_text(worst.line))} was good for "
        f"{strikes_text(worst.line_prob)} there, {lowered(line_text(worst.better_line))} for "
        f"{n_of_twenty(worst.better_prob)}."
    )


def again_text(game: PracticeGame) -> str:
    """Return the number and the choices to read out, so that another plays the same lane."""
    bowler = short_name(game.bowler.name) or f"a {game.bowler.hand}-hander"
    ball, pattern = short_name(game.ball.name), short_name(game.pattern.name)
    return (
        f"To play the same lane again, or to have a friend play it, choose lane number {game.seed}, "
        f"{bowler}, {ball}, {pattern}, {game.n_practice} practice balls and {game.n_scored} that count. "
        "Everybody gets the same lane, and the same miss on each ball, on whatever line."
    )
