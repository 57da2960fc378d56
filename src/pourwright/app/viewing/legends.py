"""Legends of the tints: classes with words, a colour and a pattern each, so that colour is never alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from pourwright.app.shaping.thin_defaults import THIN
from pourwright.foundation.notation import System, format_length
from pourwright.geometry.ways_up.drafts import EDGES, ROUND_OFF
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.sheets.ramps import HARD, WARM

THICKNESS = (POUR["thinnest"].value, 0.006, THIN["told"].value, 0.020, 0.040)
"""Ends of the classes of thickness [m]."""
REACH = (5e-7, 0.003, 0.010, 0.030)
"""Ends of the classes of how far the rubber reaches in [m]; below the first it does not."""
PATTERNS = ("crosses", "falling lines", "dashes", "dots", "", "")
"""From the class to be minded most."""


def legends(system: System) -> dict[str, Any]:
    """Give the classes of every tint.

    Parameters
    ----------
    system : UnitSystem
        The maker's.

    Returns
    -------
    dict
        By tint: its words, its unit in SI, and its classes in the order of their values; a class ends
        ``below`` a value, the last nowhere.
    """
    return {
        "draft": _legend(
            "How it leans against the way out",
            "deg",
            (-ROUND_OFF, *EDGES),
            ("leans back: undercut", "upright, 0 to 1 degree", "opens by 1 to 3 degrees", "opens by more"),
            HARD.colours(6)[1:5],
            (*PATTERNS[:3], ""),
        ),
        "undercut": _undercut(system),
        "thickness": _thickness(system),
    }


def _undercut(system: System) -> dict[str, Any]:
    lengths = [format_length(end, system) for end in REACH[1:]]
    texts = ("no undercut", f"reaches in by up to {lengths[0]}", *_to(lengths), f"more than {lengths[-1]}")
    colours, patterns = WARM.colours(6)[:5], ("", *PATTERNS[3::-1])
    return _legend("How far the rubber reaches in behind it", "m", REACH, texts, colours, patterns)


def _thickness(system: System) -> dict[str, Any]:
    lengths = [format_length(end, system) for end in THICKNESS]
    texts = (f"under {lengths[0]}", *_to(lengths), f"more than {lengths[-1]}")
    return _legend("How thick it is", "m", THICKNESS, texts, WARM.colours(6)[::-1], PATTERNS)


def _to(lengths: Sequence[str]) -> list[str]:
    return [f"to {length}" for length in lengths[1:]]


def _legend(
    words: str,
    unit: str,
    ends: Sequence[float],
    texts: Sequence[str],
    colours: Sequence[str],
    patterns: Sequence[str],
) -> dict[str, Any]:
    below = [*ends, None]
    rows = zip(below, texts, colours, patterns, strict=True)
    classes = [
        {"below": end, "text": text, "colour": colour, "pattern": pattern}
        for end, text, colour, pattern in rows
    ]
    return {"words": words, "unit": unit, "classes": classes}
