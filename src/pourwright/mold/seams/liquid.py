"""What is poured into a mold, as far as its seams feel it."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from pourwright.materials.records import Mineral, Resin, Rubber
from pourwright.mold.seams.defaults import SEAMS
from pourwright.physics.gap_flow import fluidity_while_doubling
from pourwright.physics.water import LIQUID, water_density, water_viscosity

Poured = Literal["rubber", "resin", "mineral", "water"]


def thawed(temperature: float) -> float:
    """Temperature that water may have: in a shop that freezes it is brought in liquid [K]."""
    return max(temperature, float(LIQUID.low))


@dataclass(frozen=True, slots=True, kw_only=True)
class Liquid:
    """A liquid before it gels.

    Parameters
    ----------
    kind : str
        "rubber", "resin", "mineral" or "water": what decides which seams it reaches.
    name : str
        As the maker calls it.
    density : float
        Of what gets out [kg/m3].
    presses : float
        Density whose weight drives it [kg/m3].
    fluidity : float
        Integral of one over its viscosity until it gels [1/Pa].
    gels_after : float
        [s]
    poured : float
        Mass that is poured of it [kg].
    most : float
        More than this cannot get out [m3].
    yield_stress : float
        Of a slurry [Pa]; gaps that hold it back let its water through.
    """

    kind: Poured
    name: str
    density: float
    presses: float
    fluidity: float
    gels_after: float
    poured: float
    most: float = inf
    yield_stress: float = 0.0


def rubber_liquid(rubber: Rubber, poured: float, works_for: float) -> Liquid:
    """Mold rubber from the pail until it is firm.

    Parameters
    ----------
    rubber : Rubber
        Its record.
    poured : float
        Mass in the box [kg].
    works_for : float
        Its working time in this shop [s].

    Returns
    -------
    Liquid

    Notes
    -----
    It has got twice as thick when the working time is over (common practice), and goes on so. When
    exactly it is firm hardly counts: seven eighths of all that can get out gets out in the first three.

    Examples
    --------
    >>> from pourwright.materials import load_materials
    >>> rubber = load_materials().rubber["silicone-platinum-a25"]
    >>> print(f"{rubber_liquid(rubber, 40.0, 2700.0).fluidity:.0f} per Pa")
    216 per Pa
    """
    doubling = works_for / SEAMS["doublings"].value
    gels = max(rubber.demold_time.value, works_for)
    density = rubber.density.value
    return Liquid(
        kind="rubber", name="rubber", density=density, presses=density, gels_after=gels, poured=poured,
        fluidity=fluidity_while_doubling(rubber.viscosity.value, doubling, gels),
    )  # fmt: skip


def resin_liquid(resin: Resin, poured: float, fluidity: float, gels_after: float) -> Liquid:
    """Casting resin from the pail until it gels.

    Parameters
    ----------
    resin : Resin
        Its record.
    poured : float
        Mass in the cavity [kg].
    fluidity, gels_after : float
        Of a resin held at the shop's temperature [1/Pa], [s].

    Returns
    -------
    Liquid
        Its own density presses, not that of the fill: grains that lie on each other carry themselves.
    """
    density = resin.density.value
    return Liquid(
        kind="resin", name="resin", density=density, presses=density, fluidity=fluidity,
        gels_after=gels_after, poured=poured,
    )  # fmt: skip


def mineral_liquid(
    mineral: Mineral, poured: float, temperature: float, density: float | None = None
) -> Liquid:
    """Water that gypsum or concrete gives off before it sets.

    Parameters
    ----------
    mineral : Mineral
        Its record.
    poured : float
        Mass of powder and water in the cavity [kg].
    temperature : float
        Of the shop [K].
    density : float, optional
        Of the mix as poured, with grains in it [kg/m3]; else the record's.

    Returns
    -------
    Liquid
        As thin as water, pressed by the whole slurry, and no more than it bleeds (common practice).
    """
    sets, ratio = SEAMS["mineral_sets"].value, mineral.water_ratio.value
    water = poured * ratio / (1.0 + ratio)
    pure, presses = (
        water_density(thawed(temperature)),
        mineral.wet_density.value if density is None else density,
    )
    return Liquid(
        kind="mineral", name="mixing water", density=pure, presses=presses,
        fluidity=sets / water_viscosity(thawed(temperature)), gels_after=sets, poured=poured,
        most=SEAMS["bleed"].value * water / pure, yield_stress=SEAMS["yield_stress"].value,
    )  # fmt: skip


def standing_water(poured: float, temperature: float, time: float) -> Liquid:
    """Water that is left to stand in a finished mold.

    Parameters
    ----------
    poured : float
        Volume [m3].
    temperature : float
        [K]
    time : float
        How long it stands [s].

    Returns
    -------
    Liquid
    """
    density = water_density(thawed(temperature))
    return Liquid(
        kind="water", name="water", density=density, presses=density, poured=poured * density,
        fluidity=time / water_viscosity(thawed(temperature)), gels_after=time,
    )  # fmt: skip
