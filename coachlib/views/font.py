"""The packed font: one family for panels, charts and print, so that a page looks the same on every machine.

Fira Sans in three weights, cut down to the signs of western and central European texts; licence and source
lie beside it in ``data/fonts`` and ``data/SOURCES.md``. The family has a name of its own, so that a font that
happens to be installed under the same name never changes how wide a stored picture is drawn.
"""

import base64
from functools import cache
from typing import Final

from coachlib.files import data_path, read_bytes

FAMILY: Final = "Coach Sans"
WEIGHTS: Final = (400, 600, 700)

# Where the packed font cannot be read, the widths of Arial: what pictures are measured with.
STACK: Final = f"{FAMILY}, Arial, Liberation Sans, sans-serif"


@cache
def font_face(*weights: int) -> str:
    """Return the ``@font-face`` rules that bring the font along, about 23 kB a weight: nothing is fetched.

    Parameters
    ----------
    *weights : {400, 600, 700}
        Which weights; all of them if none is named. A heavier text is shown in the nearest weight given.
    """
    return "".join(_rule(weight) for weight in weights or WEIGHTS)


def _rule(weight: int) -> str:
    packed = base64.b64encode(read_bytes(data_path(f"fonts/fira_sans_{weight}.woff2"))).decode("ascii")
    source = f'url("data:font/woff2;base64,{packed}") format("woff2")'
    look = f"font-style: normal; font-weight: {weight}; font-display: block;"
    return f'@font-face {{ font-family: "{FAMILY}"; {look} src: {source}; }}\n'
