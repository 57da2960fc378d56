"""How often the 80 % band of a body measured by tape holds its true volume.

Invented smooth bodies, oval and a little square or lean, are read by an invented tape: each reading off by
itself, all of them off alike, at heights chosen more or less evenly. The last lines compare curves through
squares of the same radii: the chosen one must not swing beyond its readings, and be off no more than others.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from scipy.interpolate import Akima1DInterpolator, CubicSpline, PchipInterpolator

from benchmarks.tape_bodies import EDGE, KINDS, invent, read
from pourwright.app.shaping.tape_doubt import tape_doubt
from pourwright.app.shaping.tape_rows import body_of
from pourwright.geometry import measure

TRIALS, READING = 300, 0.002
COUNTS = (2, 3, 4, 5, 6, 8, 12)
ENDS = ("flat", "straight", "dome")
"""Read to the very ends; gone on straight from the last readings; closed by a dome."""
CURVES: dict[str, Callable[..., Any]] = {
    "monotone": PchipInterpolator,
    "local": Akima1DInterpolator,
    "spline": CubicSpline,
    "straight": lambda x, y: lambda z: np.interp(z, x, y),
}


def offs(count: int, kind: str, rng: np.random.Generator, end: str) -> tuple[float, float, float]:
    """Share of true volumes inside the band; median half-width of the band; median error."""
    inside: list[bool] = []
    widths: list[float] = []
    errors: list[float] = []
    while len(inside) < TRIALS:
        body = invent(rng, domed=end == "dome")
        rows = read(body, count, kind, READING, rng, edge=EDGE if end == "straight" else 0.0)
        if any(row.section is None for row in rows):
            continue
        smooth = body_of(rows)
        volume = measure(smooth.mesh()).volume
        low, high = tape_doubt(rows, smooth, volume, READING).band
        inside.append(low <= body.volume <= high)
        widths.append((high - low) / 2 / volume)
        errors.append(abs(body.volume / volume - 1))
    return float(np.mean(inside)), float(np.median(widths)), float(np.median(errors))


def curves(count: int, rng: np.random.Generator) -> dict[str, tuple[float, float, int]]:
    """Mean and root mean square of the volume's error, and bodies that swing 2 % beyond their readings."""
    found: dict[str, list[tuple[float, bool]]] = {name: [] for name in CURVES}
    for _ in range(TRIALS):
        body = invent(rng)
        places = np.linspace(0.0, body.levels[-1], count)
        places[1:-1] += rng.uniform(-0.25, 0.25, count - 2) * body.levels[-1] / (count - 1)
        radius = np.interp(places, body.levels, body.radius)
        for name, make in CURVES.items():
            square = np.maximum(make(places, radius**2)(body.levels), 0.0)
            beyond = square.max() > 1.04 * radius.max() ** 2 or square.min() < 0.96 * radius.min() ** 2
            true = np.trapezoid(body.radius**2, body.levels)
            found[name].append((float(np.trapezoid(square, body.levels) / true - 1), bool(beyond)))
    return {
        name: (
            float(np.mean([error for error, _ in each])),
            float(np.sqrt(np.mean([error**2 for error, _ in each]))),
            sum(beyond for _, beyond in each),
        )
        for name, each in found.items()
    }


def main() -> None:
    """Print how often the truth lies in the band, and the curves against each other."""
    rng = np.random.default_rng(1)
    print(f"{'readings':>9} {'of':16} {'end':8} {'in the band':>11} {'half band':>10} {'median error':>13}")
    for end in ENDS:
        for kind in KINDS if end == "flat" else KINDS[:1]:
            for count in COUNTS if kind == KINDS[0] else COUNTS[2::2]:
                inside, width, error = offs(count, kind, rng, end)
                print(f"{count:9d} {kind:16} {end:8} {inside:11.0%} {width:10.1%} {error:13.1%}", flush=True)
    print(f"\n{'readings':>9} {'curve':10} {'mean':>7} {'rms':>7} {'swing beyond':>13} of {TRIALS}")
    for count in (4, 6, 8):
        for name, (mean, rms, beyond) in curves(count, rng).items():
            print(f"{count:9d} {name:10} {mean:7.2%} {rms:7.2%} {beyond:13d}")
