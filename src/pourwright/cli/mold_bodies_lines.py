"""What fills the box, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType

from pourwright.cli.tables import facts
from pourwright.cli.words import Words
from pourwright.foundation.notation import format_volumes


def bodies_lines(part: Mapping[str, Any], words: Words) -> Iterator[RenderableType]:
    """Tell the balance of the volumes.

    Parameters
    ----------
    part : mapping
        The part `bodies` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    told = (("rubber", "rubber_m3"), ("blocks", "blocks_m3"), ("master", "master_m3"), ("air", "air_m3"))
    # a millilitre is less than anyone sees in a box
    there = [(name, part[key]) for name, key in told if part[key] > 1e-6]
    *volumes, box = format_volumes([*(volume for _, volume in there), part["box_m3"]], words.system)
    terms = [f"{name} {volume}" for (name, _), volume in zip(there, volumes, strict=True)]
    yield facts([("In the box", f"{' + '.join(terms)} = box {box}")])
