"""What is asked where pins and hit, as they were noted, do not go together."""

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.simulation.leave_doubt import leave_doubt
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import To
from coachlib.coaching.wording.seen_words import times_text
from coachlib.coaching.wording.spare_words import pins_text
from coachlib.world.hand import Hand


def doubt_text(advice: Advice, hand: Hand, to: To = "bowler") -> str:
    """Return what to check where several balls left pins that do not go with the hit; else an empty text.

    ``"You said high twice, but for a left-hander a ball that leaves the 4-pin usually crosses over. Check
    hit or pins."``
    """
    found = None if advice.reading.last is None else leave_doubt(advice.session)
    if found is None:
        return ""
    who = "You" if to == "bowler" else "The bowler"
    said, usual = ARRIVAL_WORDS[found.named].name, ARRIVAL_WORDS[found.usual].does
    return (
        f"{who} said {said} {times_text(found.n_balls)}, but for a {hand}-hander a ball that leaves "
        f"{pins_text(found.leave, hand)} usually {usual}. Check hit or pins."
    )
