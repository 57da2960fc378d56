"""Plates of the mold's box.

D06 to D18: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959, Tables 8, 35, 38 and
art. 31, values from memory and recomputed independently; tolerance 0.5 to 1 %. D19 to D24: open-top box walls
(art. 36 and 46), an independent Ritz solution; 1 to 2 %. D27: D = E t^3 / (12 (1 - nu^2)), 1e-5.
"""

import numpy as np
import pytest

from pourwright.physics.plate_edges import edge_reaction, largest_moment, twist
from pourwright.physics.plates import BentPlate, Edge, bent_plate, plate_stiffness

ALL_SUPPORTED: tuple[Edge, ...] = ("supported",) * 4
ALL_CLAMPED: tuple[Edge, ...] = ("clamped",) * 4


def square_on(ratio: float, edges: tuple[Edge, ...], foot: float, top: float) -> BentPlate:
    """A plate with its short side 1 m along x, or growing pressure along y."""
    return bent_plate(1.0, ratio, 1.0, edges, foot, top)


@pytest.mark.parametrize(
    ("ratio", "w", "m_x", "m_y"),
    [
        pytest.param(1.0, 0.00406, 0.0479, 0.0479, id="D06"),
        pytest.param(1.2, 0.00564, 0.0627, 0.0501, id="D07"),
        pytest.param(2.0, 0.01013, 0.1017, 0.0464, id="D09"),
        pytest.param(3.0, 0.01223, 0.1189, 0.0406, id="D10"),
    ],
)
def test_supported_all_round(ratio: float, w: float, m_x: float, m_y: float) -> None:
    # D06, D07, D09, D10
    bent = square_on(ratio, ALL_SUPPORTED, 1.0, 1.0)
    assert float(bent.deflection(0.5, ratio / 2)) == pytest.approx(w, rel=5e-3)
    along_x, along_y = bent.moments(0.5, ratio / 2)
    assert float(along_x) == pytest.approx(m_x, rel=5e-3)
    assert float(along_y) == pytest.approx(m_y, rel=5e-3)


@pytest.mark.parametrize(
    ("ratio", "w", "m_edge"),
    [pytest.param(1.0, 0.00126, -0.0513, id="D11"), pytest.param(2.0, 0.00254, -0.0829, id="D13")],
)
def test_clamped_all_round(ratio: float, w: float, m_edge: float) -> None:
    # D11, D13
    bent = square_on(ratio, ALL_CLAMPED, 1.0, 1.0)
    assert float(bent.deflection(0.5, ratio / 2)) == pytest.approx(w, rel=1e-2)
    assert float(bent.moments(0.0, ratio / 2)[0]) == pytest.approx(m_edge, rel=1e-2)


@pytest.mark.parametrize(
    ("ratio", "w", "m_x", "m_y"),
    [
        pytest.param(1.0, 0.0020312, 0.023943, 0.023943, id="D14"),
        pytest.param(2.0, 0.0050643, 0.050841, 0.023175, id="D16"),
    ],
)
def test_supported_under_a_growing_load(ratio: float, w: float, m_x: float, m_y: float) -> None:
    # D14, D16: the load grows along the short side
    bent = bent_plate(ratio, 1.0, 1.0, ALL_SUPPORTED, 1.0)
    assert float(bent.deflection(ratio / 2, 0.5)) == pytest.approx(w, rel=5e-3)
    along_x, along_y = bent.moments(ratio / 2, 0.5)
    assert float(along_y) == pytest.approx(m_x, rel=5e-3)
    assert float(along_x) == pytest.approx(m_y, rel=5e-3)


@pytest.mark.parametrize(
    ("ratio", "w", "m_edge"),
    [pytest.param(1.0, 0.0006327, -0.033435, id="D17"), pytest.param(2.0, 0.001266, -0.049745, id="D18")],
)
def test_clamped_under_a_growing_load(ratio: float, w: float, m_edge: float) -> None:
    # D17, D18
    bent = bent_plate(ratio, 1.0, 1.0, ALL_CLAMPED, 1.0)
    assert float(bent.deflection(ratio / 2, 0.5)) == pytest.approx(w, rel=1e-2)
    assert float(bent.moments(ratio / 2, 0.0)[1]) == pytest.approx(m_edge, rel=1e-2)


@pytest.mark.parametrize(
    ("ratio", "w_top", "w_mid", "m_bottom", "m_side"),
    [
        pytest.param(1.0, 0.0005733, 0.0007975, -0.03495, -0.02971, id="D19"),
        pytest.param(1.5, 0.003215, 0.002296, -0.06051, -0.04261, id="D20"),
        pytest.param(2.0, 0.008172, 0.004352, -0.0866, -0.05006, id="D21"),
        pytest.param(3.0, 0.01946, 0.008388, -0.1293, -0.05554, id="D22"),
    ],
)
def test_clamped_wall_of_an_open_box(
    ratio: float, w_top: float, w_mid: float, m_bottom: float, m_side: float
) -> None:
    # D19, D20, D21, D22
    bent = bent_plate(ratio, 1.0, 1.0, ("clamped", "clamped", "clamped", "free"), 1.0)
    middle = ratio / 2
    assert float(bent.deflection(middle, 1.0)) == pytest.approx(w_top, rel=2e-2)
    assert float(bent.deflection(middle, 0.5)) == pytest.approx(w_mid, rel=2e-2)
    assert float(bent.moments(middle, 0.0)[1]) == pytest.approx(m_bottom, rel=2e-2)
    assert float(bent.moments(0.0, 0.5)[0]) == pytest.approx(m_side, rel=2e-2)


@pytest.mark.parametrize(
    ("ratio", "w_top", "m_top", "w_mid"),
    [
        pytest.param(1.0, 0.003679, 0.03251, 0.003136, id="D23"),
        pytest.param(2.0, 0.0367, 0.07884, 0.02147, id="D24"),
    ],
)
def test_supported_wall_of_an_open_box(ratio: float, w_top: float, m_top: float, w_mid: float) -> None:
    # D23, D24
    bent = bent_plate(ratio, 1.0, 1.0, ("supported", "supported", "supported", "free"), 1.0)
    middle = ratio / 2
    assert float(bent.deflection(middle, 1.0)) == pytest.approx(w_top, rel=1e-2)
    assert float(bent.moments(middle, 1.0)[0]) == pytest.approx(m_top, rel=1e-2)
    assert float(bent.deflection(middle, 0.5)) == pytest.approx(w_mid, rel=1e-2)


def test_stiffness_of_a_panel() -> None:
    # D27
    assert plate_stiffness(2.5e9, 0.018, 0.3) == pytest.approx(1335.16, rel=1e-5)


def test_navier_s_series_off_the_middle() -> None:
    """Navier's double sine series for a plate supported all round, at places off the middle."""
    a, b, q = 0.7, 1.1, 3.0
    bent = bent_plate(a, b, 2.0, ALL_SUPPORTED, q, q)
    odd = np.arange(1, 400, 2)
    m, n = np.meshgrid(odd, odd, indexing="ij")
    weights = 16 * q / (np.pi**6 * 2.0 * m * n * ((m / a) ** 2 + (n / b) ** 2) ** 2)
    for x, y in ((0.1, 0.2), (0.35, 0.9), (0.5, 0.55)):
        exact = float((weights * np.sin(m * np.pi * x / a) * np.sin(n * np.pi * y / b)).sum())
        assert float(bent.deflection(x, y)) == pytest.approx(exact, rel=1e-6)


def test_a_long_strip_is_a_beam() -> None:
    """Far from its free ends a plate on two supports bends as a beam: 5 q L^4 / (384 D)."""
    bent = bent_plate(1.0, 6.0, 1.0, ("supported", "supported", "free", "free"), 1.0, 1.0, poisson=0.0)
    assert float(bent.deflection(0.5, 3.0)) == pytest.approx(5.0 / 384.0, rel=1e-9)


def test_a_loose_plate_is_refused() -> None:
    with pytest.raises(ValueError, match="move as a whole"):
        bent_plate(1.0, 1.0, 1.0, ("supported", "free", "free", "free"), 1.0)


@pytest.mark.parametrize(
    ("ratio", "v_long", "v_short", "corner"), [(1.0, 0.420, 0.420, 0.065), (2.0, 0.503, 0.496, 0.092)]
)
def test_edges_of_a_plate_supported_all_round(
    ratio: float, v_long: float, v_short: float, corner: float
) -> None:
    """Timoshenko's Table 8: edge forces in q a and the pull at a corner in q a^2, from memory; 0.5 %."""
    bent = square_on(ratio, ALL_SUPPORTED, 1.0, 1.0)
    assert float(edge_reaction(bent, "left", 0.5)) == pytest.approx(v_long, rel=5e-3)
    assert float(edge_reaction(bent, "upper", 0.5)) == pytest.approx(v_short, rel=5e-3)
    assert 2 * abs(float(twist(bent, 0.0, 0.0))) == pytest.approx(corner, rel=1e-2)


@pytest.mark.parametrize("ratio", [0.5, 1.0, 2.0])
def test_edges_and_corners_carry_the_whole_load(ratio: float) -> None:
    """q0 h / 2 for each metre of a wall with a free rim; the corners pull it back, the rim bears nothing."""
    bent = bent_plate(ratio, 1.0, 1.0, ("supported", "supported", "supported", "free"), 1.0)
    points, weights = np.polynomial.legendre.leggauss(40)
    share = (points + 1) / 2
    on = {side: float(weights @ edge_reaction(bent, side, share)) / 2 for side in ("left", "right", "lower")}
    corners = [-1, 1, 1, -1] @ np.array([2 * float(twist(bent, x, y)) for y in (0, 1) for x in (0, ratio)])
    assert on["left"] + on["right"] + on["lower"] * ratio + corners == pytest.approx(ratio / 2, rel=2e-3)
    assert edge_reaction(bent, "upper", share) == pytest.approx(np.zeros(40), abs=5e-3)


def test_the_largest_moment_of_a_square_plate_is_in_its_middle_or_at_its_corners() -> None:
    """0.0479 q a^2 in the middle; at the corners the twist alone, half of 0.065."""
    assert largest_moment(square_on(1.0, ALL_SUPPORTED, 1.0, 1.0)) == pytest.approx(0.0479, rel=5e-3)
