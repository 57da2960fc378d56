"""Where learning begins: what a number is before the shop has records of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from pourwright.calibration.learning.quantities import QUANTITIES
from pourwright.calibration.learning.record import Family
from pourwright.fill import DEFAULTS as FILL
from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Kind, Sourced
from pourwright.materials import Materials

_PRACTICE = "common-practice"
FAMILIES: Mapping[str, Sourced] = MappingProxyType(
    {
        "scrap_rate": Sourced(0.10, "", 0.03, 0.25, Kind.PRACTICE, _PRACTICE, "pieces that fail"),
        "cavity": Sourced(1.0, "", 0.98, 1.02, Kind.PRACTICE, _PRACTICE, "a rubber mold against its drawing"),
        "cure_rate": Sourced(
            1.0, "", 0.75, 1.33, Kind.PRACTICE, _PRACTICE, "a resin against its family: how fast it cures"
        ),
        "heat_film": Sourced(
            1.0, "", 0.7, 1.4, Kind.PRACTICE, _PRACTICE, "a mold in its corner against one in free still air"
        ),
        "hours": Sourced(1.0, "", 0.6, 1.7, Kind.PRACTICE, _PRACTICE, "hours of a step over the usual ones"),
    }
)  # fmt: skip
"""Of what no record and no default holds."""


def family_of(quantity: str, subject: str, materials: Materials) -> Family:
    """What holds of a quantity and its subject before there are records."""
    if quantity not in QUANTITIES:
        raise UserError(
            f"nothing is learnt of '{quantity}'", allowed=", ".join(QUANTITIES), todo="name one of these"
        )
    if quantity in FAMILIES:
        return _family(FAMILIES[quantity])
    return _family(_RECORDS[quantity](subject, materials))


def _family(number: Sourced) -> Family:
    low = number.value / 1.3 if number.low is None else number.low
    high = number.value * 1.3 if number.high is None else number.high
    return Family(number.value, low, high)


def _grade(name: str) -> Callable[[str, Materials], Sourced]:
    def found(subject: str, materials: Materials) -> Sourced:
        for glass in materials.glass.values():
            for grade in glass.grades:
                if grade.id == subject:
                    return getattr(grade, name)  # type: ignore[no-any-return]
        known = ", ".join(grade.id for glass in materials.glass.values() for grade in glass.grades)
        raise UserError(f"no grade called '{subject}'", allowed=known, todo="name one of these")

    return found


def _shrinkage(subject: str, materials: Materials) -> Sourced:
    if subject not in materials.resin:
        raise UserError(
            f"no resin called '{subject}'",
            allowed=", ".join(sorted(materials.resin)),
            todo="name one of these",
        )
    return materials.resin[subject].cure_shrinkage


_RECORDS: Mapping[str, Callable[[str, Materials], Sourced]] = MappingProxyType(
    {
        "void_fraction": _grade("void_fraction"),
        "crush_yield": _grade("crush_yield"),
        "shrinkage": _shrinkage,
        "bucket_loss": lambda _, __: FILL["bucket_loss"],
        "film": lambda _, __: FILL["film"],
    }
)
