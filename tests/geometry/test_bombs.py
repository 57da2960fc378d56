"""Files that lie about their size, or swell: refused at once, and little memory asked for."""

import io
import struct
import tracemalloc
import zipfile

import pytest

from pourwright.foundation.errors import UserError
from pourwright.geometry.files.readers import read_shape_file
from tests.geometry.glb_files import glb, glb_tree
from tests.geometry.mangling import CORE, TETRAHEDRON, threemf_model, zipped

MODEL = "3D/3dmodel.model"
MEGABYTE = 1_000_000
COMPONENT = '<component objectid="%d"/><component objectid="%d"/>'
TEXT, BINARY = b"ply\nformat ascii 1.0\n", b"ply\nformat binary_little_endian 1.0\n"
FACE = b"element face 1\nproperty list uchar int vertex_index\n"
PLACES = b"property float x\nproperty float y\nproperty float z\n"


def refused(tmp_path, name, content, message, memory=60 * MEGABYTE):
    """The file is refused with the message, and reading it never asked for more than the memory."""
    (tmp_path / name).write_bytes(content)
    tracemalloc.start()
    try:
        with pytest.raises(UserError, match=message):
            read_shape_file(tmp_path / name, None if name[-3:] in {"3mf", "glb"} else "mm")
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < memory + len(content)


def swelling(times, piece=b" " * MEGABYTE):
    """A part that begins as a model should and goes on with blanks."""
    package = io.BytesIO()
    with zipfile.ZipFile(package, "w", zipfile.ZIP_DEFLATED) as archive, archive.open(MODEL, "w") as entry:
        entry.write(f'<model xmlns="{CORE}">'.encode())
        for _ in range(times):
            entry.write(piece)
    return package.getvalue()


def with_size(package, size):
    """Write another unpacked size into both headers of the only part."""
    content = bytearray(package)
    struct.pack_into("<I", content, 22, size)
    struct.pack_into("<I", content, content.rindex(b"PK\x01\x02") + 24, size)
    return bytes(content)


def test_an_archive_that_says_it_unpacks_to_much_more(tmp_path):
    refused(tmp_path, "a.3mf", swelling(100), r"unpacks to \d+ times its size")
    refused(tmp_path, "b.3mf", with_size(swelling(1), 2_000_000_000), r"unpacks to 2\.0 GB, more than 1 GB")


def test_an_archive_that_unpacks_to_more_than_it_says(tmp_path):
    # the reader stops at what was said, and the check sum is then wrong
    refused(tmp_path, "a.3mf", with_size(swelling(50), 1000), "no whole ZIP archive")


def test_an_archive_with_very_many_entries(tmp_path):
    parts = {f"{number}": b"" for number in range(10_500)} | {MODEL: threemf_model()}
    refused(tmp_path, "a.3mf", zipped(parts, zipfile.ZIP_STORED), "10501 entries, more than 10000")


def test_an_archive_in_an_archive_is_not_opened(tmp_path):
    refused(tmp_path, "a.3mf", zipped({MODEL: swelling(100)}), "its XML is broken")
    refused(tmp_path, "b.3mf", zipped({"inner.zip": swelling(100)}), "no 3D model in it")


def test_archives_packed_otherwise_or_locked(tmp_path):
    model = threemf_model()
    refused(tmp_path, "a.3mf", zipped({MODEL: model}, zipfile.ZIP_LZMA), "packed in a way")
    locked = bytearray(zipped({MODEL: model}))
    locked[6] |= 1
    locked[locked.rindex(b"PK\x01\x02") + 8] |= 1
    refused(tmp_path, "b.3mf", bytes(locked), "locked with a password")


ENTITIES = "".join(f'<!ENTITY e{n} "{f"&e{n - 1};" * 10}">' for n in range(1, 10))


@pytest.mark.parametrize(
    "before",
    [
        f'<!DOCTYPE model [<!ENTITY e0 "lol">{ENTITIES}]>',
        '<!DOCTYPE model [<!ENTITY e SYSTEM "file:///etc/hostname">]>',
        '<!DOCTYPE model SYSTEM "http://example.org/model.dtd">',
        f'<!DOCTYPE model [<!ENTITY e "{"a" * 100_000}">]>',
    ],
    ids=["entities of entities", "a file of ours", "an address", "a long entity"],
)
def test_document_types_are_refused_before_anything_grows(tmp_path, before):
    model = threemf_model(before=before, objects="&e9;" if "e9" in before else "")
    refused(tmp_path, "a.3mf", zipped({MODEL: model}), "declares a document type or entities", 10 * MEGABYTE)


def test_xml_that_is_nested_very_deep(tmp_path):
    model = f'<model xmlns="{CORE}">' + "<a>" * 1_000_000
    refused(tmp_path, "a.3mf", zipped({MODEL: model}), "nested more than 64 deep")


def test_a_tag_that_never_ends(tmp_path):
    noise = "".join(f' a{number}="{number * 7919 % 65537}"' for number in range(900_000))
    model = f'<model xmlns="{CORE}"><object id="1"{noise}'
    refused(tmp_path, "a.3mf", zipped({MODEL: model}), "longer than 8 MB", 120 * MEGABYTE)


def test_objects_that_double_at_every_step(tmp_path):
    pairs = "".join(
        f'<object id="{n}"><components>{COMPONENT % (n - 1, n - 1)}</components></object>'
        for n in range(2, 40)
    )
    model = threemf_model(objects=pairs, items='<item objectid="39"/>')
    refused(tmp_path, "a.3mf", zipped({MODEL: model}), "too many", 120 * MEGABYTE)
    assert TETRAHEDRON.encode() in model


def test_nodes_that_double_at_every_step(tmp_path):
    nodes = [{"mesh": 0}] + [{"children": [n, n]} for n in range(40)]
    refused(
        tmp_path, "a.glb", glb(glb_tree(nodes=nodes, scenes=[{"nodes": [40]}])), "too many", 120 * MEGABYTE
    )


def huge(**accessor):
    tree = glb_tree()
    tree["accessors"][0] |= accessor
    return glb(tree)


LIES = {
    "stl.stl": (bytes(80) + struct.pack("<I", 2**32 - 1) + bytes(50), "cut off: 214748364834 bytes"),
    "vertices.ply": (
        BINARY + b"element vertex 4000000000\n" + PLACES + FACE + b"end_header\n" + bytes(100),
        "more is announced than there is",
    ),
    "faces.ply": (
        TEXT + b"element vertex 1\n" + PLACES + FACE.replace(b"1", b"9" * 12) + b"end_header\n0 0 0\n3 0 0\n",
        "more is announced than there is",
    ),
    "nothing in a row.ply": (
        TEXT + b"element vertex 1\n" + PLACES + b"element face 99999999999999999\nend_header\n0 0 0\n",
        "no faces",
    ),
    "list.ply": (
        BINARY + b"element vertex 1\n" + PLACES + FACE.replace(b"uchar", b"uint") + b"end_header\n"
        + bytes(12) + struct.pack("<I", 2**32 - 1) + bytes(40),
        "impossible length",
    ),
    "header.ply": (b"ply\n" + b"comment x\n" * 100_000 + b"end_header\n", "longer than 64 kB"),
    "count.glb": (huge(count=4_000_000_000), "goes on behind its end"),
    "offset.glb": (huge(byteOffset=10**18), "goes on behind its end"),
    "zeros.glb": (huge(count=4_000_000_000, bufferView=None), "no number None"),
    "length.glb": (b"glTF" + struct.pack("<IIII", 2, 2**32 - 1, 2**32 - 1, 0x4E4F534A), "cut off"),
    "deep.glb": (glb(b'{"a":' + b"[" * 100_000), "no whole JSON"),
}  # fmt: skip


@pytest.mark.parametrize(("content", "message"), LIES.values(), ids=LIES)
def test_headers_that_announce_what_is_not_there(tmp_path, content, message, request):
    name = request.node.callspec.id
    refused(tmp_path, name, content, message, 20 * MEGABYTE)


def test_a_table_of_zeros_that_nobody_stores(tmp_path):
    tree = glb_tree()
    del tree["accessors"][0]["bufferView"]
    tree["accessors"][0]["count"] = 4_000_000_000
    refused(tmp_path, "a.glb", glb(tree), "announces more numbers than it holds")
