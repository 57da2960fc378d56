"""What is reckoned with where gypsum or concrete goes in, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE, _FAMILY = "common-practice", "families-from-memory"

MINERALS: Mapping[str, Sourced] = MappingProxyType(
    {
        "gypsum_slope": Sourced(
            4.0, "", 3.0, 6.0, Kind.PRACTICE, _PRACTICE,
            "how steeply gypsum sets: a smooth S from a tenth of its heat at three quarters of the setting "
            "time to nine tenths at one and a half times; no published law",
        ),
        "cement_slope": Sourced(
            0.94, "", 0.7, 1.2, Kind.MEMORY, "schindler-folliard-2005", "exponent of the hydration curve",
        ),
        "gypsum_activation": Sourced(
            0.0, "J/mol", 0.0, 30e3, Kind.PRACTICE, _PRACTICE,
            "quicker up to some 38 degC, slower beyond: left out, for gypsum keeps its heat while it sets",
        ),
        "cement_activation": Sourced(
            40e3, "J/mol", 33.5e3, 46e3, Kind.MEMORY, "freiesleben-pedersen-1977", "plain Portland cement",
        ),
        "water_capacity": Sourced(
            4186.0, "J/(kg K)", 4180.0, 4200.0, Kind.MEMORY, _FAMILY, "of the mixing water",
        ),
        "gypsum_soaking": Sourced(
            120.0, "s", 60.0, 180.0, Kind.PRACTICE, _PRACTICE,
            "powder sinks in by itself before it is stirred",
        ),
        "gypsum_stirring": Sourced(
            120.0, "s", 60.0, 240.0, Kind.PRACTICE, _PRACTICE,
            "by hand under the surface, so that no air gets in",
        ),
        "cement_soaking": Sourced(
            60.0, "s", 0.0, 180.0, Kind.PRACTICE, _PRACTICE, "a short rest before the last stir",
        ),
        "cement_stirring": Sourced(
            300.0, "s", 180.0, 420.0, Kind.PRACTICE, _PRACTICE,
            "with a slow mixer until no dry powder is left",
        ),
        "gypsum_filling": Sourced(
            10.0 / 60.0, "kg/s", 5.0 / 60.0, 20.0 / 60.0, Kind.PRACTICE, _PRACTICE,
            "poured in one thin stream",
        ),
        "cement_filling": Sourced(
            5.0 / 60.0, "kg/s", 2.0 / 60.0, 10.0 / 60.0, Kind.PRACTICE, _PRACTICE,
            "filled in layers and knocked or vibrated until no bubbles come",
        ),
        "still_air": Sourced(
            3.0, "W/(m2 K)", 1.5, 6.0, Kind.MEMORY, _FAMILY,
            "film of the air of a room alone; a fan makes 15",
        ),
        "room_radiation": Sourced(
            5.5, "W/(m2 K)", 5.0, 6.0, Kind.MEMORY, "incropera-dewitt",
            "of a wet face among walls of 20 degC",
        ),
        "gypsum_moisture": Sourced(
            2e-9, "m2/s", 1e-9, 5e-9, Kind.MEMORY, _FAMILY,
            "how easily water leaves the inside of set gypsum",
        ),
        "cement_moisture": Sourced(
            2.7e-10, "m2/s", 1.5e-10, 6e-10, Kind.PRACTICE, _PRACTICE,
            "the rule of a month for an inch that dries on one face, put into the law of diffusion",
        ),
        "left_wet": Sourced(
            0.05, "", 0.02, 0.1, Kind.PRACTICE, _PRACTICE,
            "share of the water that is left where it counts as dry",
        ),
        "grains_across": Sourced(
            3.0, "", 2.0, 4.0, Kind.PRACTICE, _PRACTICE,
            "largest grains side by side in the narrowest place",
        ),
        "stiff_from": Sourced(
            0.4, "", 0.35, 0.5, Kind.PRACTICE, _PRACTICE,
            "share of the volume from which stirred-in grains make a mix that hardly flows",
        ),
        "coldest": Sourced(
            278.15, "K", 275.15, 283.15, Kind.PRACTICE, _PRACTICE, "least temperature to mix and harden at",
        ),
        "core_to_face": Sourced(
            20.0, "K difference", 15.0, 25.0, Kind.PRACTICE, _PRACTICE,
            "a concrete core warmer than its face by more cracks the face",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""

DUST: Mapping[str, Sourced] = MappingProxyType(
    {
        "silica": Sourced(
            50.0, "ug/m3", None, None, Kind.MEMORY, "osha-1910-1053", "over a shift of 8 h, as breathed in"
        ),
        "silica_action": Sourced(
            25.0, "ug/m3", None, None, Kind.MEMORY, "osha-1910-1053", "from which an employer must measure"
        ),
        "nuisance": Sourced(
            15.0, "mg/m3", None, None, Kind.MEMORY, "osha-1910-1000", "dust of no other kind"
        ),
        "nuisance_fine": Sourced(
            5.0, "mg/m3", None, None, Kind.MEMORY, "osha-1910-1000", "its part that reaches the lung"
        ),
    }
)
"""Limits for dust in the air of a workplace, United States, as the rules print them."""
