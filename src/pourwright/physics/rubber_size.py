"""How a rubber mold changes its size: as it cures, and where it is warmed in its box."""

from dataclasses import dataclass

from pourwright.foundation.checks import Range, checked

EXPANSION = Range(0.0, 0.01, "1/K")
KELVIN = Range(-300.0, 300.0, "K")
STRAIN = Range(-0.5, 0.5)
SHARE = Range(0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Growth:
    """What warm rubber does to its cavity.

    Parameters
    ----------
    across : float
        Growth of the cavity by length, across [-].
    up : float
        The same upward [-].
    inward : float
        How far each wall comes in, as a share of its own thickness [-].
    """

    across: float
    up: float
    inward: float


@checked(shrinkage=Range(-0.1, 0.5), expansion=EXPANSION, cooled=KELVIN)
def cold_shrinkage(shrinkage: float, expansion: float, cooled: float) -> float:
    """Shrinkage by length of a mold, cured and cooled down to the shop.

    Parameters
    ----------
    shrinkage : by length as it cures [-], below 0 where it grows
    expansion : thermal expansion by length [1/K]
    cooled : how much warmer it cured than it is now [K]

    Returns
    -------
    shrinkage by length [-]

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    1 - (1 - s)(1 - alpha dT): the same in every direction, held nowhere.

    References
    ----------
    Geometry of a body that shrinks alike in every direction [isotropic-shrinkage].

    Examples
    --------
    A tenth of a per cent as it cures, cured 20 K warmer than the shop:

    >>> print(f"{cold_shrinkage(0.001, 280e-6, 20.0) * 100:.3f} %")
    0.659 %
    """
    return 1.0 - (1.0 - shrinkage) * (1.0 - expansion * cooled)


@checked(growth=STRAIN, gap=Range(0.0, 0.5), held=SHARE)
def boxed_growth(growth: float, gap: float, held: float) -> Growth:
    """Growth of a cavity whose rubber is warmed in a stiff box.

    Parameters
    ----------
    growth : by length, of the rubber if it were free [-]; below 0 where it is colder
    gap : by length, until the rubber fills its box [-]: what it shrank
    held : how far the panels keep it from sliding up [-], 0 slides, 1 sticks

    Returns
    -------
    Growth : of the cavity across and up, and of its walls inward

    Raises
    ------
    RangeError : an argument out of range

    Notes
    -----
    Free until the gap is closed, e' = min(e, gap). Rubber keeps its volume when it is squeezed (Poisson's
    ratio 1/2), so a layer that is held at its back and along its length by the rest e - e' of its growth
    thickens by 3 (e - e') if it cannot rise, and by half of that where it rises as much: 1.5 (1 + h) inward
    and 1.5 (1 - h) upward. The cavity is open or liquid there, and gives no resistance.

    References
    ----------
    Timoshenko & Goodier, Theory of Elasticity, thermal stress [timoshenko-goodier-1951]; Hooke's law.

    Examples
    --------
    Rubber that would grow by 0.46 % and shrank by 0.1 %, half held by its panels; a wall of 20 mm:

    >>> found = boxed_growth(0.0046, 0.001, 0.5)
    >>> print(f"{found.across:.2%} across, {found.up:.2%} up, {found.inward * 20:.3f} mm in")
    0.10% across, 0.37% up, 0.162 mm in
    """
    free = min(growth, gap)
    rest = growth - free
    return Growth(free, free + 1.5 * (1.0 - held) * rest, 1.5 * (1.0 + held) * rest)
