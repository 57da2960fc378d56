"""What can be told, drawn and printed of a fill, part by part."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from pourwright.app.filling.bands import bands_files, bands_look
from pourwright.app.filling.batches import batches_look
from pourwright.app.filling.bottles import bottles_look
from pourwright.app.filling.cube import cube_look
from pourwright.app.filling.laid import laid_look
from pourwright.app.filling.look import FillLook
from pourwright.app.filling.mineral import mineral_look
from pourwright.app.filling.setting_heat import setting_heat_files, setting_heat_look
from pourwright.app.filling.shrinks import shrinks_look
from pourwright.app.filling.voids import voids_look
from pourwright.app.filling.ways import ways_files, ways_look
from pourwright.foundation.progress import Progress
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.plan_part import Part

LOOKS: Mapping[str, Callable[[FillLook, Progress], Part | None]] = MappingProxyType(
    {
        "bands": bands_look,
        "laid": laid_look,
        "voids": voids_look,
        "mineral": mineral_look,
        "setting_heat": setting_heat_look,
        "bottles": bottles_look,
        "filling": ways_look,
        "batches": batches_look,
        "shrinks": shrinks_look,
        "cube": cube_look,
    }
)
"""Parts of the answer by their field in `FillSheet`, cheap ones first; None: nothing to tell."""

FILES: tuple[Callable[[FillLook, FillSheet], Iterator[tuple[str, bytes]]], ...] = (
    bands_files,
    ways_files,
    setting_heat_files,
)
"""Makers of files beside the sheet (``drawings/NAME.svg``), from all that was told."""
