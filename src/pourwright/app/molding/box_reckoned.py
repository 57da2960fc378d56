"""The box of a job as it is reckoned, before anything is told of it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from pourwright.app.molding.look import MoldLook
from pourwright.materials import Board
from pourwright.mold import Panel
from pourwright.mold.box.bulge import Bulge, bulge
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.fastening import Corner, Fastening, fastenings
from pourwright.mold.box.loads import base_load, corner_load
from pourwright.mold.box.rows import Row
from pourwright.mold.box.screws import Screw, screw_for, screws_along
from pourwright.mold.box.upright import Upright
from pourwright.physics.constants import STANDARD_GRAVITY

BATTEN = "pine"


@dataclass(frozen=True)
class BoxReckoned:
    """Bulge, fastenings and base of the box of one mold.

    Parameters
    ----------
    look : MoldLook
        The mold.
    """

    look: MoldLook

    @cached_property
    def lath(self) -> Board:
        """What battens and flanges are made of."""
        found: Board = self.look.materials.find("board", BATTEN, self.look.job.where("mold"))
        return found

    @property
    def density(self) -> float:
        """Of the densest liquid ever poured [kg/m3]; the fill as if it reached down to the box's floor."""
        choices = self.look.mold.choices
        return max(choices.casting_density, choices.rubber.density.value)

    @cached_property
    def panels(self) -> tuple[tuple[Panel, Bulge], ...]:
        """Each kind of upright panel with what it does: the sides, then the ends."""
        choices = self.look.mold.choices
        return tuple(
            (
                panel,
                bulge(self._upright(panel), choices.board, panel.thickness, self.lath, choices.bulge_limit),
            )
            for panel in self.look.mold.panels
            if panel.name in ("side", "end")
        )

    def _upright(self, panel: Panel) -> Upright:
        mold = self.look.mold
        width = mold.inside[0] if panel.name == "side" else mold.inside[1]
        wet = min(mold.pour.level_wanted, panel.width)
        return Upright(name=panel.name, width=width, height=panel.width, wet=wet, density=self.density)

    @cached_property
    def corners(self) -> tuple[Fastening, ...]:
        """Ways of holding the upright corners, the one to take first."""
        choices, ((_, side), (_, end)) = self.look.mold.choices, self.panels
        load = corner_load(
            side.panel,
            end.panel,
            holds_end=choices.joint.holds_end,
            side_battens=_level(side),
            end_battens=_level(end),
        )
        return fastenings(
            Corner(
                load=load,
                joint=choices.joint,
                board=choices.board,
                lath=self.lath,
                thickness=choices.thickness,
                units=choices.units,
            )
        )

    @property
    def screw(self) -> Screw | None:
        """What goes into the edges of this board."""
        choices = self.look.mold.choices
        return screw_for(choices.thickness, choices.units)

    def base(self, found: Bulge) -> Row | None:
        """Screws through the base board into the edge of a panel; None where its edge bears none."""
        if self.screw is None:
            return None
        mold, choices = self.look.mold, self.look.mold.choices
        around = 2.0 * (mold.inside[0] + mold.inside[1])
        lift = self.filled * STANDARD_GRAVITY / around
        return screws_along(base_load(found.panel, lift), self.screw, choices.board, choices.thickness)

    def base_at(self, found: Bulge) -> tuple[float, ...]:
        """Where screws go through the base board into a panel, from the corner of what is wet [m].

        None where screws that bear it would sit too close.
        """
        row = self.base(found)
        holds = row is not None and row.share <= 1.0 and row.spacing >= BOX["screw_least_spacing"].value
        return row.at if row is not None and holds else ()

    @property
    def filled(self) -> float:
        """Mass of the filled mold [kg]."""
        return self.look.mold.filled_mass(self.look.in_mold)

    @property
    def rubber_share(self) -> float:
        """Share of the bulge that is there while the rubber is poured [-]."""
        return self.look.mold.choices.rubber.density.value / self.density


def _level(found: Bulge) -> tuple[float, ...]:
    return found.battens.at if found.battens is not None and found.battens.lie == "level" else ()
