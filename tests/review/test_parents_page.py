"""The page for the parents: a true ball, what got better only if it did, care first, nobody else, no luck.

What counts as good is common practice, no source. The data are invented.
"""

import re
from datetime import UTC, datetime

import pytest

import coachlib as cl
from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.replay import Replay
from coachlib.review.parents_page import is_junior, parents_page, proud_ball, proud_words
from coachlib.review.work_on import work_on
from coachlib.views.print.ball_drawing import ball_svg, way_boards
from coachlib.views.print.parents_letter import parents_letter
from tests.hostile import hostile_texts
from tests.printed_pages import page_of

LINE = cl.Line(20, 10)
TEN = cl.Shot(crossed_board=10, arrival="pocket", leave=())
POCKET = cl.Shot(crossed_board=10.5, arrival="pocket", leave=(10,))
OVER = cl.Shot(crossed_board=10, arrival="light", leave=(2, 8))
BESIDE = cl.Shot(crossed_board=11, arrival="high", leave=(4,))
WIDE = cl.Shot(crossed_board=13, arrival="nose", leave=(4, 6, 7, 10))
ACROSS = cl.Shot(crossed_board=14, arrival="crossover", leave=())
MADE = cl.Shot(leave=(), is_spare=True)


def _session(*shots, hand="right", **bowler):
    session = cl.Session(cl.Bowler(name="Lea", hand=hand, **bowler), LINE)
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def _logged(day, *shots, **bowler):
    when = datetime(2026, 9, day, 16, tzinfo=UTC)
    return LoggedSession(f"s{day}", when, when, "Lea", len(shots)), Replay(_session(*shots, **bowler), {})


def _page(*shots, earlier=(), **bowler):
    return parents_page(*_logged(15, *shots, **bowler), list(earlier), work_on([]), "Lea")


def _proud(*shots):
    session = _session(*shots)
    ball = proud_ball(session.shots)
    return (ball.kind if ball else None), proud_words(ball, "Lea", len(session.shots))


@pytest.mark.parametrize(
    ("shots", "kind", "words"),
    [
        ((OVER, TEN, WIDE), "all ten", "Ball 2: over the board Lea chose, and all ten pins down."),
        ((OVER, BESIDE, OVER, OVER, WIDE), "row", "Four balls in a row within a board of where Lea aimed."),
        ((WIDE, POCKET, OVER), "pocket", "Ball 2: over the board Lea chose, and into the pocket."),
        ((OVER, BESIDE, OVER, WIDE), "row", "Three balls in a row within a board of where Lea aimed."),
        ((WIDE, BESIDE), "target", "Ball 2: right beside the board Lea chose."),
        ((WIDE, MADE), "spare", "Ball 2: 4 pins were still standing, and Lea knocked them all down."),
        ((ACROSS, WIDE), "pins", "Ball 1: all ten pins down with one ball."),
        ((WIDE, WIDE), None, "Lea rolled 2 balls and stayed to the end."),
    ],
)
def test_the_ball_to_be_proud_of_is_the_best_true_one(shots, kind, words):
    assert _proud(*shots) == (kind, words)


def test_a_strike_that_came_across_is_never_told_as_a_good_line():
    _, words = _proud(ACROSS, ACROSS)
    assert "board" not in words
    assert "pocket" not in words


def test_what_got_better_is_told_only_if_it_did():
    poor, good = [WIDE] * 9 + [OVER] * 3, [WIDE] * 5 + [OVER] * 7
    better = _page(*good, earlier=[_logged(1, *poor)]).better
    assert (better.n, better.n_then, better.n_now, better.then.day) == (12, 3, 7, 1)
    assert _page(*poor, earlier=[_logged(1, *good)]).better is None
    assert _page(*good, earlier=[_logged(1, *good)]).better is None
    assert _page(*good).better is None


def test_as_many_balls_are_compared_then_as_now_and_few_are_not():
    better = _page(*[OVER] * 40, earlier=[_logged(1, *[WIDE] * 10)]).better
    assert (better.n, better.n_now) == (10, 10)
    assert _page(*[OVER] * 40, earlier=[_logged(1, *[WIDE] * 9)]).better is None
    assert _page(*[OVER] * 40, earlier=[_logged(1, *[WIDE] * 35)]).better.n == 30


def test_juniors_are_those_below_the_rulebooks_limit():
    limit = load_rulebook().settings["junior_years"]
    assert is_junior(cl.Bowler(age_years=limit - 1.0))
    assert not is_junior(cl.Bowler(age_years=float(limit)))
    assert not is_junior(cl.Bowler())


def test_the_letter_holds_no_oil_no_score_and_nobody_else():
    page = _page(TEN, POCKET, OVER, WIDE, MADE)
    shown = " ".join(page_of(parents_letter(page, coach="Aino")).texts)
    assert "Lea’s Tuesday" in shown
    assert "Aino, Lea’s coach" in shown
    assert "all ten pins down" in shown
    told = shown.split("}")[-1].replace("No scores and no ranking on this page.", "")
    assert "What Lea is learning" in told
    assert not re.search(r"\boil|strike|score|average|%|rank|star|better than", told, re.IGNORECASE)


@pytest.mark.parametrize("noted", ["none", "no", "-", ""])
def test_a_note_that_nothing_hurts_is_no_pain(noted):
    page = _page(TEN, pain=noted)
    assert page.pain == ""
    assert "something hurts" not in parents_letter(page)


def test_pain_is_said_first_with_who_looks_at_it():
    page = _page(TEN, pain="left wrist")
    texts = page_of(parents_letter(page)).texts
    first = next(at for at, text in enumerate(texts) if "left wrist" in text)
    assert first < next(at for at, text in enumerate(texts) if "all ten pins" in text)
    assert "doctor or a physio" in texts[first]
    calm = " ".join(page_of(parents_letter(_page(TEN))).texts)
    assert "something hurts" not in calm
    assert "We stop, and that is fine." in calm


def test_the_childs_words_stand_as_they_were_said_else_there_is_room_to_write():
    page = _page(TEN)
    assert "“It hooked like a banana!”" in parents_letter(page, own_words=" It hooked like a banana! ")
    assert "Lea writes or draws" in parents_letter(page)


def test_a_row_that_did_not_get_better_goes():
    worse = _page(*[WIDE] * 12, earlier=[_logged(1, *[OVER] * 12)])
    assert "What got better" not in parents_letter(worse)
    better = _page(*[OVER] * 12, earlier=[_logged(1, *[WIDE] * 12)])
    shown = " ".join(page_of(parents_letter(better)).texts)
    assert "on 1 September, 0" in shown
    assert "this time, 12" in shown


def test_the_target_is_named_by_the_arrow_a_parent_can_find():
    aim = work_on([])._replace(need="aim")
    page = parents_page(*_logged(15, OVER), [], aim, "Lea")
    assert "Lea aims at board 10, the second arrow." in parents_letter(page)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_way_goes_through_what_was_noted(hand):
    seen = _session(POCKET, hand=hand).shots[0]
    places = way_boards(seen)
    assert (LINE.target_ft, 10.5) in places
    assert places[-1] == (60.0, 17.5)
    assert "stroke-dasharray" in ball_svg(seen, tuple(range(1, 11)), "Ball 1", "Lea’s feet")


def test_a_left_hander_is_the_mirror_image_and_words_are_not_mirrored():
    drawn = {
        hand: ball_svg(_session(TEN, hand=hand).shots[0], (1, 2), "x", "feet") for hand in ("right", "left")
    }
    pins = {
        hand: [float(x) for x in re.findall(r'<circle cx="([\d.]+)"[^>]*stroke-dasharray', svg)]
        for hand, svg in drawn.items()
    }
    middle = 2 * 107.5  # the middle board, twice: 8 px of gutter, 2 of edge, half of 39 boards of 5 px
    assert pins["left"] == pytest.approx([middle - x for x in pins["right"]])


@pytest.mark.parametrize("shot", [cl.Shot(arrival="high"), cl.Shot(crossed_board=10), MADE])
def test_no_way_is_drawn_of_a_ball_of_which_it_was_not_noted(shot):
    assert way_boards(_session(POCKET, shot).shots[1]) == []


def test_a_spare_is_drawn_without_a_target_which_was_that_of_the_first_ball():
    first, spare = _session(WIDE, MADE).shots
    assert "board 10" in ball_svg(first, (4, 6), "x", "feet")
    assert "board 10" not in ball_svg(spare, (4, 6), "x", "feet")


def test_hostile_texts_are_shown_as_they_are_and_never_run():
    page = _page(TEN)
    calm = {tag for tag, _ in page_of(parents_letter(page, coach="a", own_words="b")).tags}
    for text in hostile_texts(300):
        nasty = parents_page(*_logged(15, TEN, pain=text[:80]), [], work_on([]), text[:60])
        made = page_of(parents_letter(nasty, coach=text, own_words=text, next_time=text, bring=text))
        assert {tag for tag, _ in made.tags} <= calm
        assert not [name for _, attrs in made.tags for name in attrs if name.startswith("on")]
