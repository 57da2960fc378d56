"""What documents say is used up and worked: a plan of pours, or fill and mold where none are planned."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from pourwright.app.defaults import DEFAULTS as SHOP
from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.steps import HOUR
from pourwright.costing.defaults import COSTING
from pourwright.costing.lines import Stage
from pourwright.foundation.sources import Sourced
from pourwright.jobs.cost_line import Trace
from pourwright.jobs.mold_ways import WayStep
from pourwright.materials import Materials

USUAL: Mapping[str, Sourced] = {f"shop {key}": number for key, number in SHOP.items()} | dict(COSTING)
"""Everything that is common practice here, by the path of its trace."""
Named = tuple[str, float]


@dataclass(frozen=True)
class Thing:
    """Something that is used up.

    Parameters
    ----------
    key, stage, words, unit : str
        As the cost has it.
    of : str
        As a price list calls it.
    made_of : tuple of Trace
        Numbers of the amount.
    amount : Decimal or None
        Their sum, where left out.
    which : mapping
        Its id, grade or colour.
    density : tuple or None
        Path and value [kg/m3], where it may be priced by volume.
    sheet : tuple or None
        Path and area [m2], where it may be priced by the sheet.
    """

    key: str
    stage: Stage
    words: str
    unit: str
    of: str
    made_of: tuple[Trace, ...]
    amount: Decimal | None = None
    which: Mapping[str, str | None] = field(default_factory=dict)
    density: Named | None = None
    sheet: Named | None = None


@dataclass(frozen=True)
class Taken:
    """All that one mold and one casting take.

    Parameters
    ----------
    things : tuple of Thing
        Used up.
    work : mapping
        Hours by step.
    face, weight : Trace
        Surface of the piece [m2] and its dry mass [kg].
    """

    things: tuple[Thing, ...]
    work: Mapping[str, tuple[Trace, ...]]
    face: Trace
    weight: Trace


def summed(traces: Iterable[Trace]) -> Decimal:
    """Their sum, exact as they are written."""
    return sum((exact(one.value) for one in traces), Decimal(0))


def usual_trace(name: str, unit: str) -> Trace:
    """A time of common practice, in hours."""
    usual = USUAL[name]
    value = round(usual.value / HOUR, 6)
    return Trace(where="practice", path=name, words=usual.conditions, value=value, unit=unit)


def mold_hours(steps: tuple[str, list[WayStep]], without: Iterable[str] = ()) -> Iterator[Trace]:
    """Hours of making or opening a mold, by their place in mold.json."""
    path, listed = steps
    for at, step in enumerate(listed):
        if step.name not in without and step.work_h > 0:
            work = round(step.work_h, 4)
            yield Trace(where="mold", path=f"{path}[{at}].work_h", words=step.name, value=work, unit="h")


def density_of(materials: Materials, kind: str, id_: str) -> Named | None:
    """Density of a material, with where it stands; None where nobody knows it."""
    record = getattr(materials, kind).get(id_)
    return None if record is None else (f"{kind}.{id_}.density", float(record.density.value))


def sheet_of(materials: Materials, id_: str) -> Named | None:
    """Area of a sheet of board, with where it stands."""
    record = materials.board.get(id_)
    if record is None:
        return None
    return f"board.{id_}.sheet_length, sheet_width", record.sheet_length.value * record.sheet_width.value
