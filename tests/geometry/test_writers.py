import zipfile
from io import BytesIO

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings, strategies as st

from pourwright.geometry import Mesh, box, find_faults, measure, read_mesh
from pourwright.geometry.files.writers import stl_bytes, threemf_bytes, threemf_of_bodies
from tests.geometry.bodies import hourglass, torus

BODIES = {"torus": torus(), "hourglass": hourglass(), "box": box([0.1, 0.2, 0.35])}


@pytest.mark.parametrize("body", BODIES.values(), ids=BODIES)
def test_stl_comes_back_as_the_same_body(tmp_path, body):
    (tmp_path / "a.stl").write_bytes(stl_bytes(body))
    mesh = read_mesh(tmp_path / "a.stl", "mm")
    assert len(mesh.faces) == len(body.faces)
    assert len(mesh.vertices) == len(body.vertices)
    # single precision carries 24 bits
    assert mesh.bounds == pytest.approx(body.bounds, abs=0.35 * 2**-23)
    assert find_faults(mesh) == ()


@pytest.mark.parametrize("body", BODIES.values(), ids=BODIES)
def test_3mf_comes_back_as_the_same_body(tmp_path, body):
    (tmp_path / "a.3mf").write_bytes(threemf_bytes(body, "a body"))
    mesh = read_mesh(tmp_path / "a.3mf")
    assert len(mesh.faces) == len(body.faces)
    assert mesh.bounds == pytest.approx(body.bounds, rel=1e-8, abs=1e-9)
    assert measure(mesh).volume == pytest.approx(measure(body).volume, rel=1e-7)
    assert find_faults(mesh) == ()


@pytest.mark.parametrize("kind", ["stl", "3mf"])
def test_another_library_reads_them_in_millimetres(kind):
    body = BODIES["torus"]
    content = stl_bytes(body) if kind == "stl" else threemf_bytes(body, "a torus")
    seen = trimesh.load_mesh(BytesIO(content), file_type=kind)
    assert seen.is_watertight
    assert seen.volume == pytest.approx(1e9 * measure(body).volume, rel=1e-6)
    if kind == "3mf":
        assert seen.units == "millimeter"


def test_normals_stand_on_their_triangles():
    body = BODIES["hourglass"]
    facets = np.frombuffer(stl_bytes(body)[84:], dtype="(3,)<f4, (3,3)<f4, <u2")
    seen = facets["f0"]
    expected = body.area_vectors / np.linalg.norm(body.area_vectors, axis=1)[:, None]
    assert seen == pytest.approx(expected, abs=1e-6)


def test_the_same_body_gives_the_same_bytes_and_the_package_has_its_three_parts():
    body, again = BODIES["box"], box([0.1, 0.2, 0.35])
    assert stl_bytes(body) == stl_bytes(again)
    assert threemf_bytes(body, "x") == threemf_bytes(again, "x")
    assert not stl_bytes(body).startswith(b"solid")
    with zipfile.ZipFile(BytesIO(threemf_bytes(body, "x"))) as package:
        assert package.namelist() == ["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"]
        assert package.testzip() is None
        assert {entry.date_time[0] for entry in package.infolist()} == {1980}


@settings(max_examples=30, deadline=None)
@given(title=st.text(st.characters(exclude_categories=["C", "Z"]), max_size=30))
def test_any_title_makes_a_whole_model(title):
    from lxml import etree

    with zipfile.ZipFile(BytesIO(threemf_bytes(BODIES["box"], title))) as package:
        model = etree.fromstring(package.read("3D/3dmodel.model"))
    assert (model.find("{*}metadata").text or "") == title


def test_a_triangle_without_area_has_no_normal():
    line = Mesh([[0, 0, 0], [1, 0, 0], [2, 0, 0]], [[0, 1, 2]])
    assert np.frombuffer(stl_bytes(line)[84:96], dtype="<f4").tolist() == [0, 0, 0]


def test_several_bodies_keep_their_names_and_come_back_where_they_were(tmp_path):
    bodies = {"side, front": box([0.3, 0.02, 0.2]).moved([0, 0.1, 0]), 'end "<&>"': BODIES["torus"]}
    (tmp_path / "a.3mf").write_bytes(threemf_of_bodies(bodies, "two bodies"))
    mesh = read_mesh(tmp_path / "a.3mf")
    volume = sum(measure(body).volume for body in bodies.values())
    assert measure(mesh).volume == pytest.approx(volume, rel=1e-7)
    scene = trimesh.load(tmp_path / "a.3mf")
    assert sorted(len(one.faces) for one in scene.geometry.values()) == [12, len(BODIES["torus"].faces)]
    assert all(one.is_watertight for one in scene.geometry.values())
    with zipfile.ZipFile(tmp_path / "a.3mf") as package:
        from lxml import etree

        model = etree.fromstring(package.read("3D/3dmodel.model"))
    assert [one.get("name") for one in model.iterfind(".//{*}object")] == list(bodies)
