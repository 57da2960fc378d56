"""What is written can be read back, to the step it is written in."""

from collections.abc import Callable

import pytest
from hypothesis import assume, given, strategies as st

from pourwright.foundation import notation as n
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import CURRENCIES, Dimension

OZ, LB, INCH = 0.028349523125, 0.45359237, 0.0254
METRIC, US = n.UnitSystem.METRIC, n.UnitSystem.US


def back(text: str, dimension: Dimension) -> float:
    return parse_quantity(text, dimension).si


@given(st.floats(-30, 30), st.sampled_from([METRIC, US]))
def test_length_round_trip(length: float, system: n.UnitSystem) -> None:
    assume(abs(length) > INCH / 16)
    half_step = {METRIC: 0.5e-3, US: INCH / 32}[system]
    assert back(n.format_length(length, system), Dimension.LENGTH) == pytest.approx(
        length, abs=half_step * 1.0001
    )


@given(st.integers(-8000, 8000))
def test_every_sixteenth_comes_back_exactly(sixteenths: int) -> None:
    length = sixteenths * INCH / 16
    assert back(n.format_length(length, US), Dimension.LENGTH) == pytest.approx(length, rel=1e-12)


@pytest.mark.parametrize(
    ("inches", "written"),
    [
        (8.4375, "8 7/16 in"),
        (0.75, "3/4 in"),
        (12, "12 in"),
        (-1.5, "-1 1/2 in"),
        (0, "0 in"),
        (0.01, "under 1/32 in"),
    ],
)
def test_inches_are_reduced_fractions(inches: float, written: str) -> None:
    assert n.format_length(inches * INCH, US) == written


@pytest.mark.parametrize(
    ("metres", "written"), [(0.214, "214 mm"), (0.0025, "2.5 mm"), (0.00999, "10 mm"), (0, "0 mm")]
)
def test_millimetres(metres: float, written: str) -> None:
    assert n.format_length(metres, METRIC) == written


@given(st.floats(0, 500))
def test_mass_round_trip(mass: float) -> None:
    metric_step = 0.01 if mass >= 0.9995 else 0.001
    us_step = 0.1 * OZ if mass < 10 * LB else OZ
    assert back(n.format_mass(mass, METRIC), Dimension.MASS) == pytest.approx(mass, abs=metric_step * 0.5001)
    assert back(n.format_mass(mass, US), Dimension.MASS) == pytest.approx(mass, abs=us_step * 0.501)


@pytest.mark.parametrize(
    ("mass", "written"),
    [
        (LB * 2, "2 lb"),
        (LB * 2 - OZ * 0.01, "2 lb"),
        (OZ * 3.2, "3.2 oz"),
        (LB * 41.999, "42 lb"),
        (0, "0 oz"),
    ],
)
def test_ounces_carry_into_pounds(mass: float, written: str) -> None:
    assert n.format_mass(mass, US) == written


@pytest.mark.parametrize(
    ("mass", "step", "written"),
    [
        (12.3456, 0.001, "12.346 kg"),
        (12.3456, 0.005, "12.345 kg"),
        (0.5, 0.0001, "500.0 g"),
        (0.9996, None, "1.00 kg"),
    ],
)
def test_mass_in_the_steps_of_the_scale(mass: float, step: float | None, written: str) -> None:
    assert n.format_mass(mass, METRIC, step=step) == written


@given(st.floats(0, 2), st.sampled_from([METRIC, US]))
def test_volume_round_trip(volume: float, system: n.UnitSystem) -> None:
    read = back(n.format_volume(volume, system), Dimension.VOLUME)
    # three digits, and never finer than a drop
    assert read == pytest.approx(volume, rel=0.006, abs=2e-6)


@given(st.floats(200, 500), st.sampled_from([METRIC, US]))
def test_temperature_round_trip(kelvin: float, system: n.UnitSystem) -> None:
    assert back(n.format_temperature(kelvin, system), Dimension.TEMPERATURE) == pytest.approx(
        kelvin, abs=0.5001
    )


def test_differences_are_not_shifted_by_32() -> None:
    assert n.format_temperature_difference(10, US) == "18 °F"
    assert n.format_temperature(283.15, US) == "50 °F"
    assert n.format_temperature(273.05, METRIC) == "0 °C"
    assert back("18 °F", Dimension.TEMPERATURE_DIFFERENCE) == 10


@given(st.floats(0, 5e6))
def test_duration_round_trip(seconds: float) -> None:
    half_step = 0.5 if seconds < 59.5 else 30 if seconds < 86_370 else 1800
    assert back(n.format_duration(seconds), Dimension.TIME) == pytest.approx(seconds, abs=half_step + 1e-6)


@pytest.mark.parametrize(
    ("seconds", "written"),
    [
        (0, "0 s"),
        (59.6, "1 min"),
        (3_599, "1 h"),
        (86_399, "1 day"),
        (86_400 * 2, "2 days"),
        (90_000, "1 day 1 h"),
    ],
)
def test_durations_carry(seconds: float, written: str) -> None:
    assert n.format_duration(seconds) == written


@given(st.integers(0, 10**8), st.sampled_from(sorted(CURRENCIES)))
def test_money_round_trip(minor: int, currency: str) -> None:
    amount = minor / 10 ** CURRENCIES[currency]
    read = parse_quantity(n.format_money(amount, currency), Dimension.MONEY)
    assert read.si == pytest.approx(amount, rel=1e-15)
    assert read.currency == currency


@pytest.mark.parametrize(
    ("write", "value", "dimension", "half_step"),
    [
        (n.format_pressure, 12_345.0, Dimension.PRESSURE, 50),
        (n.format_density, 1_123.4, Dimension.DENSITY, 0.9),
        (n.format_force, 321.4, Dimension.FORCE, 0.5),
    ],
)
@pytest.mark.parametrize("system", [METRIC, US])
def test_other_round_trips(
    write: Callable[[float, n.System], str],
    value: float,
    dimension: Dimension,
    half_step: float,
    system: n.UnitSystem,
) -> None:
    assert back(write(value, system), dimension) == pytest.approx(value, abs=half_step)


def test_unknown_unit_system_is_refused() -> None:
    with pytest.raises(ValueError, match="imperial"):
        n.format_length(1.0, "imperial")  # type: ignore[arg-type]
