"""The level in the mold against what is poured, with pours and bands, in both readings of the height."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from pourwright.app.charting.chart import Along, Axis, Band, Cell, Chart, Mark, Series, Table, Tick
from pourwright.app.charting.scales import round_ticks
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.plan import DipRow, PlanDocument
from pourwright.sheets.tables import Columns
from pourwright.sheets.wording import QUART, UPRIGHT, Wording, readings_differ

LEVEL = "level"
MOST_STEPS = 8
HEADROOM = 1.04
"""Above the level of the last pour, so that its line and its name find room."""
LITRE = 0.001
WORDS = "How high the level stands for what is poured in: empty, and with glass in, which takes resin's place"


def level_chart(plan: PlanDocument) -> Chart:
    """Chart the level against the volume.

    Parameters
    ----------
    plan : PlanDocument
        The plan; its dip-stick holds the volumes.

    Returns
    -------
    Chart
        Along the volume; heights upright.
    """
    words, columns = Wording(plan.job), Columns(plan)
    rows = level_rows(plan)
    volumes = sorted({row.cavity_m3 for row in rows} | {row.liquid_m3 for row in rows})
    high = volumes[-1]
    return Chart(
        name="level",
        title="Level against volume",
        words=f"{WORDS}. Full, the mold holds {words.volume(plan.piece.volume_m3)}.",
        table=_table(plan, rows, columns),
        x=_along(volumes, high, words),
        axes=[_axis(plan, rows, columns)],
        series=list(_series(plan, rows, volumes, words)),
        bands=list(_bands(plan, words)),
        marks=list(_marks(plan, words)),
        notes=_notes(plan),
    )


def level_rows(plan: PlanDocument) -> list[DipRow]:
    """The dip-stick from the empty mold to the full one.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    list of DipRow
        Upwards.
    """
    rows = sorted(plan.dip_stick, key=lambda row: row.height_m)
    height = plan.piece.height_m
    if rows and rows[0].height_m > 0.0:
        rim = rows[0].height_m + rows[0].dip_m
        empty = DipRow(
            height_m=0.0,
            height_standing_m=height if plan.piece.flipped else 0.0,
            dip_m=rim,
            cavity_m3=0.0,
            liquid_m3=0.0,
        )
        rows = [empty, *rows]
    return rows


def _standing(plan: PlanDocument, height: float) -> float:
    return plan.piece.height_m - height if plan.piece.flipped else height


def both(plan: PlanDocument, height: float, words: Wording) -> str:
    """A height in both readings, where they differ."""
    told = words.length(height)
    if not readings_differ(plan) or plan.piece.up not in UPRIGHT:
        return told
    return f"{told} as poured, {words.length(_standing(plan, height))} as it stands"


def _along(volumes: Sequence[float], high: float, words: Wording) -> Along:
    # a bucket is read in quarts, not in parts of a gallon
    scale = LITRE if words.bulk_unit == "l" else QUART
    ticks = round_ticks(0.0, high, MOST_STEPS, lambda cubic: cubic / scale, lambda shown: shown * scale)
    unit = words.bulk_unit
    texts = [f"{words.volume(volume)} poured" for volume in volumes]
    return Along(f"poured into the mold [{unit}]", "m3", volumes, texts, 0.0, ticks[-1].at, ticks)


def _axis(plan: PlanDocument, rows: Sequence[DipRow], columns: Columns) -> Axis:
    unit, top = columns.length_unit, rows[-1].height_m
    scale = float(UNITS[Dimension.LENGTH][unit].factor)

    def shown(metres: float) -> float:
        return metres / scale

    def plain(number: float) -> float:
        return number * scale

    ticks = round_ticks(0.0, HEADROOM * top, MOST_STEPS, shown, plain)
    stands: tuple[Tick, ...] = ()
    stands_words = ""
    if readings_differ(plan) and plan.piece.up in UPRIGHT:
        stands = _turned(round_ticks(0.0, plan.piece.height_m, MOST_STEPS, shown, plain), plan)
        stands_words = f"as the piece stands [{unit}]"
    return Axis(LEVEL, f"height as poured [{unit}]", "m", 0.0, ticks[-1].at, ticks, stands, stands_words)


def _turned(ticks: Sequence[Tick], plan: PlanDocument) -> tuple[Tick, ...]:
    """Marks of the height as the piece stands, at their places as poured."""
    inside = [tick for tick in ticks if tick.at <= plan.piece.height_m]
    return tuple(Tick(_standing(plan, tick.at), tick.words) for tick in reversed(inside))


def _series(
    plan: PlanDocument, rows: Sequence[DipRow], volumes: Sequence[float], words: Wording
) -> Iterator[Series]:
    picks: dict[str, tuple[str, Callable[[DipRow], float]]] = {
        "cavity": ("empty mold", lambda row: row.cavity_m3),
        "liquid": ("with the glass in", lambda row: row.liquid_m3),
    }
    for key, (name, pick) in picks.items():
        held = [pick(row) for row in rows]
        levels = np.interp(volumes, held, [row.height_m for row in rows], right=np.nan)
        values = [None if np.isnan(level) else round(float(level), 6) for level in levels]
        yield Series(
            key, name, "m", LEVEL, values, ["full" if v is None else both(plan, v, words) for v in values]
        )


def _bands(plan: PlanDocument, words: Wording) -> Iterator[Band]:
    for band in plan.fill.bands:
        what = f", {band.grade} {band.colour} glass" if band.kind == "glass" else ", no glass"
        told = f"{band.name}{what}: {words.span(band.from_m, band.to_m)}"
        yield Band(told, LEVEL, band.from_m, band.to_m, band.kind, f"{band.name}{what}")


def _marks(plan: PlanDocument, words: Wording) -> Iterator[Mark]:
    for pour in plan.pours:
        dip = words.length(pour.dip_to_m)
        told = f"pour {pour.number} up to {both(plan, pour.to_m, words)}, {dip} below the rim"
        yield Mark(told, LEVEL, pour.to_m, "pour", f"pour {pour.number}")


def _notes(plan: PlanDocument) -> list[str]:
    notes = ["Dip where no glass stands in the way: a stick that rests on glass reads too high."]
    if plan.piece.up not in UPRIGHT:
        notes.append("The piece is poured on its side: a level as poured is none as it stands.")
    return notes


def _table(plan: PlanDocument, rows: Sequence[DipRow], columns: Columns) -> Table:
    length, volume = columns.length_unit, columns.volume_unit
    header = [
        f"height, as poured [{length}]",
        f"height, as it stands [{length}]",
        f"dip from the rim [{length}]",
        f"mold holds [{volume}]",
        f"liquid with the glass in [{volume}]",
        "what ends here",
    ]
    upright = plan.piece.up in UPRIGHT
    cells: list[list[Cell]] = [
        [
            columns.length(row.height_m),
            columns.length(row.height_standing_m) if upright else None,
            columns.length(row.dip_m),
            columns.volume(row.cavity_m3),
            columns.volume(row.liquid_m3),
            _ends(plan, row.height_m),
        ]
        for row in rows
    ]
    return Table(header, cells)


def _ends(plan: PlanDocument, height: float) -> str:
    """Pours and bands that end at a height."""
    near = 5e-4
    pours = [f"pour {pour.number}" for pour in plan.pours if abs(pour.to_m - height) < near]
    bands = [band.name for band in plan.fill.bands if abs(band.to_m - height) < near]
    return "; ".join([*pours, *bands])
