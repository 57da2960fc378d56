"""Numbers as the maker reads them, in metric or US shop units."""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum
from fractions import Fraction
from math import ceil
from typing import Literal

from pourwright.foundation.quantities import CURRENCIES, UNITS, Dimension


class UnitSystem(StrEnum):
    """Which units the maker thinks in."""

    METRIC = "metric"
    US = "us"


System = UnitSystem | Literal["metric", "us"]
ZERO_CELSIUS = float(UNITS[Dimension.TEMPERATURE]["degC"].offset)
_SQUARE_FOOT = float(UNITS[Dimension.LENGTH]["ft"].factor) ** 2
_POUND = float(UNITS[Dimension.MASS]["lb"].factor)
_HEAVY, _LIGHT = 20.0, 0.995
# how near to a half millimetre a length counts as one [half mm]
_HALF = 0.01


def _is_us(system: System) -> bool:
    return UnitSystem(system) is UnitSystem.US


def _in_unit(si: float, dimension: Dimension, unit: str) -> float:
    known = UNITS[dimension][unit]
    return float((Fraction(si) - known.offset) / known.factor)


def _fixed(number: float, digits: int) -> str:
    # 13 digits first: 1.15 is stored a hair below itself, and a maker rounds it up
    exact = Decimal(f"{number:.13g}")
    text = str(exact.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP))
    # -0.4 rounds to -0, which nobody measures
    return text.removeprefix("-") if float(text) == 0 else text


def _stepped(number: float, step: str) -> str:
    size = Decimal(step)
    return _fixed(
        round(number / float(size)) * float(size), max(0, -int(size.normalize().as_tuple().exponent))
    )


def format_length(length: float, system: System, *, digits: int | None = None) -> str:
    """Write a length: mm, or inches to the nearest 1/16 as a reduced fraction.

    Parameters
    ----------
    length : float
        Length [m].
    system : UnitSystem
        Which units to write.
    digits : int, optional
        Decimals of the millimetres; by default none, and one under 10 mm and for half millimetres.

    Returns
    -------
    str

    Examples
    --------
    >>> format_length(0.2143125, "metric"), format_length(0.2143125, "us"), format_length(0.0375, "metric")
    ('214 mm', '8 7/16 in', '37.5 mm')
    """
    if _is_us(system):
        return _format_inches(length)
    millimetres = _in_unit(length, Dimension.LENGTH, "mm")
    if digits is None:
        half = abs(millimetres * 2 % 2 - 1) < _HALF
        digits = 1 if half or (abs(millimetres) < 9.95 and millimetres) else 0
    return f"{_fixed(millimetres, digits)} mm"


def format_lengths(lengths: Sequence[float], system: System) -> str:
    """Write lengths one after another, the unit once, to the millimetre or the sixteenth of an inch.

    Parameters
    ----------
    lengths : sequence of float
        At least one [m].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_lengths([0.107, 0.277], "metric"), format_lengths([0.0254, 0.0508, 0.0762], "us")
    ('107 and 277 mm', '1, 2 and 3 in')
    """
    told = [format_length(length, system, digits=0) for length in lengths]
    bare = [text.rpartition(" ")[0] for text in told[:-1]]
    return f"{', '.join(bare)} and {told[-1]}" if bare else told[-1]


def format_coordinate(value: float, system: System) -> str:
    """Write where something lies along an axis: to a tenth of a millimetre, or as a tape in inches shows it.

    Parameters
    ----------
    value : float
        Coordinate [m].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str
        With its sign; what rounds to nothing is 0.

    Examples
    --------
    >>> format_coordinate(-0.0125, "metric"), format_coordinate(-0.0001, "us")
    ('-12.5 mm', '0 in')
    """
    # half of the last digit that is shown
    least = 0.0254 / 32 if _is_us(system) else 0.05e-3
    near = 0.0 if abs(value) < least else abs(value)
    text = format_length(near, system, digits=1)
    return f"-{text}" if value < 0 and near else text


def format_openings(low: float, high: float, system: System) -> str:
    """Write two sieve openings, which are marked in millimetres in every shop.

    Parameters
    ----------
    low, high : float
        Openings [m].
    system : UnitSystem
        Which units to write; inches come first, the millimetres after them.

    Returns
    -------
    str
        Millimetres with up to three digits.

    Examples
    --------
    >>> format_openings(0.00315, 0.0063, "metric"), format_openings(0.0063, 0.0125, "us")
    ('3.15 to 6.3 mm', '1/4 to 1/2 in (6.3 to 12.5 mm)')
    """
    finest, coarsest = (_three_digits(_in_unit(size, Dimension.LENGTH, "mm")) for size in (low, high))
    metric = f"{finest} to {coarsest} mm"
    if not _is_us(system):
        return metric
    return f"{_format_inches(low).removesuffix(' in')} to {_format_inches(high)} ({metric})"


def format_fine_length(length: float, system: System) -> str:
    """Write a length that no tape shows, such as the size of a bubble; never smaller than it is.

    Parameters
    ----------
    length : float
        Length [m].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str
        Up to the next 0.05 mm or the next thousandth of an inch.

    Examples
    --------
    >>> format_fine_length(0.000112, "metric"), format_fine_length(0.000112, "us")
    ('0.15 mm', '0.005 in')
    """
    unit, step, digits = ("in", 0.001, 3) if _is_us(system) else ("mm", 0.05, 2)
    steps = ceil(_in_unit(length, Dimension.LENGTH, unit) / step - 1e-9)
    return f"{_fixed(steps * step, digits)} {unit}"


def format_cut_length(length: float, system: System) -> str:
    """Write a length that is cut or measured with a caliper: sums of such lengths still add up.

    Parameters
    ----------
    length : float
        Length [m], below 0 too.
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str
        To the hundredth of a millimetre or the thousandth of an inch.

    Examples
    --------
    >>> format_cut_length(0.443127, "metric"), format_cut_length(-0.00044, "us")
    ('443.13 mm', '-0.017 in')
    """
    unit, digits = ("in", 3) if _is_us(system) else ("mm", 2)
    return _at_least(_in_unit(length, Dimension.LENGTH, unit), digits, unit)


def format_bend(length: float, system: System) -> str:
    """Write how far something bends: too little for a tape, so tenths of a mm, or thousandths of an inch.

    Parameters
    ----------
    length : float
        How far [m].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_bend(0.00043, "metric"), format_bend(0.00043, "us"), format_bend(2e-5, "metric")
    ('0.4 mm', '0.017 in', 'less than 0.1 mm')
    """
    unit, digits = ("in", 3) if _is_us(system) else ("mm", 1)
    return _at_least(_in_unit(length, Dimension.LENGTH, unit), digits, unit)


def _at_least(number: float, digits: int, unit: str) -> str:
    """A number to so many digits; what is there and too small for them is not told as nothing."""
    least = 10.0**-digits
    if 0 < number < least / 2:
        return f"less than {_fixed(least, digits)} {unit}"
    return f"{_fixed(number, digits)} {unit}"


def _three_digits(number: float) -> str:
    text = _fixed(number, max(2 - int(f"{abs(number) or 1:e}".partition("e")[2]), 0))
    return text.rstrip("0").rstrip(".") if "." in text else text


def _format_inches(length: float) -> str:
    inches = Fraction(length) / UNITS[Dimension.LENGTH]["in"].factor
    sixteenths = round(abs(inches) * 16)
    if not sixteenths:
        return "under 1/32 in" if length else "0 in"
    whole, rest = divmod(sixteenths, 16)
    sign = "-" if inches < 0 else ""
    shown = [str(whole)] * bool(whole) + [str(Fraction(rest, 16))] * bool(rest)
    return f"{sign}{' '.join(shown)} in"


def format_mass(mass: float, system: System, *, step: float | None = None) -> str:
    """Write a mass: g under 1 kg, else kg; or pounds and ounces.

    Parameters
    ----------
    mass : float
        Mass [kg].
    system : UnitSystem
        Which units to write.
    step : float, optional
        Resolution of the scale it will be weighed on [kg]; by default 1 g under 1 kg and 10 g above,
        0.1 oz under 10 lb and 1 oz above.

    Returns
    -------
    str

    Examples
    --------
    >>> format_mass(0.8501, "metric"), format_mass(12.3456, "metric"), format_mass(0.9922, "us")
    ('850 g', '12.35 kg', '2 lb 3 oz')
    """
    if _is_us(system):
        return _format_pounds(mass, step)
    if abs(mass) < 0.9995:
        usual = "0.1" if 0 < abs(mass) < 0.00995 else "1"
        return f"{_stepped(mass * 1000, f'{step * 1000:g}' if step else usual)} g"
    return f"{_stepped(mass, f'{step:g}' if step else '0.01')} kg"


def format_load(mass: float, system: System) -> str:
    """Write a mass to be carried or laid on, to the nearest 1 % or so.

    Parameters
    ----------
    mass : float
        Mass [kg].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_load(11.04, "metric"), format_load(68.58, "metric"), format_load(68.58, "us")
    ('11.0 kg', '69 kg', '151 lb')
    """
    if _is_us(system) and mass >= _HEAVY:
        mass = round(mass / _POUND) * _POUND
    mass = 1.0 if _LIGHT <= mass < 1.0 else mass
    step = 1.0 if mass >= _HEAVY else 0.1 if mass >= 1.0 else 0.01
    return format_mass(mass, system, step=step)


def _format_pounds(mass: float, step: float | None) -> str:
    ounces = _in_unit(mass, Dimension.MASS, "oz")
    coarse = abs(ounces) >= 160 if step is None else step > 0.02
    digits = 0 if coarse else 1
    pounds, rest = divmod(round(abs(ounces), digits), 16)
    sign = "-" if ounces < 0 and (pounds or rest) else ""
    small = f"{round(rest, digits):g} oz"
    return f"{sign}{small}" if not pounds else f"{sign}{pounds:.0f} lb" + (f" {small}" if rest else "")


def format_volume(volume: float, system: System) -> str:
    """Write a volume: ml or l; or US fluid ounces, quarts, gallons.

    Parameters
    ----------
    volume : float
        Volume [m3].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_volume(0.0123, "metric"), format_volume(0.00035, "metric"), format_volume(0.0123, "us")
    ('12.3 l', '350 ml', '3.25 gal')
    """
    if not _is_us(system):
        litres = volume * 1000
        return f"{_fixed(litres * 1000, 0)} ml" if abs(litres) < 0.9995 else _litres(litres)
    quarts = _in_unit(volume, Dimension.VOLUME, "quart")
    if abs(quarts) < 0.9995:
        return f"{_fixed(quarts * 32, 1)} fl oz"
    return f"{_fixed(quarts, 2)} qt" if abs(quarts) < 3.995 else f"{_fixed(quarts / 4, 2)} gal"


def format_volumes(volumes: Sequence[float], system: System) -> list[str]:
    """Write volumes that are added up: all in one unit, with the same number of digits.

    Parameters
    ----------
    volumes : sequence of float
        Volumes [m3].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    list of str
        ml or l; or US fluid ounces or quarts; as the largest asks for.

    Examples
    --------
    >>> format_volumes([0.0123, 0.00035], "metric"), format_volumes([0.0123, 0.00035], "us")
    (['12.3 l', '0.4 l'], ['13.0 qt', '0.4 qt'])
    """
    largest = max(volumes, default=0.0)
    if not _is_us(system):
        if largest < 0.0009995:
            return [f"{_fixed(volume * 1e6, 0)} ml" for volume in volumes]
        digits = 2 if largest < 0.009995 else 1
        return [f"{_fixed(volume * 1000, digits)} l" for volume in volumes]
    quarts = [_in_unit(volume, Dimension.VOLUME, "quart") for volume in volumes]
    if max(quarts, default=0.0) < 0.9995:
        return [f"{_fixed(volume * 32, 1)} fl oz" for volume in quarts]
    return [f"{_fixed(volume, 2 if max(quarts) < 9.995 else 1)} qt" for volume in quarts]


def _litres(litres: float) -> str:
    return f"{_fixed(litres, 2 if abs(litres) < 9.995 else 1)} l"


def format_area(area: float, system: System) -> str:
    """Write an area: m2, or in2 under 1 ft2 and ft2 above.

    Parameters
    ----------
    area : float
        Area [m2].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_area(0.5, "metric"), format_area(0.5, "us"), format_area(0.01, "us")
    ('0.500 m²', '5.4 ft²', '15.5 in²')
    """
    if not _is_us(system):
        return f"{_fixed(area, 3)} m²"
    if area < _SQUARE_FOOT:
        return f"{_fixed(144 * area / _SQUARE_FOOT, 1)} in²"
    return f"{_fixed(area / _SQUARE_FOOT, 1)} ft²"


def format_patch(area: float, system: System) -> str:
    """Write the area of a small place.

    Parameters
    ----------
    area : float
        Area [m2].
    system : UnitSystem or str
        Units of the answer.

    Returns
    -------
    str
        In cm² or in².

    Examples
    --------
    >>> format_patch(0.00853, "metric"), format_patch(0.00853, "us")
    ('85 cm²', '13 in²')
    """
    unit, size = ("in²", 0.0254**2) if _is_us(system) else ("cm²", 1e-4)
    return f"{_three_digits(area / size)} {unit}" if area < size else f"{area / size:.0f} {unit}"


def format_density(density: float, system: System) -> str:
    """Write a density.

    Parameters
    ----------
    density : float
        Density [kg/m3].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_density(1100, "metric"), format_density(1100, "us")
    ('1100 kg/m3', '68.7 lb/ft3')
    """
    if _is_us(system):
        return f"{_fixed(_in_unit(density, Dimension.DENSITY, 'lb/ft3'), 1)} lb/ft3"
    return f"{_fixed(density, 0)} kg/m3"


def format_pressure(pressure: float, system: System) -> str:
    """Write a pressure: kPa or psi.

    Parameters
    ----------
    pressure : float
        Pressure [Pa].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_pressure(5400, "metric"), format_pressure(5400, "us")
    ('5.4 kPa', '0.78 psi')
    """
    if _is_us(system):
        return f"{_fixed(_in_unit(pressure, Dimension.PRESSURE, 'psi'), 2)} psi"
    return f"{_fixed(pressure / 1000, 1)} kPa"


def format_force(force: float, system: System) -> str:
    """Write a force: N or lbf.

    Parameters
    ----------
    force : float
        Force [N].
    system : UnitSystem
        Which units to write.

    Returns
    -------
    str

    Examples
    --------
    >>> format_force(100, "metric"), format_force(100, "us")
    ('100 N', '22.5 lbf')
    """
    if _is_us(system):
        return f"{_fixed(_in_unit(force, Dimension.FORCE, 'lbf'), 1)} lbf"
    return f"{_fixed(force, 0)} N"


def format_temperature(temperature: float, system: System, *, digits: int = 0) -> str:
    """Write a temperature.

    Parameters
    ----------
    temperature : float
        Absolute temperature [K].
    system : UnitSystem
        Which units to write.
    digits : int
        Decimals.

    Returns
    -------
    str

    Examples
    --------
    >>> format_temperature(293.15, "metric"), format_temperature(293.15, "us")
    ('20 °C', '68 °F')
    """
    unit = "degF" if _is_us(system) else "degC"
    degrees = _in_unit(temperature, Dimension.TEMPERATURE, unit)
    return f"{_fixed(degrees, digits)} {unit.replace('deg', '°')}"


def format_temperature_difference(difference: float, system: System, *, digits: int = 0) -> str:
    """Write a difference of two temperatures: 5 K are 9 °F, not 41.

    Parameters
    ----------
    difference : float
        Difference [K].
    system : UnitSystem
        Which units to write.
    digits : int
        Decimals.

    Returns
    -------
    str

    Examples
    --------
    >>> format_temperature_difference(5, "metric"), format_temperature_difference(5, "us")
    ('5 °C', '9 °F')
    """
    unit = "degF" if _is_us(system) else "degC"
    degrees = _in_unit(difference, Dimension.TEMPERATURE_DIFFERENCE, unit)
    return f"{_fixed(degrees, digits)} {unit.replace('deg', '°')}"


def format_duration(duration: float) -> str:
    """Write a duration in the two units that matter: days and hours, hours and minutes.

    Parameters
    ----------
    duration : float
        Duration [s].

    Returns
    -------
    str

    Examples
    --------
    >>> format_duration(187_200), format_duration(30_600), format_duration(2_700)
    ('2 days 4 h', '8 h 30 min', '45 min')
    """
    sign, seconds = ("-" if duration < -0.5 else ""), abs(duration)
    if seconds < 59.5:
        return f"{sign}{round(seconds)} s"
    minutes = round(seconds / 60)
    if minutes < 1440:
        hours, rest = divmod(minutes, 60)
        return sign + _joined((hours, "h"), (rest, "min"))
    days, hours = divmod(round(seconds / 3600), 24)
    return sign + _joined((days, "day" if days == 1 else "days"), (hours, "h"))


def _joined(*parts: tuple[int, str]) -> str:
    return " ".join(f"{number} {unit}" for number, unit in parts if number)


def format_money(amount: float, currency: str) -> str:
    """Write money with the decimals its currency has.

    Parameters
    ----------
    amount : float
        Amount in the currency's main unit.
    currency : str
        ISO 4217 code.

    Returns
    -------
    str

    Examples
    --------
    >>> format_money(12.5, "EUR"), format_money(1250, "JPY")
    ('12.50 EUR', '1250 JPY')
    """
    return f"{_fixed(amount, CURRENCIES.get(currency, 2))} {currency}"


def format_share(share: float, *, digits: int = 0) -> str:
    """Write a share as a percentage.

    Parameters
    ----------
    share : float
        Share [-], 1 is all of it.
    digits : int
        Decimals.

    Returns
    -------
    str

    Examples
    --------
    >>> format_share(0.453)
    '45 %'
    """
    return f"{_fixed(share * 100, digits)} %"


def format_margin(margin: float, *, ample: float = 20.0) -> str:
    """Write a margin: to the tenth where that matters, no number where it is ample.

    Parameters
    ----------
    margin : float
        What is borne by what is asked [-].
    ample : float
        Above this the number itself says nothing.

    Returns
    -------
    str

    Examples
    --------
    >>> format_margin(2.84), format_margin(7.4), format_margin(130.0)
    ('2.8 times', '7 times', 'over 20 times')
    """
    if margin > ample:
        return f"over {_fixed(ample, 0)} times"
    return f"{_fixed(margin, 1 if margin < 5.0 else 0)} times"
