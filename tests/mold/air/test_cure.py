"""What lets caught air out: tilts, vents, the other way."""

import numpy as np
import pytest
from scipy.optimize import brentq

from pourwright.geometry import Mesh, box, level_volume, revolve
from pourwright.geometry.drawn.joining import as_manifold, as_mesh
from pourwright.mold.air.ceilings import level_ceilings
from pourwright.mold.air.defaults import AIR
from pourwright.mold.air.design import AirCase, design_air
from pourwright.mold.air.places import caught_by
from pourwright.mold.air.rising import Rising
from pourwright.mold.air.simpler import simpler
from pourwright.mold.air.tilting import Tilting
from pourwright.mold.air.vents import vent_from
from tests.mold.air.bodies import FINE, OVER, SHAPES, cavity_over, chamber, cone_holds, master_over, met

RADIUS, RISE = 0.05, 0.008
LEAST = 0.5e-6
BOX = {"inside": (0.4, 0.24), "outside": (0.44, 0.28), "box_height": 0.5, "least_mouth": 0.1}


def designed(mesh, **choices):
    return design_air(AirCase(mesh=mesh, master=mesh, **choices, **BOX))


def flat_cone():
    """A shallow conical ceiling, 9 degrees steep, over a plug."""
    return revolve([[RADIUS, -0.01], [RADIUS, 0.0], [0.0, RISE]], FINE)


MADE = {
    "casting": lambda: Rising(cavity_over(flat_cone()), "casting"),
    "hung": lambda: Rising(master_over(flat_cone()), "hung"),
    "screwed": lambda: Rising(master_over(flat_cone()).transformed(OVER), "screwed"),
}


@pytest.fixture(scope="module", params=list(MADE))
def tilting(request):
    return Tilting(MADE[request.param](), LEAST, (0.44, 0.28), (0.4, 0.24))


@pytest.mark.parametrize("degrees", [0.0, 3.0, 6.0])
def test_a_leaning_cone(tilting, degrees):
    found = sum(pocket.volume for pocket in tilting.pockets(0.0, np.radians(degrees)))
    assert found == pytest.approx(cone_holds(np.radians(degrees), RADIUS, RISE), rel=0.01)


def test_least_tilt_of_a_cone_is_that_of_the_closed_form(tilting):
    (place,) = caught_by(tilting.rising, LEAST).places
    tilt = tilting.least_tilt(place.corners)
    wanted = brentq(
        lambda angle: cone_holds(angle, RADIUS, RISE) - LEAST, 0.0, np.arctan(RISE / RADIUS) - 1e-6
    )
    # the mesh's rim is a polygon; halving stops at a twentieth of a degree
    assert np.degrees(tilt.least) == pytest.approx(np.degrees(wanted), abs=0.15)
    assert np.degrees(tilt.angle) == pytest.approx(np.ceil(np.degrees(wanted)))
    assert tilt.left < LEAST
    assert tilting.left(place.corners, tilt.side, tilt.angle) == tilt.left
    assert tilting.left(place.corners, tilt.side, 0.9 * tilt.least) > LEAST


def test_chock_is_the_rise_of_the_lifted_side(tilting):
    (place,) = caught_by(tilting.rising, LEAST).places
    tilt = tilting.least_tilt(place.corners)
    across = 0.44 if abs(np.cos(tilt.side)) > 0.5 else 0.28
    assert tilt.chock == pytest.approx(across * np.sin(tilt.angle), rel=1e-9)


def test_the_level_that_ends_a_tilted_casting_covers_the_place():
    rising = MADE["casting"]()
    tilting = Tilting(rising, LEAST, (0.44, 0.28), (0.4, 0.24))
    (place,) = caught_by(rising, LEAST).places
    tilt = tilting.least_tilt(place.corners)
    up = rising.tilted(tilt.side, tilt.angle)
    covered = float((rising.mesh.vertices[place.corners] @ up).max())
    kept = as_manifold(rising.mesh).trim_by_plane(tuple(-up), -covered * 1000)
    curve = level_volume(rising.mesh)
    assert curve.volume(curve.bottom + tilt.until) == pytest.approx(kept.volume() * 1e-9, rel=1e-6)


def test_the_mark_that_ends_a_tilted_rubber_pour_lies_on_the_low_panel():
    rising = MADE["screwed"]()
    tilting = Tilting(rising, LEAST, (0.44, 0.28), (0.4, 0.24))
    (place,) = caught_by(rising, LEAST).places
    tilt = tilting.least_tilt(place.corners)
    up, half = rising.tilted(tilt.side, tilt.angle), 0.2 if abs(np.cos(tilt.side)) > 0.5 else 0.12
    low = -half * np.array([np.cos(tilt.side), np.sin(tilt.side), 0.0])
    mark = low + (rising.board + tilt.until) * rising.up
    assert mark @ up == pytest.approx(float((rising.mesh.vertices[place.corners] @ up).max()), abs=1e-12)


def test_a_place_under_the_mouth_cannot_be_tilted_empty():
    """The casting would run over the mouth's low edge before it covers the place."""
    slab = as_manifold(box([0.3, 0.2, 0.05]).moved([0.05, 0.0, -0.05])) + as_manifold(flat_cone())
    lefts = []
    for high in (0.06, 0.3):
        shaft = box([0.1, 0.2, high]).moved([0.15, 0.0, -0.05])
        rising = Rising(as_mesh(slab + as_manifold(shaft)), "casting")
        (place,) = caught_by(rising, LEAST).places
        tilting = Tilting(rising, LEAST, (0.44, 0.28), (0.4, 0.24))
        lefts.append(tilting.left(place.corners, np.pi / 2, np.radians(9.0)))
    assert lefts[0] == np.inf
    assert lefts[1] < LEAST


def test_the_rim_of_the_box_bounds_the_tilt_of_a_screwed_master():
    mesh = master_over(flat_cone()).transformed(OVER)
    place = caught_by(Rising(mesh, "screwed"), LEAST).places[0]
    lefts = []
    for high in (0.02, 0.2):
        rim = np.array([[x, y, 0.03 - high] for x in (-0.12, 0.12) for y in (-0.12, 0.12)])
        rising = Rising(mesh, "screwed", rim)
        lefts.append(
            Tilting(rising, LEAST, (0.28, 0.28), (0.24, 0.24)).left(place.corners, 0.0, np.radians(9))
        )
    assert lefts[0] == np.inf
    assert lefts[1] < LEAST


def test_where_the_board_closes_the_way_no_tilt_is_told():
    """A lid on three walls: lifted at its back, air could only leave under the board."""
    walls = as_manifold(box([0.2, 0.2, 0.1])) - as_manifold(box([0.16, 0.16, 0.06]))
    gate = box([0.1, 0.16, 0.05]).moved([0.1, 0.0, 0.0])
    lid = as_mesh(walls - as_manifold(gate)).transformed(OVER)
    rising = Rising(lid, "screwed")
    (place,) = caught_by(rising, LEAST).places
    assert place.volume == pytest.approx(0.16 * 0.16 * 0.01, rel=1e-6)
    tilting = Tilting(rising, LEAST, (0.3, 0.3), (0.24, 0.24))
    assert tilting.left(place.corners, np.pi, np.radians(40)) == np.inf


@pytest.mark.parametrize("name", SHAPES)
def test_a_vent_at_the_top_empties_a_place(name):
    rising = Rising(cavity_over(chamber(*SHAPES[name], steps=30)), "casting")
    (place,) = caught_by(rising, LEAST).places
    vent = vent_from(rising, place.top)
    assert vent.length == pytest.approx(0.35 - place.top[2])
    assert vent.volume == pytest.approx(np.pi / 4 * AIR["bore"].value ** 2 * vent.length)
    assert not vent.ends_inside
    opened = rising.mouth | (np.linalg.norm(rising.mesh.vertices - place.top, axis=1) < 1e-9)
    left = rising.surface.pockets(np.eye(3), outside=False, opened=opened)
    assert sum(pocket.volume for pocket in left) < 1e-12


def test_a_vent_through_the_master_ends_at_its_open_face():
    rising = Rising(master_over(chamber(*SHAPES["cup"], steps=5)), "hung")
    (place,) = caught_by(rising, LEAST).places
    vent = vent_from(rising, place.top)
    assert (vent.length, vent.ends_inside) == (pytest.approx(0.15 - 0.08), False)


def test_a_vent_may_end_in_the_cavity_again():
    """A second slab over the room: the vent leads into it."""
    over = box([0.3, 0.2, 0.05]).moved([0.05, 0.0, 0.2])
    mesh = as_mesh(as_manifold(cavity_over(chamber(*SHAPES["cup"], steps=5))) + as_manifold(over))
    rising = Rising(mesh, "casting")
    (place,) = caught_by(rising, LEAST).places
    vent = vent_from(rising, place.top)
    assert (vent.length, vent.ends_inside) == (pytest.approx(0.12), True)


def test_a_bell_is_held_the_other_way():
    """A cup too deep to be tilted: hung it keeps its air, turned over it does not."""
    cup = revolve([[0.05, 0.0], [0.05, 0.1], [0.04, 0.1], [0.04, 0.02]], 64).transformed(OVER)
    air = designed(cup.moved([0, 0, 0.1]), method="hung")
    (cure,) = air.rubber.cures[:1]
    assert (cure.take, cure.tilt, air.rubber.other_way) == ("other way", None, True)
    assert air.casting.caught.places == ()


def test_a_shallow_cone_is_tilted_where_the_other_way_is_free_too():
    cone = revolve([[0.07, 0.0], [0.07, 0.1]], 64)
    dent = revolve([[RADIUS, -0.01], [RADIUS, 0.0], [0.0, 0.004]], 64)
    mesh = as_mesh(as_manifold(cone) - as_manifold(dent))
    (cure, *_) = designed(mesh, method="hung").rubber.cures
    assert cure.take == "tilt"
    assert np.degrees(cure.tilt.angle) <= 5


def test_a_level_ceiling_is_tilted_so_far_that_bubbles_creep():
    mesh = box([0.3, 0.2, 0.1])
    air = designed(mesh, method="hung")
    (cure,) = air.rubber.cures
    assert cure.place.area == pytest.approx(0.06)
    assert cure.place.middle == pytest.approx([0.0, 0.0, 0.0], abs=1e-12)
    assert (cure.take, np.degrees(cure.tilt.angle)) == ("tilt", pytest.approx(4.0, abs=1.01))
    # the master itself is let down aslant, its short way
    assert cure.tilt.chock == pytest.approx(0.2 * np.sin(cure.tilt.angle))
    assert designed(mesh, method="screwed").rubber.cures == ()
    assert designed(mesh, method="screwed", rubber=False).rubber is None


def test_the_roof_of_caught_air_is_no_ceiling_of_its_own():
    rising = Rising(master_over(chamber(*SHAPES["cup"], steps=5)), "hung")
    places = caught_by(rising, LEAST).places
    heights = [round(float(one.middle[2]), 6) for one in level_ceilings(rising, places)]
    assert 0.08 not in heights
    assert 0.0 in heights


def test_a_rough_underside_is_one_ceiling_and_a_shallow_cone_is_none():
    """Noise of 0.1 mm turns single faces by more than a degree; a cone of 2 degrees lets bubbles creep."""
    sides = np.linspace(-0.1, 0.1, 21)
    x, y = np.meshgrid(sides, sides, indexing="ij")
    rough = np.random.default_rng(0).normal(0.0, 1e-4, x.shape)
    cone = np.tan(np.radians(2.0)) * np.hypot(x, y)
    for under, wanted in ((rough, 1), (cone, 0)):
        slab = _slab(x, y, under)
        found = level_ceilings(Rising(slab, "hung"))
        assert len(found) == wanted
        assert all(ceiling.area == pytest.approx(0.04, rel=0.01) for ceiling in found)


def _slab(x, y, under):
    """A square slab over an underside given by its heights."""
    count = x.shape[0]
    number = np.arange(count**2).reshape(count, count)
    a, b, c, d = number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]
    top = np.concatenate([np.stack(t, axis=-1).reshape(-1, 3) for t in ((a, b, c), (a, c, d))])
    low = np.column_stack([x.ravel(), y.ravel(), under.ravel()])
    high = np.column_stack([x.ravel(), y.ravel(), np.full(count**2, 0.1)])
    rim = np.concatenate([number[:, 0], number[-1, 1:], number[-2::-1, -1], number[0, -2:0:-1]])
    after = np.roll(rim, -1)
    walls = [
        np.column_stack([rim, after, after + count**2]),
        np.column_stack([rim, after + count**2, rim + count**2]),
    ]
    return Mesh(np.concatenate([low, high]), np.concatenate([top[:, ::-1], top + count**2, *walls]))


def test_a_simpler_mesh_holds_as_much_air():
    mesh = met("bell", "hung")
    small = simpler(mesh)
    assert len(small.faces) < 0.8 * len(mesh.faces)
    one, other = (caught_by(Rising(each, "hung"), LEAST).volume for each in (mesh, small))
    assert other == pytest.approx(one, rel=0.01)
