"""What work on a mold takes, how long a mold lasts, and what rules a way out."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_MEMORY = "families-from-memory"
_MINUTE, _HOUR = 60.0, 3600.0


def _time(minutes: float, low: float, high: float, conditions: str, unit: str = "s") -> Sourced:
    return Sourced(
        minutes * _MINUTE, unit, low * _MINUTE, high * _MINUTE, Kind.PRACTICE, _PRACTICE, conditions
    )


WORK: Mapping[str, Sourced] = MappingProxyType(
    {
        "panel": _time(15, 8, 30, "one panel marked, sawn and screwed on"),
        "seam": _time(8, 4, 15, "a metre of box seam closed and looked at", "s/m"),
        "hang": _time(30, 20, 60, "bars across the box, the master hung level and weighted"),
        "screw": _time(20, 10, 40, "the master screwed to its board through drilled holes"),
        "turn": _time(20, 10, 40, "box turned over, board off the mouth, floor under it"),
        "bed": _time(90, 45, 180, "a metre of clay bed laid up to the parting line and smoothed", "s/m"),
        "key": _time(2, 1, 4, "one key pressed into the clay"),
        "second_half": _time(60, 30, 90, "clay off, master and old rubber cleaned, release put on"),
        "coat": _time(25, 15, 45, "a square metre of one coat brushed on", "s/m2"),
        "flange": _time(45, 30, 90, "undercuts filled out, flange and keys built up"),
        "wall": _time(60, 30, 120, "a wall of clay or card round the skin, where the shell parts"),
        "shell_ready": _time(45, 30, 90, "one half of a shell: fibre cut, plaster mixed, edges trimmed"),
        "shell": _time(120, 60, 180, "a square metre of shell laid up in plaster and fibre", "s/m2"),
        "take_apart": _time(30, 15, 60, "panels off, the master eased out"),
        "cut": _time(15, 8, 30, "a metre of keyed cut through the rubber", "s/m"),
        "close": _time(30, 15, 60, "for each cast: clean, close, strap, open again"),
        "shell_close": _time(15, 10, 30, "for each cast on top: skin laid into its shell, shell bolted"),
        "clean_line": _time(20, 10, 40, "for each cast: a metre of parting line scraped and sanded", "s/m"),
    }
)  # fmt: skip
"""Times of work by hand."""

WAITS: Mapping[str, Sourced] = MappingProxyType(
    {
        "release": _time(30, 15, 60, "release on the first half is dry"),
        "coat": _time(60, 30, 120, "a coat of platinum or tin rubber is tacky: the next one holds"),
        "half_shell": _time(60, 30, 120, "plaster of the first half is hard enough to take the wall off"),
        "shell": Sourced(
            24 * _HOUR, "s", 12 * _HOUR, 72 * _HOUR, Kind.PRACTICE, _PRACTICE, "a shell dries first"
        ),
    }
)  # fmt: skip
"""Times in which nobody works."""

AMOUNTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "coat": Sourced(0.0025, "m", 0.0015, 0.004, Kind.PRACTICE, _PRACTICE, "of one brushed coat"),
        "skin_loss": Sourced(
            0.08, "", 0.05, 0.15, Kind.PRACTICE, _PRACTICE, "stays in brushes and cups"
        ),
        "skin_flange": Sourced(
            0.03, "m", 0.02, 0.05, Kind.PRACTICE, _PRACTICE, "rim of a skin on the board"
        ),
        "shell_flange": Sourced(
            0.05, "m", 0.04, 0.08, Kind.PRACTICE, _PRACTICE, "rim along which a shell is bolted"
        ),
        "key_spacing": Sourced(
            0.08, "m", 0.05, 0.12, Kind.PRACTICE, _PRACTICE, "from key to key along a parting line"
        ),
        "sheet": Sourced(
            2.98, "m2", 2.98, 5.80, Kind.PRACTICE, _PRACTICE, "of one sheet of board, 8 ft x 4 ft"
        ),
        "waste": Sourced(
            0.15, "", 0.10, 0.25, Kind.PRACTICE, _PRACTICE, "share of a sheet lost in saw cuts and rests"
        ),
        "hour_in_rubber": Sourced(
            1.2, "kg/h", 0.6, 2.5, Kind.PRACTICE, _PRACTICE,
            "an hour of work weighs as much as this mass of rubber where no price says otherwise",
        ),
    }
)  # fmt: skip
"""Amounts that the ways differ in."""

LIMITS: Mapping[str, Sourced] = MappingProxyType(
    {
        "uncut": Sourced(
            0.15, "", 0.05, 0.25, Kind.PRACTICE, _PRACTICE,
            "lengthening of a neck that a thick block still bears by hand: more and it is cut open",
        ),
        "free": Sourced(
            0.01, "", 0.005, 0.02, Kind.PRACTICE, _PRACTICE,
            "share of the surface under rubber that gives way without being cut",
        ),
        "margin": Sourced(
            3.0, "", 2.0, 4.0, Kind.PRACTICE, _PRACTICE,
            "elongation at break over what rubber is stretched in use: nicks, old rubber, uneven pull",
        ),
        "locked": Sourced(
            0.20, "", 0.10, 0.30, Kind.PRACTICE, _PRACTICE,
            "share of the surface that locks two parts: soft rubber gives way to no more",
        ),
        "pouring": Sourced(
            6 * _HOUR, "s", 4 * _HOUR, 8 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "one person stirs and pours without a break, each batch onto rubber that still flows",
        ),
        "screw_face": Sourced(
            0.040, "m", 0.030, 0.060, Kind.PRACTICE, _PRACTICE, "least width of a face that takes four screws"
        ),
        "flat": Sourced(
            0.040, "m2", 0.020, 0.090, Kind.PRACTICE, _PRACTICE,
            "one flat wall from which on a skin hangs off its shell and shows waves",
        ),
    }
)  # fmt: skip
"""What rules a way out."""

LIFE: Mapping[str, Sourced] = MappingProxyType(
    {
        "resin": Sourced(30.0, "casts", 20.0, 50.0, Kind.MEMORY, _MEMORY, "silicone under filled epoxy"),
        "gypsum": Sourced(150.0, "casts", 100.0, 300.0, Kind.MEMORY, _MEMORY, "silicone under gypsum"),
        "concrete": Sourced(50.0, "casts", 30.0, 100.0, Kind.MEMORY, _MEMORY, "silicone under fine concrete"),
        "skin": Sourced(0.7, "", 0.5, 1.0, Kind.PRACTICE, _PRACTICE, "life of a skin over that of a block"),
    }
)
"""How many casts a mold gives."""
