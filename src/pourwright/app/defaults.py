"""What the plan assumes about work in a shop, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_HOUR, _MINUTE = 3600.0, 60.0

DEFAULTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "look": Sourced(
            1 * _HOUR, "s", 0.5 * _HOUR, 2 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "a leak shows in the first hour after a pour",
        ),
        "gel_check": Sourced(
            15 * _MINUTE, "s", 5 * _MINUTE, 30 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "touch the top at the middle and at the rim, look for a drip, write it down",
        ),
        "ready_for_rubber": Sourced(
            30 * _MINUTE, "s", 15 * _MINUTE, 60 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "close and level the box, set out pails, see to the master",
        ),
        "sealing_coat": Sourced(
            1 * _HOUR, "s", 0.5 * _HOUR, 3 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "a coat on the master and on an offcut, and the wait until it can be rubbed down",
        ),
        "patch": Sourced(
            15 * _MINUTE, "s", 10 * _MINUTE, 30 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "a spoonful mixed by weight and laid on; later peeled off and looked at",
        ),
        "release_coat": Sourced(
            15 * _MINUTE, "s", 10 * _MINUTE, 30 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "brushed on thin, wiped out of the corners",
        ),
        "master_out": Sourced(
            1 * _HOUR, "s", 0.5 * _HOUR, 2 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "take the master out, look at every face, test with water, wipe dry",
        ),
        "go_no_go": Sourced(
            30 * _MINUTE, "s", 15 * _MINUTE, 60 * _MINUTE, Kind.PRACTICE, _PRACTICE, "ten lines to tick",
        ),
        "ready_to_wash": Sourced(
            30 * _MINUTE, "s", 15 * _MINUTE, 60 * _MINUTE, Kind.PRACTICE, _PRACTICE, "sieves, tubs and trays",
        ),
        "ready_to_lay": Sourced(
            10 * _MINUTE, "s", 5 * _MINUTE, 20 * _MINUTE, Kind.PRACTICE, _PRACTICE, "weigh out, gloves, mask",
        ),
        "laying_rate": Sourced(
            2 / _MINUTE, "kg/s", 1 / _MINUTE, 5 / _MINUTE, Kind.PRACTICE, _PRACTICE,
            "laid in by the scoop and levelled, not dropped",
        ),
        "least_pour": Sourced(
            30 * _MINUTE, "s", 15 * _MINUTE, 60 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "weighing, bubbles and the dip-stick take as long for a small pour",
        ),
        "demold": Sourced(
            2 * _HOUR, "s", 1 * _HOUR, 4 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "panels off, rubber eased off all round, piece lifted out",
        ),
        "ratio_error": Sourced(
            0.02, "", 0.01, 0.05, Kind.PRACTICE, _PRACTICE,
            "part B off by more leaves resin soft or brittle; the data sheet may be stricter",
        ),
        "damp_air": Sourced(
            0.85, "", 0.80, 0.85, Kind.PRACTICE, _PRACTICE, "relative humidity above which tops blush",
        ),
        "cool_shop": Sourced(
            288.15, "K", 286.15, 291.15, Kind.PRACTICE, _PRACTICE, "below it cure is slow and may stall",
        ),
        "cold_shop": Sourced(
            283.15, "K", 278.15, 288.15, Kind.MEMORY, "families-from-memory",
            "least working temperature that data sheets of casting resins give; below it they crystallise",
        ),
        "warm_shop": Sourced(
            303.15, "K", 301.15, 305.15, Kind.PRACTICE, _PRACTICE, "above it pot life is short",
        ),
        "near_limit": Sourced(
            3.0, "K", 2.0, 5.0, Kind.PRACTICE, _PRACTICE,
            "a few per cent in rate move a peak near run-away by more",
        ),
        "least_mouth": Sourced(
            0.05, "", 0.03, 0.20, Kind.PRACTICE, _PRACTICE,
            "open face as a share of the widest section: less is no mouth to pour and look through",
        ),
        "small_hollow": Sourced(
            0.005, "", 0.0, 0.01, Kind.PRACTICE, _PRACTICE,
            "share of the piece, such as a screw hole in the open face: filled and drilled again",
        ),
        "hidden_share": Sourced(
            0.01, "", 0.005, 0.02, Kind.PRACTICE, _PRACTICE,
            "share of upward faces that rubber gives way to without being cut",
        ),
        "box_limit": Sourced(
            323.15, "K", 318.15, 333.15, Kind.PRACTICE, _PRACTICE,
            "white glue and caulk soften not far above it, and joints creep",
        ),
        "sanding": Sourced(
            45 * _MINUTE, "s", 20 * _MINUTE, 90 * _MINUTE, Kind.PRACTICE, _PRACTICE,
            "wash, dry and sand the top in the mold, wipe off the dust",
        ),
        "sand_after": Sourced(
            12 * _HOUR, "s", 8 * _HOUR, 24 * _HOUR, Kind.PRACTICE, _PRACTICE,
            "a top that bonds no more is hard enough to wash and sand half a day later",
        ),
        "shop_deviation": Sourced(
            1.0, "K difference", 0.5, 2.0, Kind.PRACTICE, _PRACTICE,
            "a wall thermometer against the air at the bench, and one day against another",
        ),
        "mixed_deviation": Sourced(
            1.0, "K difference", 0.5, 2.0, Kind.PRACTICE, _PRACTICE,
            "pails stood in the shop overnight against the shop's air",
        ),
        "sheet_waste": Sourced(
            0.15, "", 0.10, 0.25, Kind.PRACTICE, _PRACTICE, "share of a sheet lost in saw cuts and rests",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""


def span(key: str) -> timedelta:
    """Read a default that is a time.

    Parameters
    ----------
    key : str
        Of a default in seconds.

    Returns
    -------
    timedelta
        Its value.

    Examples
    --------
    >>> span("look")
    datetime.timedelta(seconds=3600)
    """
    return timedelta(seconds=DEFAULTS[key].value)
