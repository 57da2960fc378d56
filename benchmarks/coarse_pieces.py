"""Random castings with plans of one to three pours, for `bench_coarse`; all numbers are invented."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from zoneinfo import ZoneInfo

import numpy as np

from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.geometry import Mesh, box, cone, revolve
from pourwright.materials import load_materials
from pourwright.planner.bench import GIVE_UP, CoarseBench
from pourwright.planner.model import Trial
from pourwright.pour.climate import Climate
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned
from pourwright.pour.site import Bed, Block, Site

HOUR = 3600.0
ZERO = datetime(2026, 12, 1, 9, tzinfo=UTC)
HOTTEST = 150.0 + ZERO_CELSIUS
COARSE = 0.016
MOST_CELLS = 250_000
LEAST_WIDTH = 0.08
# depth of a neat pour [m] that warms well; beds of glass take about three times as much
DEPTH = {"epoxy-slow-deep": 0.050, "epoxy-medium": 0.032, "epoxy-fast": 0.020}
BEDS = ("neat", "glass", "glass under a neat cover")


@dataclass(frozen=True)
class Case:
    """A casting, a plan for it, and a neighbour of the plan that a search might try next."""

    name: str
    site: Site
    plan: tuple[Planned, ...]
    neighbour: tuple[Planned, ...]


@cache
def draw_case(number: int) -> Case:
    """Draw piece, resin, beds, shop and plans; pours that run away are drawn again, shallower."""
    draw = np.random.default_rng([2026, number])
    resin_id = list(DEPTH)[number % 3]
    bed = BEDS[number // 3 % 3]
    count = 1 + int(draw.integers(3))
    deep = DEPTH[resin_id] * (3.0 if bed != "neat" else 1.0)
    depths = deep * draw.uniform(0.6, 1.5, count)
    shape, mean, swing = int(draw.integers(4)), draw.uniform(16.0, 26.0), draw.uniform(0.0, 3.0)
    width, solid, cover = (
        draw.uniform(LEAST_WIDTH, 0.35),
        draw.uniform(0.50, 0.58),
        draw.uniform(0.006, 0.015),
    )
    wall, first = draw.uniform(0.010, 0.025), HOUR * int(draw.integers(5))
    while True:
        levels = tuple(round(float(level), 4) for level in np.cumsum(depths))
        piece, kind = _shape(shape, width, levels[-1], np.random.default_rng([2027, number]))
        beds = _beds(bed, levels[-1], solid, min(cover, levels[-1] / 5))
        site = _site(piece, beds, resin_id, _shop(mean, swing), wall)
        if _cells(site) > MOST_CELLS:
            width, depths = (0.9 * width, depths) if width > LEAST_WIDTH else (width, 0.9 * depths)
            continue
        found = _plans(site, levels, first, draw)
        if found is not None:
            name = f"{number:2d} {kind} {1e3 * width:.0f} x {1e3 * levels[-1]:.0f} mm, {resin_id}, {bed}"
            return Case(f"{name}, {mean:.0f} degC, {count} pours", site, *found)
        depths = 0.85 * depths


def _shape(shape: int, width: float, height: float, draw: np.random.Generator) -> tuple[Mesh, str]:
    radius, lean = width / 2, float(draw.uniform(0.6, 1.0))
    if shape == 0:
        return box([width, width * lean, height]), "box"
    if shape == 1:
        return cone(radius, radius * lean, height), "cone"
    share = np.linspace(0.0, 1.0, 13)
    waist = 1.0 - (1.0 - lean) * np.sin(math.pi * share)
    belly = lean + (1.0 - lean) * np.sin(math.pi * share + float(draw.uniform(-0.4, 0.4))) ** 2
    outline, kind = ((waist, "hourglass"), (belly, "vase"))[shape - 2]
    return revolve(np.column_stack([radius * outline / outline.max(), height * share])), kind


def _beds(bed: str, height: float, solid: float, cover: float) -> tuple[Bed, ...]:
    if bed == "neat":
        return (Bed(0.0, height, 0.0),)
    if bed == "glass":
        return (Bed(0.0, height, solid),)
    border = round(height - cover, 4)
    return Bed(0.0, border, solid), Bed(border, height, 0.0)


def _site(piece: Mesh, beds: tuple[Bed, ...], resin: str, shop: Climate, wall: float) -> Site:
    materials = load_materials()
    lower, upper = piece.bounds
    inside = (float(upper[0] - lower[0]) + 2 * wall, float(upper[1] - lower[1]) + 2 * wall)
    return Site(
        piece,
        Block(inside, wall, 0.018, float(upper[2])),
        beds,
        materials.resin[resin],
        materials.glass["soda-lime-crushed"],
        materials.rubber["silicone-platinum-a25"],
        materials.board["mdf"],
        shop,
    )


def _shop(mean: float, swing: float) -> Climate:
    """Warmest at 15 o'clock."""
    hours = (mean + swing * math.cos(2.0 * math.pi * (hour - 15) / 24) for hour in range(24))
    return Climate(ZERO, ZoneInfo("UTC"), tuple(ZERO_CELSIUS + each for each in hours))


def _cells(site: Site) -> float:
    """About how many cells of 4 mm the casting and its mold take."""
    block = site.block
    wide, deep = (side + 2 * block.board for side in block.inside)
    return float(wide * deep * (block.height + block.base + block.board) / 0.004**3)


def _plans(
    site: Site, levels: tuple[float, ...], first: float, draw: np.random.Generator
) -> tuple[tuple[Planned, ...], tuple[Planned, ...]] | None:
    """Plan within the bond windows of a coarse grid, and its neighbour; None where either runs away."""
    moved = [*(level * float(draw.choice([0.85, 1.15])) for level in levels[:-1]), levels[-1]]
    neighbour = tuple(round(level, 4) for level in moved)
    late = HOUR * int(draw.integers(1, 6))
    plans = [_plan(site, each, start, draw) for each, start in ((levels, first), (neighbour, first + late))]
    return None if plans[0] is None or plans[1] is None else (plans[0], plans[1])


def _plan(
    site: Site, levels: tuple[float, ...], start: float, draw: np.random.Generator
) -> tuple[Planned, ...] | None:
    bench = CoarseBench(lay_out(site, COARSE, levels), HOTTEST - GIVE_UP, snap=lambda ready: ready)
    plan: list[Planned] = []
    trial: Trial | None = None
    for level in levels:
        if trial is not None:
            share = draw.uniform(0.0, 0.6)
            window = max(trial.bonds_until - trial.bonds_from, HOUR)
            start = HOUR * math.ceil((trial.bonds_from + share * min(window, 24 * HOUR)) / HOUR)
        trial = bench.pour(trial, level, start)
        plan.append(Planned(level, start))
        if trial.peaks[-1] > HOTTEST:
            return None
    return tuple(plan)
