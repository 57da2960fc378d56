"""What can be told, drawn and printed of a mold, part by part."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

from pourwright.app.molding.air import air_look
from pourwright.app.molding.air_files import air_files
from pourwright.app.molding.blocks import blocks_look
from pourwright.app.molding.blocks_files import blocks_files
from pourwright.app.molding.bodies import bodies_look
from pourwright.app.molding.bodies_files import bodies_files
from pourwright.app.molding.box import box_look
from pourwright.app.molding.box_files import box_files
from pourwright.app.molding.contact import contact_look
from pourwright.app.molding.floats import floats_look
from pourwright.app.molding.floats_files import floats_files
from pourwright.app.molding.hollow import hollow_look
from pourwright.app.molding.hollow_files import hollow_files
from pourwright.app.molding.inserts import inserts_look
from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.rubber import rubber_look
from pourwright.app.molding.seams import seams_look
from pourwright.app.molding.seams_files import seams_files
from pourwright.app.molding.water_test import water_look
from pourwright.app.molding.way_out import way_out_look
from pourwright.app.molding.way_out_files import way_out_files
from pourwright.app.molding.ways import ways_look
from pourwright.app.molding.ways_files import ways_files
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.plan_part import Part

LOOKS: Mapping[str, Callable[[MoldLook, Progress], Part | None]] = MappingProxyType(
    {
        "ways": ways_look,
        "bodies": bodies_look,
        "box": box_look,
        "floats": floats_look,
        "contact": contact_look,
        "rubber": rubber_look,
        "air": air_look,
        "way_out": way_out_look,
        "seams": seams_look,
        "water_test": water_look,
        "blocks": blocks_look,
        "hollow": hollow_look,
        "inserts": inserts_look,
    }
)
"""Parts of the answer by their field in `MoldSheet`, cheap ones first; None: nothing to tell."""

FILES: tuple[Callable[[MoldLook, MoldSheet], Iterator[tuple[str, bytes]]], ...] = (
    ways_files,
    bodies_files,
    seams_files,
    blocks_files,
    air_files,
    way_out_files,
    box_files,
    hollow_files,
    floats_files,
)
"""Makers of files beside the sheet (``drawings/NAME.svg``, ``NAME.stl``), from all that was told."""
