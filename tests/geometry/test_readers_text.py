"""STL, OBJ and PLY in the forms that programs really write."""

import struct

import numpy as np
import pytest
import trimesh
from hypothesis import given, settings, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, box, find_faults, measure, read_mesh
from pourwright.geometry.files.number_kernels import read_number
from pourwright.geometry.files.obj_reader import read_obj
from pourwright.geometry.files.ply_reader import read_ply
from pourwright.geometry.files.polygons import triangulated
from pourwright.geometry.files.stl_reader import read_stl
from pourwright.geometry.files.text import as_bytes
from pourwright.geometry.files.writers import stl_bytes
from tests.geometry.bodies import torus

BOX = box([0.1, 0.2, 0.3])
QUADS = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
CORNERS = np.array([[x, y, z] for z in (0, 300) for y in (0, 200) for x in (0, 100)], dtype=float)


def saved(tmp_path, name, content):
    (tmp_path / name).write_bytes(content)
    return read_mesh(tmp_path / name, "mm")


def text_stl(mesh, name="a part"):
    facets = "".join(
        "facet normal 0 0 0\n outer loop\n"
        + "".join("  vertex {:.9g} {:.9g} {:.9g}\n".format(*(1e3 * corner)) for corner in triangle)
        + " endloop\nendfacet\n"
        for triangle in mesh.triangles
    )
    return f"solid {name}\n{facets}endsolid {name}\n".encode()


def is_the_box(mesh):
    assert measure(mesh).volume == pytest.approx(0.006, rel=1e-9)
    assert len(mesh.vertices) == 8
    assert find_faults(mesh) == ()


@pytest.mark.parametrize(
    "change",
    [
        lambda text: text,
        lambda text: text.replace(b"\n", b"\r\n"),
        lambda text: text.upper(),
        lambda text: b"\xef\xbb\xbf" * 0 + b"\n  " + text,
        lambda text: text.replace(b"a part", b"vertex facet solid"),
    ],
    ids=["plain", "windows lines", "capitals", "blanks before", "a name of keywords"],
)
def test_text_stl(tmp_path, change):
    is_the_box(saved(tmp_path, "a.stl", change(text_stl(BOX))))


def test_text_stl_with_several_solids(tmp_path):
    two = text_stl(BOX, "one") + text_stl(BOX.moved([1, 0, 0]), "two")
    mesh = saved(tmp_path, "a.stl", two)
    assert measure(mesh).volume == pytest.approx(2 * 0.006, rel=1e-9)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (b"vertex 50 ", b"vertex 50,5 ", r"line \d+: '50,5' is no number; it is written with a comma"),
        (b"vertex 50 ", b"vertex ", r"line \d+: a number is missing"),
        (b"vertex 50 ", b"verdex 100 ", r"line \d+: a facet that has not three corners"),
        (b"endfacet\nfacet", b"facet", r"line \d+: a facet that has not three corners"),
        (b"endsolid", b"", "cut off"),
    ],
)
def test_text_stl_that_is_broken(tmp_path, old, new, message):
    text = text_stl(BOX)
    assert old in text
    with pytest.raises(UserError, match=message):
        saved(tmp_path, "a.stl", text.replace(old, new, 1))


def test_binary_stl_with_colours_and_a_header_of_text(tmp_path):
    content = bytearray(stl_bytes(BOX))
    content[:80] = b"solid facet endsolid".ljust(80)
    for face in range(12):
        content[84 + 50 * face + 48 : 84 + 50 * face + 50] = struct.pack("<H", 0x8000 | 31 * face)
    is_the_box(saved(tmp_path, "a.stl", bytes(content)))


def obj(faces, corners=CORNERS, end="\n"):
    lines = [f"v {x} {y} {z}" for x, y, z in corners] + [f"f {face}" for face in faces]
    return end.join(["# a box", "o box", "vn 0 0 1", "vt 0 0", "usemtl red", *lines, ""]).encode()


OBJ_FACES = {
    "quads": [" ".join(str(n + 1) for n in ring) for ring in QUADS],
    "back from the last": [" ".join(str(n - 8) for n in ring) for ring in QUADS],
    "texture": [" ".join(f"{n + 1}/1" for n in ring) for ring in QUADS],
    "texture and normal": [" ".join(f"{n + 1}/1/1" for n in ring) for ring in QUADS],
    "normal alone, and a remark": [" ".join(f"{n + 1}//1" for n in ring) + " # a side" for ring in QUADS],
    "over two lines": [" ".join(str(n + 1) for n in ring).replace(" ", " \\\n ", 1) for ring in QUADS],
}


@pytest.mark.parametrize("faces", OBJ_FACES.values(), ids=OBJ_FACES)
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_obj(tmp_path, faces, end):
    is_the_box(saved(tmp_path, "a.obj", obj([face.replace("\n", end) for face in faces], end=end)))


def test_obj_with_colours_at_its_vertices(tmp_path):
    text = obj(OBJ_FACES["quads"]).replace(b".0\nv", b".0 0.5 0.5 0.5\nv")
    is_the_box(saved(tmp_path, "a.obj", text))


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (b"v 100.0", b"v 100,0", "line 7: '100,0' is no number; it is written with a comma"),
        (b"v 100.0 0.0 0.0", b"v 100.0 0.0", "line 7: a number is missing"),
        (b"f 1 3", b"f 0 3", "a corner that names no vertex"),
        (b"f 1 3", b"f 9 3", "a corner that names no vertex"),
        (b"f 1 3", b"f -9 3", "a corner that names no vertex"),
        (b"f 1 3 4 2", b"f 1 3", "fewer than three corners"),
        (b"f 1 3", b"surf 0 1 0 1 1 2\nf 1 3", "free-form surfaces"),
    ],
)
def test_obj_that_is_broken(tmp_path, old, new, message):
    text = obj(OBJ_FACES["quads"])
    assert old in text
    with pytest.raises(UserError, match=message):
        saved(tmp_path, "a.obj", text.replace(old, new, 1))


PLY_ORDERS = {"<": "binary_little_endian", ">": "binary_big_endian", "": "ascii"}


def ply(order, mixed=False):
    """A box with colours, confidence and an edge list; quads, or quads with one side in triangles."""
    rings = [*QUADS[:-1], QUADS[-1][:3], (QUADS[-1][0], *QUADS[-1][2:])] if mixed else QUADS
    head = (
        f"ply\nformat {PLY_ORDERS[order]} 1.0\ncomment made by hand\nelement vertex 8\nproperty uchar red\n"
        "property float x\nproperty double y\nproperty short z\nproperty float confidence\n"
        "element edge 1\nproperty int vertex1\nproperty int vertex2\nelement strip 1\n"
        f"property list uchar short links\nelement face {len(rings)}\nproperty float area\n"
        "property list uchar uint vertex_indices\nproperty uchar part\nend_header\n"
    )
    rows = [("Bfdhf", (200, x, y, int(z), 0.5)) for x, y, z in CORNERS]
    rows += [("ii", (0, 1)), ("B3h", (3, 5, -1, 6))]
    rows += [(f"fB{len(ring)}IB", (1.5, len(ring), *ring, 9)) for ring in rings]
    if not order:
        return (head + "".join(" ".join(map(str, values)) + "\n" for _, values in rows)).encode()
    return head.encode() + b"".join(struct.pack(order + kinds, *values) for kinds, values in rows)


@pytest.mark.parametrize("order", PLY_ORDERS)
@pytest.mark.parametrize("mixed", [False, True])
def test_ply(tmp_path, order, mixed):
    is_the_box(saved(tmp_path, "a.ply", ply(order, mixed)))


def test_text_ply_with_windows_lines(tmp_path):
    is_the_box(saved(tmp_path, "a.ply", ply("").replace(b"\n", b"\r\n")))


@pytest.mark.parametrize(
    ("order", "old", "new", "message"),
    [
        ("", b"200 100.0", b"200 100,0", r"line \d+: '100,0' is no number"),
        ("<", b"face 6", b"face 4000000000", "cut off"),
        ("<", b"vertex 8", b"vertex -8", "its header says 'element vertex -8'"),
        ("<", b"property short z", b"property short w", "no x, y and z"),
        ("<", b"short z", b"shorty z", "its header says 'property shorty z'"),
        ("<", b"binary_little_endian", b"binary_middle", "its header says the format is 'binary_middle'"),
        ("<", b"face 6", b"side 6", "it has no faces"),
        (">", b"big", b"little", "cut off|impossible|not there|fewer"),
    ],
)
def test_ply_that_is_broken(tmp_path, order, old, new, message):
    content = ply(order)
    assert old in content
    with pytest.raises(UserError, match=message):
        saved(tmp_path, "a.ply", content.replace(old, new, 1))


def area_vector(points, triangles):
    a, b, c = points[triangles].transpose(1, 0, 2)
    return 0.5 * np.cross(b - a, c - a).sum(axis=0)


def ring_area(points):
    """The vector area of a ring, by the shoelace formula."""
    return 0.5 * np.cross(points, np.roll(points, -1, axis=0)).sum(axis=0)


@settings(max_examples=60, deadline=None)
@given(
    radii=st.lists(st.floats(0.3, 3.0), min_size=4, max_size=24),
    turn=st.tuples(*[st.floats(0.0, 1.0)] * 3),
)
def test_star_shaped_polygons_keep_their_area_and_have_no_triangle_turned_round(radii, turn):
    angles = 2 * np.pi * np.arange(len(radii)) / len(radii)
    flat = np.stack([np.cos(angles), np.sin(angles), 0 * angles], axis=1) * np.array(radii)[:, None]
    points = flat @ trimesh.transformations.random_rotation_matrix(np.array(turn))[:3, :3].T
    triangles = triangulated(points, np.arange(len(radii)), np.array([len(radii)]))
    assert len(triangles) == len(radii) - 2
    assert area_vector(points, triangles) == pytest.approx(ring_area(points), rel=1e-9, abs=1e-12)
    # areas add up without their signs: none lies outside and none is turned round
    sizes = [np.linalg.norm(area_vector(points, triangles[n : n + 1])) for n in range(len(triangles))]
    assert sum(sizes) == pytest.approx(np.linalg.norm(ring_area(points)), rel=1e-6)


def test_an_l_shaped_prism_of_hexagons():
    outline = [(0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)]
    corners = [(x, y, z) for z in (0, 1) for x, y in outline]
    walls = [(n, (n + 1) % 6, (n + 1) % 6 + 6, n + 6) for n in range(6)]
    faces = [" ".join(str(n + 1) for n in ring) for ring in ([5, 4, 3, 2, 1, 0], range(6, 12), *walls)]
    parsed = read_obj(obj(faces, corners))
    assert measure(Mesh(parsed.vertices, parsed.faces)).volume == pytest.approx(3.0, rel=1e-12)


@settings(max_examples=300, deadline=None)
@given(st.floats(-1e300, 1e300), st.sampled_from(["{!r}", "{:.17g}", "{:+.3f}", "{:E}"]))
def test_numbers_are_read_as_python_reads_them(number, form):
    text = form.format(number)
    value, end = read_number(as_bytes(text.encode()), 0)
    assert end == len(text)
    # lengths of shapes lie within 1e-22 and 1e22, where powers of ten are exact
    usual = number == 0 or 1e-20 < abs(number) < 1e20
    assert value == pytest.approx(float(text), rel=7e-16 if usual else 1e-13, abs=1e-300)


@pytest.mark.parametrize("word", ["", "-", ".", "e5", "1e", "1e+", "--1", "1.2.3", "1,5", "0x10", "1f", "na"])
def test_words_that_are_no_numbers(word):
    assert read_number(as_bytes(word.encode()), 0)[1] == -1


@pytest.mark.parametrize("word", ["nan", "-NaN", "nan(ind)", "1.#QNAN", "-1.#IND"])
def test_what_programs_write_for_no_number(word):
    value, end = read_number(as_bytes(word.encode()), 0)
    assert np.isnan(value)
    assert end == len(word)


def test_welding_goes_by_place_alone():
    body = torus()
    soup = read_stl(stl_bytes(body))
    assert soup.vertices.dtype == np.float32
    assert soup.count == len(body.faces)
    ply_body = trimesh.Trimesh(body.vertices, body.faces, process=False).export(file_type="ply")
    assert read_ply(ply_body).faces.tolist() == body.faces.tolist()
