"""How much has run out, against closed forms and against a Monte Carlo of its doubts."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from pourwright.pour.leaked.column import Bed, Column, column
from pourwright.pour.leaked.evidence import Case, Level
from pourwright.pour.leaked.filling import doubts, level_of, likely, mass_at
from pourwright.pour.leaked.lost import lost
from pourwright.pour.leaked.weighed import Weighed

RADIUS, HEIGHT, DENSITY = 0.1, 0.3, 1100.0
HOURS = 3600.0


def tube(void: float = 1.0, doubt: float = 0.0) -> Column:
    z = np.linspace(0.0, HEIGHT, 31)
    return column(z, pi * RADIUS**2 * z, [Bed(0.0, HEIGHT, void, doubt)], 0.0, HEIGHT)


def funnel() -> Column:
    """A cone that stands on its tip, as wide as it is high."""
    z = np.linspace(0.0, HEIGHT, 301)
    return column(z, pi * z**3 / 3.0, [Bed(0.0, HEIGHT)], 0.0, HEIGHT)


def sharp(room: Column, poured: float, level: float) -> Case:
    """Everything known but for a reading that is as good as exact."""
    return Case(
        column=room, density=DENSITY, poured=Weighed(poured, 1e-6), levels=(Level(level, HOURS, 1e-6),),
        cavity_doubt=0.0, held_back=0.0, held_back_doubt=0.0, shrunk_doubt=0.0,
    )  # fmt: skip


def test_a_neat_cylinder_has_lost_its_fall_times_its_section() -> None:
    full, level = 0.28, 0.21
    poured = DENSITY * pi * RADIUS**2 * full
    found = lost(sharp(tube(), poured, level))
    assert found.likely == pytest.approx(DENSITY * pi * RADIUS**2 * (full - level), abs=2e-4 * poured)


def test_a_cylinder_of_glass_loses_its_voids_only_less_what_the_grains_hold() -> None:
    full, level, void, held = 0.28, 0.21, 0.45, 0.08
    poured = DENSITY * pi * RADIUS**2 * full * void
    case = replace(sharp(tube(void), poured, level), held_back=held)
    expected = DENSITY * pi * RADIUS**2 * (full - level) * void * (1.0 - held)
    assert lost(case).likely == pytest.approx(expected, abs=3e-4 * poured)


def test_a_cone_has_lost_the_difference_of_cubes() -> None:
    full, level = 0.28, 0.2
    poured = DENSITY * pi * full**3 / 3.0
    found = lost(sharp(funnel(), poured, level))
    assert found.likely == pytest.approx(DENSITY * pi * (full**3 - level**3) / 3.0, abs=3e-4 * poured)


def test_resin_that_has_shrunk_has_not_run_out() -> None:
    full, share = 0.28, 0.02
    poured = DENSITY * pi * RADIUS**2 * full
    case = replace(sharp(tube(), poured, full * (1.0 - share)), shrunk=lambda _: share)
    assert lost(case).likely < 1e-3 * poured


def test_level_and_mass_are_each_others_inverse() -> None:
    case = replace(sharp(tube(0.45, 0.02), 3.0, 0.2), held_back=0.08, shrunk=lambda _: 0.01)
    levels = np.array([0.05, 0.1, 0.15, 0.19])
    assert level_of(case, mass_at(case, levels, HOURS), HOURS) == pytest.approx(levels, abs=1e-9)


def usual() -> Case:
    """Three kinds of doubt at work: two grades of glass under clear resin."""
    z = np.linspace(0.0, HEIGHT, 31)
    beds = [Bed(0.0, 0.12, 0.45, 0.02), Bed(0.12, 0.24, 0.42, 0.015), Bed(0.24, HEIGHT)]
    room = column(z, pi * RADIUS**2 * z, beds, 0.0, HEIGHT)
    return Case(column=room, density=DENSITY, poured=Weighed(5.2, 0.03), film=Weighed(0.03, 0.01))


def told_by_a_leak(case: Case, out: float, rng: np.random.Generator, *, caught: bool) -> Case:
    """What a shop would read, were this the leak and the doubts drawn so."""
    values = rng.normal(likely(case), doubts(case))
    values[3:5] = np.maximum(values[3:5], 0.0)
    heights = case.column.heights
    level = float(np.interp(values[0] - out, mass_at(case, heights, HOURS, values), heights))
    seen = Level(level + rng.normal(0.0, 0.002), HOURS)
    share = min(rng.normal(0.9, 0.0975), 1.0)
    tray = Weighed(out * share, 0.005) if caught else None
    return replace(case, levels=(seen,), caught=tray)


@pytest.mark.parametrize("caught", [False, True])
def test_the_band_of_four_in_five_holds_four_in_five(caught: bool) -> None:
    case, rng = usual(), np.random.default_rng(9)
    held = 0
    for _ in range(300):
        out = rng.uniform(0.0, 0.5 * case.poured.mass)
        found = lost(told_by_a_leak(case, out, rng, caught=caught))
        held += found.low <= out <= found.high
    assert 0.70 <= held / 300 <= 0.90


def test_nothing_is_less_than_nothing() -> None:
    case = replace(usual(), levels=(Level(0.295, HOURS),))
    found = lost(case)
    assert 0.0 <= found.low <= found.likely <= found.high


def test_a_level_out_of_sight_says_at_least() -> None:
    case = usual()
    bound = case.poured.mass - float(mass_at(case, 0.2, HOURS))
    found = lost(replace(case, levels=(Level(0.2, HOURS, 0.004, at_most=True),)))
    assert found.low > bound - 0.3
    assert found.high > bound + 0.5


def test_readings_of_an_early_hour_sharpen_those_of_a_later_one() -> None:
    case = usual()
    full = float(level_of(case, case.poured.mass, 0.0))
    late = Level(full - 0.05, 5 * HOURS)
    alone = lost(replace(case, levels=(late,)))
    both = lost(replace(case, levels=(Level(full, 0.2 * HOURS), late)))
    assert both.high - both.low < 0.9 * (alone.high - alone.low)


@pytest.mark.parametrize(
    ("levels", "caught", "kind"),
    [
        ((Level(0.3, HOURS),), None, "over"),
        ((Level(0.1, HOURS),), Weighed(0.2, 0.005), "caught"),
        ((Level(0.1, HOURS), Level(0.15, 3 * HOURS)), None, "rises"),
        ((Level(0.1, HOURS),), Weighed(9.0, 0.05), "more than poured"),
        ((Level(0.05, HOURS, 0.004, at_most=True),), Weighed(0.2, 0.005), "glass"),
    ],
)
def test_contradictions_are_named(levels: tuple[Level, ...], caught: Weighed | None, kind: str) -> None:
    case = replace(usual(), poured=Weighed(4.6, 0.02), levels=levels, caught=caught)
    assert kind in {each.kind for each in lost(case).contradictions}


def test_a_find_that_is_far_too_small_does_not_outweigh_the_level() -> None:
    case = replace(usual(), levels=(Level(0.1, HOURS),))
    alone, besides = lost(case), lost(replace(case, caught=Weighed(0.2, 0.005)))
    assert besides.likely == pytest.approx(alone.likely, rel=0.02)
