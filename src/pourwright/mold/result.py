"""What the mold room answers, in SI; see `rubber` for the frame of the rubber pour."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials.batches import Batch
from pourwright.mold.choices import Method, MoldChoices
from pourwright.mold.rubber import RubberPour
from pourwright.mold.space_block import SpaceBlock

Size = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class RubberMix:
    """Rubber to weigh out.

    Parameters
    ----------
    volume, mass : float
        What the box takes [m3], [kg].
    mass_mixed, part_a, part_b : float
        What is mixed, with the allowance, as the scale shows it [kg].
    fill_mark : float or None
        Level in the empty box before a hung master goes in [m]; None where the master stands in it already.
    level_after : float
        Level with the master in [m].
    head_at_bottom : float
        Pressure of the liquid rubber on the box's floor [Pa].
    batches : tuple of Batch
        One per pail.
    """

    volume: float
    mass: float
    mass_mixed: float
    part_a: float
    part_b: float
    fill_mark: float | None
    level_after: float
    head_at_bottom: float
    batches: tuple[Batch, ...]


@dataclass(frozen=True, kw_only=True)
class HoldDown:
    """What keeps the master where it is while the rubber is liquid.

    Parameters
    ----------
    buoyancy : float
        At the worst level, with rubber all round [N].
    sealed_force : float
        Greatest upward push by the rubber alone where none gets under a master screwed down tight [N];
        negative presses it down. Equal to the buoyancy for a hung master.
    sealed_level : float
        Rubber level above the box's floor at which that occurs, often half-way [m].
    master_mass : float
        Of the master [kg].
    net_force : float
        Buoyancy less weight at the worst level, at least 0 [N].
    worst_level : float
        Rubber level above the box's floor at which it occurs [m].
    weight_needed : float
        To lay on the bars, with the safety factor [kg].
    screws_needed : int or None
        Into the master through the base board; None for a hung master.
    bar_load : float
        Most the hanging bars carry downward, before any rubber [N].
    """

    buoyancy: float
    sealed_force: float
    sealed_level: float
    master_mass: float
    net_force: float
    worst_level: float
    safety_factor: float
    weight_needed: float
    screws_needed: int | None
    bar_load: float


@dataclass(frozen=True, kw_only=True)
class Panel:
    """One kind of panel of the box; ``width`` is its height where it stands.

    Parameters
    ----------
    length, width, thickness : float
        To cut [m].
    pressure_at_bottom : float
        From the densest liquid ever poured there [Pa].
    thrust : float
        Force of that liquid on one panel [N].
    """

    name: str
    count: int
    length: float
    width: float
    thickness: float
    pressure_at_bottom: float
    thrust: float


@dataclass(frozen=True, kw_only=True)
class Seam:
    """Joints of the box that liquid rubber reaches: length of all [m], greatest pressure there [Pa]."""

    name: str
    length: float
    pressure: float


@dataclass(frozen=True, kw_only=True)
class MoldResult:
    """The mold: rubber block, box, hold-down.

    Parameters
    ----------
    inside, outside : tuple of float
        Rubber block and box [m]; z is the height as cast.
    rim : float
        Height of the box's rim above the cavity's floor as cast [m]; dips are taken from it.
    empty_mass : float
        Rubber, space blocks and box without the fill [kg].
    blocks : tuple of SpaceBlock
        Wood in the rubber's place; none unless the job asks for them.
    """

    choices: MoldChoices
    method: Method
    wall: float
    base: float
    cover: float
    inside: Size
    outside: Size
    rim: float
    pour: RubberPour
    rubber: RubberMix
    hold_down: HoldDown
    panels: tuple[Panel, ...]
    seams: tuple[Seam, ...]
    empty_mass: float
    reasons: tuple[tuple[str, str], ...]
    warnings: tuple[str, ...]
    blocks: tuple[SpaceBlock, ...] = ()

    def filled_mass(self, fill_mass: float) -> float:
        """Add the fill [kg] to the empty mold [kg]."""
        return self.empty_mass + fill_mass

    def level_after_batch(self, number: int) -> float:
        """Level of the rubber after a batch.

        Parameters
        ----------
        number : int
            Of the batch, counted from 1; all take an equal share of the box.

        Returns
        -------
        float
            Above the box's floor [m]: before a hung master goes in, with a screwed one in place.
        """
        volume = self.rubber.volume * number / len(self.rubber.batches)
        return (self.pour.level_in_empty if self.method == "hung" else self.pour.level_after)(volume)
