"""Suction and what lets go of it, bulge with and without a box, warm rubber."""

from math import atanh, pi

import numpy as np
import pytest

from pourwright.geometry import box, cone, revolve
from pourwright.mold.way_out.air import suction_of
from pourwright.mold.way_out.inlets import floor_area
from pourwright.physics.soft_wall import floor_pressure, ring_bulge, spanning_bulge, standing_bulge

ATMOSPHERE = 101325.0


def test_a_vacuum_holds_the_open_face_down(out_of):
    found = out_of(cone(0.06, 0.10, 0.2)).suction
    assert found.area == pytest.approx(pi * 0.1**2, rel=2e-4)
    assert found.force == pytest.approx(ATMOSPHERE * found.area)
    assert found.kilograms == pytest.approx(found.force / 9.80665)
    assert not found.by_hand


def test_air_creeps_in_along_the_walls():
    area, depth = pi * 0.1**2, 0.3
    found = suction_of(area, area, depth, 0.019, 1e6)
    # 24 mu L V / (w h^3 p0) atanh(0.9), 20 micrometres wide, until it is up by a millimetre; 18.2 uPa s
    slow = 24 * 18.2e-6 * depth * area * 1e-3 / (2 * pi * 0.1 * 20e-6**3 * ATMOSPHERE)
    assert found.creeps_in == pytest.approx(slow * atanh(0.9), rel=0.01)


def test_a_wide_thin_floor_follows_and_a_small_thick_one_does_not():
    wide, small = pi * 0.15**2, pi * 0.03**2
    found = suction_of(wide, wide, 0.3, 0.019, 1e6)
    assert found.floor_follows == pytest.approx(floor_pressure(0.0095, 0.15, 0.019, 1e6) * wide)
    assert suction_of(small, small, 0.3, 0.019, 1e6).floor_follows is None


def test_air_goes_in_at_the_mouth_and_below(out_of, dumbbell):
    straight = out_of(cone(0.06, 0.10, 0.2))
    assert [inlet.kind for inlet in straight.inlets] == ["mouth", "floor"]
    assert straight.inlets[0].place == pytest.approx((0.1, 0.0, 0.2), abs=1e-9)
    assert straight.inlets[1].place == pytest.approx((0.0, 0.0, 0.0), abs=1e-9)
    cut = out_of(dumbbell)
    assert [inlet.kind for inlet in cut.inlets] == ["mouth", "cut"]
    x, y, z = cut.inlets[1].place
    assert (x, y) == pytest.approx((0.04, 0.0), abs=1e-4)
    assert cut.cuts[0].ends_at < z < cut.cuts[0].ends_at + 0.002
    assert cut.inlets[1].way == pytest.approx((-1.0, 0.0, 0.0))


def test_rubber_inside_a_turned_bowl_gets_air_at_its_top(out_of):
    profile = np.array([[0, 72], [55, 72], [112, 0], [120, 0], [60, 80], [0, 80]]) / 1000
    (core,) = (inlet for inlet in out_of(revolve(profile)).inlets if inlet.kind == "core")
    assert core.place[2] == pytest.approx(0.072, abs=1e-6)


def test_the_floor_is_what_lies_flat():
    assert floor_area(box([0.2, 0.1, 0.3])) == pytest.approx(0.02)
    assert floor_area(cone(0.0, 0.1, 0.3)) == 0.0


def test_a_round_wall_stands_as_a_ring_and_a_flat_one_spans(out_of):
    round_, flat = out_of(cone(0.1, 0.1, 0.4)), out_of(box([0.3, 0.2, 0.4]))
    for out, way in ((round_, ring_bulge), (flat, spanning_bulge)):
        pressure, modulus = out.bulge.pressure, out.modulus
        reach = 0.1 if way is ring_bulge else 0.3
        assert out.bulge.alone == pytest.approx(
            min(
                way(pressure / 2, reach, 0.02, modulus.likely),
                standing_bulge(pressure, 0.4, 0.02, modulus.likely),
            ),
            rel=2e-3,
        )
        assert out.bulge.alone_low < out.bulge.alone < out.bulge.alone_high
        # the box lets nothing through, a shell its gap
        assert out.bulge.in_box < 1e-6 < out.bulge.in_shell
        assert out.bulge.in_shell == pytest.approx(0.0005, rel=1e-3)
    assert flat.bulge.gives_way
    assert not round_.bulge.gives_way


def test_a_round_bulge_takes_up_a_shell_of_casting(out_of):
    bulge = out_of(cone(0.1, 0.1, 0.4)).bulge
    # nothing at the rim, all of it at the foot
    assert bulge.more == pytest.approx(pi * 0.2 * 0.4 * bulge.alone / 2, rel=1e-3)


def test_thick_rubber_comes_in_by_its_own_share(out_of):
    out = out_of(box([0.3, 0.2, 0.4]), inside=(0.42, 0.24))
    places = {round(float(np.degrees(place.angle))): place for place in out.warm.places}
    assert places[0].thickness == pytest.approx(0.06)
    assert places[90].thickness == pytest.approx(0.02)
    assert places[0].inward == pytest.approx(3 * places[90].inward)
    assert out.warm.thin_in == pytest.approx(places[90].inward)
    assert [place.thickness for place in out.warm.places] == pytest.approx([0.06, 0.06, 0.02, 0.02])


def test_the_waist_is_where_thick_rubber_comes_in(out_of, waist):
    first = out_of(waist).warm.places[0]
    assert first.height == pytest.approx(0.15, abs=0.005)
    assert first.thickness == pytest.approx(0.05, abs=0.001)


def test_cold_rubber_does_not_show(out_of, waist):
    assert out_of(waist).warm.shows
    assert not out_of(waist, warmer=0.5).warm.shows
