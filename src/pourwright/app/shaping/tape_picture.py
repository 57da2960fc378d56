"""The picture of a body that was measured with a tape."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import numpy as np

from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.measured import reading_of, rows_of
from pourwright.app.shaping.size_words import band_words
from pourwright.app.shaping.tape_doubt import ONE_IN_TEN, in_charge, spans_of, tape_doubt
from pourwright.app.shaping.tape_rows import FLAT, TapeRow, body_of
from pourwright.foundation.notation import UnitSystem, format_length, format_volume
from pourwright.geometry import measure
from pourwright.geometry.mesh import Floats
from pourwright.geometry.taped.measured import MeasuredBody
from pourwright.sheets.measured_drawing import DrawnReading, MeasuredOutline, draw_measured
from pourwright.sheets.picture_files import png_of

LEVELS = 200


def measured_files(looked: Looked, _told: Mapping[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Draw a measured body with its readings and its doubt.

    Parameters
    ----------
    looked : Looked
        The shape.

    Yields
    ------
    tuple of str and bytes
        ``measured.svg`` and ``measured.png``; nothing for a body that was not measured.
    """
    job = looked.job
    measured = None if job is None else job.shape.measured
    if job is None or measured is None:
        return
    rows, reading = rows_of(measured), reading_of(measured)
    body = body_of(rows)
    volume, band = measure(looked.shaped.mesh).volume, looked.shaped.doubt
    assert band is not None
    doubt = tape_doubt(rows, body, volume, reading)
    levels = _levels(body)
    # water says how wide it is, and how far tape and water lie apart how sure that is
    wider = np.sqrt(volume / measure(body.mesh()).volume)
    share = (band.high - band.low) / 4 / volume if job.shape.displaced else 0.0
    apart = share * wider * body.halves(levels).mean(axis=1)
    shown = MeasuredOutline(
        title=job.title,
        levels=levels,
        halves=wider * body.halves(levels),
        doubt=np.maximum(wider * outline_doubt(rows, body, levels, reading), apart),
        readings=_readings(rows, looked.system),
        following=doubt.following.height if doubt.gains else None,
        told=f"{format_volume(volume, looked.system)}, {band_words(band.low, band.high, looked.system)}",
    )
    svg = draw_measured(shown, looked.system)
    yield "measured.svg", svg.encode()
    yield "measured.png", png_of(svg)


def _levels(body: MeasuredBody) -> Floats:
    """Even heights, and close together where a dome is steep."""
    low, high = body.heights[0], body.heights[-1]
    even = (1 - np.cos(np.linspace(0.0, np.pi, LEVELS))) / 2
    return np.unique(np.concatenate([low + (high - low) * even, body.heights]))


def outline_doubt(rows: Sequence[TapeRow], body: MeasuredBody, levels: Floats, reading: float) -> Floats:
    """How far the half-width may lie off, one in ten beyond on either side.

    Parameters
    ----------
    rows : sequence of TapeRow
        The readings.
    body : MeasuredBody
        Laid through them.
    levels : array (n,)
        [m]
    reading : float
        How well the tape was read, two standard deviations [m].

    Returns
    -------
    array (n,)
        [m]; at a reading that of the tape, between two readings most in the middle.
    """
    heights = body.heights
    spans = spans_of(rows, body, reading / 2)
    span = np.clip(np.searchsorted(heights, levels, side="right") - 1, 0, len(heights) - 2)
    share = (levels - heights[span]) / np.diff(heights)[span]
    # a parabola over the span that holds as much as the span's doubt
    between = spans[span] / (2 / 3 * np.diff(heights)[span]) * 4 * share * (1 - share)
    read = np.interp(
        levels, heights, [rows[number].sensitivity() * reading / 2 for number in in_charge(rows)]
    )
    halves = body.halves(levels)
    around = 2 * np.pi * np.sqrt(halves[:, 0] * halves[:, 1])
    thickest = 2 * np.pi * halves.max()
    return np.asarray(ONE_IN_TEN * np.hypot(between, read) / np.maximum(around, 0.25 * thickest))


def _readings(rows: Sequence[TapeRow], system: UnitSystem) -> list[DrawnReading]:
    return [
        DrawnReading(
            row.height,
            None if row.closes == FLAT else (section.width / 2, section.depth / 2),
            _words(row, system),
        )
        for row, section in zip(rows, body_of(rows).sections, strict=True)
    ]


def _words(row: TapeRow, system: UnitSystem) -> str:
    at = format_length(row.height, system)
    if row.closes is not None:
        return f"{at}: ends flat" if row.closes == FLAT else f"{at}: closes to a {row.closes}"
    lengths = {name: format_length(getattr(row, name), system) for name in row.read}
    if "depth" in lengths:
        both = f"{lengths['width']} x {lengths['depth']}"
        return f"{at}: {both}" + (f", corner {lengths['corner']}" if "corner" in lengths else "")
    return f"{at}: " + ", ".join(f"{name} {length}" for name, length in lengths.items())
