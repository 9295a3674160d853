"""From what held, ball by ball, to the events of a log: the changes that lead from one moment to the next."""

from collections.abc import Mapping
from typing import Any

from coachlib.coaching.session.setting import Setting, fields_of
from coachlib.records.log.entries import Step

_OF_LANE = ("line", "ball", "games_on_lane")


def steps_to(was: Setting, now: Setting, /, *, is_oiled: bool = False, **seen: Any) -> list[Step]:
    """Return the steps from one setting to another and to what was seen then, such as a shot.

    Parameters
    ----------
    was, now : Setting
        What held, and what holds.
    is_oiled : bool, default False
        Whether the lane was oiled again, which games stated anew tell.
    **seen
        Payload by kind of event; None where there was none.
    """
    changes = changes_between(was, now) | ({"games_on_lane": now.games_on_lane} if is_oiled else {})
    steps: list[Step] = [("change", changes)] if changes else []
    return steps + [
        (kind, payload if isinstance(payload, Mapping) else {kind: payload})
        for kind, payload in seen.items()
        if payload is not None
    ]


def changes_between(was: Setting, now: Setting) -> dict[str, Any]:
    """Return what :func:`coachlib.change` needs to go from one setting to another; empty where equal.

    A change of lane says line, ball and games too: without them those last held there would come back.
    """
    held = fields_of(now)
    differing = [name for name, value in fields_of(was).items() if value != held[name]]
    if "lane" in differing:
        differing = list(dict.fromkeys([*differing, *_OF_LANE]))
    return {name: held[name] for name in differing}
