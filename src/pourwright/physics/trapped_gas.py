"""A bubble when the pressure over it falls."""

from __future__ import annotations

from pourwright.foundation.checks import Range, checked

PRESSURE = Range(0.0, unit="Pa", open_low=True)


@checked(before=PRESSURE, after=PRESSURE)
def grows_under_vacuum(before: float, after: float) -> float:
    """How many times its volume a bubble takes when the pressure falls.

    Parameters
    ----------
    before, after : pressure of the gas [Pa]

    Returns
    -------
    volume after over volume before [-]

    Raises
    ------
    RangeError : a pressure not above 0

    Notes
    -----
    p V is steady: slow enough that the gas stays as warm as the liquid, and none dissolves or comes out.

    References
    ----------
    Boyle's law, textbook [ideal-gas].

    Examples
    --------
    From the open air to 3 kPa:

    >>> print(f"{grows_under_vacuum(101325.0, 3000.0):.3f} times")
    33.775 times
    """
    return before / after
