import struct
import zipfile

import numpy as np
import pytest
import trimesh

from pourwright.foundation.errors import UserError
from pourwright.geometry import find_faults, measure, read_mesh
from tests.geometry.bodies import hourglass, torus

PART = torus()
MODEL = """<?xml version="1.0" encoding="UTF-8"?>
<model unit="{unit}" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
 <resources><object id="1" type="model"><mesh>
  <vertices>
   <vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/>
   <vertex x="0" y="1" z="0"/><vertex x="0" y="0" z="1"/>
  </vertices>
  <triangles>
   <triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/>
   <triangle v1="0" v2="3" v3="2"/><triangle v1="1" v2="2" v3="3"/>
  </triangles></mesh></object></resources>
 <build><item objectid="1" transform="{transform}"/></build>
</model>"""


def in_trimesh(mesh, scale=1.0):
    return trimesh.Trimesh(mesh.vertices * scale, mesh.faces, process=False)


def write_3mf(path, unit="millimeter", transform="1 0 0 0 1 0 0 0 1 0 0 0"):
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("3D/3dmodel.model", MODEL.format(unit=unit, transform=transform))
    return path


@pytest.mark.parametrize(
    ("name", "options"),
    [("a.stl", {}), ("b.stl", {"file_type": "stl_ascii"}), ("c.obj", {}), ("d.ply", {}),
     ("e.ply", {"encoding": "ascii"})],
)  # fmt: skip
@pytest.mark.parametrize(("unit", "metres"), [("mm", 1e-3), ("in", 0.0254)])
def test_formats_without_unit(tmp_path, name, options, unit, metres):
    in_trimesh(PART, 1 / metres).export(tmp_path / name, **options)
    mesh = read_mesh(tmp_path / name, unit)
    assert measure(mesh).volume == pytest.approx(measure(PART).volume, rel=1e-5)
    assert len(mesh.vertices) == len(PART.vertices)
    assert find_faults(mesh) == ()


@pytest.mark.parametrize("name", ["part.stl", "part.obj", "part.ply", "part.STL"])
def test_unit_must_be_stated(tmp_path, name):
    in_trimesh(PART).export(tmp_path / name, file_type=name[-3:].lower())
    with pytest.raises(UserError, match="carry no unit") as refused:
        read_mesh(tmp_path / name)
    assert "allowed: mm, cm, m, in" in str(refused.value)
    with pytest.raises(UserError, match="'inchs' is no unit"):
        read_mesh(tmp_path / name, "inchs")


def test_glb_is_in_metres_and_its_scene_is_put_together(tmp_path):
    scene = trimesh.Scene()
    half = in_trimesh(hourglass())
    scene.add_geometry(half, transform=trimesh.transformations.translation_matrix([1.0, 0.0, 0.0]))
    scene.export(tmp_path / "part.glb")
    mesh = read_mesh(tmp_path / "part.glb")
    expected = measure(hourglass())
    assert measure(mesh).volume == pytest.approx(expected.volume, rel=1e-5)
    assert measure(mesh).centroid == pytest.approx(np.add(expected.centroid, [1.0, 0.0, 0.0]), abs=1e-6)
    with pytest.raises(UserError, match="in meter, not in mm"):
        read_mesh(tmp_path / "part.glb", "mm")


@pytest.mark.parametrize(
    ("unit", "metres"), [("millimeter", 1e-3), ("inch", 0.0254), ("micron", 1e-6), ("foot", 0.3048)]
)
def test_3mf_says_its_unit(tmp_path, unit, metres):
    mesh = read_mesh(write_3mf(tmp_path / "part.3mf", unit))
    assert measure(mesh).volume == pytest.approx(metres**3 / 6, rel=1e-12)


def test_3mf_transform_and_agreeing_unit(tmp_path):
    path = write_3mf(tmp_path / "part.3mf", "inch", "2 0 0 0 1 0 0 0 1 10 0 0")
    mesh = read_mesh(path, "in")
    assert mesh.bounds / 0.0254 == pytest.approx(np.array([[10, 0, 0], [12, 1, 1]]), rel=1e-12)
    with pytest.raises(UserError, match="in inch, not in mm"):
        read_mesh(path, "mm")


def test_3mf_with_an_unknown_unit(tmp_path):
    with pytest.raises(UserError, match="'cubit'"):
        read_mesh(write_3mf(tmp_path / "part.3mf", "cubit"))


def exported(tmp_path, name, **options):
    in_trimesh(PART, 1000).export(tmp_path / name, **options)
    return (tmp_path / name).read_bytes()


@pytest.mark.parametrize(
    ("name", "options"),
    [("a.stl", {}), ("b.stl", {"file_type": "stl_ascii"}), ("c.ply", {}), ("d.glb", {}), ("e.3mf", {}),
     ("f.ply", {"encoding": "ascii"})],
)  # fmt: skip
@pytest.mark.parametrize("share", [0.02, 0.6, 0.97])
def test_cut_off_files(tmp_path, name, options, share):
    whole = exported(tmp_path, name, **options)
    path = tmp_path / f"cut-{name}"
    path.write_bytes(whole[: int(share * len(whole))])
    unit = None if name.endswith(("glb", "3mf")) else "mm"
    with pytest.raises(UserError) as refused:
        read_mesh(path, unit)
    assert str(refused.value).startswith(path.name)
    assert "\n" not in str(refused.value)


def test_wrong_ending(tmp_path):
    (tmp_path / "part.stl").write_bytes(exported(tmp_path, "a.glb"))
    with pytest.raises(UserError, match="looks like GLB, the ending says STL"):
        read_mesh(tmp_path / "part.stl", "mm")
    (tmp_path / "part.ply").write_bytes(exported(tmp_path, "b.3mf"))
    with pytest.raises(UserError, match="looks like 3MF"):
        read_mesh(tmp_path / "part.ply", "mm")
    (tmp_path / "part.3mf").write_bytes(exported(tmp_path, "c.stl"))
    with pytest.raises(UserError):
        read_mesh(tmp_path / "part.3mf")


def test_unknown_ending(tmp_path):
    with pytest.raises(
        UserError, match=r"'.dwg' are not read.*\.3mf, \.glb, \.obj, \.ply, \.step, \.stl, \.stp"
    ):
        read_mesh(tmp_path / "part.dwg")


def test_no_file_no_content(tmp_path):
    with pytest.raises(UserError, match="no such file"):
        read_mesh(tmp_path / "none.stl", "mm")
    (tmp_path / "empty.obj").write_bytes(b"")
    with pytest.raises(UserError, match="empty"):
        read_mesh(tmp_path / "empty.obj", "mm")
    (tmp_path / "folder.stl").mkdir()
    with pytest.raises(UserError, match="folder"):
        read_mesh(tmp_path / "folder.stl", "mm")


@pytest.mark.parametrize("name", ["noise.stl", "noise.obj", "noise.ply", "noise.glb", "noise.3mf"])
def test_noise(tmp_path, name):
    (tmp_path / name).write_bytes(np.random.default_rng(5).bytes(4000))
    with pytest.raises(UserError):
        read_mesh(tmp_path / name, None if name[-3:] in {"glb", "3mf"} else "mm")


def test_stl_with_no_triangle(tmp_path):
    (tmp_path / "a.stl").write_bytes(b"nothing".ljust(80) + struct.pack("<I", 0))
    with pytest.raises(UserError, match="no triangle"):
        read_mesh(tmp_path / "a.stl", "mm")


def test_points_only(tmp_path):
    (tmp_path / "a.obj").write_text("v 0 0 0\nv 1 0 0\nv 0 1 0\n")
    with pytest.raises(UserError):
        read_mesh(tmp_path / "a.obj", "mm")


def test_face_that_names_a_missing_vertex(tmp_path):
    (tmp_path / "a.obj").write_text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n")
    with pytest.raises(UserError):
        read_mesh(tmp_path / "a.obj", "mm")


def test_binary_stl_whose_header_says_solid(tmp_path):
    content = exported(tmp_path, "a.stl")
    (tmp_path / "b.stl").write_bytes(b"solid by some exporter".ljust(80) + content[80:])
    assert measure(read_mesh(tmp_path / "b.stl", "mm")).volume == pytest.approx(
        measure(PART).volume, rel=1e-5
    )


def test_archive_bomb(tmp_path):
    with (
        zipfile.ZipFile(tmp_path / "bomb.3mf", "w", zipfile.ZIP_DEFLATED) as archive,
        archive.open("3D/3dmodel.model", "w") as entry,
    ):
        for _ in range(110):
            entry.write(bytes(10_000_000))
    with pytest.raises(UserError, match=r"unpacks to 1\.1 GB"):
        read_mesh(tmp_path / "bomb.3mf")


def test_a_binary_file_that_goes_on_behind_its_end(tmp_path):
    path = tmp_path / "long.stl"
    path.write_bytes(b"\0" * 80 + struct.pack("<I", 1) + b"\0" * 50 + b"rest of a download")
    with pytest.raises(UserError, match="goes on behind its end: 134 bytes announced, 152 there"):
        read_mesh(path, "mm")


def test_a_broken_file_is_told_in_one_line_without_warnings(tmp_path, recwarn):
    path = tmp_path / "bad.obj"
    path.write_text("v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n")
    with pytest.raises(UserError, match="line 4: a corner that names no vertex; do: export the shape again"):
        read_mesh(path, "mm")
    infinite = np.full(12, np.inf, "<f4").tobytes() + b"\0\0"
    (tmp_path / "inf.stl").write_bytes(b"\0" * 80 + struct.pack("<I", 1) + infinite)
    read_mesh(tmp_path / "inf.stl", "mm")
    assert [str(warning.message) for warning in recwarn] == []
