"""What is said of the pins just left: boards for feet and target first, then what the spare system adds."""

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.spares.spare_lines import SpareLine, spare_line
from coachlib.coaching.wording.callouts import line_text, lowered, side_text, with_sides
from coachlib.world.hand import Hand, own_pins
from coachlib.world.levers import is_hooking
from coachlib.world.line import after_move
from coachlib.world.pins import pin_board

THIN_BOARDS = 2.0
"""With less room than this between a hit and a miss the hit is called thin (our guess) [boards]."""

FEET_END = "The feet have no more room there, so the eyes do the rest."


def spare_text(advice: Advice, hand: Hand) -> str:
    """Return what is said of the pins just left; empty where none were, or nothing is known of them."""
    voice = advice.spare
    leave = advice.session.shots[-1].shot.leave if advice.session.shots else None
    if voice is None or not voice.fired or not leave:
        return ""
    found = spare_line(advice.session, leave, voice.move)
    parts = [f"{line_text(found.line)}{_how(found, hand)}."]
    parts += [FEET_END] * found.is_feet_end
    is_lone = len(found.aim.pins) == 1 and found.aim.way == "pin"
    if is_lone and not voice.move.is_stay and is_hooking(advice.session.bowler):
        parts.append(f"With the strike ball: {lowered(line_text(after_move(advice.line, voice.move)))}.")
    return " ".join(
        [*parts, *(with_sides(one.text or one.rule.why, hand, voice.numbers) for one in voice.fired)]
    )


def pins_text(pins: tuple[int, ...], hand: Hand) -> str:
    """Return pins as numbered on the lane: ``"the 10-pin"``, ``"the 3 and the 10"``."""
    numbers = [str(pin) for pin in own_pins(pins, hand)]
    if len(numbers) == 1:
        return "the head pin" if numbers == ["1"] else f"the {numbers[0]}-pin"
    return " and ".join((", ".join(f"the {number}" for number in numbers[:-1]), f"the {numbers[-1]}"))


def _how(found: SpareLine, hand: Hand) -> str:
    aim = found.aim
    if aim.way == "rack":
        return ", the strike line again"
    if not found.is_straight:
        return f" with the strike ball, at {pins_text(aim.fronts, hand)}"
    if aim.way == "across":
        key, taken = aim.fronts
        side = side_text(aim.board - pin_board(key), hand)
        thin = " and thin" if aim.room_boards < THIN_BOARDS else ""
        return (
            f", straight{thin} on the {side} of {pins_text((key,), hand)}, so that it slides to "
            f"{pins_text((taken,), hand)}"
        )
    if len(aim.fronts) > 1:
        return f", straight at the gap between {pins_text(aim.fronts, hand)}"
    ending = f", for {pins_text(aim.pins, hand)}" if aim.way == "part" and len(aim.pins) > 1 else ""
    return f", straight at {pins_text(aim.fronts, hand)}{ending}"
