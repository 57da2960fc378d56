"""Lean, undercut and thickness of bodies whose values follow from how they are drawn."""

import numpy as np
import pytest

from pourwright.app.viewing.tints import Tinting, tinted
from pourwright.geometry import Mesh, box, cone, joined
from pourwright.geometry.drawn.joining import Joining
from pourwright.geometry.shown import thinned


def tinting(mesh: Mesh) -> Tinting:
    return Tinting(mesh, tinted(mesh), 0.0)


def sides(mesh: Mesh) -> dict[str, np.ndarray]:
    """Faces of a box by the way they look."""
    normals = mesh.area_vectors / np.linalg.norm(mesh.area_vectors, axis=1)[:, None]
    return {
        "walls": np.abs(normals[:, 2]) < 0.5, "floor": normals[:, 2] < -0.5, "mouth": normals[:, 2] > 0.5,
    }  # fmt: skip


def test_a_box_stands_upright_and_its_mouth_touches_no_mold():
    made = tinting(box([0.2, 0.1, 0.05]))
    draft, faces = made.values("draft"), sides(made.faces)
    assert np.abs(draft[faces["walls"]]).max() < 1e-4
    assert draft[faces["floor"]] == pytest.approx(90.0)
    assert np.isnan(draft[faces["mouth"]]).all()
    assert made.values("undercut").max() == 0.0


def test_a_plate_is_as_thick_as_it_is_drawn():
    made = tinting(box([0.2, 0.1, 0.01]))
    thickness, faces = made.values("thickness"), sides(made.faces)
    assert thickness[faces["floor"]] == pytest.approx(0.01, rel=1e-4)
    assert thickness[faces["mouth"]] == pytest.approx(0.01, rel=1e-4)
    across = (
        np.linalg.norm(made.faces.area_vectors[faces["walls"]] @ np.diag([1.0, 0.0, 0.0]), axis=1) > 1e-12
    )
    assert thickness[faces["walls"]][across] == pytest.approx(0.2, rel=1e-4)
    assert thickness[faces["walls"]][~across] == pytest.approx(0.1, rel=1e-4)


def test_a_cone_that_narrows_to_its_mouth_is_undercut_by_the_difference_of_its_radii():
    made = tinting(cone(0.10, 0.07, 0.12))
    draft, undercut = made.values("draft"), made.values("undercut")
    normals = made.faces.area_vectors / np.linalg.norm(made.faces.area_vectors, axis=1)[:, None]
    walls = np.abs(normals[:, 2]) < 0.5
    assert draft[walls] == pytest.approx(-np.degrees(np.arctan2(0.03, 0.12)), abs=0.02)
    # columns along the pull stand a little apart
    assert undercut[walls].max() == pytest.approx(0.03, abs=0.002)
    assert (undercut[walls] > 0.025).mean() > 0.95
    assert undercut[~walls].max() == 0.0


def test_a_cone_that_widens_to_its_mouth_comes_straight_out():
    made = tinting(cone(0.07, 0.10, 0.12))
    assert made.values("undercut").max() == 0.0
    walls = np.abs(made.values("draft") - np.degrees(np.arctan2(0.03, 0.12))) < 0.02
    areas = np.linalg.norm(made.faces.area_vectors, axis=1)
    assert areas[walls].sum() == pytest.approx(np.pi * 0.17 * np.hypot(0.03, 0.12), rel=1e-3)


def test_only_the_undercut_that_is_behind_something_has_its_reach():
    """A block with a slot in one wall: 40 mm deep, 10 mm high, roof and floor level."""
    body = Joining()
    body.add(box([0.20, 0.20, 0.10]))
    body.cut(box([0.08, 0.21, 0.01]).moved([0.10, 0.0, 0.05]))
    made = tinting(body.body())
    undercut = made.values("undercut")
    normals = made.faces.area_vectors / np.linalg.norm(made.faces.area_vectors, axis=1)[:, None]
    low = made.faces.triangles[:, :, 2].mean(axis=1)
    floor = (normals[:, 2] > 0.9) & (np.abs(low - 0.05) < 1e-6)
    assert undercut[floor].max() == pytest.approx(0.04, abs=0.002)
    assert undercut[~floor].max() == 0.0


def test_what_is_shown_of_a_fine_body_has_the_thickness_of_the_whole_one():
    """A hollow ball of fine triangles: shown with a tenth of them, its wall is still 12 mm."""
    ball, inner = _ball(0.1), _ball(0.088)
    whole = joined([ball, inner.reversed()])
    few = thinned(whole, len(whole.faces) // 10)
    assert len(few.mesh.faces) <= len(whole.faces) // 10
    found = Tinting(whole, few.mesh, few.off).values("thickness")
    # facets of the whole lie inside the balls they were made from by this much
    sag = 0.1 * (1 - np.cos(np.pi / 128))
    assert np.isfinite(found).mean() > 0.999
    assert np.nanmedian(found) == pytest.approx(0.012, abs=sag)
    assert np.nanmin(found) > 0.011
    assert np.nanpercentile(found, 99) < 0.0125


def _ball(radius: float) -> Mesh:
    """A ball of meridians and parallels."""
    around, rows = 256, 128
    angle, polar = 2 * np.pi * np.arange(around) / around, np.pi * np.arange(1, rows) / rows
    x, y = np.outer(np.sin(polar), np.cos(angle)), np.outer(np.sin(polar), np.sin(angle))
    z = np.repeat(np.cos(polar)[:, None], around, axis=1)
    points = np.concatenate([np.stack([x, y, z], axis=-1).reshape(-1, 3), [[0, 0, 1], [0, 0, -1]]])
    here, beside = np.arange(around), np.roll(np.arange(around), -1)
    faces = [np.stack([np.full(around, len(points) - 2), here, beside], axis=1)]
    for row in range(rows - 2):
        a, b = row * around + here, row * around + beside
        c, d = a + around, b + around
        faces += [np.stack([a, c, b], axis=1), np.stack([b, c, d], axis=1)]
    last = (rows - 2) * around
    faces.append(np.stack([np.full(around, len(points) - 1), last + beside, last + here], axis=1))
    return Mesh(radius * points, np.concatenate(faces))
