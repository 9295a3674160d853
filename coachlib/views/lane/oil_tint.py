"""The oil as a quiet tint: one small picture of the lane, its upper edge the lane's left seen from behind.

Film is counted from the lane's right edge, so the picture is the same for both hands; the boards around it
are what turns. The picture file is made here and not compressed: then it is the same on every machine.
"""

import base64
import functools
import struct
import zlib

import numpy as np

from coachlib.views.theme import OIL
from coachlib.world.oil import OilPattern

MOST_FRAC = 0.42
"""Share of the oil's colour over the thickest film; more would make small words on it hard to read."""

_LEVELS = round(255 * MOST_FRAC)
_BEND = 0.75  # thin film still shows


@functools.lru_cache(maxsize=32)
def oil_image(pattern: OilPattern) -> str:
    """Return the film of a pattern that has one as a picture in a ``data:`` address.

    It is a PNG of one point a board and stretch, the foul line at its left; colour of the oil, see-through
    where there is none.
    """
    film_um = pattern.film_array_um[:, ::-1].T
    levels = np.round(_LEVELS * (film_um / film_um.max()) ** _BEND).astype(np.uint8)
    return f"data:image/png;base64,{base64.b64encode(_png(levels)).decode('ascii')}"


def oil_to_ft(pattern: OilPattern) -> float:
    """Return how far down the lane the picture reaches [ft]."""
    return len(pattern.film_um) * pattern.step_ft


def _png(levels: np.ndarray) -> bytes:
    """Return a picture file in which each number is how much of the oil's colour is seen, of 255."""
    height, width = levels.shape
    rows = b"".join(b"\0" + row.tobytes() for row in levels)
    parts = [
        (b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0)),
        (b"PLTE", bytes.fromhex(OIL.removeprefix("#")) * (_LEVELS + 1)),
        (b"tRNS", bytes(range(_LEVELS + 1))),
        (b"IDAT", zlib.compress(rows, level=0)),
        (b"IEND", b""),
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(_part(kind, content) for kind, content in parts)


def _part(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
