"""The sizes of an offcut stand in its name: on its label, and for whoever looks for one that fits."""

from __future__ import annotations

import re
from collections.abc import Iterator

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.sheets.wording import Wording

_UNIT = re.compile(r"[a-z\"']+$")
_LAST = re.compile(r"\d[\d\s./-]*[a-z\"']*$")


def offcut_name(size: tuple[float, float, float], words: Wording) -> str:
    """Name an offcut by its length, width and thickness [m], as ``offcut 812 × 405 × 18 mm``."""
    return f"offcut {words.size(size)}"


def sizes_in(name: str) -> tuple[float, float, float] | None:
    """Read the sizes out of a name.

    Parameters
    ----------
    name : str
        Of a lot.

    Returns
    -------
    tuple of float or None
        Length, width and thickness [m]; None where the name does not end with three sizes.

    Examples
    --------
    >>> sizes_in("offcut 812 × 405 × 18 mm"), sizes_in("by the door: 90 cm x 45 cm x 18 mm")
    ((0.812, 0.405, 0.018), (0.9, 0.45, 0.018))
    >>> [round(one, 4) for one in sizes_in("offcut 88 1/2 × 47 1/4 × 11/16 in")]
    [2.2479, 1.2002, 0.0175]
    >>> sizes_in("sheet of last week") is None
    True
    """
    texts = re.split(r"\s[x×]\s", name.strip())
    if len(texts) != 3:
        return None
    first = _LAST.search(texts[0])
    unit = _UNIT.search(texts[2])
    if first is None or unit is None:
        return None
    try:
        length, width, thick = _read([first[0], *texts[1:]], unit[0])
    except UserError:
        return None
    return (length, width, thick) if min(length, width, thick) > 0.0 else None


def _read(texts: list[str], unit: str) -> Iterator[float]:
    """Lengths [m]; one without a unit has that of the last."""
    for text in texts:
        told = text if _UNIT.search(text) else f"{text} {unit}"
        yield parse_quantity(told, Dimension.LENGTH).si
