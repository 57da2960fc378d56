"""Inserts in a piece: distances against closed forms, what is refused, what floats."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import box, cone
from pourwright.mold.hollow.insert import InsertChoice, apart, least_edge, lift_of
from pourwright.mold.hollow.insert_place import placed

MM = UnitSystem.METRIC
PIECE = box([0.2, 0.16, 0.12])
CORE = box([0.12, 0.08, 0.08]).moved([0.0, 0.0, 0.04])
LEG = InsertChoice(
    name="leg", kind="socket", face="bottom", at=(0.05, 0.03), diameter=0.01, depth=0.02, where="job.toml:9"
)
WIRE = replace(LEG, name="wire", kind="tube", face="left", at=(0.0, 0.07), diameter=0.008, depth=None)


def test_a_leg_in_a_box_has_the_distances_of_the_box() -> None:
    found = placed(LEG, PIECE, None, 0.0, MM)
    assert found.edge == pytest.approx(0.08 - 0.03, abs=1e-6)
    assert found.beyond == pytest.approx(0.12 - 0.02, abs=1e-6)
    assert found.entry == pytest.approx([0.05, 0.03, 0.0], abs=1e-6)
    assert found.end == pytest.approx([0.05, 0.03, 0.02], abs=1e-6)
    assert not found.beside_core


def test_an_insert_in_a_cylinder_is_as_far_from_its_edge_as_the_radius_leaves() -> None:
    found = placed(replace(LEG, at=(0.03, 0.04)), cone(0.1, 0.1, 0.1, 256), None, 0.0, MM)
    # 256 facets lie up to 0.01 mm inside the circle
    assert found.edge == pytest.approx(0.1 - 0.05, abs=2e-5)


@given(st.floats(-0.07, 0.07), st.floats(-0.05, 0.05), st.sampled_from(["top", "bottom"]))
@settings(max_examples=25, deadline=None)
def test_the_edge_is_the_nearest_of_four_sides(x: float, y: float, face: str) -> None:
    found = placed(replace(LEG, at=(x, y), face=face), PIECE, None, 0.0, MM)
    assert found.edge == pytest.approx(min(0.1 - abs(x), 0.08 - abs(y)), abs=1e-6)
    assert found.depth == 0.02


def test_a_wire_runs_to_the_core_or_right_through() -> None:
    to_core, through = placed(WIRE, PIECE, CORE, 0.0, MM), placed(WIRE, PIECE, None, 0.0, MM)
    assert (to_core.ends, through.ends) == ("core", "face")
    assert to_core.depth == pytest.approx(0.04, abs=1e-6)
    assert through.depth == pytest.approx(0.2, abs=1e-6)


def test_the_core_is_an_edge_too() -> None:
    # 20 mm from the side of the piece, 15 mm from the side of the core
    leg = replace(LEG, face="top", at=(0.075, 0.0), diameter=0.006)
    found = placed(leg, PIECE, CORE, 0.0, MM)
    assert found.beside_core
    assert found.edge == pytest.approx(0.015, abs=1e-6)


@pytest.mark.parametrize(
    ("choice", "words"),
    [
        (replace(LEG, at=(0.15, 0.0)), ("outside the piece", "x from -100 mm to 100 mm")),
        (replace(LEG, at=(0.09, 0.0)), ("too near the edge", "25 mm or more")),
        (replace(LEG, face="top", at=(0.0, 0.0)), ("where the core is", "wall around the core")),
        (replace(LEG, at=(0.0, 0.0), depth=0.035), ("35 mm deep", "the core lies 40 mm in", "up to 30 mm")),
        (replace(LEG, at=(0.08, 0.05), depth=0.13), ("face behind it", "up to 110 mm")),
    ],
)
def test_what_cannot_be_set_in_is_refused_with_line_and_reason(
    choice: InsertChoice, words: tuple[str, ...]
) -> None:
    with pytest.raises(UserError) as refused:
        placed(choice, PIECE, CORE, 0.0, MM)
    text = str(refused.value)
    assert text.startswith("job.toml:9")
    assert all(word in text for word in words), text


def test_a_socket_needs_diameters_and_a_tube_room_for_grains() -> None:
    # 2.5 diameters, common practice; half a tube and 1.5 grains of 8 mm
    assert least_edge(replace(LEG, diameter=0.02), 0.0) == pytest.approx(0.05)
    assert least_edge(WIRE, 0.008) == pytest.approx(0.004 + 0.012)
    assert least_edge(WIRE, 0.0) == pytest.approx(0.004 + 0.006)


def test_a_plugged_tube_is_lifted_as_archimedes_says_and_steel_sinks() -> None:
    wire = placed(replace(WIRE, mass=0.002), PIECE, CORE, 0.0, MM)
    room = np.pi / 4 * 0.008**2 * 0.04
    assert lift_of(wire, 1100.0) == pytest.approx((1100.0 * room - 0.002) * 9.80665, rel=1e-4)
    assert lift_of(placed(LEG, PIECE, None, 0.0, MM), 1900.0) < 0.0


def test_clear_distance_of_two_rods() -> None:
    one = placed(LEG, PIECE, None, 0.0, MM)
    other = placed(replace(LEG, at=(0.02, 0.03), diameter=0.012), PIECE, None, 0.0, MM)
    assert apart(one, other) == pytest.approx(0.03 - 0.011, abs=1e-6)
    assert apart(one, one) < 0.0
