"""What the end of a practice game says: strikes kept, pins that fell, and where most was lost."""

from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.coaching.wording.callouts import line_text, lowered, strikes_text
from coachlib.coaching.wording.names import short_name
from coachlib.study.game.practice_end import YOU, PracticeEnd, WayPlayed
from coachlib.study.game.practice_game import PracticeGame

WAY_NAMES = {
    YOU: "you",
    "never move": "never moving",
    "rulebook": "the rulebook",
    "advice": "our advice",
    "oracle": "one who sees the oil",
}
"""Every way of playing as it stands in a sentence."""

SHARED = (
    "Judge and coach share the ball’s mechanics, the shape of the sheet’s film and the pins: the game ranks "
    "ways of playing on the same lane, it promises no strikes. One who sees the oil knows the lane, "
    "not the errors to come: over so few balls it can fall behind, and so can our advice."
)


def whole(strikes: float) -> str:
    """Return a number of strikes as it is told, a whole one."""
    return f"{strikes:.0f}"


def lines_head(end: PracticeEnd) -> str:
    """Return what your lines were worth, without any luck: ``"Your lines were worth 21 strikes of 36"``."""
    return f"Your lines were worth {whole(sum(one.line_prob for one in end.lost))} strikes of {end.n_scored}"


def lines_text(end: PracticeEnd) -> str:
    """Return what the oracle's lines were worth, and what the luck of hand and pins made of both."""
    yours, oracle = end.ways[0], next(way for way in end.ways if way.name == "oracle")
    return (
        f"The best lines on this lane were worth {whole(sum(one.better_prob for one in end.lost))}. As they "
        f"left the hand, your balls were worth {whole(yours.kept)}: {yours.n_fell} struck. Those of one "
        f"who sees the oil were worth {whole(oracle.kept)}: {oracle.n_fell} struck."
    )


def kept_text(end: PracticeEnd) -> str:
    """Return ``"You kept 21 strikes of 36; never moving 18; the rulebook 19; …"``."""
    yours, *others = end.ways
    theirs = "; ".join(f"{WAY_NAMES[way.name]} {whole(way.kept)}" for way in others)
    return f"You kept {whole(yours.kept)} strikes of {end.n_scored}; {theirs}."


def fell_text(end: PracticeEnd) -> str:
    """Return how many strikes really fell, and why that is not what is compared."""
    fell = ", ".join(f"{WAY_NAMES[way.name]} {way.n_fell}" for way in end.ways)
    return (
        f"Strikes that really fell: {fell}. “Kept” rates the balls you threw, before the luck of the pins. "
        "Never moving stays where the plain corrections of practice ended."
    )


def moves_text(way: WayPlayed) -> str:
    """Return how often a way of playing moved: ``"no move"``, ``"1 move"``, ``"4 moves"``."""
    return f"{way.n_moves or 'no'} move{'s' if way.n_moves > 1 else ''}"


def lost_text(end: PracticeEnd) -> str:
    """Return on which ball most was lost against the oracle's line, and how much."""
    worst = end.worst
    if worst is None:
        return "On no ball was the line of one who sees the oil worth one strike in 20 more than yours."
    lost = n_of_twenty(worst.better_prob) - n_of_twenty(worst.line_prob)
    return (
        f"Most was lost on ball {worst.ball_number}: {lowered(line_text(worst.line))} was worth "
        f"{strikes_text(worst.line_prob)} there, the line of one who sees the oil "
        f"({lowered(line_text(worst.better_line))}) was worth {n_of_twenty(worst.better_prob)}: "
        f"{max(lost, 1)} in {N_TWENTY} given away."
    )


def again_text(game: PracticeGame) -> str:
    """Return the number and the choices to read out, so that another plays the same lane."""
    bowler = short_name(game.bowler.name) or f"a {game.bowler.hand}-hander"
    ball, pattern = short_name(game.ball.name), short_name(game.pattern.name)
    return (
        f"To play the same lane again, or have a friend play it: lane number {game.seed}, {bowler}, "
        f"{ball}, {pattern}, {game.n_practice} practice balls and "
        f"{game.n_scored} that count. The same number gives everybody the same lane, and each ball the same "
        "error, whatever line it is thrown on."
    )
