"""The whole cure law of a casting resin: chemistry, slowed down by its own glass."""

from dataclasses import astuple, dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Array, Real
from pourwright.physics.cure import kamal_sourour_rate
from pourwright.physics.diffusion import vitrification_factor
from pourwright.physics.glass_transition import dibenedetto, dibenedetto_conversion

TEMPERATURE = Range(150.0, 1000.0, "K")


@dataclass(frozen=True, slots=True)
class CureLaw:
    """Parameters of the cure law, in the order of the kernel's row.

    Parameters
    ----------
    frequency_1, activation_energy_1 : uncatalysed path [1/s, J/mol]
    frequency_2, activation_energy_2 : autocatalytic path [1/s, J/mol]
    order_m, order_n : orders of autocatalysis and depletion [-]
    glass_transition_start : of the fresh mix [K]
    glass_transition_full : of the fully cured resin [K]
    glass_transition_lambda : DiBenedetto's lambda [-]
    diffusion_offset : the mix's transition above its temperature at half rate [K]
    diffusion_width : kelvin over which the rate is lost [K]; 0 means no diffusion control
    """

    frequency_1: float
    activation_energy_1: float
    frequency_2: float
    activation_energy_2: float
    order_m: float
    order_n: float
    glass_transition_start: float = 240.0
    glass_transition_full: float = 330.0
    glass_transition_lambda: float = 0.4
    diffusion_offset: float = 0.0
    diffusion_width: float = 0.0

    @property
    def row(self) -> Array:
        """The eleven numbers as the float64 row [each in its unit] that `cure_kernels.rate` reads.

        Examples
        --------
        >>> CureLaw(3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8).row.shape
        (11,)
        """
        return np.array(astuple(self), dtype=np.float64)

    @property
    def kinetics(self) -> tuple[float, float, float, float, float, float]:
        """Coefficients for `cure.kamal_sourour_rate`, in its order [1/s, J/mol, -].

        Examples
        --------
        >>> CureLaw(3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8).kinetics
        (30000.0, 60000.0, 110000.0, 55000.0, 0.6, 1.8)
        """
        first = self.frequency_1, self.activation_energy_1
        second = self.frequency_2, self.activation_energy_2
        return (*first, *second, self.order_m, self.order_n)

    @property
    def glass(self) -> tuple[float, float, float]:
        """Coefficients for `glass_transition.dibenedetto`, in its order [K, K, -].

        Examples
        --------
        >>> CureLaw(3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8).glass
        (240.0, 330.0, 0.4)
        """
        start, full = self.glass_transition_start, self.glass_transition_full
        return start, full, self.glass_transition_lambda


@checked(temperature=TEMPERATURE, conversion=Range(0.0, 1.0))
def cure_rate(temperature: Real, conversion: Real, law: CureLaw) -> Real:
    """Rate of cure with diffusion control: what the heat runs use.

    Parameters
    ----------
    temperature : absolute temperature [K], float or array
    conversion : degree of cure [-], 0 to 1, same shape
    law : parameters of the resin

    Returns
    -------
    rate of conversion [1/s]

    Raises
    ------
    RangeError : a temperature or conversion out of range

    Notes
    -----
    da/dt = (k1 + k2 a^m) (1 - a)^n / (1 + exp((Tg(a) - T - offset) / width)).
    `cure_kernels.rate` is the same law, compiled.

    References
    ----------
    Kamal & Sourour 1973 [kamal-sourour-1973]; form of Chern & Poehlein 1987
    [chern-poehlein-1987]; DiBenedetto 1987 [dibenedetto-1987].

    Examples
    --------
    In a shop at 20 degC a resin 95 % cured creeps on at a twenty-fifth of its chemical rate.

    >>> chemistry = (3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8)
    >>> held = CureLaw(*chemistry, 230.0, 325.0, 0.4, 5.0, 5.0)
    >>> share = cure_rate(293.15, 0.95, held) / cure_rate(293.15, 0.95, CureLaw(*chemistry))
    >>> print(f"{share:.2f}")
    0.04
    """
    chemical = kamal_sourour_rate(temperature, conversion, *law.kinetics)
    # no width: chemistry alone, as published fits without diffusion have it
    if law.diffusion_width <= 0:
        return chemical
    glass_transition = dibenedetto(conversion, *law.glass)
    offset, width = law.diffusion_offset, law.diffusion_width
    return chemical * vitrification_factor(temperature, glass_transition, offset, width)


@checked(temperature=TEMPERATURE)
def stalled_conversion(temperature: Real, law: CureLaw) -> Real:
    """Degree of cure at which diffusion has taken half the chemical rate.

    Parameters
    ----------
    temperature : absolute temperature the resin is held at [K], float or array
    law : parameters of the resin

    Returns
    -------
    conversion [-]; above 1 where the resin cures through at this temperature

    Raises
    ------
    RangeError : a temperature outside 150 to 1000 K

    Notes
    -----
    Where DiBenedetto's Tg(a) equals T + offset. In the days of a shop a cure does not
    get far beyond it.

    References
    ----------
    DiBenedetto 1987 [dibenedetto-1987]; Pascault & Williams 1990 [pascault-williams-1990].

    Examples
    --------
    >>> law = CureLaw(3e4, 6e4, 1.1e5, 5.5e4, 0.6, 1.8, 253.15, 393.15, 0.4, 0.0, 5.0)
    >>> print(f"{stalled_conversion(298.15, law):.6f}")
    0.542169
    """
    return dibenedetto_conversion(temperature + law.diffusion_offset, *law.glass)


@checked(temperature=TEMPERATURE, start=Range(0.0, 1.0), end=Range(0.0, 1.0, open_high=True))
def holding_time(temperature: float, start: float, end: float, law: CureLaw) -> float:
    """Time at one temperature from one degree of cure to another.

    Parameters
    ----------
    temperature : absolute temperature the resin is held at [K]
    start : degree of cure at first [-]; above 0 where the uncatalysed path is nil
    end : degree of cure asked for [-], below 1
    law : parameters of the resin

    Returns
    -------
    time [s]; 0 where it is that far cured already

    Raises
    ------
    RangeError : a temperature or a degree of cure out of range

    Notes
    -----
    t = integral of da / rate(a), by Gauss-Legendre on 24 panels of 8 points that crowd at both ends, where
    the rate may be small. Within 1e-6. It leaves out the resin's own warmth.

    References
    ----------
    Kamal & Sourour 1973 [kamal-sourour-1973]: the rate law of `cure_rate`, integrated here.

    Examples
    --------
    Second order with k = 5e-4 1/s, which takes an hour to 64 %.

    >>> law = CureLaw(5e-4, 0.0, 0.0, 0.0, 1.0, 2.0)
    >>> print(f"{holding_time(293.15, 0.0, 0.642857, law):.0f} s")
    3600 s
    """
    if end <= start:
        return 0.0
    places, weights = np.polynomial.legendre.leggauss(8)
    # edges by a cosine: short panels at both ends
    edges = start + (end - start) * (0.5 - 0.5 * np.cos(np.linspace(0.0, np.pi, 25)))
    half = 0.5 * np.diff(edges)[:, None]
    cure = edges[:-1, None] + half * (1.0 + places)
    return float((half * weights / cure_rate(np.full_like(cure, temperature), cure, law)).sum())
