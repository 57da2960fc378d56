"""What does not go into the crusher, and why."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.fill.bottles.defaults import BOTTLES
from pourwright.foundation.notation import format_share


@dataclass(frozen=True)
class Sorted:
    """One thing to look for among the bottles.

    Parameters
    ----------
    what, do, why : str
        As printed.
    """

    what: str
    do: str
    why: str


def sorting_list(expansion: float, density: float) -> tuple[Sorted, ...]:
    """List what is taken off or sorted out before crushing.

    Parameters
    ----------
    expansion : float
        Of the glass, by length [1/K].
    density : float
        Of the glass [kg/m3].

    Returns
    -------
    tuple of Sorted
        In the order of the work.
    """
    cookware = BOTTLES["cookware_expansion"].value / expansion
    heavier = BOTTLES["crystal_density"].value / density - 1.0
    return (
        Sorted(
            "labels",
            "soak a night in warm water and washing soda, then scrape",
            "paper shows and holds water",
        ),
        Sorted(
            "glue", "rub off with the soda, rests with cooking oil, then dish soap", "resin does not grip it"
        ),
        Sorted("caps, neck rings, corks, foil", "take off", "metal and plastic show in the piece"),
        Sorted("rests of drink", "rinse before you crush", "sugar and oil go rancid and keep resin off"),
        Sorted(
            "heat-proof cookware, oven dishes, lamps",
            "sort out",
            f"other glass: it grows {format_share(cookware)} as much with heat, breaks into splinters and "
            "bends light otherwise",
        ),
        Sorted("ceramics, stoneware, china", "sort out", "white and harder than glass"),
        Sorted("mirrors", "sort out", "silver and paint flake off into the resin"),
        Sorted(
            "crystal",
            "sort out, do not crush",
            f"most holds lead: its dust is poison; {format_share(heavier)} heavier: a band weighed with it "
            "ends too low",
        ),
        Sorted(
            "window and car glass",
            "sort out",
            "greenish at the edge; toughened it bursts into cubes, laminated it holds plastic film",
        ),
        Sorted("painted and coated bottles", "sort out", "colour flakes off; some of it holds metals"),
        Sorted(
            "other colours",
            "one colour at a time; crusher, sieves and tubs made clean between",
            "a handful of brown shows in a clear band",
        ),
        Sorted("dust", "rinse each grade on its sieve until the water stays clear", "dust clouds the resin"),
    )
