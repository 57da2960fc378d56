"""STEP files written by hand against closed forms; what the library cannot digest must not take us down."""

import math
import operator
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry import find_faults, measure
from pourwright.geometry.files import step_reader
from pourwright.geometry.files.readers import read_shape_file
from pourwright.geometry.files.step_reader import facet_tolerance
from pourwright.runs import do_apart
from tests.geometry.step_files import assembly_file, box_file, cylinder_file

INCH = 0.0254
# found by breaking files: a line of a box that names a direction which is not there
CRASHES = box_file((100, 50, 20)).text().replace("#29=DIRECTION", "#99999=DIRECTION")


def read(tmp_path, file, name="a.step"):
    return read_shape_file(file.save(tmp_path / name))


@pytest.mark.parametrize(("unit", "metres"), [("mm", 1e-3), ("cm", 1e-2), ("m", 1.0), ("in", INCH)])
def test_a_box_in_every_unit(tmp_path, unit, metres):
    sides = np.array([0.2, 0.1, 0.05]) / metres
    found = read(tmp_path, box_file(sides, unit))
    # coordinates come in single precision
    assert measure(found.mesh).volume == pytest.approx(0.001, rel=1e-6)
    assert found.mesh.bounds == pytest.approx(np.array([[0, 0, 0], [0.2, 0.1, 0.05]]), abs=1e-7)
    assert len(found.mesh.vertices) == 8
    assert find_faults(found.mesh) == ()
    assert found.told == ()


@pytest.mark.parametrize(("unit", "metres"), [("mm", 1e-3), ("in", INCH)])
@pytest.mark.parametrize("radius", [0.01, 0.05, 0.3])
def test_a_cylinder_lies_within_the_tolerance_that_is_told(tmp_path, unit, metres, radius):
    height = 2 * radius
    found = read(tmp_path, cylinder_file(radius / metres, height / metres, unit))
    mesh, tolerance = found.mesh, facet_tolerance(2 * radius)
    assert found.told == (f"curved faces are flat facets within {1e3 * tolerance:.2g} mm of them",)
    assert find_faults(mesh) == ()
    # no point of any facet is further from the axis than the radius, nor nearer by more than the tolerance
    wall = mesh.triangles[np.ptp(mesh.triangles[:, :, 2], axis=1) > 0.5 * height]
    middles = (wall + np.roll(wall, 1, axis=1)) / 2
    reach = np.hypot(middles[..., 0], middles[..., 1])
    assert reach.max() <= radius * (1 + 1e-6)
    assert reach.min() >= radius - tolerance - 1e-6 * radius
    # area of a regular polygon in a circle: short by 4/3 of the sagitta over the radius
    volume = math.pi * radius**2 * height
    assert volume * (1 - 4 / 3 * tolerance / radius) <= measure(mesh).volume < volume


@pytest.mark.parametrize(("unit", "metres"), [("mm", 1e-3), ("in", INCH)])
def test_an_assembly_places_the_same_part_twice(tmp_path, unit, metres):
    mesh = read(tmp_path, assembly_file((4, 2, 1), (10, 0, 3), unit)).mesh
    assert measure(mesh).volume == pytest.approx(16 * metres**3, rel=1e-6)
    # the second stands turned a quarter about z: x from 10 - 2 to 10, y from 0 to 4
    assert mesh.bounds / metres == pytest.approx(np.array([[0, 0, 0], [10, 4, 4]]), abs=1e-5)
    assert [fault.kind for fault in find_faults(mesh)] == ["bodies"]


def test_its_own_unit_may_agree_but_not_contradict(tmp_path):
    path = box_file((4, 2, 1), "in").save(tmp_path / "a.stp")
    assert read_shape_file(path, "m").mesh.bounds[1, 0] == pytest.approx(4 * INCH)
    with pytest.raises(UserError, match="leave the unit out"):
        read_shape_file(path, "in")


def test_without_the_library_the_error_says_how_to_get_it(tmp_path, monkeypatch):
    path = box_file((4, 2, 1)).save(tmp_path / "a.step")
    monkeypatch.setattr(step_reader, "find_spec", lambda _name: None)
    with pytest.raises(UserError, match=r"pip install 'pourwright\[step\]'") as refused:
        read_shape_file(path)
    assert str(refused.value).startswith("a.step: ")


def test_broken_and_cut_off_files(tmp_path):
    text = box_file((4, 2, 1)).text()
    (tmp_path / "cut.step").write_text(text[: len(text) // 2])
    with pytest.raises(UserError, match="cut off"):
        read_shape_file(tmp_path / "cut.step")
    (tmp_path / "empty.step").write_text(text[: text.index("#1=")] + "ENDSEC;\nEND-ISO-10303-21;\n")
    with pytest.raises(UserError, match="no solid in it"):
        read_shape_file(tmp_path / "empty.step", apart=do_apart)
    (tmp_path / "noise.step").write_bytes(np.random.default_rng(1).bytes(2000))
    with pytest.raises(UserError, match="cannot be read"):
        read_shape_file(tmp_path / "noise.step")


def _breaks_down(*_arguments):
    import ctypes

    ctypes.string_at(0)


def _sleeps(*_arguments):
    time.sleep(60)


def _swells(*_arguments):
    bytearray(8_000_000_000)


@pytest.mark.skipif(sys.platform == "win32", reason="no memory limit there")
@pytest.mark.parametrize(
    ("act", "message"),
    [
        (_breaks_down, "the reader broke down"),
        (_sleeps, "within 0 s"),
        (_swells, "more memory than there is"),
    ],
)
def test_a_library_that_breaks_down_hangs_or_swells_is_one_clear_error(tmp_path, monkeypatch, act, message):
    path = box_file((4, 2, 1)).save(tmp_path / "a.step")

    def apart(function, *arguments, seconds):
        return do_apart(act, *arguments, seconds=0.3 if act is _sleeps else 30)

    monkeypatch.setattr(step_reader, "_PATIENCE", 0.0)
    monkeypatch.setattr(step_reader, "_PER_MEGABYTE", 0.0)
    with pytest.raises(UserError, match=message):
        read_shape_file(path, apart=apart)


def test_done_apart_an_answer_and_an_error_come_back(capfd):
    assert do_apart(operator.mul, 6, 7, seconds=30) == 42
    with pytest.raises(ZeroDivisionError):
        do_apart(operator.truediv, 1, 0, seconds=30)
    assert do_apart(print, "what foreign code prints", seconds=30) is None
    assert capfd.readouterr() == ("", "")


def test_a_file_that_breaks_the_library_down_for_real(tmp_path):
    Path(tmp_path / "a.step").write_text(CRASHES)
    with pytest.raises(UserError, match="cannot be read"):
        read_shape_file(tmp_path / "a.step", apart=do_apart)
