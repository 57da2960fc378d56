"""Workshop notation to exact numbers and back; the only place that formats numbers."""

from pourwright.foundation.notation.formats import (
    ZERO_CELSIUS,
    System,
    UnitSystem,
    format_area,
    format_density,
    format_duration,
    format_fine_length,
    format_force,
    format_length,
    format_mass,
    format_money,
    format_openings,
    format_pressure,
    format_share,
    format_temperature,
    format_temperature_difference,
    format_volume,
)
from pourwright.foundation.notation.moments import DAYS, MONTHS, format_clock, format_day, format_moment
from pourwright.foundation.notation.reader import parse_quantity

__all__ = [
    "DAYS",
    "MONTHS",
    "ZERO_CELSIUS",
    "System",
    "UnitSystem",
    "format_area",
    "format_clock",
    "format_day",
    "format_density",
    "format_duration",
    "format_fine_length",
    "format_force",
    "format_length",
    "format_mass",
    "format_moment",
    "format_money",
    "format_openings",
    "format_pressure",
    "format_share",
    "format_temperature",
    "format_temperature_difference",
    "format_volume",
    "parse_quantity",
]
