"""How far things are off in a month where nobody said it, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_HOUR = 3600.0


def _over(low: float, high: float, why: str) -> Sourced:
    return Sourced(1.0, "", low, high, Kind.PRACTICE, _PRACTICE, why)


RISK: Mapping[str, Sourced] = MappingProxyType(
    {
        "demand": _over(0.5, 1.5, "a slow month brings half of the usual orders, a good one half more"),
        "hours": _over(0.9, 1.4, "work is thought shorter than it is far more often than longer"),
        "resin": _over(0.95, 1.15, "resin follows the price of its feedstock, mostly upwards"),
        "rubber": _over(0.95, 1.15, "rubber follows the price of its feedstock, mostly upwards"),
        "bought": _over(0.95, 1.10, "small things are bought where they are there"),
        "used": _over(0.95, 1.10, "voids of the glass, what stays in the pail, a splash more to be sure"),
        "paid": _over(1.0, 1.0, "you set your price"),
        "leaks": Sourced(
            0.02, "", 0.0, 0.06, Kind.PRACTICE, _PRACTICE,
            "castings that run out through a seam, the box water-tested before",
        ),
        "leak_resin": Sourced(
            0.30, "", 0.0, 1.0, Kind.PRACTICE, _PRACTICE, "poured after it before somebody gives it up"
        ),
        "leak_work": Sourced(
            2 * _HOUR, "s", 1 * _HOUR, 6 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "scraped off floor and box, the mold cleaned",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are its ends."""
