"""The wall of an open box against finite elements.

Morley's triangle, which does not share a single line with the polynomials of `bent_plate`: three edges simply
supported, one free, a liquid's load. D23 and D24 (an independent Ritz solution) hold the same two walls; 1 %.
"""

from functools import cache

import numpy as np
import pytest
import skfem
from skfem.helpers import dd, ddot, eye, trace

from pourwright.physics.plate_edges import edge_reaction, room_taken
from pourwright.physics.plates import bent_plate

NU = 0.3


@skfem.BilinearForm
def energy(u, v, w):
    """Curvatures with D = 1."""
    return ddot((1 - NU) * dd(u) + NU * eye(trace(dd(u)), 2), dd(v))


@skfem.LinearForm
def liquid(v, w):
    """q0 = 1 at the foot, nothing at the rim."""
    return (1.0 - w.x[1]) * v


@cache
def elements(ratio: float, cells: int) -> tuple[skfem.Basis, np.ndarray, np.ndarray]:
    """Deflection of a wall 1 m high by triangles, and its load less what bends it."""
    x, y = np.linspace(0, ratio, round(cells * ratio) + 1), np.linspace(0, 1, cells + 1)
    mesh = skfem.MeshTri.init_tensor(x, y).with_boundaries(
        {"held": lambda p: (p[0] < 1e-9) | (p[0] > ratio - 1e-9) | (p[1] < 1e-9)}
    )
    basis = skfem.Basis(mesh, skfem.ElementTriMorley())
    stiff, load = energy.assemble(basis), liquid.assemble(basis)
    held = basis.get_dofs("held").all("u")
    bent = skfem.solve(*skfem.condense(stiff, load, D=held))
    return basis, bent, load - stiff @ bent


def at(ratio: float, cells: int, x: float, y: float) -> float:
    """Deflection at a corner of the triangles."""
    basis, bent, _ = elements(ratio, cells)
    node = int(np.argmin(np.hypot(basis.mesh.p[0] - x, basis.mesh.p[1] - y)))
    return float(bent[basis.nodal_dofs[0, node]])


def extrapolated(ratio: float, x: float, y: float) -> float:
    """Two meshes, of which the finer has a quarter of the error."""
    coarse, fine = (at(ratio, cells, x, y) for cells in (16, 32))
    return fine + (fine - coarse) / 3.0


@pytest.mark.parametrize(("ratio", "w_rim", "w_mid"), [(1.0, 0.003679, 0.003136), (2.0, 0.0367, 0.02147)])
def test_wall_of_an_open_box(ratio: float, w_rim: float, w_mid: float) -> None:
    # D23, D24
    bent = bent_plate(ratio, 1.0, 1.0, ("supported", "supported", "supported", "free"), 1.0)
    for height, published in ((1.0, w_rim), (0.5, w_mid)):
        ours, theirs = float(bent.deflection(ratio / 2, height)), extrapolated(ratio, ratio / 2, height)
        assert ours == pytest.approx(theirs, rel=1e-4)
        assert theirs == pytest.approx(published, rel=1e-2)


@pytest.mark.parametrize("ratio", [1.0, 2.0])
def test_finer_triangles_come_nearer_by_the_square_of_their_size(ratio: float) -> None:
    bent = bent_plate(ratio, 1.0, 1.0, ("supported", "supported", "supported", "free"), 1.0)
    exact = float(bent.deflection(ratio / 2, 1.0))
    errors = [abs(at(ratio, cells, ratio / 2, 1.0) - exact) for cells in (8, 16, 32)]
    rates = np.log2(np.array(errors[:-1]) / np.array(errors[1:]))
    assert rates == pytest.approx([2.0, 2.0], abs=0.35)


@pytest.mark.parametrize("ratio", [1.0, 2.0])
def test_what_the_edges_carry(ratio: float) -> None:
    """Nodal reactions away from the corners, summed over the middle half of each held edge; 0.1 %."""
    basis, _, left_over = elements(ratio, 32)
    bent = bent_plate(ratio, 1.0, 1.0, ("supported", "supported", "supported", "free"), 1.0)
    x, y = basis.mesh.p
    force = left_over[basis.nodal_dofs[0]]
    points, weights = np.polynomial.legendre.leggauss(20)
    for side, on, along, length in (("left", x < 1e-9, y, 1.0), ("lower", y < 1e-9, x, ratio)):
        # half of the forces at both ends of the stretch belong to it
        inner = on & (along > 0.25 * length - 1e-9) & (along < 0.75 * length + 1e-9)
        ends = inner & ((abs(along - 0.25 * length) < 1e-9) | (abs(along - 0.75 * length) < 1e-9))
        carried = force[inner].sum() - force[ends].sum() / 2
        ours = weights @ edge_reaction(bent, side, 0.5 + points / 4) * length / 4
        assert ours == pytest.approx(carried, rel=1e-3)


def test_the_room_that_the_bulge_takes() -> None:
    """Mean of the deflection at the corners of fine triangles; 1 %."""
    basis, bent, _ = elements(1.0, 32)
    weights = np.outer(*[np.r_[0.5, np.ones(31), 0.5]] * 2).ravel() / 32**2
    order = np.lexsort((basis.mesh.p[1], basis.mesh.p[0]))
    mean = float(weights @ bent[basis.nodal_dofs[0]][order])
    plate = bent_plate(1.0, 1.0, 1.0, ("supported", "supported", "supported", "free"), 1.0)
    assert room_taken(plate) == pytest.approx(mean, rel=1e-2)
