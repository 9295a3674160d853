"""The oil as a picture: where it is dark, and that it is a picture file.

The file's parts are those of the PNG specification (W3C, third edition, sections 5 and 11); it is decoded
here by hand.
"""

import base64
import struct
import zlib

import numpy as np
import pytest

from coachlib.views.lane.oil_tint import MOST_FRAC, oil_image, oil_to_ft
from coachlib.views.theme import OIL
from coachlib.world.oil import OilPattern, load_pattern


def decoded(image):
    """Return the size, the colours and their opacities of 255, and the numbers of the points."""
    data = base64.b64decode(image.removeprefix("data:image/png;base64,"), validate=True)
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    parts, at = {}, 8
    while at < len(data):
        (length,) = struct.unpack(">I", data[at : at + 4])
        kind, content = data[at + 4 : at + 8], data[at + 8 : at + 8 + length]
        assert struct.unpack(">I", data[at + 8 + length : at + 12 + length]) == (zlib.crc32(kind + content),)
        parts[kind], at = content, at + 12 + length
    width, height = struct.unpack(">II", parts[b"IHDR"][:8])
    rows = np.frombuffer(zlib.decompress(parts[b"IDAT"]), dtype=np.uint8).reshape(height, width + 1)
    assert not rows[:, 0].any()
    return parts, rows[:, 1:]


def test_film_on_one_side_lies_on_that_side_of_the_picture():
    # oil on boards 1 to 5 from the lane's right edge, thickest on 1, for the first 25 of 30 ft
    film = np.zeros((30, 39))
    film[:25, :5] = [4.0, 2.0, 2.0, 2.0, 1.0]
    parts, levels = decoded(oil_image(OilPattern.from_film(film)))
    assert levels.shape == (39, 30)
    assert not levels[:34].any()
    assert not levels[:, 25:].any()
    # the look's own rule: 42 % x (film / most film) ** .75
    opacities = np.frombuffer(parts[b"tRNS"], dtype=np.uint8)
    expected = [255 * MOST_FRAC * share**0.75 for share in (0.25, 0.5, 0.5, 0.5, 1.0)]
    assert opacities[levels[34:, 0]] == pytest.approx(expected, abs=0.6)
    assert len(parts[b"PLTE"]) == 3 * len(opacities)
    assert set(zip(*[iter(parts[b"PLTE"])] * 3, strict=True)) == {tuple(bytes.fromhex(OIL[1:]))}


def test_no_word_on_the_oil_becomes_hard_to_read():
    _, levels = decoded(oil_image(load_pattern("house_41")))
    assert levels.max() == round(255 * 0.42)


def test_a_picture_is_as_long_as_its_film():
    pattern = load_pattern("house_41")
    _, levels = decoded(oil_image(pattern))
    assert levels.shape == (39, len(pattern.film_um))
    assert oil_to_ft(pattern) == len(pattern.film_um) * pattern.step_ft >= pattern.length_ft
