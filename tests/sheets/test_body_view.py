import base64
import re
import struct
import zlib

import numpy as np
import pytest

from pourwright.geometry import box
from pourwright.sheets.body_view import Mark, body_view, draw_body
from pourwright.sheets.raster import png_link
from pourwright.sheets.svg import Canvas


def dots_of(link):
    """Read a PNG by the standard: signature, IHDR, one IDAT, IEND, each with its check sum."""
    png = base64.b64decode(link.removeprefix("data:image/png;base64,"))
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    at, chunks = 8, {}
    while at < len(png):
        (size,) = struct.unpack_from(">I", png, at)
        kind, content = png[at + 4 : at + 8], png[at + 8 : at + 8 + size]
        assert struct.unpack_from(">I", png, at + 8 + size)[0] == zlib.crc32(kind + content)
        chunks[kind] = content
        at += 12 + size
    columns, rows = struct.unpack_from(">II", chunks[b"IHDR"])
    lines = np.frombuffer(zlib.decompress(chunks[b"IDAT"]), np.uint8).reshape(rows, 1 + 3 * columns)
    assert not lines[:, 0].any()
    return lines[:, 1:].reshape(rows, columns, 3)


def test_png_holds_the_dots():
    dots = np.arange(60, dtype=np.uint8).reshape(4, 5, 3)
    assert (dots_of(png_link(dots)) == dots).all()


def test_tints_show_on_their_faces():
    """From above only the two triangles of the top are seen, and they are red."""
    cube = box([0.2, 0.2, 0.2])
    red = np.tile([0.2, 0.2, 0.9], (12, 1))
    red[cube.area_vectors[:, 2] > 0] = [0.9, 0.1, 0.1]
    svg = body_view(cube, toward=(0, 0, 1), upward=(0, 1, 0), tints=red)
    middle = dots_of(re.search(r'href="([^"]+)"', svg)[1])[50, 50]
    assert middle[0] > 2 * middle[1]
    assert middle[0] > 2 * middle[2]


@pytest.mark.parametrize(("place", "fill"), [((0, -0.1, 0.1), "#9c3a10"), ((0, 0.1, 0.1), "#ffffff")])
def test_a_mark_behind_the_body_is_open(place, fill):
    svg = body_view(box([0.2, 0.2, 0.2]), toward=(0, -1, 0), marks=[Mark(np.array(place), "7")])
    assert f'r="2.2" fill="{fill}"' in svg
    assert ">7</text>" in svg


def test_places_on_paper():
    canvas = Canvas(100, 100, "a cube")
    drawn = draw_body(canvas, (0, 0, 100, 100), box([0.2, 0.2, 0.2]), (0, -1, 0))
    (left, bottom), (right, top) = drawn.on_paper([[-0.1, -0.1, 0.0], [0.1, -0.1, 0.2]])
    assert (left + right, bottom + top) == pytest.approx((100, 100), abs=1e-6)
    assert right - left == pytest.approx(bottom - top)
    assert right - left == pytest.approx(100, rel=0.01)
