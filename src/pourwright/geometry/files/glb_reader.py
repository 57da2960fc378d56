"""GLB, the binary form of glTF 2.0: a tree of nodes that place meshes."""

from __future__ import annotations

import json
import math
import struct
from collections.abc import Iterator
from typing import Any

import numpy as np

from pourwright.geometry.files.glb_buffers import Buffers
from pourwright.geometry.files.parsed import Parsed, refuse_many
from pourwright.geometry.files.placing import MOST_PARTS, Part, put_together
from pourwright.geometry.mesh import Floats, Integers

TRIANGLES, STRIP, FAN = 4, 5, 6
_HARMLESS = ("KHR_mesh_quantization", "KHR_materials_", "KHR_texture_", "EXT_texture_", "KHR_lights_")
_DEEPEST = 100


def read_glb(content: bytes) -> Parsed:
    """Read a GLB file: the triangles of its scene, where its nodes put them.

    Parameters
    ----------
    content : bytes
        The file.

    Returns
    -------
    Parsed
        In metres; points and lines, cameras, skins and animations left out.

    Raises
    ------
    ValueError
        Where it is cut off, needs an extension or a file beside it, or contradicts itself.

    Notes
    -----
    Source: glTF 2.0, ISO/IEC 12113:2022, sections 3.5 (nodes), 3.6 (buffers), 3.7 (meshes), 4 (GLB); from
    memory.
    """
    tree, binary = _chunks(content)
    _refuse_extensions(tree)
    buffers = Buffers(tree, binary)
    meshes: dict[int, list[Part]] = {}
    parts: list[Part] = []
    weight = 0
    for number, matrix in _placed(tree):
        if number not in meshes:
            meshes[number] = list(_primitives(_item(tree, "meshes", number), buffers))
        parts += [part.moved(matrix) for part in meshes[number]]
        weight += sum(part.weight for part in meshes[number])
        refuse_many(weight)
    return put_together(parts, "meter")


def _chunks(content: bytes) -> tuple[dict[str, Any], bytes]:
    """Give the tree and the bytes behind it."""
    if len(content) < 20:
        raise ValueError("it is cut off")
    _, version, whole = struct.unpack_from("<III", content)
    if version != 2:
        raise ValueError(f"it is of version {version}; version 2 is read")
    if len(content) < whole:
        raise ValueError(f"it is cut off: {whole} bytes announced, {len(content)} there")
    length, kind = struct.unpack_from("<I4s", content, 12)
    if kind != b"JSON" or 20 + length > len(content):
        raise ValueError("it does not begin with its description")
    try:
        tree = json.loads(content[20 : 20 + length])
    except (ValueError, RecursionError) as broken:
        raise ValueError("its description is no whole JSON") from broken
    if not isinstance(tree, dict):
        raise ValueError("its description is no JSON object")  # noqa: TRY004 - of the file, not of a caller
    at = 20 + (length + 3) // 4 * 4
    if at + 8 > len(content):
        return tree, b""
    length, kind = struct.unpack_from("<I4s", content, at)
    if kind == b"BIN\0" and at + 8 + length > len(content):
        raise ValueError("it is cut off")
    return tree, content[at + 8 : at + 8 + length] if kind == b"BIN\0" else b""


def _refuse_extensions(tree: dict[str, Any]) -> None:
    for name in tree.get("extensionsRequired", ()):
        if not str(name).startswith(_HARMLESS):
            raise ValueError(f"it needs the extension {str(name)[:60]}, which is not read: save it without")


def _item(tree: dict[str, Any], table: str, number: Any) -> dict[str, Any]:
    """Give an entry of one of the tree's tables."""
    entries = tree.get(table)
    if not isinstance(entries, list) or type(number) is not int or not 0 <= number < len(entries):
        raise ValueError(f"its {table} have no number {str(number)[:20]}")
    entry: dict[str, Any] = entries[number]
    return entry


def _roots(tree: dict[str, Any]) -> list[Any]:
    """Give the nodes of the scene that is shown; without scenes every node that nobody holds."""
    if tree.get("scenes"):
        return list(_item(tree, "scenes", tree.get("scene", 0)).get("nodes", ()))
    nodes = tree.get("nodes", ())
    held = {child for node in nodes for child in node.get("children", ())}
    return [number for number in range(len(nodes)) if number not in held]


def _placed(tree: dict[str, Any]) -> Iterator[tuple[int, Floats]]:
    """Give every mesh that a node shows, with the node's place in the world."""
    waiting: list[tuple[Any, Floats, int]] = [(root, np.eye(4), 0) for root in reversed(_roots(tree))]
    seen = 0
    while waiting:
        number, above, depth = waiting.pop()
        seen += 1
        if depth > _DEEPEST or seen > MOST_PARTS:
            raise ValueError("its nodes hold each other in a ring, or are too many")
        node = _item(tree, "nodes", number)
        matrix = above @ _matrix(node)
        if "mesh" in node:
            yield node["mesh"], matrix
        waiting += [(child, matrix, depth + 1) for child in reversed(node.get("children", ()))]


def _matrix(node: dict[str, Any]) -> Floats:
    """Give where a node stands in the one above it."""
    if "matrix" in node:
        # the format lists columns
        return _numbers(node["matrix"], 16).reshape(4, 4).T
    x, y, z, w = _numbers(node.get("rotation", (0, 0, 0, 1)), 4)
    length = math.sqrt(x * x + y * y + z * z + w * w) or 1.0
    x, y, z, w = x / length, y / length, z / length, w / length
    turn = np.array(
        [
            [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
            [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
            [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
        ]
    )
    matrix = np.eye(4)
    matrix[:3, :3] = turn * _numbers(node.get("scale", (1, 1, 1)), 3)
    matrix[:3, 3] = _numbers(node.get("translation", (0, 0, 0)), 3)
    return matrix


def _numbers(values: Any, count: int) -> Floats:
    numbers = np.asarray(values, dtype=np.float64)
    if numbers.shape != (count,):
        raise ValueError(f"a node has not the {count} numbers it should have")
    return numbers


def _primitives(mesh: dict[str, Any], buffers: Buffers) -> Iterator[Part]:
    """Give the triangles of a mesh; points and lines are no body."""
    for primitive in mesh.get("primitives", ()):
        mode = primitive.get("mode", TRIANGLES)
        if mode not in {TRIANGLES, STRIP, FAN}:
            continue
        vertices = buffers.places(primitive.get("attributes", {}).get("POSITION"))
        if "indices" in primitive:
            corners = buffers.corners(primitive["indices"])
        else:
            corners = np.arange(len(vertices))
        if corners.size and corners.max() >= len(vertices):
            raise ValueError("a triangle names a vertex that is not there")
        yield Part(vertices, _triangles(corners, mode))


def _triangles(corners: Integers, mode: int) -> Integers:
    """Give three corners per triangle; strips and fans share theirs."""
    if mode == TRIANGLES:
        if corners.size % 3:
            raise ValueError("the corners of its triangles do not come in threes")
        return corners.reshape(-1, 3)
    last = max(0, corners.size - 2)
    if mode == FAN:
        hub = corners[:1].repeat(last)
        return np.stack([hub, corners[1 : last + 1], corners[2:]], axis=1)
    faces = np.stack([corners[:last], corners[1 : last + 1], corners[2:]], axis=1)
    faces[1::2] = faces[1::2, [1, 0, 2]]
    return faces
