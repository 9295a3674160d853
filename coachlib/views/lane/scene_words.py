"""What a scene says of itself in words: its caption, and all of it for who cannot see it."""

from collections.abc import Sequence

import numpy as np

from coachlib.coaching.simulation.paths import N_BALLS, LinePaths
from coachlib.views.lane.scene_parts import DeckLine, DrawnLine, LaneScene

BELIEVED = "Simulated on likely lanes, with this bowler’s own misses. The thick line is their middle."
"""The caption of balls drawn from what is believed."""


def note_of(scene: LaneScene, thrown: Sequence[LinePaths]) -> str:
    """Return what a picture must say about itself."""
    if thrown:
        return BELIEVED if scene["source"] == "believed" else simulated_note(thrown)
    line = scene["advised"] or scene["played"]
    leaves_ft = line["leaves_ft"]
    note = "Aiming lines, as on paper: thick to the target, thin beyond. The ball’s hook is not drawn."
    if leaves_ft is None:
        return note
    if line["end_ft"] < leaves_ft:
        return f"{note} It ends soon after the target, since the ball turns before it would reach the gutter."
    return f"{note} Drawn straight on, it leaves the lane at {leaves_ft:.0f} ft. The ball turns before that."


def summary_of(scene: LaneScene) -> str:
    """Return the picture in words, for who cannot see it."""
    played, advised, last = scene["played"], scene["advised"], scene["last"]
    parts = [f"The lane from above, for a {scene['hand']}-hander", f"Line played: {_line_words(played)}"]
    if advised is not None:
        parts.append(f"Next line: {_line_words(advised)}")
        if not scene["is_plain"]:
            shifts = ", ".join(f"{shift['text']} at {shift['at_ft']:.0f} ft" for shift in scene["shifts"])
            parts.append(f"On paper the next line lies, against the line played: {shifts}")
    if scene["simulated_text"]:
        parts.append(f"Simulated, it hits {scene['simulated_text']} at 60 ft")
    parts += [f"{text[0].upper()}{text[1:]}" for text in map(deck_text, scene["deck"])]
    if scene["pivot"] is not None and not scene["is_plain"]:
        parts.append(f"The two lines cross at {scene['pivot']['at_ft']:.0f} ft")
    if last is not None:
        arrived = last["arrival_text"] and f"hit {last['arrival_text']}"
        words = ", ".join(filter(None, (last["crossed_text"], last["missed_text"] or arrived)))
        parts += [f"Ball {last['number']} {words}"] if words else []
    if scene["pins_seen"]:
        left = ", ".join(str(pin) for pin in sorted(pin["number"] for pin in scene["pins"] if pin["is_left"]))
        parts.append(f"Pins left: {left or 'none'}")
    return " ".join(filter(None, [". ".join([*parts, scene["note"]]), scene["sheet_text"]]))


def _line_words(line: DrawnLine) -> str:
    path = line["path"]
    words = f"feet {line['feet_text']}, target {line['target_text']} at {line['target_ft']:g} ft"
    if path is None:
        return words
    turn = path["breakpoint"]
    parts = [f"{turn['text']} at {turn['at_ft']:.0f} ft"] if turn else []
    parts.append(f"{'hits' if path['contact'] else 'ends'} {path['arrival_text']}")
    return f"{words}. Simulated, {', '.join(parts)}, {path['n_strikes']} of {N_BALLS} strike"


def deck_text(line: DeckLine) -> str:
    """Return a line of the deck as one text."""
    return " ".join(filter(None, (line["head"], line["name"], line["text"])))


def simulated_note(thrown: Sequence[LinePaths]) -> str:
    """Return what a picture of balls thrown on the oil sheet must say: what is drawn, and what is lost."""
    is_known = "speed" not in dict(thrown[0].assumed)
    speed = f" at {thrown[0].speed_mph:.1f}".removesuffix(".0") + " mph" if is_known else ""
    lost = [int(np.isnan(paths.arrivals_board).sum()) for paths in thrown]
    lost_text = f"{lost[0]} of {N_BALLS}"
    lost_text += f" on the line played, {lost[1]} on the next" if len(lost) > 1 else ""
    parts = [
        f"Simulated on the oil sheet, not on balls you threw. Each thin line and each dot is one ball, "
        f"{N_BALLS} a line{speed}. The thick line is a good shot, the dotted one its aim.",
        *assumed_words(thrown[0].assumed),
        *([f"Into the gutter: {lost_text}."] if any(lost) else []),
    ]
    return " ".join(parts)


def assumed_words(assumed: Sequence[tuple[str, str]]) -> list[str]:
    """Return what is unknown and what it was taken for, in one sentence."""
    if not assumed:
        return []
    unknown, taken = ([pair[i] for pair in assumed] for i in (0, 1))
    return [f"{_listed(unknown).capitalize()} not entered, so we drew {_listed(taken)}."]


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
