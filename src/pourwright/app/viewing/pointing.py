"""What is at a place one points at."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np

from pourwright.app.viewing.asked import Asked, asked
from pourwright.app.viewing.packed import unpacked
from pourwright.app.viewing.view import tint_of, view_of
from pourwright.app.viewing.words import Place, where
from pourwright.foundation.errors import NotThereError


def point_at(
    path: Path,
    place_m: Place,
    *,
    part: str = "piece",
    tint: str | None = None,
    triangle: int | None = None,
    variant: str | None = None,
) -> dict[str, Any]:
    """Say what is at a place of the view.

    Parameters
    ----------
    path : Path
        Job file.
    place_m : tuple of float
        x, y, z in the pour frame [m].
    part : str
        Id of the part that is met there.
    tint : str, optional
        The tint that is shown.
    triangle : int, optional
        The triangle of the piece's surface that is met there; its value of the tint is told.
    variant : str, optional
        The variant; the first where left out.

    Returns
    -------
    dict
        The part, band and pour there, the tint's value, and the sentence about them.

    Raises
    ------
    NotThereError
        For a part, a tint or a triangle that the job does not have.
    """
    job = asked(path, variant)
    view = view_of(path, variant)
    parts = {each["id"]: each for each in view["parts"]}
    if part != "surface" and part not in parts:
        raise NotThereError(f"no part '{part}'", allowed=", ".join(parts), todo="name one of these")
    met = parts["piece" if part == "surface" else part]
    inside = [met["words"]]
    if met["kind"] in {"piece", "band", "pour"}:
        inside += [each["words"] for each in view["parts"] if each is not met and _holds(each, place_m[2])]
    told = {"part": met["words"], "place_m": list(place_m), "value": None}
    value = None if tint is None or triangle is None else _value(path, tint, triangle, variant)
    words = "" if value is None or tint is None else f"{_told(job, tint, value)}, "
    text = f"{words}{', '.join(inside)}, at {where(job, place_m)}."
    return told | {"value": value, "text": f"{text[0].upper()}{text[1:]}"}


def _holds(part: dict[str, Any], height: float) -> bool:
    return part["kind"] in {"band", "pour"} and part["low_m"][2] <= height <= part["high_m"][2]


def _value(path: Path, tint: str, triangle: int, variant: str | None) -> float | None:
    values = unpacked(tint_of(path, tint, variant))[1]["values"]
    if not 0 <= triangle < values.size:
        raise NotThereError(f"no triangle {triangle}", allowed=f"0 to {values.size - 1}")
    value = float(values[triangle])
    return value if np.isfinite(value) else None


def _told(job: Asked, tint: str, value: float) -> str:
    if tint == "thickness":
        return f"{job.words.length(value)} thick"
    if tint == "undercut":
        reach = job.words.length(value)
        return f"undercut, the rubber reaches in by {reach}" if value > 0 else "no undercut"
    return f"leans back by {-value:.1f} degrees" if value < 0 else f"opens by {value:.1f} degrees"
