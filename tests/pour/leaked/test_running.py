"""The fall of a level and whether it goes on, against closed forms."""

from dataclasses import replace
from math import exp, log, pi

import numpy as np
import pytest

from pourwright.pour.leaked.column import Bed, column
from pourwright.pour.leaked.evidence import Case, Level
from pourwright.pour.leaked.filling import level_of
from pourwright.pour.leaked.law import Thickens, falling
from pourwright.pour.leaked.lost import lost
from pourwright.pour.leaked.running import Running, running
from pourwright.pour.leaked.top_up import at_gel, top_up
from pourwright.pour.leaked.weighed import Weighed

HOURS, AREA, DENSITY = 3600.0, 0.03, 1100.0
DOUBLES, THIN, GELS = 4 * HOURS, 0.5, 36 * HOURS


def doubling() -> Thickens:
    """Twice as thick every four hours: the integral of 1/mu in its closed form."""
    times = np.linspace(0.0, GELS, 2001)
    return Thickens(times, DOUBLES / (THIN * log(2.0)) * (1.0 - 2.0 ** (-times / DOUBLES)))


def case(*levels: Level, poured: float = 8.4) -> Case:
    z = np.linspace(0.0, 0.3, 31)
    room = column(z, AREA * z, [Bed(0.0, 0.3)], 0.0, 0.3)
    return Case(column=room, density=DENSITY, poured=Weighed(poured, 0.01), levels=levels)


def test_a_cylinder_falls_exponentially() -> None:
    heights = np.linspace(0.0, 0.3, 801)
    fall = falling(heights, AREA * heights, 0.05)
    spent = 0.02
    expected = 0.05 + (0.25 - 0.05) * exp(-spent / AREA)
    assert fall.after(0.25, 1.0, spent) == pytest.approx(expected, rel=1e-5)
    assert fall.constant(0.25, expected, 1.0) == pytest.approx(spent, rel=1e-5)


def test_two_looks_without_a_stick_do_not_stop_a_leak() -> None:
    looks = [Level(0.25, hours * HOURS, 0.010) for hours in (1.0, 8.0)]
    one = case(*looks)
    heights = np.linspace(0.0, 0.3, 801)
    found = running(one, lost(one), falling(heights, AREA * heights, 0.0), doubling(), 9 * HOURS)
    assert found.noise == pytest.approx(0.010 * 2**0.5)
    assert found.state == "cannot tell"


def test_a_cone_falls_with_the_square_root() -> None:
    """V = pi z^3 / 3 over its tip: pi z dz = - K d phi."""
    heights = np.linspace(0.0, 0.3, 3001)
    fall = falling(heights, pi * heights**3 / 3.0, 0.0)
    spent = 0.03
    assert fall.after(0.25, spent, 1.0) == pytest.approx((0.25**2 - 2.0 * spent / pi) ** 0.5, rel=1e-5)


def test_it_never_falls_below_its_hole() -> None:
    heights = np.linspace(0.0, 0.3, 801)
    assert falling(heights, AREA * heights, 0.1).after(0.25, 1.0, 1e9) == pytest.approx(0.1, abs=2e-4)


def judged(one: Case, now: float, seen: bool | None = None) -> Running:
    fall = falling(one.column.heights, one.column.volumes(), 0.0)
    return running(one, lost(one), fall, doubling(), now, seen)


def leaked_to(constant: float, time: float, full: float) -> float:
    """Level of a cylinder that leaks from the start on, closed form."""
    return full * exp(-constant * doubling().until(time) / AREA)


def test_a_fall_that_follows_the_law_runs_on_to_where_the_law_says() -> None:
    constant, full = 1e-7, 8.4 / DENSITY / AREA
    levels = [Level(leaked_to(constant, time, full), time) for time in (2 * HOURS, 6 * HOURS)]
    one = case(*levels)
    runs = judged(one, 6 * HOURS)
    assert runs.state == "runs"
    assert runs.constant == pytest.approx(constant, rel=0.01)
    expected = DENSITY * constant * levels[1].height / (THIN * 2.0 ** (6 * HOURS / DOUBLES))
    assert runs.rate == pytest.approx(expected, rel=0.02)
    gel = at_gel(
        one, lost(one), runs, falling(one.column.heights, one.column.volumes(), 0.0), doubling(), 6 * HOURS
    )
    assert gel.level == pytest.approx(leaked_to(constant, GELS, full), abs=0.002)
    assert gel.low < gel.level < gel.high


def test_a_level_that_stands_where_it_would_have_fallen_has_stopped() -> None:
    assert judged(case(Level(0.2, 4 * HOURS), Level(0.2, 7 * HOURS)), 7 * HOURS).state == "stopped"


def test_two_readings_too_close_tell_nothing_and_when_to_look_again() -> None:
    full = 8.4 / DENSITY / AREA
    one = case(Level(full - 0.004, 8 * HOURS), Level(full - 0.0045, 8.5 * HOURS))
    runs = judged(one, 8.5 * HOURS)
    assert runs.state == "cannot tell"
    assert runs.rate > 0.0


def test_what_the_maker_sees_overrules_and_gel_ends_it() -> None:
    one = case(Level(0.2, 4 * HOURS))
    assert judged(one, 4 * HOURS, seen=True).state == "runs"
    assert judged(one, 4 * HOURS, seen=False).state == "stopped"
    assert judged(one, GELS).state == "gelled"
    assert judged(one, GELS).rate == 0.0


def test_the_top_up_of_a_cylinder_is_its_missing_height() -> None:
    one = replace(case(Level(0.2, 4 * HOURS)), cavity_doubt=0.0)
    fall = falling(one.column.heights, one.column.volumes(), 0.0)
    gel = at_gel(one, lost(one), judged(one, 4 * HOURS, seen=False), fall, doubling(), 4 * HOURS)
    need = top_up(one, gel, 0.25, stays_in_pail=0.02, allowance=0.05)
    assert need.missing == pytest.approx(DENSITY * AREA * 0.05, rel=2e-3)
    assert need.mixed == pytest.approx(need.missing * 1.05 / 0.98)
    assert need.low < need.missing < need.high


def test_glass_that_was_wet_is_not_filled_twice() -> None:
    z = np.linspace(0.0, 0.3, 31)
    room = column(z, AREA * z, [Bed(0.0, 0.3, 0.45)], 0.0, 0.3)
    poured = DENSITY * AREA * 0.25 * 0.45
    one = Case(column=room, density=DENSITY, poured=Weighed(poured, 1e-6), held_back=0.1, held_back_doubt=0.0)
    left = replace(one, levels=(Level(0.2, HOURS, 1e-6),), cavity_doubt=0.0)
    fall = falling(room.heights, room.volumes(), 0.0)
    out = lost(left)
    gel = at_gel(left, out, judged(left, GELS), fall, doubling(), GELS)
    assert float(level_of(left, poured - out.likely, GELS)) == pytest.approx(0.2, abs=2e-4)
    assert top_up(left, gel, 0.25, 0.0, 0.0).missing == pytest.approx(
        DENSITY * AREA * 0.05 * 0.45 * 0.9, rel=5e-3
    )
