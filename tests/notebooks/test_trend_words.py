"""The words of the moves in the trend chart, in a browser: none stands on another. Our own promise."""

from collections.abc import Callable
from typing import Any

import pytest

from coachlib import Bowler, Line, Session, Shot, change, observe
from coachlib.views.panels.shared.parts import joined, styled
from coachlib.views.panels.shared.trend import trend_view

pytestmark = pytest.mark.browser

HIGH = Shot(crossed_board=12, arrival="high", leave=(4,))
LINES = (Line(24, 13), Line(25, 14), Line(24, 13), Line(26, 14))
PAGE = "<style>{style}</style><div class='coach'></div><script type='module'>{script}</script>"
SHOW = """
const chart = trendChart();
document.querySelector(".coach").append(chart.box);
window.show = chart.show;
"""
DRAWN = """(look) => {
  window.show(look);
  const all = (name) => [...document.querySelectorAll(name)];
  const rules = all(".coach-rule").filter((node) => node.getAttribute("visibility") !== "hidden");
  const words = all(".coach-rule-words").filter((node) => node.textContent);
  const boxes = words.map((node) => node.getBoundingClientRect());
  return {rules: rules.length, words: words.map((node) => node.textContent),
    apart: boxes.every((box, i) => i === 0 || boxes[i - 1].right <= box.left)};
}"""


def _moved_after(n_balls: int, hand: str = "right") -> Session:
    session = Session(Bowler(hand=hand), Line(22, 12), lane="7")  # type: ignore[arg-type]
    for line in LINES:
        for _ in range(n_balls):
            session = observe(session, HIGH)
        session = change(session, line=line)
    return session


@pytest.mark.parametrize(("n_balls", "n_words"), [(1, 2), (3, 2)])
@pytest.mark.parametrize("hand", ["right", "left"])
def test_of_moves_too_close_together_the_newest_keeps_its_words(
    open_page: Callable[..., Any], hand: str, n_balls: int, n_words: int
) -> None:
    page, _ = open_page("phone")
    page.set_content(
        PAGE.format(
            style=styled("shared/style.css", "lane_side/answer.css"),
            script=joined("shared/parts.js", "shared/trend.js") + SHOW,
        )
    )
    look = trend_view(_moved_after(n_balls, hand))
    drawn = page.evaluate(DRAWN, look)
    assert drawn["rules"] == len(look["moves"]) == len(LINES)
    assert drawn["apart"]
    assert drawn["words"][-1] == look["moves"][-1]["words"]
    assert len(drawn["words"]) == n_words
