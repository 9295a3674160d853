"""A game plan in words: the line, its chance, its room, the other lines, and what to do if it goes wrong.

Nothing is computed here but the wording. Chances are counts of twenty balls; left and right are said for the
hand asked for.
"""

import dataclasses

from coachlib.coaching.plan.plan import LineRoom, Plan, RunnerUp
from coachlib.coaching.plan.plan_cases import TURN_FT, CaseKind, WhatIf
from coachlib.coaching.simulation.line_search import EQUAL_PROB, FILM_FRACS, ROOM_FRAC
from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.coaching.wording.advice_text import say
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import (
    line_text,
    lowered,
    move_text,
    strikes_beside_text,
    strikes_text,
    with_sides,
)
from coachlib.errors import checked_thing
from coachlib.world.hand import Hand, checked_hand, inside_side, outside_side
from coachlib.world.lane import arrival_class
from coachlib.world.parsing import board_text

CARE = "If thumb, wrist, back or knee hurts: stop, and say so. House rules and qualified people come first."
NO_CASES = "A straight ball hardly answers to the oil: high or light, it was the aim."
NOT_A_PROMISE = (
    "Simulated for a fresh lane and the bowler as entered, so rather too rosy. It ranks lines; it promises "
    "nothing. What your first balls do counts more."
)
_HEADINGS: dict[CaseKind, str] = {
    "high": "If it goes high",
    "light": "If it goes light",
    "early": "If it turns early",
    "late": "If it turns late",
}
_LANES: dict[CaseKind, str] = {
    "high": "less oil than the sheet says",
    "light": "more oil than the sheet says",
    "early": "so little oil that it turns {turn} ft sooner",
    "late": "oil that reaches {turn} ft farther",
}


@dataclasses.dataclass(frozen=True)
class SaidCase:
    """One case of the plan in words.

    Parameters
    ----------
    heading : str
        What is seen.
    lane : str
        The lane of the model that shows it, and where the ball arrives there.
    move : str
        The model's move and the new line, or to stay.
    chances : str
        Its worth against staying, counts of twenty.
    rule : str
        The rule of thumb's move, and what it is worth there.
    """

    heading: str
    lane: str
    move: str
    chances: str
    rule: str


@dataclasses.dataclass(frozen=True)
class SaidPlan:
    """A game plan in words; texts may be empty.

    Parameters
    ----------
    who : str
        Bowler, ball and oil.
    headline : str
        The line, as it is called out.
    sentence : str
        Where the ball leaves the oil and arrives, beside the rule of 31.
    chances : str
        Strikes of twenty, on the sheet's film and on other ones.
    room : tuple of str
        How far the line may be shifted.
    runners_up : tuple of str
        Other lines and what they lose.
    cases : tuple of SaidCase
        If it goes high, light, early, late.
    rules : tuple of str
        What the rulebook says before the first ball.
    notes : tuple of str
        What is not known and what it was taken for, and how far to trust the plan.
    cautions : tuple of str
        Each on a line of its own.
    text : str
        All of it as plain text, to print or to read aloud.
    """

    who: str
    headline: str
    sentence: str
    chances: str
    room: tuple[str, ...]
    runners_up: tuple[str, ...]
    cases: tuple[SaidCase, ...]
    rules: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    text: str


def say_plan(plan: Plan, hand: Hand | None = None) -> SaidPlan:
    """Return a game plan in words.

    Parameters
    ----------
    plan : Plan
        From :func:`coachlib.plan`.
    hand : {"right", "left"}, optional
        Whose left and right; the bowler's own if left out.

    Raises
    ------
    InputError
        If `plan` is no plan or `hand` is unknown.
    """
    checked_thing("plan", plan, Plan, "Make one with coachlib.plan(…).")
    hand = checked_hand(plan.session.bowler.hand if hand is None else hand)
    said = SaidPlan(
        who=_who(plan),
        headline=line_text(plan.line),
        sentence=_sentence(plan),
        chances=_chances(plan),
        room=() if plan.room is None else _room(plan.room, hand),
        runners_up=tuple(_runner_up(one) for one in plan.runners_up),
        cases=tuple(_case(one, hand) for one in plan.cases),
        rules=_rules(plan, hand),
        notes=_notes(plan),
        cautions=_cautions(plan, hand),
        text="",
    )
    return dataclasses.replace(said, text=_text(said))


def start_text(plan: Plan) -> str:
    """Return the starting line in one or two sentences, for a form that is filled with it.

    No chance is told: the first answer on this line tells one, of more lanes than the sheet's.
    """
    hand = plan.session.bowler.hand
    why = f" {with_sides(plan.reason, hand, {})}" if plan.reason else ""
    if plan.strike_prob is None:
        return f"{line_text(plan.line)}, by the rule of 31 alone: we do not know where the oil lies.{why}"
    unknown = ", ".join(what for what, _ in plan.assumed)
    taken = f" Not entered, so we assumed what is usual: {unknown}." if unknown else ""
    return f"{line_text(plan.line)}, simulated on the oil sheet.{why}{taken}"


def _who(plan: Plan) -> str:
    session = plan.session
    bowler, pattern = session.bowler, session.pattern
    names = [bowler.name, f"{bowler.hand}-handed", session.ball.name if session.ball else ""]
    names.append("" if pattern is None else f"{pattern.name}, oil to {pattern.length_ft:g} ft")
    return " · ".join(name.replace("_", " ") for name in names if name)


def _sentence(plan: Plan) -> str:
    pattern = plan.session.pattern
    rule = "" if pattern is None else f"the rule of 31 says {board_text(pattern.rule_of_31_board)}"
    if plan.is_rule_only:
        return (
            f"By the rule of 31 alone: on paper the aim leaves the oil at board {_half(plan.exit_board)}; "
            f"{rule}. We do not know where the oil lies, so nothing was simulated."
        )
    arrival = "" if plan.arrival_board is None else f" and arrives at {_half(plan.arrival_board)}"
    return f"A good ball leaves the oil at board {_half(plan.exit_board)}{arrival}; {rule}."


def _chances(plan: Plan) -> str:
    if plan.strike_prob is None:
        return ""
    told = f"About {strikes_text(plan.strike_prob)}."
    counts = [n_of_twenty(chance) for chance in plan.film_probs]
    off = f"{n_of_twenty(FILM_FRACS[-1] - 1.0)} parts in {N_TWENTY}"
    if len(set(counts)) == 1:
        return f"{told} The same where the oil is thinner or thicker than on the sheet by {off}."
    thin, sheet, thick = counts
    return f"{told} With the oil of the sheet {sheet}, with {off} less oil {thin}, with so much more {thick}."


def _room(room: LineRoom, hand: Hand) -> tuple[str, ...]:
    parallel = _to_both_sides(room.parallel_out_boards, room.parallel_in_boards, hand)
    aim = _to_both_sides(room.aim_out_boards, room.aim_in_boards, hand)
    kept = f"Within that it keeps {n_of_twenty(ROOM_FRAC)} of every {N_TWENTY} strikes."
    return (f"Feet and eyes together: {parallel}.", f"The eyes alone: {aim}.", kept)


def _to_both_sides(out_boards: float, in_boards: float, hand: Hand) -> str:
    sides = {outside_side(hand): out_boards, inside_side(hand): in_boards}
    return ", ".join(
        f"{board_text(sides[side])} {side}" if sides[side] else f"none {side}" for side in ("left", "right")
    )


def _runner_up(one: RunnerUp) -> str:
    n_less = n_of_twenty(one.loses_prob)
    loses = "about the same" if one.is_equal or not n_less else f"{n_less} fewer in {N_TWENTY}"
    return f"{line_text(one.line)}: {loses}."


def _case(case: WhatIf, hand: Hand) -> SaidCase:
    arrived = arrival_class(case.arrival_board)
    came_in = "still finds the pocket" if arrived == "pocket" else ARRIVAL_WORDS[arrived].does
    lane = _LANES[case.kind].format(turn=f"{TURN_FT:g}")
    return SaidCase(
        heading=_HEADINGS[case.kind],
        lane=f"On {lane} it {came_in}, at board {_half(case.arrival_board)}.",
        move=_case_move(case, hand),
        chances=_case_chances(case),
        rule=_case_rule(case, hand),
    )


def _case_move(case: WhatIf, hand: Hand) -> str:
    if case.move.is_stay:
        return "Stay"
    line = line_text(case.new_line)
    return f"{move_text(case.move, hand)}: {line[0].lower()}{line[1:]}"


def _case_chances(case: WhatIf) -> str:
    if case.move.is_stay:
        return f"No move within reach beats these {strikes_text(case.stay_prob)}."
    return f"About {strikes_beside_text(case.move_prob, case.stay_prob)}."


def _case_rule(case: WhatIf, hand: Hand) -> str:
    move = case.rule.move
    said = "stay" if case.rule.kind == "stay" else "watch one more" if case.rule.kind == "watch" else ""
    said = said or lowered(move_text(move, hand))
    if case.is_agreed:
        return f"The rule of thumb says the same: {said}."
    if case.rule_prob is None:
        return f"The rule of thumb says {said}; that was not simulated."
    off = case.move_prob - case.rule_prob
    n_less = n_of_twenty(off)
    worth = "about the same" if off < EQUAL_PROB or not n_less else f"{n_less} fewer in {N_TWENTY}"
    return f"The rule of thumb says {said}: {worth}."


def _rules(plan: Plan, hand: Hand) -> tuple[str, ...]:
    voice = plan.start.rule
    return tuple(with_sides(one.text or one.rule.why, hand, voice.numbers) for one in voice.fired)


def _notes(plan: Plan) -> tuple[str, ...]:
    unknown = "; ".join(f"{what} {taken}" for what, taken in plan.assumed)
    notes = [f"Not entered, so we assumed: {unknown}."] if unknown else []
    if not plan.is_rule_only:
        notes += [NOT_A_PROMISE] if plan.cases else [NO_CASES, NOT_A_PROMISE]
    return tuple(notes)


def _cautions(plan: Plan, hand: Hand) -> tuple[str, ...]:
    told = [caution for case in plan.cases for caution in say(case.rule, hand).cautions]
    return tuple(dict.fromkeys([*say(plan.start, hand).cautions, *told, CARE]))


def _text(said: SaidPlan) -> str:
    """Return the whole plan as plain lines."""
    told = (said.headline, said.sentence, said.chances)
    lines = [f"Game plan: {said.who}", "", *(text for text in told if text)]
    lines += _block("Room", said.room) + _block("Other lines", said.runners_up)
    for case in said.cases:
        lines += _block(f"{case.heading}: {case.move}", (case.chances, case.lane, case.rule))
    lines += _block("Rule of thumb for the start", said.rules)
    lines += _block("Mind", (*said.notes, *said.cautions))
    return "\n".join(lines).strip() + "\n"


def _block(title: str, texts: tuple[str, ...]) -> list[str]:
    told = [f"  {text}" for text in texts if text]
    return ["", title, *told] if told else []


def _half(board: float) -> str:
    return board_text(round(2.0 * board) / 2.0)
