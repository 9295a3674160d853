"""Whether words can be read: nothing cut off, nothing over other words, in any font, screen and text size.

What is looked at, inside a panel: words beyond a box they stand in, words in a list or field that is too
narrow for them, words of a picture beyond its edge, and words over words. A box that scrolls holds what it
scrolls to, and a field holds a long text by scrolling in it. What sticks to an edge of the screen lets the
page scroll under it, so it is looked at where it stands in the page. Text is enlarged as a browser does it
that enlarges text only: every size in the page grows, the boxes do not. A stored chart grows as a whole, with
its words, so it is left as it is.
"""

import os
from collections.abc import Iterable, Mapping
from pathlib import Path

from playwright.sync_api import Page

FALLBACK = "DejaVu Sans"
NO_FALLBACK = f"{FALLBACK} is not installed (Debian: apt-get install fonts-dejavu-core)"
PACKED = "Coach Sans"
TEXT_SIZES = (1.0, 1.3)
MOST_LOOKS, BETWEEN_LOOKS_MS = 8, 300
_FONT_FOLDERS = (
    Path("/usr/share/fonts"),
    Path("/usr/local/share/fonts"),
    Path.home() / ".fonts",
    Path.home() / ".local" / "share" / "fonts",
)
# Fonts of the page itself, so data: addresses too, are refused, and of the system's families one is seen.
BARE_ARGUMENTS = ("--disable-remote-fonts",)
_ONE_FOLDER = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>{fonts}</dir><cachedir>{cache}</cachedir></fontconfig>
"""

SETTLED = """async (root) => {
  await document.fonts.ready;
  const frame = () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  const look = () => [...document.querySelectorAll(root)].map((node) => {
    const {width, height} = node.getBoundingClientRect();
    return [width, height, node.querySelectorAll('*').length, node.textContent.length].join();
  }).join(';');
  let before = '', now = look();
  for (let n = 0; n < 40 && before !== now; n += 1) {
    before = now;
    await new Promise((done) => setTimeout(done, 60));
    await frame();
    now = look();
  }
}"""

ENLARGE = """([root, factor]) => {
  const all = [...document.querySelectorAll(`${root}, ${root} *`)]
    .filter((node) => !node.closest('svg.marks'));
  all.forEach((node) => node.style.removeProperty('font-size'));
  const sizes = all.map((node) => [node, parseFloat(getComputedStyle(node).fontSize)]);
  if (factor !== 1) {
    sizes.forEach(([node, px]) => node.style.setProperty('font-size', `${px * factor}px`, 'important'));
  }
}"""

UNSTICK = """([root, is_off]) => document.querySelectorAll(`${root} *`).forEach((node) => {
  if (is_off && getComputedStyle(node).position === 'sticky') {
    node.dataset.stuck = node.style.position;
    node.style.setProperty('position', 'relative', 'important');
  } else if (!is_off && 'stuck' in node.dataset) {
    node.style.position = node.dataset.stuck;
    delete node.dataset.stuck;
  }
})"""

CUT_OFF = Path(__file__).with_name("cut_off.js").read_text(encoding="utf-8")


def cut_off(page: Page, root: str, text_size: float = 1.0) -> list[str]:
    """Return what of the words inside `root` cannot be read, one line each; all words are enlarged first."""
    found = _found_twice(page, root, text_size)
    page.evaluate(UNSTICK, [root, False])
    if text_size != 1.0:
        page.evaluate(ENLARGE, [root, 1.0])
    return found


def _found_twice(page: Page, root: str, text_size: float) -> list[str]:
    """Return what two looks in a row find, or nothing once one finds nothing.

    A page may still be drawing, and what is drawn anew is neither enlarged nor loosened from its edge.
    """
    before: list[str] | None = None
    for _ in range(MOST_LOOKS):
        page.evaluate(ENLARGE, [root, text_size])
        page.evaluate(UNSTICK, [root, True])
        page.evaluate(SETTLED, root)
        found: list[str] = page.evaluate(CUT_OFF, root)
        if not found or found == before:
            return found
        before = found
        page.wait_for_timeout(BETWEEN_LOOKS_MS)
    return found


def cut_off_anywhere(page: Page, root: str, sizes: Mapping[str, tuple[int, int]]) -> dict[str, list[str]]:
    """Return what cannot be read by screen and text size; only those where something was found."""
    found = {}
    for size, (width, height) in sizes.items():
        page.set_viewport_size({"width": width, "height": height})
        for text_size in TEXT_SIZES:
            if here := cut_off(page, root, text_size):
                found[f"{size}, text {text_size:.0%}"] = here
    return found


def fallback_files() -> list[Path]:
    """Return the files of the fallback family among the system's fonts; none where it is not installed."""
    folders = [folder for folder in _FONT_FOLDERS if folder.is_dir()]
    return sorted({path for folder in folders for path in folder.rglob("DejaVuSans*.ttf") if _is_plain(path)})


def _is_plain(path: Path) -> bool:
    """Return whether a file is the plain family: neither condensed nor of one width."""
    return path.stem.split("-")[0] == "DejaVuSans"


def one_family(folder: Path, files: Iterable[Path]) -> dict[str, str]:
    """Return the environment in which a browser sees these files of fonts only, linked to `folder`."""
    fonts, settings = folder / "fonts", folder / "fonts.conf"
    fonts.mkdir()
    for file in files:
        (fonts / file.name).symlink_to(file)
    settings.write_text(_ONE_FOLDER.format(fonts=fonts, cache=folder / "cache"), encoding="utf-8")
    return {**os.environ, "FONTCONFIG_FILE": str(settings)}
