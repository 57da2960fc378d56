"""Small GLB files written by hand: a tetrahedron of one metre, and what may stand around it."""

import json
import struct

import numpy as np

CORNERS = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], "<f4")
SIDES = np.array([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3], "<u2")
BINARY = CORNERS.tobytes() + SIDES.tobytes()


def glb_tree(**changed):
    """The description of a GLB with one tetrahedron, with some of its tables changed."""
    primitive = {"attributes": {"POSITION": 0}, "indices": 1}
    tree = {
        "asset": {"version": "2.0"},
        "buffers": [{"byteLength": len(BINARY)}],
        "bufferViews": [
            {"buffer": 0, "byteOffset": 0, "byteLength": 48},
            {"buffer": 0, "byteOffset": 48, "byteLength": 24},
        ],
        "accessors": [
            {"bufferView": 0, "componentType": 5126, "count": 4, "type": "VEC3"},
            {"bufferView": 1, "componentType": 5123, "count": 12, "type": "SCALAR"},
        ],
        "meshes": [{"primitives": [primitive]}],
        "nodes": [{"mesh": 0}],
        "scenes": [{"nodes": [0]}],
        "scene": 0,
    }
    return tree | changed


def glb(tree, binary=BINARY):
    text = json.dumps(tree).encode() if isinstance(tree, dict) else tree
    text = text.ljust((len(text) + 3) // 4 * 4)
    head = struct.pack("<IIII", 2, 28 + len(text) + len(binary), len(text), 0x4E4F534A)
    return b"glTF" + head + text + struct.pack("<II", len(binary), 0x4E4942) + binary
