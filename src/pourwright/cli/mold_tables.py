"""A mold as the maker reads it in the terminal."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from rich.console import RenderableType

from pourwright.cli.mold_air_lines import air_lines
from pourwright.cli.mold_blocks_lines import blocks_lines
from pourwright.cli.mold_bodies_lines import bodies_lines
from pourwright.cli.mold_box_lines import box_lines
from pourwright.cli.mold_contact_lines import contact_lines, rubber_lines
from pourwright.cli.mold_floats_lines import floats_lines
from pourwright.cli.mold_hollow_lines import hollow_lines
from pourwright.cli.mold_inserts_lines import inserts_lines
from pourwright.cli.mold_seams_lines import seams_lines, water_lines
from pourwright.cli.mold_way_out_lines import way_out_lines
from pourwright.cli.mold_ways_lines import ways_lines
from pourwright.cli.told_lines import told_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]

LOOKS: Mapping[str, Callable[[Any, Words], Iterator[RenderableType]]] = {
    "ways": ways_lines,
    "blocks": blocks_lines,
    "bodies": bodies_lines,
    "box": box_lines,
    "contact": contact_lines,
    "rubber": rubber_lines,
    "air": air_lines,
    "floats": floats_lines,
    "way_out": way_out_lines,
    "seams": seams_lines,
    "water_test": water_lines,
    "hollow": hollow_lines,
    "inserts": inserts_lines,
}
"""How each part of a mold is told, by its field in the answer, in the order of the work."""


def mold_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out a mold.

    Parameters
    ----------
    report : mapping
        The mold's answer as JSON.

    Returns
    -------
    iterator of RenderableType
    """
    return told_lines(report, LOOKS)
