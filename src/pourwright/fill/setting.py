"""Heat and times of gypsum or concrete as it sets, from its record and its mix."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.fill.mineral_defaults import MINERALS
from pourwright.fill.minerals import MineralMix
from pourwright.materials.records import Glass, Mineral
from pourwright.physics.effective_medium import effective_conductivity
from pourwright.physics.hydration import ultimate_hydration
from pourwright.physics.plaster import water_to_set
from pourwright.physics.setting import SettingLaw, ageing, retardation_of

REFERENCE = 293.15


@dataclass(frozen=True)
class Setting:
    """A mix as the heat run sees it, per volume of mix as poured.

    Parameters
    ----------
    capacity : float
        [J/(m3 K)]
    conductivity : float
        [W/(m K)]
    heat : float
        All that ever comes [J/m3].
    ultimate : float
        Share of the binder that ever reacts [-].
    law : SettingLaw
        How fast.
    """

    capacity: float
    conductivity: float
    heat: float
    ultimate: float
    law: SettingLaw

    @property
    def rise(self) -> float:
        """Of temperature where no heat is lost [K]."""
        return self.heat / self.capacity


def reacting_share(mineral: Mineral, water_ratio: float) -> float:
    """Share of the binder that ever reacts.

    Parameters
    ----------
    mineral : Mineral
        With its binder.
    water_ratio : float
        Water over powder by mass [-].

    Returns
    -------
    float
        Of cement after Mills [-]; gypsum sets all of it where there is water for it.
    """
    if mineral.binder == "cement" and mineral.binder_share is not None:
        return float(ultimate_hydration(water_ratio / mineral.binder_share.value))
    return min(1.0, water_ratio / water_to_set())


def setting_of(mineral: Mineral, mix: MineralMix, glass: Glass) -> Setting | None:
    """Take what the heat run needs from a record and a mix.

    Parameters
    ----------
    mineral : Mineral
        Record.
    mix : MineralMix
        Its water and grains.
    glass : Glass
        The grains.

    Returns
    -------
    Setting or None
        None where the record does not say what sets, how much heat it sets free and when.
    """
    if not mineral.binder or None in (mineral.binder_share, mineral.setting_heat, mineral.half_heat_time):
        return None
    assert mineral.setting_heat is not None and mineral.half_heat_time is not None  # noqa: PT018 - said above
    each = mix.wet_density / mix.mixed  # per cubic metre of what is mixed
    held = (
        mix.powder * mineral.heat_capacity.value
        + mix.water * MINERALS["water_capacity"].value
        + mix.aggregate * glass.heat_capacity.value
    )
    ultimate, slope = reacting_share(mineral, mix.water_ratio), MINERALS[f"{mineral.binder}_slope"].value
    return Setting(
        capacity=each * held,
        conductivity=_conductivity(mineral, mix, glass),
        heat=each * mix.binder * mineral.setting_heat.value * ultimate,
        ultimate=ultimate,
        law=SettingLaw(
            retardation_of(mineral.half_heat_time.value, slope),
            slope,
            MINERALS[f"{mineral.binder}_activation"].value,
            REFERENCE,
        ),
    )


def _conductivity(mineral: Mineral, mix: MineralMix, glass: Glass) -> float:
    share = mix.aggregate / mix.mixed * mix.wet_density / glass.density.value
    return float(effective_conductivity(share, mineral.conductivity.value, glass.conductivity.value))


def at_temperature(time: float, binder: str, temperature: float) -> float:
    """Turn a time at 20 degC into that of a cooler or warmer shop.

    Parameters
    ----------
    time : float
        At 20 degC [s].
    binder : str
        "gypsum" or "cement".
    temperature : float
        Of shop and mix [K].

    Returns
    -------
    float
        [s]

    Examples
    --------
    >>> print(f"{at_temperature(24.0, 'cement', 283.15):.0f} h at 10 degC")
    43 h at 10 degC
    """
    return time / ageing(temperature, MINERALS[f"{binder}_activation"].value, REFERENCE)
