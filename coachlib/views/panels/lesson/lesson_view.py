"""How a lesson looks: the question and its thread, the bet on the lane, the answer, and what was learned."""

from typing import Any

from coachlib.coaching.wording.arrival_words import half_text
from coachlib.coaching.wording.callouts import side_text
from coachlib.study.questions.question import Answer, NumberAsk, Question
from coachlib.views.lane.question_scene import question_scene
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.views.panels.lesson.lesson_play import Bet, LessonPlay
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand
from coachlib.world.parsing import board_text
from coachlib.world.usual import as_usual

CREDIT_WORDS = {1.0: "correct", 0.5: "half correct", 0.0: "not this time", None: "not answered"}
UNITS = {"board": "", "boards": " boards", "ft": " ft", "count": " of 20"}


def lesson_scene(play: LessonPlay) -> LaneScene | None:
    """Return the lane of the question that is asked now, or of its answer; None where no question is."""
    question = play.question
    if question is None:
        return None
    return question_scene(question.scene if play.bet is None else question.reveal)


def head_view(play: LessonPlay) -> dict[str, Any]:
    """Return what stands above the lane: where one is, and the question or its answer."""
    question, bet = play.question, play.bet
    look: dict[str, Any] = {"part": play.part, "thread": _thread(play), "place": _place(play)}
    look["own"] = own_text(play.bowler if question is None else question.scene.now.bowler)
    if question is None:
        return look | _end(play)
    look |= {
        "prompt": question.prompt,
        "rows": list((question.scene if bet is None else question.reveal).rows),
    }
    look["caution"] = _said(play, play.lesson.caution) if play.part == "lesson" and play.at == 0 else ""
    look["mark"] = "asked" if bet is None else _mark_name(bet)
    if bet is None:
        look["summary"] = question.prompt
        return look
    why = _why(question, bet)
    look |= {"bet": bet_text(question, bet), "answer": question.answer_text, "why": why}
    if play.part == "lesson":
        look["on_the_lane"] = _said(play, play.step.on_the_lane)
    parts = (f"{look['bet']}.", f"{question.answer_text}.", look["why"], look.get("on_the_lane", ""))
    look["summary"] = " ".join(part for part in parts if part)
    return look


def control_view(play: LessonPlay) -> dict[str, Any]:
    """Return what can be pressed: the bet, or what comes after it."""
    question, bet = play.question, play.bet
    look: dict[str, Any] = {"part": play.part, "at": play.at, "is_open": question is not None and bet is None}
    look["can_go_back"] = play.part != "lesson" or play.at > 0
    look["next"] = _next_text(play)
    other: Hand = "left" if play.bowler.hand == "right" else "right"
    look |= {"other_hand": other, "hand_text": ""}
    is_first = play.part == "lesson" and play.at == 0 and bet is None
    look["can_print"] = is_first or question is None
    if is_first:
        look["hand_text"] = f"I’m {other}-handed: ask me that way"
    if question is not None and bet is not None:
        look["wrong_idea"] = _said(play, play.step.wrong_idea) if play.part == "lesson" else ""
        look["from"] = f"{question.source}. {'' if _is_asked_again(play) else question.changes_text}".strip()
    if question is None:
        return look
    look["choices"] = [
        {"id": choice.id, "text": _raised(choice.text), "mark": _choice_mark(question, bet, choice.id)}
        for choice in question.choices
    ]
    if isinstance(question.ask, NumberAsk):
        look["number"] = _number_control(question.ask, play.bowler.hand)
    return look


def bet_view(play: LessonPlay) -> dict[str, Any]:
    """Return the bet and the answer as they lie on the lane; empty where they are not drawn there.

    ``what`` is a board or a distance, ``value`` the bet (None if it was skipped), ``answer`` what is
    drawn over it after the bet, ``cross`` where two drawn lines cross.
    """
    question, bet = play.question, play.bet
    if question is None:
        return {}
    look: dict[str, Any] = {"what": "none", "is_open": bet is None, "value": None, "answer": None}
    shown = question.scene if bet is None else question.reveal
    if shown.cross_ft is not None and shown.cross_board is not None:
        look["cross"] = [round(shown.cross_ft, 2), round(shown.cross_board, 2)]
        look["cross_text"] = f"cross at {shown.cross_ft:.0f} ft"
    ask = question.ask
    if isinstance(ask, NumberAsk) and (ask.measure == "ft" or ask.at_ft is not None):
        look |= {"what": "ft" if ask.measure == "ft" else "board", "at_ft": ask.at_ft or 0.0}
        look |= {"low": ask.low, "high": ask.high, "step": ask.step}
        value = ask.start if bet is None else bet.answer
        look["value"] = None if value is None else float(value)
        if bet is not None:
            look |= _answer_on_lane(question, ask, bet)
    return look if look["what"] != "none" or "cross" in look else {}


def bet_text(question: Question, bet: Bet) -> str:
    """Return what was bet and how good it was: ``You bet 21: 3½ boards off``."""
    if bet.answer is None or bet.marked is None:
        return "You skipped this one"
    said, words = answer_words(question, bet.answer), CREDIT_WORDS[bet.credit]
    if bet.marked.off is None or bet.credit == 1:
        return f"You bet {said}: {words}"
    return f"You bet {said}: {words}, {_off_words(question, bet.marked.off)} off"


def answer_words(question: Question, answer: Answer) -> str:
    """Return an answer as a person says it."""
    if isinstance(question.ask, NumberAsk):
        return f"{half_text(float(answer))}{UNITS[question.ask.measure]}"
    return next(f"“{choice.text}”" for choice in question.choices if choice.id == answer)


def own_text(bowler: Bowler) -> str:
    """Return whose numbers the question is made with."""
    walks = "you slide straight" if bowler.walk == "slide" else "you walk toward your target"
    usual = as_usual(bowler)
    numbers = f"{usual.speed_mph:g} mph, {usual.rev_rate_rpm:.0f} revs"
    return f"{bowler.hand.capitalize()}-handed, {numbers}, {walks}"


def _is_asked_again(play: LessonPlay) -> bool:
    """Return whether a later question of the chain is of the same kind: then its answer is not given away."""
    later = play.lesson.steps[play.at + 1 :] if play.part == "lesson" else ()
    return any(step.kind == play.step.kind for step in later)


def _why(question: Question, bet: Bet) -> str:
    """Return the reason of the answer that was given, if it counts, and the question's own."""
    own = bet.marked.why if bet.marked and bet.credit else question.why
    return own if bet.credit == 1 or own == question.why else f"{own} {question.why}"


def _answer_on_lane(question: Question, ask: NumberAsk, bet: Bet) -> dict[str, Any]:
    answer = float(question.answer)
    off = bet.marked.off if bet.marked and bet.marked.off else 0.0
    said = "" if bet.answer is None else f"you bet {answer_words(question, bet.answer)}"
    is_near = abs(off) < ask.step
    return {
        "answer": answer,
        "answer_text": half_text(answer) if ask.measure != "ft" else f"{answer:.0f} ft",
        "bet_text": "" if is_near else said,
        "off_text": "" if is_near or ask.measure == "ft" else half_text(abs(off)),
    }


def _off_words(question: Question, off: float) -> str:
    ask = question.ask
    measure = ask.measure if isinstance(ask, NumberAsk) else "boards"
    size = half_text(abs(off))
    return {"ft": f"{size} ft", "count": f"{size} balls"}.get(measure, f"{size} boards")


def _number_control(ask: NumberAsk, hand: Hand) -> dict[str, Any]:
    """Return the control of a number: its steps as they lie on the page, left of it and right of it."""
    step = board_text(ask.step)
    words = {
        "board": (f"{step} {side_text(1, hand)}", f"{step} {side_text(-1, hand)}"),
        "boards": (f"{step} more", f"{step} less"),
        "ft": (f"{step} ft farther", f"{step} ft nearer"),
        "count": (f"{step} more", f"{step} fewer"),
    }[ask.measure]
    ends = [{"by": ask.step, "text": words[0]}, {"by": -ask.step, "text": words[1]}]
    if ask.measure != "board" or side_text(1, hand) == "right":
        ends.reverse()
    bounds = {"low": ask.low, "high": ask.high, "step": ask.step, "start": ask.start}
    low, high = half_text(ask.low), half_text(ask.high)
    unit = UNITS[ask.measure]
    what = {"board": "Any board", "ft": "Anywhere", "boards": "Any number", "count": "Any count"}[ask.measure]
    on_lane = ask.measure == "ft" or ask.at_ft is not None
    first = "Drag the ring, tap the lane" if on_lane else "Use the buttons"
    return bounds | {
        "ends": ends,
        "unit": unit,
        "hint": f"{first}, or use the arrow keys. {what} from {low} to {high}{unit}.",
    }


def _choice_mark(question: Question, bet: Bet | None, choice: str) -> str:
    """Return how a choice is marked after the bet: chosen, the answer, or half an answer."""
    if bet is None:
        return ""
    credits = {one.answer: one.credit for one in question.accepts}
    right = {1.0: "answer", 0.5: "half"}.get(credits.get(choice, 0.0), "")
    return f"{right} chosen".strip() if choice == bet.answer else right


def _thread(play: LessonPlay) -> list[dict[str, Any]]:
    bets = play.more_bets if play.part in ("more", "done") else play.bets
    knots: list[dict[str, Any]] = []
    for number in range(play.n_here):
        bet = bets[number] if number < len(bets) else None
        knots.append({"mark": "" if bet is None else _mark_name(bet), "is_here": number == play.at})
    return knots


def _mark_name(bet: Bet) -> str:
    return {1.0: "full", 0.5: "half"}.get(bet.credit if bet.credit is not None else -1.0, "not")


def _place(play: LessonPlay) -> str:
    if play.part in ("recap", "done"):
        return "Lesson done" if play.part == "recap" else "All done"
    number = f"Question {play.at + 1} of {play.n_here}"
    if play.part == "more":
        return f"{number}, new numbers"
    left = max(1, round(play.lesson.minutes * (play.n_here - play.at) / play.n_here))
    return f"{number} · about {left} {'minute' if left == 1 else 'minutes'} left"


def _end(play: LessonPlay) -> dict[str, Any]:
    """Return the page after the chain, and the one after the three questions."""
    if play.part == "done":
        n_full = sum(bet.credit == 1 for bet in play.more_bets)
        said = f"{n_full} of {len(play.more_bets)} correct."
        return {
            "title": "Three questions",
            "say": said,
            "tonight": _said(play, play.lesson.tonight),
            "summary": said,
        }
    bets = [
        {"mark": _mark_name(bet), "text": _said(play, step.short), "credit": CREDIT_WORDS[bet.credit]}
        for bet, step in zip(play.bets, play.lesson.steps, strict=False)
    ]
    say = _said(play, play.lesson.recap)
    return {
        "title": "What you can say now",
        "say": f"“{say}”",
        "bets": bets,
        "tonight": _said(play, play.lesson.tonight),
        "more": "Three of these questions come back with new numbers. Ask yourself again in a few days.",
        "summary": f"Lesson done. {say}",
    }


def _next_text(play: LessonPlay) -> str:
    if play.part == "recap":
        return "Three questions now, 1 minute"
    if play.part == "done":
        return "Three more, new numbers"
    if play.at + 1 < play.n_here:
        return "Next question"
    return "What you can say now" if play.part == "lesson" else "Done"


def _said(play: LessonPlay, text: str) -> str:
    return play.lesson.words(text, play.bowler.hand)


def _raised(text: str) -> str:
    return text[:1].upper() + text[1:]
