"""Units the maker may write, each an exact factor to SI; definitions of [nist-hb-44]."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from pourwright.foundation.errors import UserError


class Dimension(StrEnum):
    """What kind of quantity a text stands for."""

    LENGTH = "length"
    MASS = "mass"
    VOLUME = "volume"
    AREA = "area"
    ENERGY = "energy"
    TEMPERATURE = "temperature"
    TEMPERATURE_DIFFERENCE = "temperature difference"
    TIME = "time"
    DENSITY = "density"
    PRESSURE = "pressure"
    FORCE = "force"
    VISCOSITY = "viscosity"
    MOLAR_ENERGY = "energy per mole"
    SPECIFIC_ENERGY = "energy per mass"
    RATE = "rate"
    CONDUCTIVITY = "thermal conductivity"
    FILM = "film coefficient"
    HEAT_CAPACITY = "heat capacity"
    SHARE = "share"
    ANGLE = "angle"
    MONEY = "money"
    MONEY_PER_MASS = "price per mass"
    MONEY_PER_VOLUME = "price per volume"
    MONEY_PER_PIECE = "price per piece"
    MONEY_PER_TIME = "price per hour"
    MONEY_PER_AREA = "price per area"
    MONEY_PER_ENERGY = "price per energy"


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: SI value = number * factor + offset.

    Parameters
    ----------
    name : str
        As it is written.
    dimension : Dimension
        What it measures.
    factor : Fraction
        SI units in one of it.
    offset : Fraction
        SI value of its zero; not 0 for temperatures only.
    """

    name: str
    dimension: Dimension
    factor: Fraction
    offset: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number in SI together with the words it came in.

    Parameters
    ----------
    si : float
        Value in SI units; for money in the currency's main unit (per kg, m3 or piece).
    dimension : Dimension
        What it measures.
    text : str
        The maker's own words.
    currency : str
        ISO 4217 code, for money only.
    """

    si: float
    dimension: Dimension
    text: str
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Price:
    """Money for an amount of something, exact as it was written.

    Parameters
    ----------
    amount : Decimal
        Money for one unit, in the currency's main unit.
    currency : str
        ISO 4217 code.
    dimension : Dimension
        What kind of price it is.
    unit : str
        What it is for, as in "kg"; empty for plain money.
    size : Fraction
        That unit in SI.
    text : str
        The maker's own words.
    """

    amount: Decimal
    currency: str
    dimension: Dimension
    unit: str
    size: Fraction
    text: str

    @property
    def per_si(self) -> Decimal:
        """Money for one SI unit."""
        return self.amount * self.size.denominator / self.size.numerator


_INCH = Fraction(254, 10_000)
_POUND = Fraction(45_359_237, 100_000_000)
_GALLON = 231 * _INCH**3
_GRAVITY = Fraction(980_665, 100_000)
_POUND_FORCE = _POUND * _GRAVITY
_CELSIUS_ZERO = Fraction(27_315, 100)
_MILLI = Fraction(1, 1000)
# degree to radian cannot be a fraction: pi to 30 digits leaves nothing to lose in a float
_PI = Fraction(3_141592653589793238462643383280, 10**30)

_TABLE: dict[Dimension, dict[str, tuple[Fraction | int, Fraction | int]]] = {
    Dimension.LENGTH: {
        "mm": (_MILLI, 0),
        "cm": (Fraction(1, 100), 0),
        "m": (1, 0),
        "in": (_INCH, 0),
        "ft": (12 * _INCH, 0),
    },
    Dimension.MASS: {"g": (_MILLI, 0), "kg": (1, 0), "oz": (_POUND / 16, 0), "lb": (_POUND, 0)},
    Dimension.VOLUME: {
        "ml": (_MILLI**2, 0),
        "l": (_MILLI, 0),
        "m3": (1, 0),
        "fl oz": (_GALLON / 128, 0),
        "quart": (_GALLON / 4, 0),
        "gallon": (_GALLON, 0),
    },
    Dimension.AREA: {"m2": (1, 0), "ft2": ((12 * _INCH) ** 2, 0)},
    Dimension.ENERGY: {"kWh": (3_600_000, 0), "MJ": (1_000_000, 0)},
    Dimension.TEMPERATURE: {
        "degC": (1, _CELSIUS_ZERO),
        "degF": (Fraction(5, 9), _CELSIUS_ZERO - 32 * Fraction(5, 9)),
        "K": (1, 0),
    },
    Dimension.TEMPERATURE_DIFFERENCE: {"degC": (1, 0), "degF": (Fraction(5, 9), 0), "K": (1, 0)},
    Dimension.TIME: {"s": (1, 0), "min": (60, 0), "h": (3600, 0), "day": (86_400, 0), "week": (604_800, 0)},
    Dimension.DENSITY: {"kg/m3": (1, 0), "lb/ft3": (_POUND / (12 * _INCH) ** 3, 0)},
    Dimension.PRESSURE: {"Pa": (1, 0), "kPa": (1000, 0), "psi": (_POUND_FORCE / _INCH**2, 0)},
    Dimension.FORCE: {"N": (1, 0), "lbf": (_POUND_FORCE, 0)},
    Dimension.VISCOSITY: {"mPa s": (_MILLI, 0), "Pa s": (1, 0)},
    Dimension.MOLAR_ENERGY: {"J/mol": (1, 0), "kJ/mol": (1000, 0)},
    Dimension.SPECIFIC_ENERGY: {"J/kg": (1, 0), "J/g": (1000, 0), "kJ/kg": (1000, 0)},
    Dimension.RATE: {"1/s": (1, 0), "1/min": (Fraction(1, 60), 0), "1/h": (Fraction(1, 3600), 0)},
    Dimension.CONDUCTIVITY: {"W/(m K)": (1, 0)},
    Dimension.FILM: {"W/(m2 K)": (1, 0)},
    Dimension.HEAT_CAPACITY: {"J/(kg K)": (1, 0), "J/(g K)": (1000, 0)},
    Dimension.SHARE: {"": (1, 0), "%": (Fraction(1, 100), 0)},
    Dimension.ANGLE: {"deg": (_PI / 180, 0)},
    Dimension.MONEY: {"": (1, 0)},
    Dimension.MONEY_PER_PIECE: {"/piece": (1, 0)},
}
_PRICED = {
    Dimension.MONEY_PER_MASS: Dimension.MASS,
    Dimension.MONEY_PER_VOLUME: Dimension.VOLUME,
    Dimension.MONEY_PER_TIME: Dimension.TIME,
    Dimension.MONEY_PER_AREA: Dimension.AREA,
    Dimension.MONEY_PER_ENERGY: Dimension.ENERGY,
}


def _priced(kind: Dimension) -> dict[str, tuple[Fraction | int, Fraction | int]]:
    return {f"/{name}": (1 / Fraction(factor), 0) for name, (factor, _) in _TABLE[kind].items()}


def _units(dimension: Dimension) -> Mapping[str, Unit]:
    rows = _priced(_PRICED[dimension]) if dimension in _PRICED else _TABLE[dimension]
    made = {
        name: Unit(name, dimension, Fraction(factor), Fraction(offset))
        for name, (factor, offset) in rows.items()
    }
    return MappingProxyType(made)


UNITS: Mapping[Dimension, Mapping[str, Unit]] = MappingProxyType({kind: _units(kind) for kind in Dimension})

# other ways workshops write the same units; a name of the table above always wins
_SPELLINGS: Mapping[str, str] = MappingProxyType(
    {
        '"': "in", "''": "in", "″": "in", "inch": "in", "inches": "in",
        "'": "ft", "′": "ft", "foot": "ft", "feet": "ft",
        "gram": "g", "grams": "g", "kilo": "kg", "kilos": "kg", "ounce": "oz", "ounces": "oz",
        "lbs": "lb", "pound": "lb", "pounds": "lb",
        "mL": "ml", "L": "l", "liter": "l", "liters": "l", "litre": "l", "litres": "l",
        "m³": "m3", "m^3": "m3", "m²": "m2", "m^2": "m2", "sq ft": "ft2", "ft²": "ft2",
        "floz": "fl oz", "fl. oz": "fl oz", "qt": "quart", "quarts": "quart",
        "gal": "gallon", "gallons": "gallon",
        "C": "degC", "°C": "degC", "F": "degF", "°F": "degF",
        "sec": "s", "seconds": "s", "mins": "min", "minute": "min", "minutes": "min",
        "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "d": "day", "days": "day", "weeks": "week",
        "kg/m³": "kg/m3", "kg/m^3": "kg/m3", "lb/ft³": "lb/ft3", "lb/ft^3": "lb/ft3",
        "mPa·s": "mPa s", "mPa*s": "mPa s", "mPas": "mPa s", "Pa·s": "Pa s",
        "W/m/K": "W/(m K)", "W/mK": "W/(m K)", "W/m2K": "W/(m2 K)", "J/kgK": "J/(kg K)",
        "percent": "%", "°": "deg", "degree": "deg", "degrees": "deg",
        "/each": "/piece", "/lbs": "/lb", "/L": "/l", "/gal": "/gallon", "/qt": "/quart",
        "/m²": "/m2", "/sq ft": "/ft2", "/kwh": "/kWh",
    }
)  # fmt: skip


@cache
def spellings(dimension: Dimension) -> Mapping[str, Unit]:
    """List every way a unit may be written.

    Parameters
    ----------
    dimension : Dimension
        What it measures.

    Returns
    -------
    Mapping
        Unit by each of its spellings.

    Examples
    --------
    >>> spellings(Dimension.LENGTH)["inch"].factor
    Fraction(127, 5000)
    """
    known = UNITS[dimension]
    return MappingProxyType(
        {word: known[name] for word, name in _SPELLINGS.items() if name in known} | dict(known)
    )


def parse_unit(text: str, dimension: Dimension, *, where: str = "") -> Unit:
    """Read the name of a unit that stands alone.

    Parameters
    ----------
    text : str
        A unit as it is written after a number.
    dimension : Dimension
        What it must measure.
    where : str
        Where it stands, for the error.

    Returns
    -------
    Unit

    Raises
    ------
    UserError
        When no unit of that kind is written so.

    Examples
    --------
    >>> parse_unit("inch", Dimension.LENGTH).name
    'in'
    """
    unit = spellings(dimension).get(text.strip())
    if unit is None:
        raise UserError(
            f"{text!r} is no unit of {dimension}", where=where, allowed=", ".join(UNITS[dimension])
        )
    return unit


# ISO 4217 codes of the currencies a maker may price in, with their decimals
_DECIMALS = {
    0: "CLP ISK JPY KRW PYG UGX VND XAF XOF",
    2: "AED ARS AUD BGN BRL CAD CHF CNY COP CZK DKK EGP EUR GBP GEL HKD HUF IDR ILS INR KES KZT MAD MXN MYR "
    "NGN NOK NZD PEN PHP PKR PLN RON RSD SAR SEK SGD THB TRY TWD UAH USD UYU ZAR",
    3: "BHD JOD KWD OMR TND",
}
CURRENCIES: Mapping[str, int] = MappingProxyType(
    {code: digits for digits, codes in _DECIMALS.items() for code in codes.split()}
)

# what an error shows as a way to write it
EXAMPLES: Mapping[Dimension, str] = MappingProxyType(
    {
        Dimension.LENGTH: "19 mm, 3/4 in or 5' 3 1/2\"",
        Dimension.MASS: "850 g, 12.5 kg or 2 lb 3 oz",
        Dimension.VOLUME: "350 ml, 12 l or 1.5 gallon",
        Dimension.AREA: "0.5 m2 or 6 ft2",
        Dimension.ENERGY: "4 kWh",
        Dimension.TEMPERATURE: "20 degC or 68 degF",
        Dimension.TEMPERATURE_DIFFERENCE: "5 K or 9 degF",
        Dimension.TIME: "45 min, 8 h 30 min or 2 days",
        Dimension.DENSITY: "1100 kg/m3 or 68.7 lb/ft3",
        Dimension.PRESSURE: "5 kPa or 0.7 psi",
        Dimension.FORCE: "100 N or 22 lbf",
        Dimension.VISCOSITY: "600 mPa s",
        Dimension.MOLAR_ENERGY: "55 kJ/mol",
        Dimension.SPECIFIC_ENERGY: "350 J/g",
        Dimension.RATE: "2.5e5 1/s",
        Dimension.CONDUCTIVITY: "0.2 W/(m K)",
        Dimension.FILM: "8 W/(m2 K)",
        Dimension.HEAT_CAPACITY: "1700 J/(kg K)",
        Dimension.SHARE: "12 % or 0.12",
        Dimension.ANGLE: "15 deg",
        Dimension.MONEY: "12.50 EUR",
        Dimension.MONEY_PER_MASS: "12.50 EUR/kg",
        Dimension.MONEY_PER_VOLUME: "30 USD/gallon",
        Dimension.MONEY_PER_PIECE: "0.80 EUR/piece",
        Dimension.MONEY_PER_TIME: "25 EUR/h",
        Dimension.MONEY_PER_AREA: "12.50 EUR/m2",
        Dimension.MONEY_PER_ENERGY: "0.32 EUR/kWh",
    }
)
