"""The shared look: colours that can be read in light and dark, sizes that grow, one choice for all pages.

Outside: WCAG 2.2, success criterion 1.4.3 (text of usual size: a contrast of at least 4.5 to 1), with the
formula of its "relative luminance". The rest are our own promises.
"""

import re
from pathlib import Path

import pytest

from coachlib.errors import DataFileError
from coachlib.views.look import SHARE, shared

LEAST_CONTRAST = 4.5
COLOUR = re.compile(r"--coach-(\w+): .*?var\(--coach-light, (#\w{6})\) var\(--coach-dark, (#\w{6})\)")
WORDS, GROUNDS = ("ink", "ink2", "then", "you", "err"), ("page", "paper", "field", "lane")
PANELS = Path(__file__).parents[2] / "coachlib" / "views" / "panels"


def _colours() -> dict[str, tuple[str, str]]:
    return {name: (light, dark) for name, light, dark in COLOUR.findall(shared("look.css"))}


def _luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_contrast_of_black_on_white() -> None:
    assert _contrast("#000000", "#ffffff") == pytest.approx(21.0)


@pytest.mark.parametrize("theme", [0, 1], ids=["light", "dark"])
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("words", WORDS)
def test_words_stand_out_from_every_ground_they_lie_on(words: str, ground: str, theme: int) -> None:
    colours = _colours()
    assert _contrast(colours[words][theme], colours[ground][theme]) >= LEAST_CONTRAST


def test_panels_say_no_theme_and_no_size_of_type_in_px_themselves() -> None:
    sheets = sorted(PANELS.rglob("*.css"))
    assert len(sheets) > 5
    own = r"prefers-color-scheme|data-jp-theme-light|font-size: [\d.]+px|font: [^;]*\s[\d.]+px"
    assert {path.name: found for path in sheets if (found := re.findall(own, path.read_text("utf-8")))} == {}


def test_dark_and_room_are_for_the_screen_and_print_stays_as_it_is() -> None:
    rules = re.sub(r"/\*.*?\*/", "", shared("look.css"), flags=re.DOTALL)
    on_screen = re.sub(r"@media screen[^{]*\{(?:[^{}]*\{[^{}]*\})*\s*\}", "", rules)
    assert on_screen != rules
    assert re.findall(r"data-room|=\"dark\"|--coach-dark: initial", on_screen) == []


def test_what_pages_share_is_found_and_nothing_else() -> None:
    for name in ("look.css", "page_bar.css", "page_look.html", "page_switches.html"):
        assert (SHARE / name).is_file()
        assert "http" not in shared(name)
    with pytest.raises(DataFileError):
        shared("no_such_file.css")


def test_what_voila_reads_as_a_template_holds_no_sign_of_one() -> None:
    for name in ("page_look.html", "page_switches.html"):
        assert re.findall(r"\{[{%#]", shared(name)) == []
