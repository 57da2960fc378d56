"""A fill as the maker reads it in the terminal."""

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from rich.console import RenderableType

from pourwright.cli.fill_bands_lines import bands_lines
from pourwright.cli.fill_batches_lines import batches_lines
from pourwright.cli.fill_bottles_lines import bottles_lines
from pourwright.cli.fill_cube_lines import cube_lines
from pourwright.cli.fill_laid_lines import laid_lines
from pourwright.cli.fill_mineral_lines import mineral_lines
from pourwright.cli.fill_setting_heat_lines import setting_heat_lines
from pourwright.cli.fill_shrinks_lines import shrinks_lines
from pourwright.cli.fill_voids_lines import voids_lines
from pourwright.cli.fill_ways_lines import ways_lines
from pourwright.cli.told_lines import told_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]

LOOKS: Mapping[str, Callable[[Any, Words], Iterator[RenderableType]]] = {
    "bands": bands_lines,
    "laid": laid_lines,
    "voids": voids_lines,
    "bottles": bottles_lines,
    "filling": ways_lines,
    "batches": batches_lines,
    "mineral": mineral_lines,
    "setting_heat": setting_heat_lines,
    "shrinks": shrinks_lines,
    "cube": cube_lines,
}
"""How each part of a fill is told, by its field in the answer, in the order of the work."""


def fill_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out a fill.

    Parameters
    ----------
    report : mapping
        The fill's answer as JSON.

    Returns
    -------
    iterator of RenderableType
    """
    return told_lines(report, LOOKS)
