"""What tests of furniture load a piece with: public standards, for who sells a seat or a table."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

LOADS: Mapping[str, Sourced] = MappingProxyType(
    {
        "grown_up": Sourced(
            110.0, "kg", None, None, Kind.PUBLISHED, "en-1022-2018",
            "heaviest person whose seats its tests against tipping are for",
        ),
        "edge": Sourced(
            600.0, "N", None, None, Kind.MEMORY, "en-1022-2018", "down near the front edge of a seat",
        ),
        "edge_inwards": Sourced(
            0.06, "m", None, None, Kind.MEMORY, "en-1022-2018", "from that edge inwards",
        ),
        "edge_sideways": Sourced(
            20.0, "N", None, None, Kind.MEMORY, "en-1022-2018", "outwards at the seat, besides",
        ),
        "seat": Sourced(1300.0, "N", None, None, Kind.MEMORY, "en-12520-2015", "down on a seat"),
        "back": Sourced(450.0, "N", None, None, Kind.MEMORY, "en-12520-2015", "against its back"),
        "times": Sourced(10.0, "", None, None, Kind.MEMORY, "en-12520-2015", "each so often"),
        "table": Sourced(1000.0, "N", None, None, Kind.MEMORY, "en-12521-2015", "down on a table"),
        "table_sideways": Sourced(
            400.0, "N", None, None, Kind.MEMORY, "en-12521-2015", "level against a table",
        ),
    }
)  # fmt: skip
"""SI."""
