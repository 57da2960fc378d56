"""Set up: what stands on the bench, before any grid and any pour."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.geometry import Mesh
from pourwright.materials import Board, Core, CureLaw, Glass, Resin, Rubber
from pourwright.physics.cure_law import CureLaw as Law
from pourwright.physics.effective_medium import effective_conductivity
from pourwright.pour.climate import Climate


@dataclass(frozen=True)
class Bed:
    """One band as the heat sees it: a share of grains between two heights.

    Parameters
    ----------
    lower, upper : float
        Heights from the mold's floor [m].
    solid_fraction : float
        Volume of glass over volume of the band [-]; 0 for a neat band.
    grain : float
        Size of its grains, their mean by surface [m]; 0 where there are none, or nobody told.
    """

    lower: float
    upper: float
    solid_fraction: float
    grain: float = 0.0


@dataclass(frozen=True)
class Block:
    """The rubber block and its box around the piece, z = 0 at the cavity's floor.

    Parameters
    ----------
    inside : tuple of float
        Width and depth of the rubber block [m]; it is centred on x = y = 0.
    base : float
        Rubber under the cavity [m].
    board : float
        Thickness of the box's panels and floor [m].
    height : float
        Height of the piece as poured [m]; rubber and panels end there.
    """

    inside: tuple[float, float]
    base: float
    board: float
    height: float


@dataclass(frozen=True)
class Space:
    """A cuboid of wood in the rubber's place: its corners in the pour frame [m]."""

    lower: tuple[float, float, float]
    upper: tuple[float, float, float]


@dataclass(frozen=True)
class Site:
    """Everything about a casting that does not depend on how it is poured.

    Parameters
    ----------
    piece : Mesh
        In the pour frame [m].
    block : Block
        Rubber and box.
    beds : tuple of Bed
        From the mold's floor to the top, without gaps.
    resin, glass, rubber, board : record
        Materials.
    climate : Climate
        The shop by the hour.
    resin_temperature : float or None
        Of the mixed resin as it is poured [K]; None: the shop's at that time.
    film : float or None
        One film coefficient on every bare face, in the place of air and radiation [W/(m2 K)].
    bare : bool
        Whether the casting stands alone, without rubber, box and bench.
    film_factor : float
        On every film coefficient of air and radiation: draught, and what is not known of it [-].
    resin_warmer : float
        By so much the mixed resin is warmer than the shop where its temperature is not given [K].
    spaces : tuple of Space
        Space blocks in the rubber, of the box's board unless ``space_board`` says otherwise.
    space_board : record, optional
        What the space blocks are made of.
    core : Mesh, optional
        A body that takes the middle of the piece; ``piece`` is then the room around it.
    core_material : record, optional
        What the core is made of; the box's board where left out.
    """

    piece: Mesh
    block: Block
    beds: tuple[Bed, ...]
    resin: Resin
    glass: Glass
    rubber: Rubber
    board: Board
    climate: Climate
    resin_temperature: float | None = None
    film: float | None = None
    bare: bool = False
    film_factor: float = 1.0
    resin_warmer: float = 0.0
    spaces: tuple[Space, ...] = ()
    space_board: Board | None = None
    core: Mesh | None = None
    core_material: Board | Core | None = None

    @property
    def borders(self) -> tuple[float, ...]:
        """Heights at which one bed ends and the next begins [m]."""
        return tuple(bed.upper for bed in self.beds[:-1])

    def properties(self, bed: Bed) -> FillProperties:
        """What a bed is made of, per volume, once it is full."""
        return fill_properties(self.resin, self.glass, bed.solid_fraction)

    def poured_at(self, time: float) -> float:
        """Temperature of the resin poured at ``time`` [K]."""
        if self.resin_temperature is not None:
            return self.resin_temperature
        return self.climate.temperature(time) + self.resin_warmer


@dataclass(frozen=True)
class FillProperties:
    """A bed full of resin as one material, per volume.

    Parameters
    ----------
    resin_capacity, glass_capacity : float
        Share of the volumetric heat capacity held by each [J/(m3 K)].
    conductivity : float
        [W/(m K)].
    heat : float
        Heat set free from mixed to fully cured [J/m3].
    """

    resin_capacity: float
    glass_capacity: float
    conductivity: float
    heat: float

    @property
    def capacity(self) -> float:
        """Volumetric heat capacity of both [J/(m3 K)]."""
        return self.resin_capacity + self.glass_capacity


def fill_properties(resin: Resin, glass: Glass, solid_fraction: float) -> FillProperties:
    """Mix resin and grains to one material.

    Parameters
    ----------
    resin, glass : record
        Materials.
    solid_fraction : float
        Volume of glass over volume of the bed [-].

    Returns
    -------
    FillProperties
        Capacity by volume (exact), conductivity by Bruggeman-Hanai, which lies between
        the Hashin-Shtrikman bounds for touching and for coated grains.
    """
    liquid = 1.0 - solid_fraction
    return FillProperties(
        resin_capacity=liquid * resin.density.value * resin.heat_capacity.value,
        glass_capacity=solid_fraction * glass.density.value * glass.heat_capacity.value,
        conductivity=float(
            effective_conductivity(solid_fraction, resin.conductivity.value, glass.conductivity.value)
        ),
        heat=liquid * resin.density.value * resin.heat_of_reaction.value,
    )


def cure_law(cure: CureLaw) -> Law:
    """Turn a material record's cure into the law that the equations take.

    Parameters
    ----------
    cure : record
        Sourced numbers.

    Returns
    -------
    pourwright.physics.cure_law.CureLaw
        Plain SI numbers.
    """
    return Law(
        cure.frequency_1.value,
        cure.activation_energy_1.value,
        cure.frequency_2.value,
        cure.activation_energy_2.value,
        cure.order_m.value,
        cure.order_n.value,
        cure.glass_transition_start.value,
        cure.glass_transition_full.value,
        cure.glass_transition_lambda.value,
        cure.diffusion_offset.value,
        cure.diffusion_width.value,
    )
