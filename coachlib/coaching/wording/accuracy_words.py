"""How well a bowler hits the target, as people say it: by an average."""

from coachlib.world.bowler import ACCURACY_SD_BOARDS, USUAL_ACCURACY

NOT_ENTERED = f"not entered, so we assume an average of about {USUAL_ACCURACY}"


def average_text(name: str) -> str:
    """Return a class of accuracy as it stands in a list: ``average about 200``, or ``tour``."""
    return name if name == "tour" else f"average about {name}"


def like_text(name: str) -> str:
    """Return a class of accuracy in a sentence: ``like an average of about 200``, ``like a tour player``."""
    return "like a tour player" if name == "tour" else f"like an average of about {name}"


def spreads_text() -> str:
    """Return the usual spread of every class: ``160: 1.46, 180: 1.30, …``, in boards."""
    return ", ".join(f"{name}: {sd_boards:.2f}" for name, sd_boards in ACCURACY_SD_BOARDS.items())
