"""Drawings that several tests ask for, written by a script."""

from io import StringIO

import ezdxf


def dxf_bytes(draw, units=4):
    """A DXF drawing; `draw` gets its model space and the document."""
    document = ezdxf.new(units=units)
    draw(document.modelspace(), document)
    stream = StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf8")


def svg_bytes(body, size='width="200mm" height="100mm" viewBox="0 0 200 100"', before=""):
    return f'{before}<svg xmlns="http://www.w3.org/2000/svg" {size}>{body}</svg>'.encode()


def stadium(space, _document=None):
    """A slot with a half round end by a bulge, and a hole."""
    space.add_lwpolyline([(0, 0, 0), (100, 0, 1), (100, 50, 0), (0, 50, 0)], format="xyb", close=True)
    space.add_circle((50, 25), 10)
