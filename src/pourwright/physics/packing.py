"""How much room is left between grains, from a bucket of them on the scale."""

from pourwright.foundation.checks import Range, checked
from pourwright.physics.arrays import Real


@checked(
    bulk_density=Range(0.0, 20000.0, "kg/m3"),
    relative_density=Range(0.1, 20.0),
    water_density=Range(900.0, 1100.0, "kg/m3"),
)
def void_content(bulk_density: Real, relative_density: float, *, water_density: float = 998.0) -> Real:
    """Share of a bed of grains that is not grain.

    Parameters
    ----------
    bulk_density : mass of dry grains per volume of the bed [kg/m3], float or array
    relative_density : density of the grains over that of water [-]
    water_density : density of water that the relative density refers to [kg/m3]

    Returns
    -------
    void fraction [-]; negative where the weighing cannot be right

    Raises
    ------
    RangeError : a density out of range

    Notes
    -----
    voids = (S W - M) / (S W). The bed as it was filled: poured, rodded or jigged.

    References
    ----------
    ASTM C29/C29M [astm-c29]; formula from memory.

    Examples
    --------
    >>> print(f"{100 * void_content(1350.0, 2.5):.4f} %")
    45.8918 %
    """
    return 1 - bulk_density / (relative_density * water_density)
