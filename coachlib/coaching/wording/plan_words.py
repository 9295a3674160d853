"""A game plan in words: the line, its chance, its room, the other lines, and what to do if it goes wrong.

Nothing is computed here but the wording. Chances are counts of twenty balls; left and right are said for the
hand asked for.
"""

import dataclasses

from coachlib.coaching.plan.plan import LineRoom, Plan
from coachlib.coaching.plan.plan_cases import TURN_FT, CaseKind, WhatIf
from coachlib.coaching.simulation.line_search import EQUAL_PROB, FILM_FRACS, ROOM_FRAC
from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.coaching.wording.advice_text import say
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS, half_text
from coachlib.coaching.wording.callouts import (
    line_text,
    lowered,
    move_text,
    strikes_beside_text,
    strikes_text,
    with_sides,
)
from coachlib.coaching.wording.names import said_name
from coachlib.coaching.wording.why_words import reason_of_rule
from coachlib.errors import checked_thing
from coachlib.world.hand import Hand, checked_hand, inside_side, outside_side
from coachlib.world.lane import arrival_class
from coachlib.world.parsing import board_text

CARE = "If thumb, wrist, back or knee hurts: stop, and say so. House rules and qualified people come first."
NO_CASES = "The oil hardly moves a straight ball. If it hits high or light, it was the aim."
NOT_A_PROMISE = (
    "Simulated for a fresh lane and the bowler as entered, so rather too rosy. It ranks lines and promises "
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
    rules = [plan.start, *(case.rule for case in plan.cases)]
    cautions = [caution for rule in rules for caution in say(rule, hand).cautions]
    text = SaidPlan(
        who=_who(plan),
        headline=line_text(plan.line),
        sentence=_sentence(plan),
        chances=_chances(plan),
        room=() if plan.room is None else _room(plan.room, hand),
        runners_up=tuple(
            f"{line_text(one.line)}: {_loss(one.loses_prob, one.is_equal)}." for one in plan.runners_up
        ),
        cases=tuple(_case(one, hand) for one in plan.cases),
        rules=tuple(reason_of_rule(one, plan.start.rule, hand) for one in plan.start.rule.fired),
        notes=_notes(plan),
        cautions=tuple(dict.fromkeys([*cautions, CARE])),
        text="",
    )
    return dataclasses.replace(text, text=_text(text))


def start_text(plan: Plan) -> str:
    """Return the starting line in one or two sentences, for a form that is filled with it.

    No chance is told: the first answer on this line tells one, of more lanes than the sheet's.
    """
    hand = plan.session.bowler.hand
    why = f" {with_sides(plan.reason, hand, {})}" if plan.reason else ""
    if plan.strike_prob is None:
        return f"{line_text(plan.line)}, by the rule of 31 alone, as we do not know where the oil lies.{why}"
    unknown = ", ".join(what for what, _ in plan.assumed)
    taken = f" Not entered, so we assumed what is usual: {unknown}." if unknown else ""
    return f"{line_text(plan.line)}, simulated on the oil sheet.{why}{taken}"


def _who(plan: Plan) -> str:
    session = plan.session
    bowler, pattern = session.bowler, session.pattern
    names = [bowler.name, f"{bowler.hand}-handed", session.ball.name if session.ball else ""]
    names.append("" if pattern is None else f"{said_name(pattern.name)}, oil to {pattern.length_ft:g} ft")
    return " · ".join(said_name(name) for name in names if name)


def _sentence(plan: Plan) -> str:
    pattern = plan.session.pattern
    rule = "" if pattern is None else f"the rule of 31 says {board_text(pattern.rule_of_31_board)}"
    exit_at = f"leaves the oil at board {half_text(plan.exit_board)}"
    if plan.is_rule_only:
        unknown = "We do not know where the oil lies, so nothing was simulated."
        return f"By the rule of 31 alone: on paper the aim {exit_at}, and {rule}. {unknown}"
    arrival = "" if plan.arrival_board is None else f" and hits board {half_text(plan.arrival_board)}"
    return f"A good ball {exit_at}{arrival}. {rule[:1].upper()}{rule[1:]}{'.' * bool(rule)}".strip()


def _chances(plan: Plan) -> str:
    if plan.strike_prob is None:
        return ""
    about = f"About {strikes_text(plan.strike_prob)}."
    counts = [n_of_twenty(chance) for chance in plan.film_probs]
    off = f"{n_of_twenty(FILM_FRACS[-1] - 1.0)} parts in {N_TWENTY}"
    if len(set(counts)) == 1:
        return f"{about} The same with oil thinner or thicker than on the sheet by {off}."
    thin, sheet, thick = counts
    return f"{about} With oil as on the sheet {sheet}, with {off} less oil {thin}, with as much more {thick}."


def _room(room: LineRoom, hand: Hand) -> tuple[str, ...]:
    def to_both_sides(out_boards: float, in_boards: float) -> str:
        sides = {outside_side(hand): out_boards, inside_side(hand): in_boards}
        return ", ".join(f"{board_text(sides[one]) if sides[one] else 'none'} {one}" for one in sorted(sides))

    parallel = to_both_sides(room.parallel_out_boards, room.parallel_in_boards)
    aim = to_both_sides(room.aim_out_boards, room.aim_in_boards)
    kept = f"Within that it keeps {n_of_twenty(ROOM_FRAC)} of every {N_TWENTY} strikes."
    return (f"Feet and eyes together: {parallel}.", f"The eyes alone: {aim}.", kept)


def _loss(off_prob: float, is_equal: bool) -> str:
    n_less = n_of_twenty(off_prob)
    return "about the same" if is_equal or not n_less else f"{n_less} fewer in {N_TWENTY}"


def _case(case: WhatIf, hand: Hand) -> SaidCase:
    arrived = arrival_class(case.arrival_board)
    came_in = "still finds the pocket" if arrived == "pocket" else ARRIVAL_WORDS[arrived].does
    lane = _LANES[case.kind].format(turn=f"{TURN_FT:g}")
    move = f"{move_text(case.move, hand)}: {lowered(line_text(case.new_line))}"
    chances = f"About {strikes_beside_text(case.move_prob, case.stay_prob)}."
    if case.move.is_stay:
        move, chances = "Stay", f"No move within reach beats these {strikes_text(case.stay_prob)}."
    return SaidCase(
        heading=_HEADINGS[case.kind],
        lane=f"On {lane} it {came_in}, at board {half_text(case.arrival_board)}.",
        move=move,
        chances=chances,
        rule=_case_rule(case, hand),
    )


def _case_rule(case: WhatIf, hand: Hand) -> str:
    waits = {"stay": "stay", "watch": "watch one more"}
    answer = waits.get(case.rule.kind) or lowered(move_text(case.rule.move, hand))
    if case.is_agreed:
        return f"The rule of thumb says the same: {answer}."
    if case.rule_prob is None:
        return f"The rule of thumb says {answer}, which we did not simulate."
    off = case.move_prob - case.rule_prob
    return f"The rule of thumb says {answer}: {_loss(off, off < EQUAL_PROB)}."


def _notes(plan: Plan) -> tuple[str, ...]:
    unknown = ", ".join(f"{what} {taken}" for what, taken in plan.assumed)
    notes = [f"Not entered, so we assumed: {unknown}."] if unknown else []
    if not plan.is_rule_only:
        notes += [NOT_A_PROMISE] if plan.cases else [NO_CASES, NOT_A_PROMISE]
    return tuple(notes)


def _text(plan: SaidPlan) -> str:
    """Return the whole plan as plain lines."""
    lines = [f"Game plan: {plan.who}", "", *filter(None, (plan.headline, plan.sentence, plan.chances))]
    blocks = (
        ("Miss room", plan.room),
        ("Other lines", plan.runners_up),
        *((f"{one.heading}: {one.move}", (one.chances, one.lane, one.rule)) for one in plan.cases),
        ("Rule of thumb for the start", plan.rules),
        ("Keep in mind", (*plan.notes, *plan.cautions)),
    )
    for title, texts in blocks:
        lines += ["", title, *(f"  {text}" for text in texts)] if texts else []
    return "\n".join(lines).strip() + "\n"
