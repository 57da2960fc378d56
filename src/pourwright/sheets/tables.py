"""The plan's tables as CSV, in the maker's units."""

import csv
import io
from collections.abc import Callable, Iterable, Sequence
from types import MappingProxyType

from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.plan import Batch, PlanDocument
from pourwright.sheets.wording import UPRIGHT, Wording

Cell = str | float | int | None
Row = Sequence[Cell]
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")
_UNIT_NAMES = {
    "metric": {
        Dimension.LENGTH: "mm", Dimension.MASS: "kg", Dimension.VOLUME: "l",
        Dimension.PRESSURE: "kPa", Dimension.FORCE: "N",
    },
    "us": {
        Dimension.LENGTH: "in", Dimension.MASS: "lb", Dimension.VOLUME: "gallon",
        Dimension.PRESSURE: "psi", Dimension.FORCE: "lbf",
    },
}  # fmt: skip
_DIGITS = {
    Dimension.LENGTH: {"mm": 1, "in": 3},
    Dimension.MASS: {"kg": 3, "lb": 3},
    Dimension.VOLUME: {"l": 3, "gallon": 3},
    Dimension.PRESSURE: {"kPa": 2, "psi": 2},
    Dimension.FORCE: {"N": 0, "lbf": 1},
}


class Columns:
    """Numbers of one job as its maker's units, with the unit's name for the header."""

    def __init__(self, plan: PlanDocument) -> None:
        self.words = Wording(plan.job)
        self._names = _UNIT_NAMES[plan.job.units]

    @property
    def length_unit(self) -> str:
        """Unit of lengths."""
        return self._names[Dimension.LENGTH]

    @property
    def mass_unit(self) -> str:
        """Unit of masses."""
        return self._names[Dimension.MASS]

    @property
    def volume_unit(self) -> str:
        """Unit of volumes."""
        return self._names[Dimension.VOLUME]

    def length(self, metres: float | None) -> Cell:
        """A length [m] as a bare number."""
        return self._number(metres, Dimension.LENGTH)

    def mass(self, kilograms: float | None) -> Cell:
        """A mass [kg] as a bare number."""
        return self._number(kilograms, Dimension.MASS)

    def volume(self, cubic_metres: float | None) -> Cell:
        """A volume [m3] as a bare number."""
        return self._number(cubic_metres, Dimension.VOLUME)

    def unit(self, dimension: Dimension) -> str:
        """Name of the unit of a dimension."""
        return self._names[dimension]

    def pressure(self, pascal: float) -> Cell:
        """A pressure [Pa] as a bare number."""
        return self._number(pascal, Dimension.PRESSURE)

    def force(self, newton: float) -> Cell:
        """A force [N] as a bare number."""
        return self._number(newton, Dimension.FORCE)

    def area(self, square_metres: float) -> Cell:
        """An area [m2] as a bare number, in m2 or ft2."""
        foot = float(UNITS[Dimension.LENGTH]["ft"].factor)
        return f"{square_metres / foot**2:.1f}" if self.length_unit == "in" else f"{square_metres:g}"

    def degrees(self, celsius: float) -> Cell:
        """A temperature [degC] as a bare number."""
        return f"{self.words.degrees(celsius):.1f}"

    def _number(self, value: float | None, dimension: Dimension) -> Cell:
        if value is None:
            return None
        name = self._names[dimension]
        return f"{value / float(UNITS[dimension][name].factor):.{_DIGITS[dimension][name]}f}"


def _bands(plan: PlanDocument, c: Columns) -> Iterable[Row]:
    length, mass = c.length_unit, c.mass_unit
    yield [
        "band",
        f"from, as poured [{length}]",
        f"to, as poured [{length}]",
        f"from, as it stands [{length}]",
        f"to, as it stands [{length}]",
        "grade",
        "colour",
        "voids [%]",
        f"glass [{mass}]",
        f"resin [{mass}]",
    ]
    for band in plan.fill.bands:
        stands = _upright(plan, band.from_standing_m, band.to_standing_m)
        heights = [band.from_m, band.to_m, *stands]
        voids = f"{100.0 * band.void_fraction:.1f}"
        masses = [c.mass(band.glass_kg), c.mass(band.resin_kg)]
        yield [band.name, *map(c.length, heights), band.grade, band.colour, voids, *masses]


def _pours(plan: PlanDocument, c: Columns) -> Iterable[Row]:
    length, mass, degrees = c.length_unit, c.mass_unit, c.words.degree_sign
    yield [
        "pour",
        "start",
        f"from, as poured [{length}]",
        f"to, as poured [{length}]",
        f"from, as it stands [{length}]",
        f"to, as it stands [{length}]",
        f"dip from the rim [{length}]",
        f"resin [{mass}]",
        f"part A [{mass}]",
        f"part B [{mass}]",
        f"peak [{degrees}]",
        f"limit [{degrees}]",
        "peak after [h]",
        "gel after [h]",
        "next from",
        "next until",
    ]
    for pour in plan.pours:
        stands = _upright(plan, pour.from_standing_m, pour.to_standing_m)
        heights = [pour.from_m, pour.to_m, *stands, pour.dip_to_m]
        masses = [pour.resin_kg, pour.part_a_kg, pour.part_b_kg]
        heat = [c.degrees(pour.peak_temperature_degC), c.degrees(pour.peak_limit_degC)]
        times = [f"{pour.peak_after_h:.1f}", f"{pour.gel_after_h:.1f}", pour.next_from, pour.next_until]
        yield [pour.number, pour.start, *map(c.length, heights), *map(c.mass, masses), *heat, *times]


def _upright(plan: PlanDocument, *heights: float) -> list[float | None]:
    """Heights as the piece stands; a level of a piece poured on its side has none."""
    return [height if plan.piece.up in UPRIGHT else None for height in heights]


def _standing(plan: PlanDocument, up: float) -> float | None:
    return _upright(plan, plan.piece.height_m - up if plan.piece.flipped else up)[0]


def _batches(plan: PlanDocument, c: Columns) -> Iterable[Row]:
    mass, length = c.mass_unit, c.length_unit
    yield [
        "for",
        "batch",
        f"mass [{mass}]",
        f"part A [{mass}]",
        f"part B [{mass}]",
        "ratio error [%]",
        f"level after, as poured [{length}]",
        f"level after, as it stands [{length}]",
    ]
    groups: list[tuple[str, list[Batch]]] = [("rubber", plan.mold.rubber.batches)]
    groups += [(f"pour {pour.number}", pour.batches) for pour in plan.pours]
    for name, batches in groups:
        for b in batches:
            masses = map(c.mass, [b.mass_kg, b.part_a_kg, b.part_b_kg])
            error, level = f"{100.0 * b.ratio_error:.3f}", b.level_after_m
            # the rubber stands in its box, not in the piece
            stands = None if level is None or name == "rubber" else _standing(plan, level)
            yield [name, b.number, *masses, error, c.length(level), c.length(stands)]


def _dip_stick(plan: PlanDocument, c: Columns) -> Iterable[Row]:
    length, volume = c.length_unit, c.volume_unit
    yield [
        f"dip from the rim [{length}]",
        f"height, as poured [{length}]",
        f"height, as it stands [{length}]",
        f"mold holds [{volume}]",
        f"liquid with the glass in [{volume}]",
    ]
    for row in plan.dip_stick:
        stands = _upright(plan, row.height_standing_m)
        heights = map(c.length, [row.dip_m, row.height_m, *stands])
        yield [*heights, c.volume(row.cavity_m3), c.volume(row.liquid_m3)]


def _shopping(plan: PlanDocument, c: Columns) -> Iterable[Row]:
    yield ["item", "quantity", "unit", f"price [{plan.job.currency}]", "note"]
    for need in plan.shopping:
        quantity, unit = bought(need.quantity, need.unit, c)
        yield [need.item, quantity, unit, None if need.price is None else f"{need.price:.2f}", need.note]


def bought(quantity: float, unit: str, c: Columns) -> tuple[Cell, str]:
    """A quantity of the shopping list in the maker's units where its unit is SI.

    Parameters
    ----------
    quantity : float
        How much.
    unit : str
        ``kg``, ``m``, ``m2`` and ``m3`` are turned into the maker's unit; anything else stays.
    c : Columns
        The job's units.

    Returns
    -------
    tuple
        Number and unit.
    """
    known: dict[str, tuple[Callable[[float], Cell], str]] = {
        "kg": (c.mass, c.mass_unit),
        "m": (c.length, c.length_unit),
        "m3": (c.volume, c.volume_unit),
        "m2": (c.area, "ft2" if c.length_unit == "in" else "m2"),
    }
    if unit in known:
        convert, name = known[unit]
        return convert(quantity), name
    return f"{quantity:g}", unit


def _calendar(plan: PlanDocument, c: Columns) -> Iterable[Row]:
    yield ["start", "end", "kind", "what", "detail"]
    for event in plan.calendar:
        yield [
            c.words.local(event.start).isoformat(),
            c.words.local(event.end).isoformat(),
            event.kind,
            event.title,
            event.detail,
        ]


def _panels(plan: PlanDocument, c: Columns) -> Iterable[Row]:
    length = c.length_unit
    yield [
        "panel",
        "count",
        f"length [{length}]",
        f"width [{length}]",
        f"thickness [{length}]",
        f"pressure at its foot [{c.unit(Dimension.PRESSURE)}]",
        f"thrust [{c.unit(Dimension.FORCE)}]",
    ]
    for panel in plan.mold.box.panels:
        sizes = map(c.length, [panel.length_m, panel.width_m, panel.thickness_m])
        loads = c.pressure(panel.pressure_at_bottom_Pa), c.force(panel.thrust_N)
        yield [panel.name, panel.count, *sizes, *loads]


TABLES: MappingProxyType[str, Callable[[PlanDocument, Columns], Iterable[Row]]] = MappingProxyType(
    {
        "bands": _bands,
        "batches": _batches,
        "calendar": _calendar,
        "dip-stick": _dip_stick,
        "panels": _panels,
        "pours": _pours,
        "shopping": _shopping,
    }
)


def table_text(plan: PlanDocument, name: str) -> str:
    """Write one table of the plan as CSV (RFC 4180).

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    name : str
        One of `TABLES`.

    Returns
    -------
    str
        One header line with units, then one line per row; lines end in CR LF.
    """
    return rows_text(TABLES[name](plan, Columns(plan)))


def rows_text(rows: Iterable[Row]) -> str:
    """Write rows as CSV (RFC 4180); what a spreadsheet would run as a formula is quoted.

    Parameters
    ----------
    rows : iterable of rows
        The header first.

    Returns
    -------
    str
        Lines end in CR LF.
    """
    # the csv module writes CR LF itself
    page = io.StringIO(newline="")
    writer = csv.writer(page)
    for row in rows:
        writer.writerow([_safe(cell) for cell in row])
    return page.getvalue()


def _safe(cell: Cell) -> Cell:
    # a spreadsheet runs what starts like a formula; numbers of ours are not such words
    if not isinstance(cell, str) or _is_number(cell):
        return cell
    risky = cell.startswith(FORMULA_STARTS) or cell.lstrip().startswith(FORMULA_STARTS)
    return f"'{cell}" if risky else cell


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return text.strip() == text
