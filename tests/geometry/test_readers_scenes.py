"""Files that place parts, 3MF builds and GLB scenes: volumes and bounds by hand, of a tetrahedron of 1/6."""

import io
import struct

import numpy as np
import pytest
import trimesh

from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, measure
from pourwright.geometry.files.glb_reader import read_glb
from pourwright.geometry.files.readers import read_shape_file
from pourwright.geometry.files.threemf_model import read_model
from pourwright.geometry.files.threemf_reader import read_threemf
from tests.geometry.glb_files import BINARY, CORNERS, SIDES, glb, glb_tree
from tests.geometry.mangling import CORE, TETRAHEDRON, threemf_model, zipped

MIRROR = "-1 0 0 0 1 0 0 0 1 0 0 0"
MESH = TETRAHEDRON[TETRAHEDRON.index("<mesh") :]
WIDER = MESH.replace('x="1"', 'x="9"')
ZERO = [0.0, 0.0, 0.0]


def packed(**options):
    return zipped({"3D/3dmodel.model": threemf_model(**options)})


def body(parsed):
    return Mesh(parsed.vertices, parsed.faces)


def component(number, transform=""):
    moved = f' transform="{transform}"' if transform else ""
    return f'<component objectid="{number}"{moved}/>'


def thing(number, *components):
    return f'<object id="{number}"><components>{"".join(components)}</components></object>'


NESTED = {
    "mirrored": ({"items": f'<item objectid="1" transform="{MIRROR}"/>'}, 1 / 6, [[-1, 0, 0], [0, 1, 1]]),
    "mirror within a stretch": (
        {
            "objects": thing(2, component(1, "-1 0 0 0 1 0 0 0 1 5 0 0"), component(1)),
            "items": '<item objectid="2" transform="2 0 0 0 1 0 0 0 1 10 0 0"/>',
        },
        2 * 2 / 6,
        # one tetrahedron from 4 to 5 and one from 0 to 1, times 2, plus 10
        [[10, 0, 0], [20, 1, 1]],
    ),
    "three deep": (
        {
            "objects": thing(2, component(1, "1 0 0 0 1 0 0 0 1 5 0 0"))
            + thing(3, component(2, "0 1 0 -1 0 0 0 0 1 0 0 0")),
            "items": '<item objectid="3" transform="2 0 0 0 2 0 0 0 2 0 0 0"/>',
        },
        8 / 6,
        # moved to x from 5 to 6, turned to y, doubled
        [[-2, 10, 0], [0, 12, 2]],
    ),
    "twice": (
        {"items": '<item objectid="1"/><item objectid="1" transform="1 0 0 0 1 0 0 0 1 5 0 0"/>'},
        2 / 6,
        [[0, 0, 0], [6, 1, 1]],
    ),
    "another object that nobody builds": (
        {"objects": f'<object id="2">{WIDER}'}, 1 / 6, [[0, 0, 0], [1, 1, 1]]
    ),
}  # fmt: skip


@pytest.mark.parametrize(("options", "volume", "bounds"), NESTED.values(), ids=NESTED)
def test_3mf_puts_parts_where_the_build_says(options, volume, bounds):
    mesh = body(read_threemf(packed(**options)))
    assert measure(mesh).volume == pytest.approx(volume, rel=1e-12)
    assert mesh.bounds == pytest.approx(np.array(bounds, dtype=float), abs=1e-12)


@pytest.mark.parametrize("name", [name for name in NESTED if "nobody" not in name])
def test_3mf_agrees_with_another_library(name):
    content = packed(**NESTED[name][0])
    other = trimesh.load_scene(io.BytesIO(content), file_type="3mf", process=False).to_mesh()
    ours = body(read_threemf(content))
    assert measure(ours).volume == pytest.approx(other.volume, rel=1e-9)
    assert ours.bounds == pytest.approx(other.bounds, abs=1e-9)


@pytest.mark.parametrize(
    ("kind", "why"), [("support", "support"), ("solidsupport", "support"), ("other", "not to be made")]
)
def test_3mf_leaves_out_what_is_not_the_piece_and_says_so(tmp_path, kind, why):
    model = threemf_model(
        objects=f'<object id="2" type="{kind}">{MESH}',
        items='<item objectid="1"/><item objectid="2" transform="1 0 0 0 1 0 0 0 1 5 0 0"/>',
    )
    (tmp_path / "a.3mf").write_bytes(zipped({"3D/3dmodel.model": model}))
    found = read_shape_file(tmp_path / "a.3mf")
    assert found.mesh.bounds[1] == pytest.approx(np.full(3, 1e-3))
    assert found.told == (f"left out: 1 object that the file marks as {why}",)


def test_3mf_object_in_another_part_of_the_package():
    production = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06"
    root = threemf_model(
        objects=thing(2, '<component objectid="7" p:path="/3D/Objects/a.model"/>'),
        items='<item objectid="2"/>',
        more=f'requiredextensions="p" xmlns:p="{production}"',
    )
    part = threemf_model(items="").replace(b'id="1"', b'id="7"')
    parsed = read_threemf(zipped({"3D/3dmodel.model": root, "3D/Objects/a.model": part}))
    assert measure(body(parsed)).volume == pytest.approx(1 / 6)


def test_3mf_root_is_the_one_that_the_package_names():
    relation = (
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
        '<Relationship Id="a" Target="/odd/place.model" '
        'Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>'
    )
    wrong, right = threemf_model(unit="inch"), threemf_model(unit="centimeter")
    parts = {"3D/3dmodel.model": wrong, "odd/place.model": right, "_rels/.rels": relation}
    assert read_threemf(zipped(parts)).unit == "centimeter"


@pytest.mark.parametrize(
    ("options", "message"),
    [
        ({"objects": thing(2, component(2)), "items": '<item objectid="2"/>'}, "in a ring"),
        ({"items": '<item objectid="9"/>'}, "an object '9' that is not there"),
        ({"items": '<item objectid="1" transform="1 0 0"/>'}, "not twelve numbers"),
        ({"more": 'requiredextensions="b" xmlns:b="http://example.org/beams"'}, "extension http://example.org/beams"),
        ({"objects": f'<object id="1">{MESH}'}, "two of its objects have the number 1"),
        ({"objects": f'<object id="2">{MESH.replace("v3=", "v4=")}'}, "lacks 'v3'"),
        ({"objects": '<object id="2">' + MESH.replace('v2="', 'v2="9')}, "names a vertex"),
        ({"objects": f'<object id="2">{MESH.replace("1", "1,5", 1)}'}, "'1,5' is no number; .* a comma"),
    ],
)  # fmt: skip
def test_3mf_that_contradicts_itself(options, message):
    with pytest.raises(ValueError, match=message):
        read_threemf(packed(**options))


def test_3mf_without_name_space_and_in_utf_16():
    text = threemf_model().decode().replace(f'xmlns="{CORE}"', "")
    assert read_threemf(zipped({"3D/3dmodel.model": text})).count == 4
    wide = text.replace("UTF-8", "UTF-16").encode("utf-16")
    assert read_threemf(zipped({"3D/3dmodel.model": wide})).count == 4


ROW = '<vertex x="1" y="0" z="0"/>'
SPELLINGS = {
    "plain": lambda text: text,
    "other order, other quotes": lambda text: text.replace(ROW, "<vertex z='0' x='1' y='0'/>"),
    "further attributes": lambda text: text.replace('v3="1"/>', 'v3="1" pid="5" p1="0"/>'),
    "blanks and lines": lambda text: text.replace("><", ">\r\n\t <").replace("/>", "  />"),
    "exponents": lambda text: text.replace('x="1"', 'x="10E-1"'),
    "a remark": lambda text: text.replace(ROW, f"<!-- <vertices> {ROW} </vertices> -->{ROW}"),
    "a remark before": lambda text: text.replace("<resources>", f"<!-- <vertices>{ROW} --><resources>"),
    "letters by number": lambda text: text.replace('x="1"', 'x="&#49;"'),
    "tags with an end": lambda text: text.replace(ROW, ROW.replace("/>", "></vertex>")),
    "a prefix": lambda text: text.replace("<", "<m:").replace("<m:/", "</m:").replace("<m:?", "<?").replace(
        "xmlns=", "xmlns:m="
    ),
}  # fmt: skip


@pytest.mark.parametrize("spell", SPELLINGS.values(), ids=SPELLINGS)
@pytest.mark.parametrize("piece", [1, 7, 64, 10_000])
def test_3mf_however_the_xml_is_spelled_and_cut(spell, piece):
    text = spell(threemf_model().decode()).encode()
    model = read_model(text[n : n + piece] for n in range(0, len(text), piece))
    thing = model.objects["1"]
    assert thing.vertices.tolist() == [[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]]
    assert thing.faces.tolist() == [[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]]


TURN = [0, 0, np.sqrt(0.5), np.sqrt(0.5)]
SCENES = {
    "as it is": ({}, 1 / 6, [ZERO, [1, 1, 1]]),
    "mirrored": ({"nodes": [{"mesh": 0, "scale": [-1, 1, 1]}]}, 1 / 6, [[-1, 0, 0], [0, 1, 1]]),
    "mirrored by a matrix": (
        {"nodes": [{"mesh": 0, "matrix": [-2, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 5, 0, 0, 1]}]},
        2 / 6, [[3, 0, 0], [5, 1, 1]],
    ),
    "nested: doubled, turned a quarter about z, moved by x": (
        {"nodes": [{"children": [1], "translation": [1, 0, 0], "rotation": TURN},
                   {"mesh": 0, "scale": [2, 2, 2]}]},
        8 / 6, [[-1, 0, 0], [1, 2, 2]],
    ),
    "twice": (
        {"nodes": [{"mesh": 0}, {"mesh": 0, "translation": [5, 0, 0]}], "scenes": [{"nodes": [0, 1]}]},
        2 / 6, [ZERO, [6, 1, 1]],
    ),
    "a node outside the scene": (
        {"nodes": [{"mesh": 0}, {"mesh": 0, "translation": [5, 0, 0]}]}, 1 / 6, [ZERO, [1, 1, 1]],
    ),
    "no scenes": ({"scenes": [], "nodes": [{"children": [1]}, {"mesh": 0}]}, 1 / 6, [ZERO, [1, 1, 1]]),
    "points and lines besides": (
        {"meshes": [{"primitives": [
            {"attributes": {"POSITION": 0}, "indices": 1}, {"attributes": {"POSITION": 0}, "mode": 0},
            {"attributes": {"POSITION": 0}, "mode": 1},
        ]}]}, 1 / 6, [ZERO, [1, 1, 1]],
    ),
}  # fmt: skip


@pytest.mark.parametrize(("changed", "volume", "bounds"), SCENES.values(), ids=SCENES)
def test_glb_puts_parts_where_the_scene_says(changed, volume, bounds):
    content = glb(glb_tree(**changed))
    mesh = body(read_glb(content))
    assert measure(mesh).volume == pytest.approx(volume, rel=1e-6)
    assert mesh.bounds == pytest.approx(np.array(bounds, dtype=float), abs=1e-6)
    if "no scenes" not in str(changed) and changed.get("scenes") != []:
        other = trimesh.load_scene(io.BytesIO(content), file_type="glb", process=False)
        meshes = [part for part in other.dump(concatenate=False) if hasattr(part, "faces")]
        assert sum(part.volume for part in meshes) == pytest.approx(volume, rel=1e-6)


@pytest.mark.parametrize(
    ("mode", "expected"), [(5, [[0, 1, 2], [2, 1, 3]]), (6, [[0, 1, 2], [0, 2, 3]]), (4, [[0, 1, 2]])]
)
def test_glb_strips_fans_and_bare_triangles(mode, expected):
    accessors = glb_tree()["accessors"]
    if mode == 4:
        accessors[0]["count"] = 3
    primitive = {"attributes": {"POSITION": 0}, "mode": mode}
    parsed = read_glb(glb(glb_tree(meshes=[{"primitives": [primitive]}], accessors=accessors)))
    assert parsed.faces.tolist() == expected


def test_glb_interleaved_quantized_and_sparse_tables():
    # every place is followed by one byte of filling, as the quantization extension allows
    places = b"".join(struct.pack("<3bx", *(127 * row).astype(int)) for row in CORNERS)
    fresh = struct.pack("<H2x", 3) + struct.pack("<3bx", 0, 0, -127)
    binary = places + SIDES.tobytes() + fresh
    tree = glb_tree(
        extensionsRequired=["KHR_mesh_quantization"],
        buffers=[{"byteLength": len(binary)}],
        bufferViews=[
            {"buffer": 0, "byteLength": 16, "byteStride": 4},
            {"buffer": 0, "byteOffset": 16, "byteLength": 24},
            {"buffer": 0, "byteOffset": 40, "byteLength": 8},
        ],
    )  # fmt: skip
    tree["accessors"][0] |= {
        "componentType": 5120, "normalized": True,
        "sparse": {"count": 1, "indices": {"bufferView": 2, "componentType": 5123},
                   "values": {"bufferView": 2, "byteOffset": 4}},
    }  # fmt: skip
    parsed = read_glb(glb(tree, binary))
    assert parsed.vertices.tolist() == [[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, -1]]


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        ({"extensionsRequired": ["KHR_draco_mesh_compression"]}, "extension KHR_draco_mesh_compression"),
        ({"extensionsRequired": ["EXT_meshopt_compression"]}, "extension EXT_meshopt_compression"),
        ({"buffers": [{"byteLength": 72, "uri": "other.bin"}]}, "leans on another file"),
        ({"buffers": [{"byteLength": 72, "uri": "data:;base64,AAAA"}]}, "leans on another"),
        ({"nodes": [{"mesh": 0, "children": [0]}]}, "in a ring"),
        ({"nodes": [{"mesh": 3}]}, "meshes have no number 3"),
        ({"nodes": [{"mesh": 0, "scale": [1, 1]}]}, "not the 3 numbers"),
        ({"scene": 4}, "scenes have no number 4"),
    ],
)  # fmt: skip
def test_glb_that_cannot_be_read(tmp_path, changed, message):
    (tmp_path / "a.glb").write_bytes(glb(glb_tree(**changed)))
    with pytest.raises(UserError, match=message):
        read_shape_file(tmp_path / "a.glb")


def test_glb_corner_without_a_vertex():
    sides = SIDES.copy()
    sides[4] = 7
    with pytest.raises(ValueError, match="names a vertex that is not there"):
        read_glb(glb(glb_tree(), BINARY[:48] + sides.tobytes()))
