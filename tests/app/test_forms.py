"""Shapes written in the job file: from text to body, what is told of them, and where they go wrong."""

import re
import tomllib
from pathlib import Path

import numpy as np
import pytest

from pourwright.app.shaping.piece import shape_of
from pourwright.app.starting import new_job
from pourwright.foundation.errors import UserError
from pourwright.geometry import measure
from pourwright.jobs import input_hashes, load_shape
from tests.contracts.house import ROOT
from tests.geometry.bodies import hourglass
from tests.geometry.drawings import dxf_bytes, stadium

PAGE = (ROOT / "docs" / "draw-a-shape.md").read_text("utf8")
BOWL, TRAY, SLAB = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
(DRAWING,) = re.findall(r"```svg\n(.*?)```", PAGE, re.DOTALL)


@pytest.fixture
def shaped(tmp_path):
    def make(text, **files):
        for name, content in files.items():
            (tmp_path / name.replace("_", ".")).write_bytes(content)
        job = tmp_path / "piece.toml"
        job.write_text(text if text.startswith("format") else f"format = 1\n{text}", "utf8")
        return shape_of(load_shape(job))

    return make


def test_the_bowl_of_the_page(shaped):
    found = shaped(BOWL)
    size = measure(found.mesh)
    assert f"{1e6 * size.volume:.0f} ml" in PAGE
    assert f"{1000 * size.size[0]:.1f} mm wide and {1000 * size.size[2]:.1f} mm high" in PAGE
    assert found.noted == (
        "arcs and circles are drawn as short straight pieces within 0.05 mm of the true line",
    )


def test_the_tray_of_the_page(shaped):
    """Prism with round corners and a rounded top, less a rounded box cut off at the top (closed forms)."""
    found = shaped(TRAY)
    corner = 1 - np.pi / 4
    outer = (360 * 240 - 4 * corner * 30**2) * 40
    # along straight edges and around the corners, the centroid of what goes is 0.2234 r off the edge
    off = corner * 16 * (2 * (300 + 180) + 2 * np.pi * (30 - 0.2234 * 4))
    a, b, r = 320 - 36, 200 - 36, 18
    upright = (a * b + 2 * r * (a + b) + np.pi * r**2) * (40 - 12 - r)
    below = a * b * r + np.pi * r**2 / 2 * (a + b) + 2 / 3 * np.pi * r**3
    assert measure(found.mesh).volume * 1e9 == pytest.approx(outer - off - upright - below, rel=2e-5)
    assert found.noted[1:] == ("of part 2, all outer edges are rounded to 18 mm, exactly",)


def test_the_slab_of_the_page(shaped, tmp_path):
    found = shaped(SLAB, slab_svg=DRAWING.encode())
    x, y, z = measure(found.mesh).size / 0.0254
    assert (x, z) == pytest.approx((14.0, 1.5), rel=1e-9)
    # a curve reaches three quarters of the way to its handles: from 2 to 0, and from 7 to 10
    assert y == pytest.approx((7 + 0.75 * 3) - (2 - 0.75 * 2), rel=1e-4)
    assert set(input_hashes(load_shape(tmp_path / "piece.toml"))) == {"piece.toml", "slab.svg"}


def test_every_form_of_the_page_is_there():
    from pourwright.jobs.shape_forms import FORMS

    assert all(f"`{form}`" in PAGE for form in FORMS)


FORMS = {
    'sphere = { diameter = "200 mm" }': 4 / 3 * np.pi * 1e-3,
    'torus = { outer_diameter = "250 mm", thickness = "50 mm" }': 2 * np.pi**2 * 0.1 * 0.025**2,
    'cone = { bottom_diameter = "0 mm", top_diameter = "200 mm", height = "0.3 m" }': np.pi * 0.001,
    'box = ["100 mm", "60 mm", "40 mm"]\nround = "20 mm"': None,
}


@pytest.mark.parametrize("text", FORMS)
def test_forms_hold_what_they_should(shaped, text):
    if FORMS[text] is None:
        with pytest.raises(
            UserError,
            match=r"piece.toml:4 shape.round: a rounding of 20.00 mm does not fit; allowed: up to 19.9 mm",
        ):
            shaped(f"[shape]\n{text}")
    else:
        assert measure(shaped(f"[shape]\n{text}").mesh).volume == pytest.approx(FORMS[text], rel=2e-4)


def test_parts_are_turned_then_moved(shaped):
    """A pin through the middle of a cube sticks out on both sides along x."""
    found = shaped(
        '[[shape.part]]\nbox = ["100 mm", "100 mm", "100 mm"]\n[[shape.part]]\n'
        'cone = { bottom_diameter = "20 mm", top_diameter = "20 mm", height = "200 mm" }\n'
        'turn = { y = "90 deg" }\nat = ["-100 mm", "0 mm", "50 mm"]\n'
    )
    lower, upper = found.mesh.bounds
    assert lower == pytest.approx([-0.1, -0.05, 0.0])
    assert upper == pytest.approx([0.1, 0.05, 0.1])


def test_a_mesh_file_as_a_part_is_rounded_within_what_is_told(shaped):
    from pourwright.geometry.files.writers import stl_bytes

    found = shaped(
        '[[shape.part]]\nfile = "post.stl"\nunit = "mm"\nround = "20 mm"\n', post_stl=stl_bytes(hourglass())
    )
    assert measure(found.mesh).volume < measure(hourglass()).volume
    assert any(re.fullmatch(r"of post.stl, all outer edges are rounded to 20 mm, within [\d.]+ mm", told)
               for told in found.noted)  # fmt: skip


def test_holes_beside_those_of_a_drawing(shaped):
    found = shaped(
        '[shape.outline]\nfile = "top.dxf"\nheight = "10 mm"\n'
        'hole = [{ at = ["20 mm", "25 mm"], diameter = "10 mm" }]\n',
        top_dxf=dxf_bytes(stadium),
    )
    area = 100 * 50 + np.pi * 25**2 / 2 - np.pi * (100 + 25)
    assert measure(found.mesh).volume == pytest.approx(area * 10 * 1e-9, rel=1e-9)


SQUARE = 'points = [["0 mm","0 mm"],["90 mm","0 mm"],["90 mm","90 mm"],["0 mm","90 mm"]]'
# ruff: noqa: E501 - a table is read more easily with one case a line
REFUSED = {
    "[shape]\npart = []": "piece.toml:3 shape.part: a list of 0",
    '[shape]\nsphere = { diameter = "1e9 m" }': "shape.sphere.diameter: '1e9 m' is too much; allowed: up to 20 m",
    '[shape]\nprofile = [["30 m", "0 m"], ["1 m", "1 m"]]': "'30 m' is too much; allowed: up to 20 m",
    '[shape]\nsphere = { diameter = "0 mm" }': "piece.toml:3 shape.sphere.diameter: '0 mm' is no size",
    '[shape]\ntorus = { outer_diameter = "90 mm", thickness = "45 mm" }':
        "piece.toml:3 shape.torus.thickness: a ring 45 mm thick has no hole",
    '[shape]\nsphere = { diameter = "90 mm" }\nround = "3 mm"': "a ball has no edges; do: leave round",
    '[shape]\nprofile = [\n["90 mm", "0 mm"],\n{ at = ["90 mm", "9 mm"], round = "12 mm" }]':
        "piece.toml:5 shape.profile[2]: a rounding of 12.00 mm does not fit; allowed: up to ",
    '[shape]\nprofile = [\n["90 mm", "0 mm"],\n{ through = ["1 mm", "1 mm"] }]':
        "piece.toml:5 shape.profile[2]: a step leads nowhere; allowed: to, or at",
    '[shape]\nprofile = [\n["90 mm", "0 mm"],\n["90 mm"]]': "piece.toml:5 shape.profile[2].to: a list of 1",
    '[shape]\nprofile = [\n["90 mm", "0 mm"],\n["0 mm", "90 mm"],\n["90 mm", "180 mm"]]':
        "piece.toml:3 shape.profile: this profile makes no solid: the profile crosses or touches itself near r = 0, h = 90 mm",
    'units = "us"\n[shape]\nprofile = [["4 in","0 in"],["8 in","8 in"],["8 in","0 in"],["4 in","8 in"]]':
        "crosses or touches itself near r = 6, h = 4 in",
    f'[shape.outline]\n{SQUARE}\nheight = "20 mm"\nround_top = "30 mm"':
        "piece.toml:2 shape.outline: a rounding of 30.00 mm does not fit; allowed: up to ",
    '[shape.outline]\nfile = "top.dwg"\nheight = "20 mm"': "is no drawing that can be read; allowed: .dxf, .svg",
    '[shape.outline]\nfile = "top.dxf"\nheight = "20 mm"': "piece.toml:2 shape.outline: ",
    f'[shape.outline]\n{SQUARE}\nlayer = "cut"\nheight = "20 mm"': "layer belongs to a drawing",
    f'[shape.outline]\n{SQUARE}\nheight = "9 mm"\nhole = [{{ at = ["9 mm", "9 mm"] }}]': "the hole is not clear",
    '[shape]\nfile = "a.stl"\nunit = "mm"\nround = "3 mm"': "piece.toml:5 shape.round: round belongs to a body",
    '[[shape.part]]\nbox = ["9 mm","9 mm","9 mm"]\n[[shape.part]]\nbox = ["9 mm","9 mm","9 mm"]\nat = ["20 mm","0 mm","0 mm"]':
        "piece.toml:4 shape.part[2]: it is loose: it meets the parts before it nowhere, or only on a line; the gap is 11 mm",
    '[[shape.part]]\ncut = true\nbox = ["9 mm","9 mm","9 mm"]': "piece.toml:2 shape.part[1]: there is nothing yet",
    '[[shape.part]]\nat = ["0 mm","0 mm","0 mm"]': "a part is given by nothing; allowed: one of file, box",
}  # fmt: skip


@pytest.mark.parametrize("text", REFUSED)
def test_what_makes_no_body_is_refused_on_its_line(shaped, text):
    with pytest.raises(UserError) as refused:
        shaped(text)
    assert REFUSED[text] in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("cylinder", ["200 mm", "350 mm"]), ("sphere", ["8 in"]), ("turned", ["200 mm", "350 mm"]),
        ("turned", ["8 in", "14 in"]), ("outline", ["400 mm", "300 mm", "40 mm"]),
    ],
)  # fmt: skip
def test_a_new_job_of_a_written_shape_has_the_size_that_was_asked_for(tmp_path, name, size):
    answers = {"material": "epoxy-slow-deep", "glass": [], "shop_temperature": "20 degC", "size": size}
    job = new_job(name, None, answers, tmp_path / "new")
    found = measure(shape_of(load_shape(job)).mesh).size
    last = {"in": 0.0254, "mm": 1e-3}[size[0].split()[1]]
    wanted = [float(each.split()[0]) * last for each in size]
    assert found[0] == pytest.approx(wanted[0], rel=1e-6)
    assert found[2] == pytest.approx(wanted[-1], rel=1e-6)
    rows = tomllib.loads(Path(job).read_text("utf8"))
    assert "file" not in rows["shape"]


def test_sizes_that_do_not_fit_the_shape(tmp_path):
    answers = {"material": "epoxy-slow-deep", "glass": [], "shop_temperature": "20 degC"}
    for size, reason in ((["9 mm"], "allowed: largest diameter x height"), (["9 mm", "0 mm"], "above 0")):
        with pytest.raises(UserError, match=reason):
            new_job("turned", None, {**answers, "size": size}, tmp_path / "new")
    with pytest.raises(UserError, match="no file 'ball'; allowed: a shape file, or box"):
        new_job("ball", None, answers, tmp_path / "new")


def test_a_hole_does_not_take_the_place_of_its_outline(shaped):
    square = '[["0 mm", "0 mm"], ["100 mm", "0 mm"], ["100 mm", "100 mm"], ["0 mm", "100 mm"]]'
    hole = '{ at = ["50 mm", "50 mm"], diameter = "200 mm" }'
    with pytest.raises(UserError, match="hole 1 is larger than the outline"):
        shaped(f'[shape.outline]\npoints = {square}\nheight = "20 mm"\nhole = [{hole}]')
