"""A job with everything wooden of it, before anything is told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from pourwright.app.cutting.boards import master_board, sheeted
from pourwright.app.molding.box_reckoned import BoxReckoned
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import format_length
from pourwright.jobs.wood_stock import bars_of, oversize_of, saw_of, sheets_of
from pourwright.mold.box.defaults import BOX
from pourwright.mold.hold.floats import mold_floats
from pourwright.mold.wood.bar_parts import batten_parts, flange_parts, hanging_parts
from pourwright.mold.wood.block_parts import block_parts
from pourwright.mold.wood.box_parts import BoxScrews, box_parts
from pourwright.mold.wood.master import MasterWood
from pourwright.mold.wood.master_boards import master_from_boards
from pourwright.mold.wood.part import WoodPart
from pourwright.mold.wood.sawn import nest_wood
from pourwright.mold.wood.sawn_sheets import Sawn
from pourwright.mold.wood.stock import SawSetup, Sheet


@dataclass(frozen=True, eq=False)
class CutLook:
    """What every part of the answer starts from.

    Parameters
    ----------
    mold : MoldLook
        The mold of the job.
    """

    mold: MoldLook

    @cached_property
    def box(self) -> BoxReckoned | None:
        """The box; None where a skin needs none."""
        return None if self.mold.mold.choices.way == "skin" else BoxReckoned(self.mold)

    @cached_property
    def screws(self) -> BoxScrews:
        """Of the box."""
        if self.box is None or self.box.screw is None:
            return BoxScrews()
        corner = self.box.corners[0]
        return BoxScrews(
            diameter=self.box.screw.diameter,
            corner_at=corner.at if corner.possible and corner.means == "screws" else (),
            base_at={panel.name: self.box.base_at(found) for panel, found in self.box.panels},
        )

    def length(self, metres: float) -> str:
        """A length [m] in the maker's units."""
        return format_length(metres, self.mold.system)

    @property
    def oversize(self) -> float:
        """Left on boards that are trimmed after gluing [m]."""
        return oversize_of(self.mold.job)

    @cached_property
    def around(self) -> tuple[WoodPart, ...]:
        """Everything but the master: panels, battens, laths, boards of blocks, bars."""
        return tuple(self._around())

    @cached_property
    def master(self) -> MasterWood | None:
        """The master from boards; None for one that is there already."""
        told = self.mold.job.master
        if told.mass is not None or told.density is not None or told.material is not None:
            return None
        made = self.mold.piece.sizes
        return master_from_boards(
            self.mold.piece.mesh if made is None else made.master,
            master_board(self.mold, self.sheets),
            oversize=self.oversize,
            sealer=told.sealer,
        )

    @property
    def parts(self) -> tuple[WoodPart, ...]:
        """Everything wooden, the master first."""
        every = (*(self.master.parts if self.master is not None else ()), *self.around)
        return tuple(replace(part, board=sheeted(part.board, self.mold)) for part in every)

    @cached_property
    def sheets(self) -> tuple[Sheet, ...]:
        """That the shop has."""
        return sheets_of(self.mold.job, self.mold.materials.board)

    @cached_property
    def saw(self) -> SawSetup:
        """Kerf and trim."""
        return saw_of(self.mold.job)

    @cached_property
    def sawn(self) -> Sawn:
        """Where every part lies."""
        job = self.mold.job
        bars = bars_of(job, self.mold.materials.board)
        return nest_wood(self.parts, self.sheets, bars, self.saw, self.mold.system, job.seed)

    def _around(self) -> Iterator[WoodPart]:
        mold, choices = self.mold.mold, self.mold.mold.choices
        if self.box is not None:
            section = (BOX["batten_width"].value, BOX["batten_depth"].value)
            yield from box_parts(mold, self.screws)
            for panel, found in self.box.panels:
                if found.battens is not None:
                    yield from batten_parts(panel, found.battens, self.box.lath, section)
            yield from flange_parts(mold, self.box.lath)
        yield from block_parts(mold.blocks, choices.block_board, choices.block_stock, self.oversize)
        held = mold_floats(mold).bars if choices.way == "block" else None
        if held is not None:
            yield from hanging_parts(held.bars, choices.thickness)
