"""Names of the invented bowlers, balls and oil patterns as a person would say them."""

from typing import Final

_SAID: Final = {
    "hybrid_2000": "hybrid, 2000 grit",
    "hybrid_4000": "hybrid, 4000 grit",
    "hybrid_14lb": "hybrid, 14 lb",
    "solid_1000": "solid, 1000 grit",
    "pearl_polished": "pearl, polished",
    "urethane_500": "urethane, 500 grit",
    "plastic_spare": "plastic spare ball",
    "junior_plastic": "plastic junior ball",
    "club_right": "club bowler, right-handed",
    "club_left": "club bowler, left-handed",
    "walker_right": "walks the target line, right-handed",
    "junior_left": "junior, left-handed",
    "senior_right": "senior, right-handed",
    "low_rev_right": "low revs, right-handed",
    "high_rev_left": "high revs, left-handed",
    "two_handed_right": "two-handed, right-handed",
}
_PATTERNS: Final = ("flat", "house", "long", "short", "steps", "worn")


def said_name(name: str) -> str:
    """Return a name as it stands in a list or under a picture: ``house pattern, 41 ft``.

    Names that are not the library's own are shown as they are, but for the line between their words.
    """
    kind, _, length_ft = name.partition("_")
    if kind in _PATTERNS and length_ft.isdecimal():
        return f"{'stepped' if kind == 'steps' else kind} pattern, {length_ft} ft"
    return _SAID.get(name, name.replace("_", " "))


def short_name(name: str) -> str:
    """Return a name as it stands within a sentence: ``hybrid 2000``, ``house 41``."""
    return name.replace("_", " ")
