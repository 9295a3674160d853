"""Room for words in stored pictures: as wide as they are in the widest of the usual fonts.

A stored picture is shown in whatever font the page or the machine has. It is measured in a narrow one, so
that it comes out the same everywhere; here it gets the edge that its words need in DejaVu Sans, the usual
font of a bare Linux machine and about 15 % wider. No word is then cut off; in a narrower font some paper
stays free.
"""

import math
import re
import unicodedata
from functools import cache
from typing import Final
from xml.etree import ElementTree

SVG: Final = "{http://www.w3.org/2000/svg}"
# Advance widths of the signs from space to ~ [1/1000 of the size], as the fonts' own tables have them (2.37).
_REGULAR: Final = """
318 401 460 838 636 950 780 275 390 390 500 838 318 361 318 337 636 636 636 636 636 636 636 636 636
636 337 337 838 838 838 531 1000 684 686 698 770 632 575 775 752 295 295 656 557 863 748 787 603 787
695 635 611 732 684 989 685 611 685 390 337 390 838 500 500 613 635 550 635 615 352 635 634 278 278
579 278 974 634 612 635 635 411 521 392 634 592 818 592 592 525 636 337 636 838
"""
_BOLD: Final = """
348 456 521 838 696 1002 872 306 457 457 523 838 380 415 380 365 696 696 696 696 696 696 696 696 696
696 400 400 838 838 838 580 1000 774 762 734 830 683 683 821 837 372 372 775 637 995 837 850 733 850
770 720 682 812 774 1103 771 724 725 457 365 457 838 500 500 675 716 593 716 678 435 716 712 343 343
665 343 1042 712 687 716 716 493 595 478 712 652 924 645 652 582 712 365 712 838
"""
_OTHERS: Final = {"½": 1035, "¼": 1035, "¾": 1035, "°": 500, "·": 380, "²": 438, "–": 500, "\u2009": 200}
_WIDEST, _EDGE_PX = 1000, 2.0


def words_px(text: str, size_px: float, is_bold: bool = False) -> float:
    """Return how wide a line of text is in the widest of the usual fonts [px].

    Signs whose width is not known count as one size wide.
    """
    return size_px * sum(_width(sign, is_bold) for sign in text) / 1000


@cache
def _width(sign: str, is_bold: bool) -> int:
    widths = (_BOLD if is_bold else _REGULAR).split()
    place = ord(unicodedata.normalize("NFD", sign)[0]) - ord(" ")
    return _OTHERS.get(sign) or (int(widths[place]) if 0 <= place < len(widths) else _WIDEST)


def with_room(svg: str) -> str:
    """Return a picture with more paper to the left or right where its words need it.

    Parameters
    ----------
    svg : str
        As vl-convert draws it: texts moved by ``translate`` alone, paper as the first rectangle.
    """
    head = re.search(r'width="([\d.]+)" height="([\d.]+)" viewBox="0 0 ([\d.]+) ([\d.]+)"', svg)
    if head is None:
        return svg
    width, height = head[1], head[2]
    ends = [end for place in _ends(ElementTree.fromstring(svg), 0.0) for end in place]
    left = math.ceil(max(0.0, -min(ends, default=0.0)))
    whole = math.ceil(max(float(width), max(ends, default=0.0))) + left
    if whole == float(width):
        return svg
    wide = f'width="{whole}" height="{height}" viewBox="{-left} 0 {whole} {head[4]}"'
    paper = f'<rect width="{width}" height="{height}"'
    wider = f'<rect x="{-left}" width="{whole}" height="{height}"'
    return svg.replace(head[0], wide, 1).replace(paper, wider, 1)


def _ends(part: ElementTree.Element, from_px: float) -> list[tuple[float, float]]:
    """Return where each text of a part begins and ends, from the left edge of the picture."""
    moved = re.match(r"translate\((-?[\d.e-]+)", part.get("transform", ""))
    here = from_px + (float(moved[1]) if moved else 0.0)
    if part.tag == f"{SVG}text":
        return [_line_ends(part, line, here) for line in (list(part.itertext()) or [""])]
    return [ends for child in part for ends in _ends(child, here)]


def _line_ends(text: ElementTree.Element, line: str, at_px: float) -> tuple[float, float]:
    size_px = float(text.get("font-size", "13px").removesuffix("px"))
    wide = words_px(line, size_px, text.get("font-weight") in ("bold", "600", "700"))
    before = {"middle": 0.5, "end": 1.0}.get(text.get("text-anchor", "start"), 0.0)
    return at_px - before * wide - _EDGE_PX, at_px + (1 - before) * wide + _EDGE_PX
