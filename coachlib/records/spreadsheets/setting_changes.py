"""From what held to what holds: the change that leads from one moment of a session to the next."""

import dataclasses
from typing import Any

from coachlib.coaching.session.setting import Setting

FIELDS = tuple(field.name for field in dataclasses.fields(Setting))
_OF_LANE = ("line", "ball", "games_on_lane")


def changes_between(was: Setting, now: Setting) -> dict[str, Any]:
    """Return what :func:`coachlib.change` needs to go from one setting to another; empty where equal.

    A change of lane says line, ball and games too: without them those last held there would come back.
    """
    differing = [name for name in FIELDS if getattr(was, name) != getattr(now, name)]
    if "lane" in differing:
        differing = list(dict.fromkeys([*differing, *_OF_LANE]))
    return {name: getattr(now, name) for name in differing}
