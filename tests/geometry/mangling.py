"""Sound files of every kind, and ways to break them: bytes, numbers, ends, lies in headers."""

import io
import re
import struct
import zipfile

import numpy as np
import trimesh
from hypothesis import strategies as st

from pourwright.geometry import box
from pourwright.geometry.files.writers import stl_bytes, threemf_bytes
from tests.geometry.bodies import ball
from tests.geometry.step_files import assembly_file, box_file, cylinder_file

NASTY_WORDS = [
    *(b"nan", b"-nan", b"inf", b"1e400", b"-1e308", b"1e-400", b"0", b"-0.0", b"-1", b"4294967295"),
    *(b"2147483648", b"1,5", b"99999999999999999999", b"", b"x", b"0x10", b"1e", b"--1", b"1.2.3"),
    *(b"\xff", b"\x00", b"1e9", b"1e5"),
]
NASTY_WHOLE = [0, 1, 2, 3, 255, 65535, 2**31 - 1, 2**31, 2**32 - 1, 10**6, 10**7]
NASTY_FLOATS = [np.nan, np.inf, -np.inf, 1e38, -1e38, 1e-45, 0.0]
TEXT = (".obj", ".step")


def _exported(mesh, kind, **options):
    return trimesh.Trimesh(1e3 * mesh.vertices, mesh.faces, process=False).export(file_type=kind, **options)


def _scene():
    scene = trimesh.Scene()
    part = trimesh.creation.box([0.1, 0.2, 0.3])
    for n in range(3):
        place = trimesh.transformations.rotation_matrix(0.3 * n, [0, 1, 1], [0.5 * n, 0, 0])
        scene.add_geometry(part, transform=place @ np.diag([1, 1, -1 if n else 1, 1]))
    return scene.export(file_type="glb")


def _bytes(text):
    return text.encode() if isinstance(text, str) else text


def _seeds():
    small, ring = box([0.1, 0.2, 0.35]), ball(0.1, 1)
    polygons = (
        b"v 0 0 0\nv 9 0 0\nv 9 9 0\nv 3 3 0\nv 0 9 0\nv 4 4 9\n"
        b"f 1/1/1 5 4 3 2\nf -6 -5 -1\nf 2 3 6\nf 3 4 6\nf 4 5 6\nf 5 1 6\n"
    )
    steps = (box_file((9, 5, 2)), cylinder_file(5, 9), assembly_file((9, 5, 2), (30, 0, 1), "in"))
    return {
        ".stl": [stl_bytes(small), stl_bytes(ring), _bytes(_exported(small, "stl_ascii"))],
        ".obj": [_bytes(_exported(small, "obj")), polygons, b"#\r\n" + polygons.replace(b"\n", b"\r\n")],
        ".ply": [
            _bytes(_exported(small, "ply")),
            _bytes(_exported(small, "ply", encoding="ascii")),
            _quads(">", "binary_big_endian"),
            _quads("<", "binary_little_endian"),
        ],
        ".glb": [_bytes(_exported(small.transformed(np.diag([1e-3, 1e-3, 1e-3, 1])), "glb")), _scene()],
        ".3mf": [threemf_bytes(small, "a box"), _nested_3mf()],
        ".step": [step.text().encode() for step in steps],
    }  # fmt: skip


def _quads(order, name):
    """A box of quads, with a colour at every corner and a number at every face."""
    corners = np.array([[x, y, z] for z in (0, 9) for y in (0, 9) for x in (0, 9)], dtype=float)
    rings = [(0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5)]
    head = (
        f"ply\nformat {name} 1.0\ncomment made for a test\nelement vertex 8\n"
        "property double x\nproperty uchar red\n"
        "property double y\nproperty double z\nelement face 6\nproperty int part\n"
        "property list uchar int vertex_index\nelement edge 0\nproperty int a\nend_header\n"
    )
    body = b"".join(struct.pack(f"{order}dBdd", x, 200, y, z) for x, y, z in corners)
    body += b"".join(struct.pack(f"{order}iB4i", 7, 4, *ring) for ring in rings)
    return head.encode() + body


def _nested_3mf():
    model = threemf_model(
        objects='<object id="2"><components><component objectid="1" transform="-1 0 0 0 1 0 0 0 1 5 0 0"/>'
        '<component objectid="1"/></components></object>'
        '<object id="3" type="support"><components><component objectid="1"/></components></object>',
        items='<item objectid="2" transform="2 0 0 0 1 0 0 0 1 10 0 0"/><item objectid="3"/>',
    )
    return zipped({"3D/3dmodel.model": model})


TETRAHEDRON = (
    '<object id="1" type="model"><mesh><vertices><vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/>'
    '<vertex x="0" y="1" z="0"/><vertex x="0" y="0" z="1"/></vertices><triangles>'
    '<triangle v1="0" v2="2" v3="1"/><triangle v1="0" v2="1" v3="3"/><triangle v1="0" v2="3" v3="2"/>'
    '<triangle v1="1" v2="2" v3="3"/></triangles></mesh></object>'
)
CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"


def threemf_model(objects="", items='<item objectid="1"/>', unit="millimeter", more="", before=""):
    """The XML of a model with a tetrahedron of one unit as object 1."""
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>{before}<model unit="{unit}" xmlns="{CORE}" {more}>'
        f"<resources>{TETRAHEDRON}{objects}</resources><build>{items}</build></model>"
    ).encode()


def zipped(parts, method=zipfile.ZIP_DEFLATED):
    package = io.BytesIO()
    with zipfile.ZipFile(package, "w", method) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return package.getvalue()


SEEDS = _seeds()


def inner(kind, content):
    """Take out what is worth breaking: the XML of a 3MF, the JSON of a GLB."""
    if kind == ".3mf":
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return archive.read("3D/3dmodel.model")
    return content[20 : 20 + struct.unpack_from("<I", content, 12)[0]]


def wrapped(kind, content, text):
    """Put it back, so that the frame around it is sound."""
    if kind == ".3mf":
        return zipped({"3D/3dmodel.model": text})
    rest = content[20 + struct.unpack_from("<I", content, 12)[0] :]
    text = text.ljust((len(text) + 3) // 4 * 4)
    return b"glTF" + struct.pack("<IIII", 2, 20 + len(text) + len(rest), len(text), 0x4E4F534A) + text + rest


@st.composite
def broken(draw, kinds=tuple(SEEDS)):
    """Draw a kind of file and a content that was sound once."""
    kind = draw(st.sampled_from(kinds))
    content = draw(st.sampled_from(SEEDS[kind]))
    inside = kind in {".3mf", ".glb"} and draw(st.booleans())
    text = inner(kind, content) if inside else content
    for _ in range(draw(st.integers(1, 3))):
        is_text = inside or kind in TEXT or text.isascii()
        ways = (
            [_flipped, _cut, _spliced, _doubled]
            + [_other_number] * 4 * is_text
            + [_lying] * 3 * (not is_text)
        )
        text = draw(st.sampled_from(ways))(draw, text, SEEDS[kind])
    return kind, wrapped(kind, content, text) if inside else text


def _place(draw, text):
    return draw(st.integers(0, max(0, len(text) - 1)))


def _flipped(draw, text, _seeds):
    out = bytearray(text)
    for _ in range(draw(st.integers(1, 4)) if out else 0):
        out[_place(draw, out)] = draw(st.integers(0, 255))
    return bytes(out)


def _cut(draw, text, _seeds):
    begin = _place(draw, text)
    return text[:begin] + text[begin + draw(st.sampled_from([1, 2, 4, 12, 50, 200, 10**6])) :]


def _spliced(draw, text, seeds):
    other = draw(st.sampled_from(seeds))
    begin, at = _place(draw, other), _place(draw, text)
    return text[:at] + other[begin : begin + draw(st.sampled_from([1, 4, 30, 300]))] + text[at:]


def _doubled(draw, text, _seeds):
    begin = _place(draw, text)
    piece = text[begin : begin + draw(st.sampled_from([1, 4, 12, 50, 500]))]
    return text[:begin] + piece * draw(st.sampled_from([2, 3, 50])) + text[begin:]


def _other_number(draw, text, _seeds):
    numbers = list(re.finditer(rb"-?\d+(?:\.\d*)?(?:[eE]-?\d+)?", text))
    if not numbers:
        return text
    found = draw(st.sampled_from(numbers))
    return text[: found.start()] + draw(st.sampled_from(NASTY_WORDS)) + text[found.end() :]


def _lying(draw, text, _seeds):
    """Put a number where one may stand, often in the header."""
    at = draw(st.one_of(st.integers(0, 100), st.integers(0, max(0, len(text) - 4))))
    number = draw(
        st.one_of(
            st.builds(lambda n: struct.pack("<I", n), st.sampled_from(NASTY_WHOLE)),
            st.builds(lambda x: struct.pack("<f", x), st.sampled_from(NASTY_FLOATS)),
        )
    )
    return text[:at] + number + text[at + 4 :]
