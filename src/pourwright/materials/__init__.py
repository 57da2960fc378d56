"""What one buys: typed records with sources, and how they are read."""

from pourwright.materials.loading import Materials, load_materials
from pourwright.materials.records import (
    Board,
    Core,
    CureLaw,
    Doubts,
    Gas,
    Glass,
    Grade,
    Mineral,
    Resin,
    Rubber,
    Solid,
)

__all__ = [
    "Board",
    "Core",
    "CureLaw",
    "Doubts",
    "Gas",
    "Glass",
    "Grade",
    "Materials",
    "Mineral",
    "Resin",
    "Rubber",
    "Solid",
    "load_materials",
]
