"""What stands on the screen of a lesson, and its questions with what was thrown before and after."""

from coachlib.coaching.simulation.paths import LinePaths, line_paths
from coachlib.study.lessons.lesson import load_lesson
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import Question

HANDS = ("right", "left")


def questions(name: str, hand: str) -> list[Question]:
    """Return the questions of a lesson as the usual learner of this hand is asked them."""
    return [step.question(usual_learner(hand)) for step in load_lesson(name).steps]


def shown_text(name: str, hand: str) -> str:
    """Return every text of a lesson that is on the screen without unfolding anything."""
    lesson = load_lesson(name)
    texts = [lesson.title, lesson.goal, lesson.recap, lesson.tonight, lesson.caution]
    for step, question in zip(lesson.steps, questions(name, hand), strict=True):
        texts += [step.prompt or question.prompt, *(choice.text for choice in question.choices)]
        texts += [question.answer_text, step.why or question.why, step.on_the_lane, step.wrong_idea]
    return " ".join(lesson.words(text, hand) for text in texts)


def before_and_after(question: Question) -> tuple[LinePaths, LinePaths]:
    """Return what is thrown before the change and after it, as the answer shows it."""
    now, after = question.reveal.now, question.reveal.next
    assert after is not None
    return line_paths(now, now.line), line_paths(after, after.line)
