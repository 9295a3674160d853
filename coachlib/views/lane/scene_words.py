"""What a scene says of itself in words: its caption, and all of it for who cannot see it."""

from collections.abc import Sequence

from coachlib.coaching.simulation.paths import LinePaths
from coachlib.views.lane.scene_parts import DrawnLine, LaneScene, LastBall
from coachlib.views.lane.scene_paths import BELIEVED, deck_text, path_words, simulated_note


def note_of(scene: LaneScene, thrown: Sequence[LinePaths]) -> str:
    """Return what a picture must say about itself."""
    if thrown:
        return BELIEVED if scene["source"] == "believed" else simulated_note(thrown)
    leaves_ft = (scene["advised"] or scene["played"])["leaves_ft"]
    note = "Aiming lines, as on paper: thick to the target, thin beyond; the ball’s hook is not drawn."
    if leaves_ft is None:
        return note
    return f"{note} Drawn straight on, the line leaves the lane at {leaves_ft:.0f} ft: the ball turns before."


def summary_of(scene: LaneScene) -> str:
    """Return the picture in words, for who cannot see it."""
    played, advised, last = scene["played"], scene["advised"], scene["last"]
    parts = [f"The lane from above, for a {scene['hand']}-hander", f"Line played: {_line_words(played)}"]
    if advised is not None:
        parts.append(f"Next line: {_line_words(advised)}")
        if not scene["is_plain"]:
            told = ", ".join(f"{shift['text']} at {shift['at_ft']:.0f} ft" for shift in scene["shifts"])
            parts.append(f"On paper the next line lies, against the line played: {told}")
    if scene["simulated_text"]:
        parts.append(f"Simulated, it arrives {scene['simulated_text']} at 60 ft")
    deck = [deck_text(line) for line in scene["deck"]]
    parts += [f"{text[0].upper()}{text[1:]}" for text in deck]
    if scene["pivot"] is not None and not scene["is_plain"]:
        parts.append(f"The two lines cross at {scene['pivot']['at_ft']:.0f} ft")
    if last is not None:
        parts += _last_words(last)
    if scene["pins_seen"]:
        left = ", ".join(str(pin) for pin in sorted(pin["number"] for pin in scene["pins"] if pin["is_left"]))
        parts.append(f"Pins left: {left or 'none'}")
    return " ".join(filter(None, [". ".join([*parts, scene["note"]]), scene["sheet_text"]]))


def _line_words(line: DrawnLine) -> str:
    words = f"feet {line['feet_text']}, target {line['target_text']} at {line['target_ft']:g} ft"
    return words if line["path"] is None else f"{words}; {path_words(line['path'])}"


def _last_words(last: LastBall) -> list[str]:
    arrived = last["arrival_text"] and f"arrived at {last['arrival_text']}"
    told = [last["crossed_text"], last["missed_text"] or arrived]
    words = ", ".join(filter(None, told))
    return [f"Ball {last['number']} {words}"] if words else []
