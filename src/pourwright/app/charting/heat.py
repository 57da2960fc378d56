"""Temperature and cure of the casting through time, with its limits and what is not sure about it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from pourwright.app.charting.chart import Along, Axis, Band, Chart, Limit, Mark, Series, Table
from pourwright.app.charting.heat_places import PlacesSeen
from pourwright.app.charting.scales import day_ticks, hour_ticks, round_ticks
from pourwright.foundation.notation import UnitSystem, format_share
from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.sheets.axes import hours_between
from pourwright.sheets.pages.soft import sanded, wash_first
from pourwright.sheets.wording import Wording

Values = list[float | None]
WARM, CURED = "warm", "cured"
MOST_STEPS = 8
WORDS = (
    "How hot the casting gets and how far it is cured, hour by hour, against its limits; "
    "the shaded times are when the next pour bonds"
)


def heat_chart(plan: PlanDocument, places: PlacesSeen | None = None) -> Chart:
    """Chart temperature and cure against hours.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    places : PlacesSeen, optional
        What the heat file tells of single places.

    Returns
    -------
    Chart
        Along the hours since the first pour.
    """
    words = Wording(plan.job)
    hours = _hours(plan)
    series = [*_warm(plan, hours, places, words), *_cured(plan)]
    return Chart(
        name="heat",
        title="Temperature and cure",
        words=_sentence(plan, words),
        table=_table(plan, hours, series, words),
        x=_along(plan, hours, words),
        axes=[_warm_axis(plan, series, words), CURED_AXIS],
        series=series,
        bands=[*_peaks(plan, words), *_gels(plan, words), *_windows(plan, words)],
        limits=list(_limits(plan, words)),
        marks=list(_marks(plan, words)),
        notes=_notes(places, words),
    )


CURED_AXIS = Axis(
    CURED,
    "% cured",
    "1",
    0.0,
    1.0,
    round_ticks(0.0, 1.0, 4, lambda share: 100.0 * share, lambda cent: cent / 100.0),
)


def _hours(plan: PlanDocument) -> list[float]:
    return [time for pour, count in _shares(plan) for time in pour.history.time_h[:count]]


def _shares(plan: PlanDocument) -> Iterator[tuple[Pour, int]]:
    """Each pour with as many rows of its history as lie before the next one."""
    ends = [pour.history.time_h[0] for pour in plan.pours[1:]] + [np.inf]
    for pour, end in zip(plan.pours, ends, strict=True):
        yield pour, int(np.searchsorted(pour.history.time_h, end, side="right"))


def _joined(plan: PlanDocument, pick: Callable[[Pour], Sequence[float]]) -> Values:
    return [value for pour, count in _shares(plan) for value in pick(pour)[:count]]


def _warm(plan: PlanDocument, hours: list[float], places: PlacesSeen | None, words: Wording) -> list[Series]:
    found = {
        "hottest": ("hottest place", _joined(plan, lambda pour: pour.history.hottest_degC)),
        "coolest": ("coolest place", _joined(plan, lambda pour: pour.history.coolest_degC)),
    }
    if places is not None:
        found |= {
            key: (seen.words, _through(seen.time_h.tolist(), seen.degC.tolist(), hours))
            for key, seen in places.items()
        }
    found["air"] = ("shop air", _through(plan.heat.air_time_h, plan.heat.air_degC, hours))
    return [
        Series(key, name, "degC", WARM, values, [_told(value, words.temperature) for value in values])
        for key, (name, values) in found.items()
    ]


def _through(times: Sequence[float], values: Sequence[float], hours: list[float]) -> Values:
    """A history at other hours: nothing before it begins."""
    read = np.interp(hours, times, values, left=np.nan)
    return [None if np.isnan(value) else round(float(value), 3) for value in read]


def _told(value: float | None, tell: Callable[[float], str]) -> str:
    return "" if value is None else tell(value)


def _cured(plan: PlanDocument) -> Iterator[Series]:
    values = _joined(plan, lambda pour: pour.history.least_cured)
    texts = [_told(value, format_share) for value in values]
    yield Series("least_cured", "least-cured place", "1", CURED, values, texts)


def _along(plan: PlanDocument, hours: list[float], words: Wording) -> Along:
    first = plan.pours[0].start
    end = 0.0 if plan.demold.at is None else _since(plan, plan.demold.at)
    low, high = min(hours[0], 0.0), max(hours[-1], end, 1.0)
    return Along(
        words="shop's clock",
        unit="h",
        values=hours,
        texts=[
            f"{words.moment(words.after(first, hour))}, {words.duration(hour)} after the first pour"
            for hour in hours
        ],
        low=low,
        high=high,
        ticks=day_ticks(words.local(first), low, high, words.system),
        also=hour_ticks(low, high),
        also_words="hours since the first pour",
    )


def _warm_axis(plan: PlanDocument, series: list[Series], words: Wording) -> Axis:
    shown = [value for each in series if each.axis == WARM for value in each.values if value is not None]
    tops = [
        limit
        for pour in plan.pours
        for limit in (pour.peak_limit_degC, pour.peak_temperature_degC_p90)
        if limit
    ]
    ticks = round_ticks(min(shown), max([*shown, *tops]) + 1.0, MOST_STEPS, words.degrees, _plain(words))
    return Axis(WARM, f"temperature [{words.degree_sign}]", "degC", ticks[0].at, ticks[-1].at, ticks)


def _plain(words: Wording) -> Callable[[float], float]:
    """From the maker's degrees to degC."""
    if words.system is UnitSystem.METRIC:
        return lambda degrees: degrees
    return lambda degrees: (degrees - 32.0) / 1.8


def _since(plan: PlanDocument, moment: str) -> float:
    return hours_between(plan.pours[0].start, moment)


def _peaks(plan: PlanDocument, words: Wording) -> Iterator[Band]:
    for pour in plan.pours:
        low, high = pour.peak_temperature_degC_p10, pour.peak_temperature_degC_p90
        if low is None or high is None:
            continue
        told = words.banded_temperature(pour.peak_temperature_degC, low, high)
        told = f"pour {pour.number} gets to {told}; eight of ten lie between"
        at = _since(plan, pour.start) + pour.peak_after_h
        yield Band(told, WARM, low, high, "peak", at=at)


def _gels(plan: PlanDocument, words: Wording) -> Iterator[Band]:
    for pour in plan.pours:
        low, high = pour.gel_after_h_p10, pour.gel_after_h_p90
        if low is None or high is None:
            continue
        start = _since(plan, pour.start)
        told = f"pour {pour.number} all gelled after {words.banded_duration(pour.gel_after_h, low, high)}"
        yield Band(told, "x", start + low, start + high, "gel", f"{pour.number} gels")


def _windows(plan: PlanDocument, words: Wording) -> Iterator[Band]:
    for pour in plan.pours:
        if pour.next_from is None or pour.next_until is None:
            continue
        # where the top blushes the bond is void: no band promises one
        if wash_first(pour.number, plan) is not None:
            continue
        when = words.window(pour.next_from, pour.next_until)
        told = f"pour {pour.number + 1} bonds to pour {pour.number} {when}"
        if sanded(pour.number, plan):
            told += f"; nobody pours then, so pour {pour.number} is washed and sanded first"
        ends = _since(plan, pour.next_from), _since(plan, pour.next_until)
        yield Band(told, "x", *ends, "bonds", f"{pour.number + 1} bonds")


def _limits(plan: PlanDocument, words: Wording) -> Iterator[Limit]:
    for limit in sorted({pour.peak_limit_degC for pour in plan.pours}):
        told = words.temperature(limit)
        yield Limit(f"limit of the casting {told}", WARM, limit, f"limit {told}")
    if plan.heat.rubber_limit_degC is not None:
        told = words.temperature(plan.heat.rubber_limit_degC)
        yield Limit(f"the rubber bears {told}", WARM, plan.heat.rubber_limit_degC, f"rubber {told}")


def _marks(plan: PlanDocument, words: Wording) -> Iterator[Mark]:
    for pour in plan.pours:
        told = f"pour {pour.number}, {words.moment(pour.start)}"
        yield Mark(told, "x", _since(plan, pour.start), "pour", f"pour {pour.number}")
    if plan.demold.at is not None:
        told = f"demold, {words.moment(plan.demold.at)}"
        yield Mark(told, "x", _since(plan, plan.demold.at), "demold", "demold")


def _sentence(plan: PlanDocument, words: Wording) -> str:
    worst = max(plan.pours, key=lambda pour: pour.peak_temperature_degC - pour.peak_limit_degC)
    peak, limit = words.temperature(worst.peak_temperature_degC), words.temperature(worst.peak_limit_degC)
    return f"{WORDS}. Nearest to its limit comes pour {worst.number}: {peak} of {limit}."


def _notes(places: PlacesSeen | None, words: Wording) -> list[str]:
    if places is None:
        return ["Single places are told by the heat file of a plan, which is not there."]
    told = "; ".join(f"{seen.words}: {seen.where(words)}" for seen in places.values())
    return [f"Places: {told}."] if told else []


def _table(plan: PlanDocument, hours: list[float], series: list[Series], words: Wording) -> Table:
    header = ["after the first pour [h]", "shop's clock"]
    header += [f"{each.words} [{'%' if each.axis == CURED else words.degree_sign}]" for each in series]
    first = plan.pours[0].start
    columns = [[_cell(value, each.axis, words) for value in each.values] for each in series]
    rows = [
        [f"{hour:.3f}", words.local(words.after(first, hour)).isoformat(timespec="minutes"), *cells]
        for hour, *cells in zip(hours, *columns, strict=True)
    ]
    return Table(header, rows)


def _cell(value: float | None, axis: str, words: Wording) -> str | None:
    if value is None:
        return None
    return f"{100.0 * value:.2f}" if axis == CURED else f"{words.degrees(value):.2f}"
