"""Edges of any body rounded by rolling a ball."""

from __future__ import annotations

from pourwright.foundation.errors import UserError
from pourwright.geometry.mesh import Mesh


def rounded_body(mesh: Mesh, radius: float, inner_radius: float = 0.0) -> Mesh:
    """Round the edges of a body."""
    del mesh, radius, inner_radius
    raise UserError("joined bodies are not rounded yet")
