"""What is taken for granted about hollow pieces and their cores."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

HOLLOW: Mapping[str, Sourced] = MappingProxyType(
    {
        "thin_wall": Sourced(
            0.015, "m", 0.010, 0.020, Kind.PRACTICE, "common-practice", "least wall of a cast vessel"
        ),
        "usual_wall": Sourced(
            0.020, "m", 0.015, 0.030, Kind.PRACTICE, "common-practice", "wall that bears knocks"
        ),
        "thick_wall": Sourced(
            0.030, "m", 0.020, 0.050, Kind.PRACTICE, "common-practice", "wall that bears a person"
        ),
        "grains_in_wall": Sourced(
            3.0, "", 3.0, 5.0, Kind.PRACTICE, "common-practice",
            "largest grains side by side in the narrowest wall: fewer of them jam",
        ),
    }
)  # fmt: skip
"""Values in SI."""
WALLS = ("thin_wall", "usual_wall", "thick_wall")
"""Walls that are offered where the grains pass them."""
STEP = 0.010
"""Walls beyond those are offered so far apart [m]."""
INSERTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "edge_in_diameters": Sourced(
            3.0, "", 2.5, 3.0, Kind.PRACTICE, "common-practice",
            "from the axis of a loaded socket to any face beside it, in its diameters",
        ),
        "behind_in_diameters": Sourced(
            1.0, "", 0.5, 2.0, Kind.PRACTICE, "common-practice",
            "casting behind a socket's end, in its diameters",
        ),
        "least_cover": Sourced(
            0.006, "m", 0.005, 0.010, Kind.PRACTICE, "common-practice", "casting over what is set in"
        ),
        "grains_beside": Sourced(
            1.5, "", 1.0, 3.0, Kind.PRACTICE, "common-practice", "largest grains between an insert and a face"
        ),
        "socket_density": Sourced(
            5000.0, "kg/m3", 3000.0, 8000.0, Kind.MEMORY, "families-from-memory",
            "steel or brass, its thread plugged and hollow",
        ),
        "tube_density": Sourced(
            400.0, "kg/m3", 200.0, 1000.0, Kind.MEMORY, "families-from-memory",
            "plastic tube, plugged, air in it",
        ),
        "light_density": Sourced(
            1150.0, "kg/m3", 500.0, 1300.0, Kind.MEMORY, "families-from-memory",
            "plug of silicone that leaves the recess; one of wood is lighter",
        ),
        "light_air": Sourced(
            303.15, "K", 298.15, 308.15, Kind.MEMORY, "families-from-memory", "a warm room around a light"
        ),
    }
)  # fmt: skip
"""Values about inserts, in SI."""


def walls_for(least: float) -> list[float]:
    """List the walls that are offered.

    Parameters
    ----------
    least : float
        Narrowest that the grains pass [m].

    Returns
    -------
    list of float
        Three, thinnest first [m].

    Examples
    --------
    >>> walls_for(0.0), walls_for(0.0375)
    ([0.015, 0.02, 0.03], [0.04, 0.05, 0.06])
    """
    usual = [HOLLOW[name].value for name in WALLS if HOLLOW[name].value >= least - 1e-9]
    start = max(usual[-1] if usual else 0.0, ceil(least / (STEP / 2) - 1e-9) * STEP / 2 - STEP)
    return (usual + [round(start + STEP * more, 6) for more in (1, 2, 3)])[:3]
