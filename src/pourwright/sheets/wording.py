"""The plan's numbers and times in the maker's own words."""

from datetime import UTC, datetime, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from pourwright.foundation import notation
from pourwright.foundation.notation import UnitSystem
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.jobs.plan import JobInfo, Piece, PlanDocument

SMALL_POWER, LARGE_POWER = 3, 7
"""Powers of ten between which a bare number is written out."""
RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")
UPRIGHT = ("+z", "-z")
"""Directions for which a level as poured is a level as the piece stands."""
UNITLESS = frozenset({"", "-", "1"})
SHORT_H = 2.0
"""From this time on a band is told in quarters of an hour [h]."""
QUART = float(UNITS[Dimension.VOLUME]["quart"].factor)


class Wording:
    """Speaks lengths, weights, temperatures and times as the maker of one job reads them."""

    def __init__(self, job: JobInfo) -> None:
        self.job = job
        self.system = UnitSystem(job.units)

    @cached_property
    def zone(self) -> ZoneInfo:
        """The shop's own clock."""
        return ZoneInfo(self.job.time_zone)

    def length(self, metres: float) -> str:
        """A length [m] on the maker's tape."""
        return notation.format_length(metres, self.system)

    def coordinate(self, metres: float) -> str:
        """Where something lies along an axis [m], below 0 too."""
        return notation.format_coordinate(metres, self.system)

    def bend(self, metres: float) -> str:
        """How far something bends [m], in tenths of a millimetre or thousandths of an inch."""
        return notation.format_bend(metres, self.system)

    def gap(self, metres: float) -> str:
        """A narrow gap [m]: to a hundredth of a millimetre or a thousandth of an inch."""
        return notation.format_cut_length(metres, self.system)

    def span(self, low: float, high: float) -> str:
        """Two lengths [m] with the unit once: ``0 to 160 mm``."""
        first, last = self.length(low), self.length(high)
        number, _, unit = first.rpartition(" ")
        return f"{number if last.endswith(f' {unit}') else first} to {last}"

    def size(self, metres: tuple[float, ...]) -> str:
        """Edges [m] of a box, joined by crosses."""
        edges = [self.length(edge) for edge in metres]
        unit = edges[-1].rpartition(" ")[2]
        bare = [edge.removesuffix(f" {unit}") for edge in edges]
        return f"{' × '.join(bare)} {unit}"

    def mass(self, kilograms: float) -> str:
        """A mass [kg], rounded for reading."""
        return notation.format_mass(kilograms, self.system)

    def load(self, kilograms: float) -> str:
        """A mass [kg] to be carried or laid on, to the nearest 1 % or so."""
        return notation.format_load(kilograms, self.system)

    def weighed(self, kilograms: float) -> str:
        """A mass [kg] to the step of the shop's scale."""
        return notation.format_mass(kilograms, self.system, step=self.job.scale_step_kg or 0.001)

    def grams(self, kilograms: float) -> str:
        """A mass [kg] in grams, a second reading for a shop that weighs in pounds; else nothing."""
        return "" if self.system is UnitSystem.METRIC else f"{round(kilograms * 1000.0)} g"

    @property
    def bulk_unit(self) -> str:
        """Unit of the volumes in a column: ``l`` or ``qt``."""
        return "l" if self.system is UnitSystem.METRIC else "qt"

    def bulk(self, cubic_metres: float) -> str:
        """A volume [m3] as a bare number, in one unit down a whole column."""
        # what lies below the floor by rounding is nothing
        return f"{max(cubic_metres, 0.0) / (0.001 if self.system is UnitSystem.METRIC else QUART):.2f}"

    def sieve(self, low: float, high: float) -> str:
        """Two sieve openings [m]; sieves are marked in millimetres in every shop."""
        return notation.format_openings(low, high, self.system)

    def area(self, square_metres: float) -> str:
        """An area [m2]."""
        return notation.format_area(square_metres, self.system)

    def patch(self, square_metres: float) -> str:
        """Area [m2] of a small place: cm² or in²."""
        return notation.format_patch(square_metres, self.system)

    def volume(self, cubic_metres: float) -> str:
        """A volume [m3]."""
        return notation.format_volume(cubic_metres, self.system)

    def temperature(self, celsius: float) -> str:
        """A temperature [degC]."""
        return notation.format_temperature(celsius + notation.ZERO_CELSIUS, self.system)

    @property
    def degree_sign(self) -> str:
        """Unit of temperatures: ``°C`` or ``°F``."""
        return "°C" if self.system is UnitSystem.METRIC else "°F"

    def degrees(self, celsius: float) -> float:
        """A temperature [degC] as a bare number in the maker's degrees, for axes and tables."""
        return celsius if self.system is UnitSystem.METRIC else celsius * 1.8 + 32.0

    def difference(self, kelvin: float) -> str:
        """A temperature difference [K]."""
        return notation.format_temperature_difference(kelvin, self.system)

    def small_difference(self, kelvin: float) -> str:
        """A temperature difference [K] to a tenth."""
        return notation.format_temperature_difference(kelvin, self.system, digits=1)

    def duration(self, hours: float) -> str:
        """A time span [h]."""
        return notation.format_duration(hours * 3600.0)

    def banded_temperature(self, celsius: float, low: float | None, high: float | None) -> str:
        """A temperature [degC] with its band: ``54 °C (49 to 61)``."""
        return with_band(self.temperature(celsius), self._told(low), self._told(high))

    def _told(self, celsius: float | None) -> str | None:
        return None if celsius is None else self.temperature(celsius)

    def banded_duration(self, hours: float, low: float | None, high: float | None) -> str:
        """A time span [h] with its band, which is no finer than a quarter of an hour from two hours on."""
        return with_band(self.duration(hours), self._quarters(low), self._quarters(high))

    def _quarters(self, hours: float | None) -> str | None:
        if hours is None:
            return None
        return self.duration(hours if hours < SHORT_H else round(4.0 * hours) / 4.0)

    def told(self, value: float, unit: str) -> str:
        """A value in a unit of the plan document, as the maker reads it; other units stay as they are."""
        known = {
            "degC": self.temperature,
            "K": lambda kelvin: self.temperature(kelvin - notation.ZERO_CELSIUS),
            "K difference": self.small_difference,
            "h": self.duration,
            "s": lambda seconds: self.duration(seconds / 3600.0),
            "m": self.length,
            "kg": self.mass,
            "m3": self.volume,
            "Pa": self.pressure,
            "N": self.force,
        }
        if unit in known:
            return known[unit](value)
        # a unit of two words stays in one piece
        shown = unit.replace("m2", "m²").replace("m3", "m³").replace(" ", "\u00a0")
        return three_digits(value) if unit in UNITLESS else f"{three_digits(value)} {shown}"

    def told_difference(self, value: float, unit: str) -> str:
        """How far two values in a unit of the plan document lie apart, as the maker reads it."""
        return self.told(value, "K difference" if unit in {"degC", "K"} else unit)

    def banded(self, value: float, low: float | None, high: float | None, unit: str) -> str:
        """A value with its band in a unit of the plan document, as the maker reads them."""
        if unit == "h":
            return self.banded_duration(value, low, high)
        edges = [None if edge is None else self.told(edge, unit) for edge in (low, high)]
        return with_band(self.told(value, unit), *edges)

    def force(self, newtons: float) -> str:
        """A force [N]."""
        return notation.format_force(newtons, self.system)

    def pressure(self, pascals: float) -> str:
        """A pressure [Pa]."""
        return notation.format_pressure(pascals, self.system)

    def money(self, amount: float) -> str:
        """An amount in the job's currency."""
        return notation.format_money(amount, self.job.currency)

    def share(self, share: float) -> str:
        """A share [-] in per cent."""
        return notation.format_share(share)

    def local(self, moment: str) -> datetime:
        """An ISO 8601 moment on the shop's own clock."""
        return datetime.fromisoformat(moment).astimezone(self.zone)

    def after(self, moment: str, hours: float) -> str:
        """The ISO 8601 moment that comes a number of hours [h] later on a stop-watch."""
        return (utc(moment) + timedelta(hours=hours)).isoformat()

    def day(self, moment: str) -> str:
        """Day of the week and of the month: ``Tue 1 Dec``."""
        return notation.format_day(self.local(moment))

    def clock(self, moment: str) -> str:
        """Time of day: ``09:00``, or ``9:00 am`` for a US shop."""
        return notation.format_clock(self.local(moment), self.system)

    def moment(self, moment: str) -> str:
        """Day and time of day."""
        return f"{self.day(moment)}, {self.clock(moment)}"

    def window(self, start: str, end: str) -> str:
        """Two moments between which something is done."""
        if self.day(start) == self.day(end):
            return f"on {self.day(start)} between {self.clock(start)} and {self.clock(end)}"
        return f"between {self.moment(start)} and {self.moment(end)}"

    def dated(self, moment: str) -> str:
        """Day, month and year with the time of day."""
        return f"{self.day(moment)} {self.local(moment).year}, {self.clock(moment)}"


def three_digits(value: float) -> str:
    """Write a bare number with three digits that count, as on paper.

    Parameters
    ----------
    value : float
        The number.

    Returns
    -------
    str
        With a power of ten where it is very small or very large.

    Examples
    --------
    >>> three_digits(54000.0), three_digits(0.4567)
    ('54,000', '0.457')
    """
    mantissa, _, power = f"{value:.2e}".partition("e")
    if value == 0.0 or -SMALL_POWER <= int(power) < LARGE_POWER:
        return f"{float(f'{value:.3g}'):,.10g}"
    raised = str(int(power)).translate(RAISED)
    return f"{float(mantissa):g}\u00a0×\u00a010{raised}"


def with_band(value: str, low: str | None, high: str | None) -> str:
    """Say one value with one band, the unit once where it is the same.

    Parameters
    ----------
    value : str
        The value with its unit.
    low, high : str or None
        Ends of its band with their units; None where an end is not told.

    Returns
    -------
    str
        The value alone where no end is told, or where both read like the value.

    Examples
    --------
    >>> with_band("54 °C", "49 °C", "61 °C"), with_band("16 h", "14 h 30 min", "18 h")
    ('54 °C (49 to 61)', '16 h (14 h 30 min to 18 h)')
    >>> with_band("7 days", "6 days", None)
    '7 days (6 or more)'
    """
    ends = [end for end in (low, high) if end is not None]
    if not ends or set(ends) == {value}:
        return value
    bare, units = zip(*(end.rpartition(" ")[::2] for end in ends), strict=True)
    if {*units} == {value.rpartition(" ")[2]} and not any(c.isalpha() for c in "".join(bare)):
        ends = list(bare)
    if low is None:
        return f"{value} (up to {ends[0]})"
    return f"{value} ({ends[0]} or more)" if high is None else f"{value} ({ends[0]} to {ends[1]})"


def utc(moment: str) -> datetime:
    """An ISO 8601 moment in UTC.

    Parameters
    ----------
    moment : str
        With its offset.

    Returns
    -------
    datetime
        The same moment in UTC.
    """
    return datetime.fromisoformat(moment).astimezone(UTC)


def lies(piece: Piece) -> str:
    """Say how a piece lies in its mold.

    Parameters
    ----------
    piece : Piece
        Of the plan.

    Returns
    -------
    str
        As "poured upside down".
    """
    if piece.up in UPRIGHT:
        return "poured upside down" if piece.flipped else "poured as it stands"
    return "poured askew" if "," in piece.up else f"poured on its side, {piece.up} of the shape up"


def readings_differ(plan: PlanDocument) -> bool:
    """Whether a height reads differently as poured and as the piece stands.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    bool
        True when any pour's level has two readings.
    """
    return any(abs(pour.to_m - pour.to_standing_m) > 1e-6 for pour in plan.pours)
