"""What the tests of a data sheet and of a cup are taken to be where nothing is said, each with its reason."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pourwright.foundation.sources import Kind, Sourced

_PRACTICE = "common-practice"
_MEMORY = "families-from-memory"

DEFAULTS: Mapping[str, Sourced] = MappingProxyType(
    {
        "emissivity": Sourced(0.9, "", 0.85, 0.95, Kind.MEMORY, _MEMORY, "resin, plastic, wood in infrared"),
        "bench_thickness": Sourced(0.04, "m", 0.02, 0.08, Kind.PRACTICE, _PRACTICE, "a wooden bench top"),
        "form_thickness": Sourced(0.018, "m", 0.012, 0.025, Kind.PRACTICE, _PRACTICE, "a form of board"),
        "wood_conductivity": Sourced(
            0.13, "W/(m K)", 0.10, 0.18, Kind.PUBLISHED, "en-iso-10456", "wood and boards of about 500 kg/m3",
        ),
        "wide": Sourced(
            0.5, "m", 0.3, 1.0, Kind.PRACTICE, _PRACTICE, "side of a casting whose width is not limited",
        ),
        "room": Sourced(
            296.15, "K", 293.15, 298.15, Kind.MEMORY, "astm-d2471",
            "23 degC, where a data sheet does not say another temperature",
        ),
        "gel_mass": Sourced(0.1, "kg", 0.05, 0.2, Kind.MEMORY, "astm-d2471", "mass of the gel time test"),
        "pot_mass": Sourced(1.0, "kg", 0.1, 1.0, Kind.PRACTICE, _PRACTICE, "where a sheet tells no mass"),
        "peak_limit": Sourced(
            338.15, "K", 328.15, 353.15, Kind.PRACTICE, _PRACTICE,
            "above it: yellowing, bubbles, cracks on cooling",
        ),
        "demold_margin": Sourced(
            5.0, "K difference", 0.0, 10.0, Kind.PRACTICE, _PRACTICE,
            "hard enough when the glass transition is this far above the shop",
        ),
        "coat": Sourced(0.001, "m", 0.0003, 0.002, Kind.PRACTICE, _PRACTICE, "a coat for the tack-free test"),
        "demold_thickness": Sourced(
            0.025, "m", 0.01, 0.05, Kind.PRACTICE, _PRACTICE, "a casting as data sheets have in mind",
        ),
        "family_depth": Sourced(
            0.16, "", 0.1, 0.3, Kind.PRACTICE, _PRACTICE,
            "by which share products of one family differ in their greatest depth: deep-pour means 2 to 3 in",
        ),
        "family_pot_life": Sourced(
            0.5, "", 0.3, 0.7, Kind.MEMORY, _MEMORY,
            "by which share products of one family differ in how long they work",
        ),
        "family_demold": Sourced(
            0.25, "", 0.15, 0.4, Kind.MEMORY, _MEMORY,
            "by which share products of one family differ in when they are hard",
        ),
        "tack_free_below": Sourced(
            20.0, "K difference", 10.0, 30.0, Kind.MEMORY, _MEMORY,
            "a coat no longer sticks when its glass transition is this far below the room",
        ),
        "deflection_below": Sourced(
            10.0, "K difference", 4.0, 18.0, Kind.MEMORY, _MEMORY,
            "heat deflection at 1.8 MPa lies this far below the glass transition",
        ),
        "deflection_per_load": Sourced(
            5.0, "K difference", 2.0, 10.0, Kind.MEMORY, _MEMORY, "less for each halving of the load",
        ),
        "cup_start_read": Sourced(
            1.5, "K difference", 0.5, 3.0, Kind.PRACTICE, _PRACTICE, "fresh mix against the first reading",
        ),
        "cup_start_told": Sourced(
            0.7, "K difference", 0.3, 1.5, Kind.PRACTICE, _PRACTICE, "fresh mix, by the same sensor",
        ),
        "cup_air_column": Sourced(
            0.5, "K difference", 0.2, 1.0, Kind.PRACTICE, _PRACTICE, "air beside the cup, by a second sensor",
        ),
        "cup_air_told": Sourced(
            1.5, "K difference", 0.5, 3.0, Kind.PRACTICE, _PRACTICE, "air by the thermometer of the shop",
        ),
        "cup_offset": Sourced(
            0.5, "K difference", 0.2, 1.5, Kind.PRACTICE, _PRACTICE, "a cheap sensor against the truth",
        ),
        "cup_drift": Sourced(
            0.5, "K difference", 0.0, 1.5, Kind.PRACTICE, _PRACTICE, "a cheap sensor over one test",
        ),
        "cup_delay": Sourced(
            300.0, "s", 120.0, 600.0, Kind.PRACTICE, _PRACTICE, "from first contact to the first reading",
        ),
        "cup_delay_deviation": Sourced(
            120.0, "s", 30.0, 300.0, Kind.PRACTICE, _PRACTICE, "of that time",
        ),
        "cup_model": Sourced(
            0.15, "K difference", 0.05, 0.5, Kind.MEMORY, _MEMORY,
            "of the simulated cup itself; a curve that is missed by more widens all bands",
        ),
        "cup_model_share": Sourced(
            0.005, "", 0.002, 0.02, Kind.MEMORY, _MEMORY, "the same, as a share of the warming",
        ),
        "cup_clock": Sourced(
            30.0, "s", 5.0, 60.0, Kind.PRACTICE, _PRACTICE, "lag of the sensor, and how often it is read",
        ),
        "cup_hottest": Sourced(
            343.15, "K", 333.15, 353.15, Kind.PRACTICE, _PRACTICE,
            "a cup for a test: hotter ones fume, and tell of heat rather than of cure",
        ),
        "pot_conversion": Sourced(
            0.15, "", 0.08, 0.25, Kind.MEMORY, _MEMORY,
            "share cured, on average, when a pail is too thick or too hot to pour",
        ),
    }
)  # fmt: skip
"""Default of each, SI; ``low`` and ``high`` are the usual range."""

WALLS: Mapping[str, Sourced] = MappingProxyType(
    {
        name: Sourced(value, "m2 K/W", low, high, Kind.MEMORY, _MEMORY, words)
        for name, value, low, high, words in (
            ("plastic", 0.006, 0.002, 0.01, "1 mm of polypropylene or polyethylene"),
            ("paper", 0.008, 0.004, 0.012, "0.5 to 1 mm of coated card"),
            ("glass", 0.003, 0.002, 0.004, "3 mm of glass"),
            ("metal", 0.0001, 0.0, 0.001, "a tin"),
            ("foam", 0.10, 0.05, 0.15, "3 to 5 mm of foamed polystyrene"),
        )
    }
)
"""Resistance of a cup's wall, by what it is made of [m2 K/W]."""
