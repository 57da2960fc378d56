"""Workshop notation against exact definitions and against pint."""

from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given, strategies as st

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_price, parse_quantity
from pourwright.foundation.quantities import CURRENCIES, EXAMPLES, UNITS, Dimension, parse_unit, spellings

LENGTH, MASS, VOLUME, TIME = Dimension.LENGTH, Dimension.MASS, Dimension.VOLUME, Dimension.TIME
TEMPERATURE, DIFFERENCE = Dimension.TEMPERATURE, Dimension.TEMPERATURE_DIFFERENCE

# our name: pint's name, where they differ
PINT = {
    "oz": "ounce", "fl oz": "fluid_ounce", "m3": "m**3", "kg/m3": "kg/m**3", "lb/ft3": "lb/ft**3",
    "mPa s": "mPa*s", "Pa s": "Pa*s", "W/(m K)": "W/m/K", "W/(m2 K)": "W/m**2/K", "J/(kg K)": "J/kg/K",
    "J/(g K)": "J/g/K", "": "dimensionless", "%": "percent", "deg": "degree",
}  # fmt: skip
SI = {
    LENGTH: "m", MASS: "kg", VOLUME: "m**3", TEMPERATURE: "kelvin", TIME: "s", Dimension.DENSITY: "kg/m**3",
    Dimension.PRESSURE: "Pa", Dimension.FORCE: "N", Dimension.VISCOSITY: "Pa*s",
    Dimension.MOLAR_ENERGY: "J/mol",
    Dimension.SPECIFIC_ENERGY: "J/kg", Dimension.RATE: "1/s", Dimension.CONDUCTIVITY: "W/m/K",
    Dimension.FILM: "W/m**2/K", Dimension.HEAT_CAPACITY: "J/kg/K", Dimension.SHARE: "dimensionless",
    Dimension.ANGLE: "radian", DIFFERENCE: "kelvin",
}  # fmt: skip
PHYSICAL = [(kind, name) for kind in SI for name in UNITS[kind]]
REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()


def si(text: str, dimension: Dimension) -> float:
    return parse_quantity(text, dimension).si


def oracle(number: Fraction, dimension: Dimension, name: str) -> float:
    """The same quantity by pint, which knows every unit from its own tables."""
    unit = PINT.get(name, name)
    if dimension is DIFFERENCE:
        unit = f"delta_{unit}"
    elif dimension is not TEMPERATURE:
        return float(REGISTRY.Quantity(float(number), unit).to(SI[dimension]).magnitude)
    return float(REGISTRY.Quantity(float(number), unit.replace("delta_K", "kelvin")).to("kelvin").magnitude)


@st.composite
def written_numbers(draw: st.DrawFn) -> tuple[str, Fraction]:
    """A number as workshops write it, and its exact value."""
    whole, top, bottom = (
        draw(st.integers(0, 9999)),
        draw(st.integers(1, 63)),
        draw(st.sampled_from([2, 4, 8, 16, 64])),
    )
    fraction = Fraction(top, bottom)
    places = draw(st.integers(0, 6))
    decimal = f"{whole}.{top:0{places}d}" if places > 1 else str(whole)
    exact = {
        f"{whole} {top}/{bottom}": whole + fraction,
        f"{whole}-{top}/{bottom}": whole + fraction,
        f"{top}/{bottom}": fraction,
        decimal: Fraction(decimal),
        f"{whole}e-2": Fraction(whole, 100),
    }
    text = draw(st.sampled_from(sorted(exact)))
    return text, exact[text]


@given(written_numbers(), st.sampled_from(PHYSICAL))
def test_agrees_with_pint(number: tuple[str, Fraction], kind_and_unit: tuple[Dimension, str]) -> None:
    text, exact = number
    dimension, name = kind_and_unit
    # pint reckons in floats: a handful of roundings, on numbers up to the kelvin offset
    assert si(f"{text} {name}", dimension) == pytest.approx(
        oracle(exact, dimension, name), rel=1e-12, abs=1e-15
    )


@given(st.integers(-400, 4000), st.sampled_from(["degC", "degF", "K"]))
def test_negative_temperatures_agree_with_pint(number: int, name: str) -> None:
    expected = oracle(Fraction(number), TEMPERATURE, name)
    if expected < 0:
        with pytest.raises(UserError, match="absolute zero"):
            parse_quantity(f"{number} {name}", TEMPERATURE)
    else:
        assert si(f"{number} {name}", TEMPERATURE) == pytest.approx(expected, rel=1e-12, abs=1e-10)


# inch, pound, gallon and what follows from them: exact definitions, NIST Handbook 44 App. C
@pytest.mark.parametrize(
    ("text", "dimension", "exact"),
    [
        ("3/4 in", LENGTH, "0.01905"),
        ("19 mm", LENGTH, "0.019"),
        ('1-1/2"', LENGTH, "0.0381"),
        ("1 1/2 in", LENGTH, "0.0381"),
        ("1½ in", LENGTH, "0.0381"),
        ("5' 3 1/2\"", LENGTH, "1.6129"),
        ("5'-3 1/2\"", LENGTH, "1.6129"),
        ("5'3\"", LENGTH, "1.6002"),
        ("5 ft 3 in", LENGTH, "1.6002"),
        ("-1 1/2 in", LENGTH, "-0.0381"),
        ("\u22122 mm", LENGTH, "-0.002"),
        ("1 m 20 cm", LENGTH, "1.2"),
        ("2 lb 3 oz", MASS, "0.992233309375"),
        ("850 g", MASS, "0.85"),
        ("1.5 gal", VOLUME, "0.005678117676"),
        ("1 quart", VOLUME, "0.000946352946"),
        ("1 fl oz", VOLUME, "0.0000295735295625"),
        ("350 ml", VOLUME, "0.00035"),
        ("68 F", TEMPERATURE, "293.15"),
        ("68 degF", TEMPERATURE, "293.15"),
        ("68°F", TEMPERATURE, "293.15"),
        ("-5 degC", TEMPERATURE, "268.15"),
        ("9 degF", DIFFERENCE, "5"),
        ("5 degC", DIFFERENCE, "5"),
        ("8 h 30 min", TIME, "30600"),
        ("1 week", TIME, "604800"),
        ("2 days 4 h", TIME, "187200"),
        ("12 %", Dimension.SHARE, "0.12"),
        ("0.45", Dimension.SHARE, "0.45"),
        ("1 lbf", Dimension.FORCE, "4.4482216152605"),
        ("600 mPa s", Dimension.VISCOSITY, "0.6"),
        ("0.3 1/s", Dimension.RATE, "0.3"),
        ("12.50 EUR", Dimension.MONEY, "12.5"),
        ("12.50 EUR/kg", Dimension.MONEY_PER_MASS, "12.5"),
        ("12.50 EUR per kg", Dimension.MONEY_PER_MASS, "12.5"),
        ("0.80 USD/piece", Dimension.MONEY_PER_PIECE, "0.8"),
    ],
)
def test_exact(text: str, dimension: Dimension, exact: str) -> None:
    assert si(text, dimension) == float(Fraction(exact))


def test_price_by_the_gallon_is_a_price_by_the_cubic_metre() -> None:
    read = parse_quantity("30 USD/gallon", Dimension.MONEY_PER_VOLUME)
    assert read.currency == "USD"
    assert read.si == pytest.approx(30 / 0.003785411784, rel=1e-15)


def test_keeps_the_makers_own_words() -> None:
    assert parse_quantity(" 3/4  in", LENGTH).text == " 3/4  in"


@pytest.mark.parametrize(
    ("text", "dimension", "why"),
    [
        ("", LENGTH, "nothing stands there"),
        ("3", LENGTH, "the unit is missing"),
        ("in", LENGTH, "no number"),
        ("3 kg", LENGTH, "'kg' is a unit of mass"),
        ("3 MM", LENGTH, "written 'mm', not 'MM'"),
        ("3 furlongs", LENGTH, "no unit 'furlongs' is known"),
        ("1,5 mm", LENGTH, "comma"),
        ("1,250 g", MASS, "comma"),
        ("3/0 in", LENGTH, "over zero"),
        ("3 mm 2 m", LENGTH, "'m' cannot follow 'mm'"),
        ("1.5 h 30 min", TIME, "only the last part"),
        ("5 degC 3 degF", TEMPERATURE, "cannot follow"),
        ("1.2.3 mm", LENGTH, "no number"),
        ("1/3/4 in", LENGTH, "no unit '/4'"),
        ("nan mm", LENGTH, "no number"),
        ("1e999999 mm", LENGTH, "no unit"),
        ("12 kg -3 g", MASS, "no number"),
        ("12.50", Dimension.MONEY, "currency is missing"),
        ("12.50 eur", Dimension.MONEY, "no currency code"),
        ("$12", Dimension.MONEY, "no number"),
        ("12 EUR", Dimension.MONEY_PER_MASS, "unit is missing"),
        ("12 EUR/l", Dimension.MONEY_PER_MASS, "price per volume"),
        ("12 EUR/kg", Dimension.MONEY, "price per mass"),
    ],
)
def test_refusals_say_what_came_what_is_allowed_and_an_example(
    text: str, dimension: Dimension, why: str
) -> None:
    with pytest.raises(UserError, match=why) as refused:
        parse_quantity(text, dimension, where="job.toml:7 mold.wall")
    line = str(refused.value)
    assert line.startswith(f"job.toml:7 mold.wall: {text!r} is no {dimension}: ")
    assert "; allowed: " in line
    assert line.endswith(f"write for example {EXAMPLES[dimension]}")
    assert "\n" not in line


@given(st.text(alphabet="0123456789 ./-'\"inmftkglboz½,eE%°", max_size=25), st.sampled_from(list(Dimension)))
def test_any_text_is_read_or_refused(text: str, dimension: Dimension) -> None:
    try:
        assert isinstance(si(text, dimension), float)
    except UserError as refusal:
        assert repr(text).split("\n")[0] in str(refusal) or "  " in text  # noqa: PT017 - either outcome is fine


@pytest.mark.parametrize("dimension", list(Dimension))
def test_every_example_can_be_read(dimension: Dimension) -> None:
    for example in EXAMPLES[dimension].replace(" or ", ", ").split(", "):
        parse_quantity(example, dimension)


@pytest.mark.parametrize("dimension", list(SI))
def test_every_spelling_means_its_unit(dimension: Dimension) -> None:
    for written, unit in spellings(dimension).items():
        assert si(f"3 {written}", dimension) == float(3 * unit.factor + unit.offset)


def test_units_alone() -> None:
    assert parse_unit(" inches ", LENGTH).factor == Fraction(254, 10000)
    with pytest.raises(UserError, match="job 3: 'furlong' is no unit of length; allowed: mm, cm, m, in, ft"):
        parse_unit("furlong", LENGTH, where="job 3")


def test_currencies_are_codes_of_three_letters() -> None:
    assert all(len(code) == 3 and code.isupper() for code in CURRENCIES)


@pytest.mark.parametrize(
    ("text", "dimension", "amount", "per_si"),
    [
        # a pound is 0.45359237 kg, a square foot 0.09290304 m2, a kWh 3.6 MJ: NIST Handbook 44 App. C
        ("14.80 EUR/kg", Dimension.MONEY_PER_MASS, "14.80", "14.80"),
        ("0.45359237 USD/lb", Dimension.MONEY_PER_MASS, "0.45359237", "1"),
        ("0.09290304 USD/sq ft", Dimension.MONEY_PER_AREA, "0.09290304", "1"),
        ("36 EUR/kWh", Dimension.MONEY_PER_ENERGY, "36", "0.00001"),
        ("18 EUR/h", Dimension.MONEY_PER_TIME, "18", "0.005"),
        ("1/4 EUR", Dimension.MONEY, "0.25", "0.25"),
    ],
)
def test_prices_are_exact_decimals(text, dimension, amount, per_si):
    price = parse_price(text, [Dimension.MONEY_PER_VOLUME, dimension])
    assert (price.amount, price.per_si, price.text) == (Decimal(amount), Decimal(per_si), text)


@pytest.mark.parametrize("text", ["-1 EUR/kg", "1 EUR/h", "1 eur/kg", "1,5 EUR/kg", "EUR"])
def test_what_is_no_price_is_refused(text):
    with pytest.raises(UserError):
        parse_price(text, [Dimension.MONEY_PER_MASS])
