"""What is typed at the terminal about the mold, the glass and the finished piece, as entries."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from pourwright.app.booking.entering import Said
from pourwright.app.booking.heights import Reading, read_level
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_sizes import Direction
from pourwright.physics.water import water_density
from pourwright.records.moments import now

BESIDES: Mapping[str, str] = MappingProxyType(
    {
        "water": 'how much is in the mold by now and how high it stands, as: water "3 L" "85 mm"; or --dip',
        "crushed": 'how much glass was crushed, as: crushed "12 kg"',
        "sieved": 'the grade and how much of it came out, as: sieved coarse "4.2 kg"',
        "rubber": 'A or B of the rubber, and how much, as: rubber A "2.1 kg"',
        "mold-made": "nothing more: rubber and boards leave the stock, the mold comes onto it",
        "size": 'a direction of the size ledger and what it measures, as: size z "448.5 mm"',
    }
)
"""Each word with what stands after it."""
COOL = 293.15
"""Water in the shop [K]."""


def besides(
    plan: PlanDocument,
    what: str,
    rest: Sequence[str],
    readings: Mapping[Reading, str | None],
    grades: Callable[[], Sequence[str]],
) -> tuple[Said, ...]:
    """Read what was typed after one of `BESIDES`.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    what : str
        The word.
    rest : sequence of str
        What stands after it.
    readings : mapping
        Other readings of a level, by how they were taken.
    grades : callable
        Names of the grades there are.

    Returns
    -------
    tuple of Said
        Of now; water in the mold and its level are two entries of the same moment.

    Raises
    ------
    UserError
        For what cannot be read.
    """
    if what == "water":
        return _water(plan, rest, readings)
    if what == "crushed":
        return (Said(kind="crushed", at=now(), value=_mass(what, " ".join(rest))),)
    if what == "mold-made":
        return (Said(kind="mold_made", at=now(), text=" ".join(rest)),)
    if len(rest) < 2:
        raise _expected(what)
    about, amount = rest[0], " ".join(rest[1:])
    if what == "rubber":
        _refuse_unknown(what, about.upper(), "AB")
        return (Said(kind=f"rubber_{about.lower()}", at=now(), value=_mass(what, amount)),)
    if what == "sieved":
        _refuse_unknown(what, about, grades())
        return (Said(kind="sieved", at=now(), value=_mass(what, amount), text=about),)
    known = [] if plan.sizes is None else [name_of(each) for each in plan.sizes.directions]
    _refuse_unknown(what, about, known)
    length = parse_quantity(amount, Dimension.LENGTH, where=what).si
    return (Said(kind="size", at=now(), value=length, text=about),)


def _water(
    plan: PlanDocument, rest: Sequence[str], readings: Mapping[Reading, str | None]
) -> tuple[Said, ...]:
    given: list[tuple[Reading, str]] = [(how, text) for how, text in readings.items() if text is not None]
    if len(rest) == 2:
        given.append(("poured", rest[1]))
    if len(given) != 1 or len(rest) not in {1, 2}:
        raise _expected("water")
    at, ((how, text),) = now(), given
    mass, full = water_mass(rest[0]), plan.dip_stick[-1].cavity_m3 if plan.dip_stick else 0.0
    if full and mass > 1.2 * full * float(water_density(COOL)):
        raise UserError(
            f"'{rest[0]}' is more water than the mold holds",
            where="water",
            allowed=f"up to {1000.0 * full:.3g} L by its drawing",
            todo="enter all that is in the mold by now, not what was caught below it",
        )
    level = read_level(plan, text, how)
    return Said(kind="water", at=at, value=mass), Said(kind="water_level", at=at, value=level)


def name_of(direction: Direction) -> str:
    """Name a direction, as an entry does: the axis of the shape's file, else as poured."""
    return direction.axis or direction.poured


def water_mass(text: str) -> float:
    """Read water by its volume or by its mass [kg]."""
    try:
        return parse_quantity(text, Dimension.MASS, where="water").si
    except UserError:
        litres = parse_quantity(text, Dimension.VOLUME, where="water")
        return litres.si * float(water_density(COOL))


def _mass(what: str, text: str) -> float:
    if not text:
        raise _expected(what)
    return parse_quantity(text, Dimension.MASS, where=what).si


def _refuse_unknown(what: str, name: str, known: Sequence[str]) -> None:
    if name not in known:
        allowed = ", ".join(known) or "none: the plan has no size ledger"
        raise UserError(f"'{name}' is not known", where=what, allowed=allowed, todo="name one of these")


def _expected(what: str) -> UserError:
    return UserError(
        f"'{what}' needs something else after it", where="log", allowed=BESIDES[what], todo="type it so"
    )
