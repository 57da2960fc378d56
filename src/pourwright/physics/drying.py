"""How long what is soaked takes to dry: what the air takes off its face, and what its inside lets through."""

from __future__ import annotations

from collections.abc import Sequence
from math import log, pi

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError
from pourwright.physics.humidity import saturation_pressure

POSITIVE = Range(0.0, open_low=True)
WATER_VAPOUR = 461.5
LATENT_HEAT = 2.46e6
AIR_CAPACITY = 1.2 * 1006.0
LEWIS = 0.897
COLDEST = 229.0
"""Gas constant of vapour [J/(kg K)], heat to evaporate [J/kg]; air [J/(m3 K)]; Le^(2/3) [-]; a limit [K]."""


def _vapour(temperature: float) -> float:
    """Density of saturated vapour [kg/m3]."""
    return float(saturation_pressure(temperature)) / (WATER_VAPOUR * temperature)


@checked(
    air=Range(240.0, 323.15, "K"),
    humidity=Range(0.0, 1.0),
    convection=Range(0.0, 100.0, "W/(m2 K)", open_low=True),
    radiation=Range(0.0, 20.0, "W/(m2 K)"),
)
def evaporation(air: float, humidity: float, convection: float, radiation: float) -> float:
    """Water that a wet face gives to the air, as long as it stays wet.

    Parameters
    ----------
    air : temperature of the air and of what stands around [K]
    humidity : relative humidity of the air [-]
    convection : film coefficient by air alone [W/(m2 K)], some 3 in a still room, 15 before a fan
    radiation : film coefficient by radiation [W/(m2 K)], some 5.5

    Returns
    -------
    mass of water [kg/(m2 s)]; 0 in air that is full

    Raises
    ------
    RangeError : a temperature, humidity or coefficient out of range

    Notes
    -----
    m = h_c / (rho c Le^(2/3)) (rho_v(T_s) - phi rho_v(T)), with the face so cold that what reaches it,
    (h_c + h_r) (T - T_s), pays for m L. Lewis' relation between heat and vapour.

    References
    ----------
    Incropera & DeWitt, Fundamentals of Heat and Mass Transfer [incropera-dewitt], evaporative cooling; from
    memory.

    Examples
    --------
    A still room of 20 degC and 50 %, and the same before a fan.

    >>> for film in (3.0, 15.0):
    ...     print(f"{86400 * evaporation(293.15, 0.5, film, 5.5):.2f} kg/m2 a day")
    1.19 kg/m2 a day
    4.22 kg/m2 a day
    """
    carried = convection / (AIR_CAPACITY * LEWIS)
    there = humidity * _vapour(air)
    cold, warm = max(air - 25.0, COLDEST), air
    for _ in range(40):
        face = 0.5 * (cold + warm)
        paid = carried * (_vapour(face) - there) * LATENT_HEAT
        cold, warm = (face, warm) if paid < (convection + radiation) * (air - face) else (cold, face)
    return max(carried * (_vapour(0.5 * (cold + warm)) - there), 0.0)


@checked(diffusivity=POSITIVE, left=Range(0.0, 0.5, open_low=True))
def diffusion_time(half_sides: Sequence[float], diffusivity: float, left: float = 0.05) -> float:
    """Time until a share of the water is left in a slab, bar or block that dries on all its faces.

    Parameters
    ----------
    half_sides : one length for a slab, two for a bar, three for a block [m], half of each side
    diffusivity : D of moisture [m2/s]
    left : share of the water that is left [-]

    Returns
    -------
    time [s]; four times as long for twice the size

    Raises
    ------
    RangeError : a diffusivity not above 0, or a share above one half
    UserError : a side that is not above 0

    Notes
    -----
    First terms of the series: left = (8/pi^2)^n exp(-pi^2 D t/4 sum(1/L^2)); good to 4 % below a share
    of 0.2. A body in a box dries no later than a block as large as the box.

    References
    ----------
    Crank, The Mathematics of Diffusion, 1975 [crank-1975]; from memory.

    Examples
    --------
    >>> for sides in ([0.0125], [0.0125, 0.0125]):
    ...     print(f"{diffusion_time(sides, 2.7e-10) / 86400:.1f} days")
    7.6 days
    3.5 days
    """
    if not half_sides or min(half_sides) <= 0.0:
        raise UserError("a side of what dries is not above 0", allowed="lengths above 0")
    several = len(half_sides) * log(8.0 / pi**2)
    quickness = pi**2 * diffusivity / 4.0 * sum(side**-2 for side in half_sides)
    return max(several - log(left), 0.0) / quickness
