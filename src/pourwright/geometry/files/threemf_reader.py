"""3MF: a ZIP archive of XML models whose build places objects."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from pourwright.geometry.files.archives import Archive
from pourwright.geometry.files.parsed import Parsed, refuse_many
from pourwright.geometry.files.placing import MOST_PARTS, Part, put_together
from pourwright.geometry.files.threemf_model import Model, Placed, read_model, read_relations
from pourwright.geometry.mesh import Floats

_DEEPEST = 64
_LEFT_OUT = {"support": "support", "solidsupport": "support", "other": "not to be made"}
Key = tuple[str, str]


def read_threemf(content: bytes) -> Parsed:
    """Read a 3MF file: the objects of its build, where the build puts them.

    Parameters
    ----------
    content : bytes
        The file.

    Returns
    -------
    Parsed
        In the unit of its root model; objects marked as support or other are left out, and told.

    Raises
    ------
    ValueError
        Where it is cut off, swells, needs an extension, or contradicts itself.

    Notes
    -----
    Source: 3MF Core Specification 1.3, sections 2 (package), 3 (model, build), 4 (objects), and the
    Production Extension 1.1 for objects in further parts; from memory.
    """
    archive = Archive(content)
    root = _root(archive)
    package = _Package(lambda path: read_model(archive.pieces(path)), root)
    parts = list(package.parts())
    return put_together(parts, package.model(root).unit, package.told())


def _root(archive: Archive) -> str:
    """Give the name of the model that the package says is its own, or the usual one."""
    named = ""
    if "_rels/.rels" in archive.names:
        named = read_relations(archive.pieces("_rels/.rels")).lower().lstrip("/")
    usual = (name for name in archive.names if name.endswith("3d/3dmodel.model"))
    found = named if named in archive.names else next(usual, "")
    if not found:
        raise ValueError("there is no 3D model in it")
    return found


@dataclass
class _Package:
    """Models by path, read when they are first asked for."""

    read: Callable[[str], Model]
    root: str
    _models: dict[str, Model] = field(default_factory=dict)
    _left_out: dict[str, set[Key]] = field(default_factory=dict)
    _weight: int = 0
    _count: int = 0

    def model(self, path: str) -> Model:
        if path not in self._models:
            self._models[path] = self.read(path)
        return self._models[path]

    def parts(self) -> Iterator[Part]:
        model = self.model(self.root)
        for item in model.build:
            yield from self._object(_path(item, self.root), item, item.matrix, 0)

    def _object(self, path: str, placed: Placed, matrix: Floats, depth: int) -> Iterator[Part]:
        """Give the triangles of an object and of all that it is made of."""
        thing = self.model(path).objects.get(placed.object_id)
        if thing is None:
            raise ValueError(f"it places an object '{placed.object_id[:20]}' that is not there")
        if thing.kind in _LEFT_OUT:
            self._left_out.setdefault(_LEFT_OUT[thing.kind], set()).add((path, placed.object_id))
            return
        self._count += 1
        if depth > _DEEPEST or self._count > MOST_PARTS:
            raise ValueError("its objects hold each other in a ring, or are too many")
        if len(thing.faces):
            part = Part(thing.vertices, thing.faces, matrix)
            self._weight += part.weight
            refuse_many(self._weight)
            yield part
        for component in thing.components:
            yield from self._object(_path(component, path), component, matrix @ component.matrix, depth + 1)

    def told(self) -> tuple[str, ...]:
        """Say what was left out."""
        return tuple(
            f"left out: {len(keys)} {'object' if len(keys) == 1 else 'objects'} that the file marks as {why}"
            for why, keys in self._left_out.items()
        )


def _path(placed: Placed, own: str) -> str:
    return posixpath.normpath(placed.path.lower().lstrip("/")) if placed.path else own
