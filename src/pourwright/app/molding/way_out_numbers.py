"""Numbers of the way out, as exactly as they are known."""

from __future__ import annotations

from math import floor, log10

from pourwright.foundation.notation import (
    UnitSystem,
    format_cut_length,
    format_force,
    format_length,
    format_mass,
)
from pourwright.physics.constants import STANDARD_GRAVITY

SMALL = 0.003
"""Length below which a tape shows nothing useful [m]."""
POUND_FORCE = 4.4482216
"""[N]"""
LIGHT = 2.0
"""Force that nobody feels [N]."""


class OutNumbers:
    """Writes lengths and forces.

    Parameters
    ----------
    system : UnitSystem
        What the maker reads.
    """

    def __init__(self, system: UnitSystem) -> None:
        self.system = system

    def _pull(self, force: float) -> str:
        if force < LIGHT:
            return "next to no pull"
        if self.system == UnitSystem.US:
            return format_force(two_digits(force / POUND_FORCE) * POUND_FORCE, self.system)
        rough = two_digits(force)
        weight = format_mass(rough / STANDARD_GRAVITY, self.system, step=0.1 if rough < 100.0 else 1.0)
        return f"{format_force(rough, self.system)} (the weight of {weight})"

    def _length(self, value: float) -> str:
        return format_length(value, self.system)

    def _fine(self, value: float) -> str:
        """A tenth of a millimetre, or a thousandth of an inch where a tape shows nothing."""
        if self.system == UnitSystem.US and value < SMALL:
            return format_cut_length(value, self.system)
        return format_length(value, self.system, digits=1)


def two_digits(value: float) -> float:
    """Round to two digits.

    Parameters
    ----------
    value : float
        Above 0.

    Returns
    -------
    float

    Examples
    --------
    >>> two_digits(5677.0), two_digits(74.3)
    (5700.0, 74.0)
    """
    step = 10.0 ** (floor(log10(value)) - 1)
    return round(value / step) * step
