"""Several drawings below each other as one."""

import re
from collections.abc import Sequence

from pourwright.sheets.svg import FONT, number

SIZE = re.compile(r'<svg xmlns="[^"]*" width="([\d.]+)pt" height="([\d.]+)pt"')
TITLE = re.compile(r"<title>(.*?)</title>")
CLIP = re.compile(r"\bclip(\d+)\b")


def stacked(drawings: Sequence[str], gap: float) -> str:
    """Put drawings below each other.

    Parameters
    ----------
    drawings : sequence of str
        SVG documents of our own, at least one.
    gap : float
        Paper between two of them [pt].

    Returns
    -------
    str
        SVG document; a single drawing as it is.
    """
    if len(drawings) == 1:
        return drawings[0]
    sizes = [_size(drawing) for drawing in drawings]
    width = max(size[0] for size in sizes)
    tops = [sum(height + gap for _, height in sizes[:i]) for i in range(len(sizes))]
    height = tops[-1] + sizes[-1][1]
    inner = [
        _placed(drawing, top, index) for index, (drawing, top) in enumerate(zip(drawings, tops, strict=True))
    ]
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width)}pt" height="{number(height)}pt" '
        f'viewBox="0 0 {number(width)} {number(height)}" font-family="{FONT}" role="img">'
    )
    title = "; ".join(match[1] for match in map(TITLE.search, drawings) if match)
    return (
        "\n".join(
            ['<?xml version="1.0" encoding="UTF-8"?>', head, f"<title>{title}</title>", *inner, "</svg>"]
        )
        + "\n"
    )


def _size(drawing: str) -> tuple[float, float]:
    found = SIZE.search(drawing)
    if found is None:
        raise ValueError("no drawing of ours")
    return float(found[1]), float(found[2])


def _placed(drawing: str, top: float, index: int) -> str:
    """One drawing moved down; names inside it are made its own."""
    body = drawing.split(">", 2)[2].rsplit("</svg>", 1)[0]
    body = TITLE.sub("", body, count=1)
    own = CLIP.sub(rf"clip{index}-\1", body)
    return f'<g transform="translate(0 {number(top)})">{own}</g>'
