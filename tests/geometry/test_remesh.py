"""A surface made anew is closed, crosses nothing, and lies within its tolerance."""

import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry import (
    Mesh,
    box,
    cell_fractions,
    find_faults,
    joined,
    measure,
    read_mesh,
    remeshed,
    repaired,
)
from pourwright.geometry.connectivity import edges_of
from pourwright.geometry.grid import Grid
from pourwright.geometry.repairs import deviation_kernels, remesh_kernels
from pourwright.geometry.repairs.deviation import deviation
from pourwright.geometry.repairs.enclosed import enclosed_volume
from pourwright.geometry.repairs.marching import CORNERS, EDGES, triangle_table
from pourwright.geometry.repairs.remesh import MOST_TRIANGLES, STEP
from tests.geometry.bodies import ball, torus, turned
from tests.geometry.faulty import CUBE, write_case

PAIR = joined([CUBE, CUBE.moved([0.1, 0.05, 0.03])])
PAIR_VOLUME = 2 * 0.008 - 0.1 * 0.15 * 0.17


@pytest.mark.parametrize(
    ("mesh", "volume"),
    [(PAIR, PAIR_VOLUME), (turned(PAIR, 4), PAIR_VOLUME), (torus(), measure(torus()).volume)],
)
def test_closed_sound_and_near(mesh, volume):
    """The volume of two boxes by inclusion and exclusion; chords and cut corners cost under 0.3 %."""
    made = remeshed(mesh, 0.006)
    assert find_faults(made) == ()
    assert measure(made).volume == pytest.approx(volume, rel=3e-3)
    assert deviation(mesh, made)[0] <= 0.006


def test_the_error_falls_with_the_square_of_the_tolerance():
    """Chords of a round body: four times as good at half the step."""
    body = ball(0.1, 5)
    errors = [abs(measure(remeshed(body, t)).volume / measure(body).volume - 1) for t in (0.016, 0.008)]
    assert errors[1] < errors[0] / 2


def test_flat_places_lie_on_the_old_surface():
    made = remeshed(turned(box([0.2, 0.2, 0.2]), 7), 0.01)
    whole = turned(box([0.2, 0.2, 0.2]), 7)
    farthest, _ = deviation(made, whole)
    # corners of the new surface stand on the old one, but for those that keep off a lattice point
    assert farthest < 0.06 * 0.01


def test_a_body_that_crosses_itself_is_mended_on_request(tmp_path):
    mesh = read_mesh(write_case("self-intersecting body", tmp_path), "mm")
    found = repaired(mesh, tolerance=0.002)
    assert [fault for fault in found.faults if fault.refused] == []
    once = enclosed_volume(mesh)[0]
    assert measure(found.mesh).volume == pytest.approx(once, rel=5e-3)
    assert measure(mesh).volume > 1.01 * once
    told = found.mendings[-1]
    assert told.kind == "remeshed"
    assert told.lengths[1] < 0.002
    assert "made anew within 2 mm" in told.sentence("mm")


def test_an_open_surface_is_refused_also_on_request():
    open_box = Mesh(CUBE.vertices, CUBE.faces[4:])
    assert repaired(open_box, tolerance=0.01).faults[0].kind == "open"


def test_cavities_stay():
    room = joined([CUBE, ball(0.06, center=(0, 0, 0.1)).reversed()])
    assert measure(remeshed(room, 0.005)).volume == pytest.approx(measure(room).volume, rel=3e-3)


def test_too_fine_a_tolerance_says_the_finest_that_fits():
    with pytest.raises(UserError, match="or coarser") as refused:
        remeshed(CUBE, 1e-5)
    finest = float(refused.value.allowed.split(" mm")[0])
    # two triangles for each square of the lattice on six sides of 200 mm
    assert 6 * 2 * (0.2 / (STEP * finest / 1000)) ** 2 < MOST_TRIANGLES


def test_every_case_of_a_cube_is_closed_by_its_neighbours():
    """Random insides: whatever the cubes draw, each edge has two triangles that agree."""
    rng = np.random.default_rng(1)
    inside = np.zeros((9, 8, 7), dtype=np.uint8)
    inside[1:-1, 1:-1, 1:-1] = rng.random((7, 6, 5)) < 0.5
    counts, table = triangle_table()
    faces, numbers = [], {}
    for cube in np.argwhere(np.ones(np.array(inside.shape) - 1)):
        case = sum(int(inside[tuple(cube + CORNERS[n])]) << n for n in range(8))
        for triangle in table[case, : counts[case]]:
            ends = [(CORNERS[[*EDGES[edge]]] + cube).ravel().tolist() for edge in triangle]
            faces.append([numbers.setdefault(tuple(end), len(numbers)) for end in ends])
    edges = edges_of(Mesh(np.zeros((len(numbers), 3)), faces))
    assert set(edges.uses.tolist()) == {2}
    assert not edges.direction.any()


def test_enclosed_volume_counts_overlaps_once_and_inside_out_apart():
    odd = joined([PAIR, box([0.1, 0.1, 0.1]).moved([0.6, 0, 0]).reversed()])
    once, inside_out = enclosed_volume(odd)
    assert once == pytest.approx(PAIR_VOLUME, rel=5e-3)
    assert inside_out == pytest.approx(0.001, rel=2e-2)


def test_enclosed_volume_is_that_of_the_cells():
    """The same body by exact fractions of cells, another method."""
    body = turned(torus(), 3)
    lower, upper = body.bounds
    grid = Grid(*(np.linspace(a - 0.01, b + 0.01, 20) for a, b in zip(lower, upper, strict=True)))
    cells = float((cell_fractions(body, grid) * grid.cell_volumes).sum())
    assert enclosed_volume(body)[0] == pytest.approx(cells, rel=1e-4)


def test_kernels_agree_with_plain_python():
    body = turned(torus(), 1)
    points = np.array([[0.2, 0.0, 0.0], [0.0, 0.0, 0.0], [0.3, 0.1, -0.02]])
    for kernel, arguments in (
        (remesh_kernels.windings_at, (body.vertices, body.faces[:200], points)),
        (deviation_kernels.distances_to, (body.triangles[:50], np.zeros((50, 4)), points)),
    ):
        assert kernel(*arguments) == pytest.approx(kernel.py_func(*arguments), rel=1e-12)


def test_distance_to_a_box_by_hand():
    box_ = box([0.2, 0.2, 0.2])
    spheres = np.concatenate([box_.triangles.mean(axis=1), np.full((12, 1), 0.3)], axis=1)
    points = np.array([[0.2, 0.0, 0.1], [0.2, 0.2, 0.1], [0.2, 0.2, 0.3], [0.0, 0.0, 0.1]])
    found = deviation_kernels.distances_to(box_.triangles, spheres, points)
    assert found == pytest.approx([0.1, 0.1 * np.sqrt(2), 0.1 * np.sqrt(3), 0.1], rel=1e-12)
