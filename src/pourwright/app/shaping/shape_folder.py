"""The folder that ``shape --out`` writes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pourwright import __version__
from pourwright.app.own_folder import OwnFolder
from pourwright.foundation.files import canonical_json

SCHEMA = "pourwright-shape/1.0"
PICTURES, BODIES = ("fault", "mended", "measured", "ways", "thin"), ("shape", "master")
SHAPE_FOLDER = OwnFolder(
    "a shape",
    "shape.json",
    SCHEMA.partition("/")[0] + "/",
    (
        *(f"{name}.{ending}" for name in PICTURES for ending in ("svg", "png")),
        *(f"{name}.{ending}" for name in BODIES for ending in ("stl", "3mf")),
    ),
)


def marked(answer: Mapping[str, Any]) -> dict[str, bytes]:
    """Write what was told of a shape, or why it was refused, as the file its folder is known by.

    Parameters
    ----------
    answer : mapping
        What JSON can hold.

    Returns
    -------
    dict
        The file by its name.
    """
    head = {"schema": SCHEMA, "version": __version__}
    return {SHAPE_FOLDER.mark: canonical_json({**head, **answer})}
