"""Bounds of single keys: wide enough for any workshop, narrow enough to catch a slip of the unit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from types import MappingProxyType

from pourwright.foundation.notation import (
    System,
    format_cut_length,
    format_density,
    format_duration,
    format_length,
    format_mass,
    format_temperature,
    format_volume,
    parse_quantity,
)
from pourwright.foundation.quantities import CURRENCIES, Dimension, Quantity
from pourwright.jobs.errors import Finding
from pourwright.jobs.job import Job
from pourwright.jobs.keypaths import KeyPath

Found = tuple[KeyPath, Finding]

# common practice, no source: what a small shop could own, pour or weigh, with room to spare
BOUNDS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "casting.start_temperature": ("0 degC", "60 degC"),
        "fill.neat_cover": ("0 mm", "300 mm"),
        "fill.overfill": ("0 mm", "50 mm"),
        "fill.test_cube": ("20 mm", "300 mm"),
        "fill.film": ("0 mm", "2 mm"),
        "mold.wall": ("3 mm", "150 mm"),
        "mold.base": ("3 mm", "150 mm"),
        "mold.cover": ("0 mm", "150 mm"),
        "mold.freeboard": ("0 mm", "300 mm"),
        "mold.board_thickness": ("3 mm", "100 mm"),
        "mold.bulge_limit": ("0.1 mm", "20 mm"),
        "mold.least_block": ("6 mm", "500 mm"),
        "mold.sawing_time": ("0 min", "10 h"),
        "saw.kerf": ("0 mm", "10 mm"),
        "saw.trim": ("0 mm", "100 mm"),
        "saw.oversize": ("0 mm", "50 mm"),
        "hollow.wall": ("3 mm", "300 mm"),
        "master.density": ("10 kg/m3", "9000 kg/m3"),
        "master.mass": ("1 g", "1000 kg"),
        "shop.temperature": ("-30 degC", "45 degC"),
        "shop.day_temperature": ("-30 degC", "45 degC"),
        "shop.night_temperature": ("-30 degC", "45 degC"),
        "shop.pail": ("100 ml", "200 l"),
        "shop.vacuum_pot": ("500 ml", "200 l"),
        "shop.scale_capacity": ("100 g", "1000 kg"),
        "shop.scale_step": ("0.01 g", "100 g"),
        "limits.resin_peak": ("30 degC", "250 degC"),
        "limits.rubber_peak": ("30 degC", "300 degC"),
        "bottles.mass": ("20 g", "5 kg"),
        "bottles.crushed": ("10 g", "1000 kg"),
        "bottles.pan": ("0 g", "1000 kg"),
        "bottles.label_time": ("0 min", "1 h"),
        "bottles.crushing_time": ("0 min", "2 h"),
        "bottles.sieving_time": ("0 min", "2 h"),
        "bottles.washing_time": ("0 min", "2 h"),
        "bottles.drying_time": ("0 min", "2 h"),
        "bottles.dries_in": ("10 min", "8 week"),
        "sizes.gels_at": ("0 degC", "150 degC"),
        "sizes.rubber_cures_at": ("0 degC", "120 degC"),
    }
)
"""Least and most of each key, as a maker would write them."""

LEAST_GAP, MOST_GAP = 0.01e-3, 5e-3
LEAK: Mapping[Dimension, tuple[str, str]] = MappingProxyType(
    {Dimension.MASS: ("1 g", "50 kg"), Dimension.VOLUME: ("1 ml", "50 l")}
)
"""Least and most that may leak, by how it is written."""
SHARES: Mapping[str, float] = MappingProxyType({"fill.bucket_loss": 0.5, "fill.allowance": 1.0})
PRICES = ("resin", "rubber", "glass", "mineral", "board", "hour")
FIRST_YEAR, LAST_YEAR = 2000, 2199
READINGS_PER_SCALE = 50

_FORMATS: Mapping[Dimension, Callable[[float, System], str]] = MappingProxyType(
    {
        Dimension.LENGTH: format_length,
        Dimension.MASS: format_mass,
        Dimension.VOLUME: format_volume,
        Dimension.TEMPERATURE: format_temperature,
        Dimension.DENSITY: format_density,
        Dimension.TIME: lambda seconds, _: format_duration(seconds),
    }
)


def out_of_bounds(job: Job) -> Iterator[Found]:
    """Find values that no workshop has.

    Parameters
    ----------
    job : Job
        Already valid key by key.

    Yields
    ------
    tuple
        Key path; what is wrong, what is allowed, what to do.
    """
    yield from _quantities(job)
    yield from _gap(job)
    yield from _leak(job)
    yield from _shares(job)
    yield from _prices(job)
    yield from _scale(job)
    yield from _start(job.start)


def _quantities(job: Job) -> Iterator[Found]:
    for place, ends in BOUNDS.items():
        table, name = place.split(".")
        yield from _quantity(job, (table, name), getattr(getattr(job, table), name, None), ends)


def _quantity(job: Job, place: KeyPath, value: Quantity | None, ends: tuple[str, str]) -> Iterator[Found]:
    if value is None:
        return
    low, high = (parse_quantity(end, value.dimension).si for end in ends)
    if not low <= value.si <= high:
        shown = _FORMATS[value.dimension]
        allowed = f"{shown(low, job.units)} to {shown(high, job.units)}"
        yield place, (f"{value.text!r} is {_side(value.si, low)}", allowed, "mend the value")


def _gap(job: Job) -> Iterator[Found]:
    gap = job.mold.seam_gap
    if gap is not None and not LEAST_GAP <= gap.si <= MOST_GAP:
        low, high = (format_cut_length(end, job.units) for end in (LEAST_GAP, MOST_GAP))
        found = f"{gap.text!r} is {_side(gap.si, LEAST_GAP)}"
        yield ("mold", "seam_gap"), (found, f"{low} to {high}", "mend the value")


def _leak(job: Job) -> Iterator[Found]:
    leak = job.limits.leak
    if leak is not None:
        yield from _quantity(job, ("limits", "leak"), leak, LEAK[leak.dimension])


def _side(value: float, low: float) -> str:
    if value >= low:
        return "too much"
    return "nothing to work with" if value <= 0 else "too little"


def _shares(job: Job) -> Iterator[Found]:
    for place, most in SHARES.items():
        table, name = place.split(".")
        value: float | None = getattr(getattr(job, table), name)
        if value is not None and value > most:
            yield (table, name), (f"a share of {value:g} is too much", f"0 to {most:g}", "write 0.05 for 5 %")
    yields = job.bottles.crush_yield
    for grade, share in yields.items():
        if share <= 0:
            todo = "leave the grade out, or weigh what a crushed bottle gives of it"
            yield ("bottles", "yield", grade), (f"a yield of {share:g} gives no glass", "more than 0", todo)
    if sum(yields.values()) > 1 + 1e-9:
        total = f"the yields of all grades add up to {sum(yields.values()):g}"
        yield ("bottles", "yield"), (total, "at most 1", "each is its grade's share of the same bottle")


def _prices(job: Job) -> Iterator[Found]:
    if job.prices is None:
        return
    if job.prices.currency not in CURRENCIES:
        todo = 'write for example currency = "EUR"'
        came = f"no currency {job.prices.currency!r} is known"
        yield ("prices", "currency"), (came, ", ".join(sorted(CURRENCIES)), todo)
    for name in PRICES:
        price: Quantity | None = getattr(job.prices, name)
        if price is not None and price.si < 0:
            yield ("prices", name), (f"{price.text!r} is below zero", "0 or more", "mend the value")


def _scale(job: Job) -> Iterator[Found]:
    capacity, step = job.shop.scale_capacity, job.shop.scale_step
    if capacity is not None and step is not None and step.si * READINGS_PER_SCALE > capacity.si:
        came = f"a scale that carries {capacity.text} cannot show steps of {step.text}"
        todo = "read both on the scale's plate"
        yield ("shop", "scale_step"), (came, f"at most 1/{READINGS_PER_SCALE} of scale_capacity", todo)


def _start(start: datetime | None) -> Iterator[Found]:
    if start is not None and not FIRST_YEAR <= start.year <= LAST_YEAR:
        came = f"a start in the year {start.year}"
        yield ("start",), (came, f"{FIRST_YEAR} to {LAST_YEAR}", 'write "2026-12-01 09:00"')
