"""Values pinned for a check of the heat run: every key is read, careless ones are refused with their line."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs import read_job

EVERY_FIXED_KEY = """
[pin.kinetics]
a1 = "3e4 1/s"
e1 = "60 kJ/mol"
a2 = "6.6e6 1/min"
e2 = "55000 J/mol"
m = 0.6
n = 2
heat_of_reaction = "350 J/g"
diffusion = false
[pin.film]
h = "8 W/(m2 K)"
[pin.grid]
spacing = "4 mm"
tolerance = 0.05
[[pin.pour]]
to = "60 mm"
at = "0 h"
temperature = "22 degC"
[[pin.pour]]
to = "top"
at = "1 day 2 h"
[[pin.probe]]
name = "middle"
x = "0 mm"
y = "-12 mm"
z = "20 mm"
"""


def refusal(text):
    with pytest.raises(UserError) as caught:
        read_job(text, "slab/job.toml")
    return str(caught.value)


def test_every_key_is_read(text):
    pin = read_job(text + EVERY_FIXED_KEY).pin
    law = pin.kinetics
    assert (law.a1.si, law.e1.si, law.e2.si) == (3e4, 60e3, 55e3)
    assert law.a2.si == pytest.approx(1.1e5)
    assert (law.m, law.n, law.heat_of_reaction.si, law.diffusion) == (0.6, 2.0, 350e3, False)
    assert (pin.film.h.si, pin.grid.spacing.si, pin.grid.tolerance.si) == (8.0, 0.004, 0.05)
    assert [pour.at.si for pour in pin.pour] == [0.0, 26 * 3600.0]
    assert pin.pour[1].to is None
    assert pin.pour[0].temperature.si == pytest.approx(295.15)
    assert (pin.probe[0].name, pin.probe[0].y.si, pin.probe[0].z.si) == ("middle", -0.012, 0.02)


@pytest.mark.parametrize(
    ("written", "kelvin"),
    [("0.1", 0.1), ("1", 1.0), ('"0.1 K"', 0.1), ('"0.5 degC"', 0.5), ('"9 degF"', 5.0)],
)
def test_a_tolerance_is_a_number_or_a_difference(text, written, kelvin):
    assert read_job(f"{text}\n[pin.grid]\ntolerance = {written}\n").pin.grid.tolerance.si == kelvin


@pytest.mark.parametrize(
    ("written", "dimension", "si"),
    [
        ("3e4 1/s", Dimension.RATE, 3e4),
        ("60 1/min", Dimension.RATE, 1.0),
        ("7200 1/h", Dimension.RATE, 2.0),
        ("60 kJ/mol", Dimension.MOLAR_ENERGY, 6e4),
        ("60 J/mol", Dimension.MOLAR_ENERGY, 60.0),
        ("350 J/g", Dimension.SPECIFIC_ENERGY, 35e4),
        ("350 kJ/kg", Dimension.SPECIFIC_ENERGY, 35e4),
        ("350 J/kg", Dimension.SPECIFIC_ENERGY, 350.0),
        ("1e9 W/(m2 K)", Dimension.FILM, 1e9),
    ],
)
def test_units_of_published_cases(written, dimension, si):
    assert parse_quantity(written, dimension).si == si


@pytest.mark.parametrize(
    ("pin", "place", "what"),
    [
        ('[pin.kinetics]\na1 = "-1 1/s"', "pin.kinetics.a1", "too little"),
        ('[pin.kinetics]\ne2 = "60 MJ/mol"', "pin.kinetics.e2", "no unit 'MJ/mol' is known"),
        ('[pin.kinetics]\ne2 = "60000 kJ/mol"', "pin.kinetics.e2", "too much"),
        ("[pin.kinetics]\nm = nan", "pin.kinetics.m", "finite"),
        ("[pin.kinetics]\nn = inf", "pin.kinetics.n", "finite"),
        ("[pin.kinetics]\nn = -1", "pin.kinetics.n", "-1 is too little"),
        ("[pin.kinetics]\nstart = 1.5", "pin.kinetics.start", "a share of 1.5"),
        ("[pin.film]\nh = 8", "pin.film.h", "8 has no unit"),
        ('[pin.film]\nh = "-8 W/(m2 K)"', "pin.film.h", "too little"),
        ("[pin.film]", "pin.film.h", "the key 'h' is missing"),
        ('[pin.grid]\nspacing = "0 mm"', "pin.grid.spacing", "too little"),
        ("[pin.grid]\ntolerance = 0", "pin.grid.tolerance", "too little"),
        ("[pin.grid]\ntolerance = nan", "pin.grid.tolerance", "too much"),
        ('[pin.grid]\nspacings = "2 mm"', "pin.grid.spacings", "unknown key"),
        ('[[pin.pour]]\nto = "-1 mm"', "pin.pour[1].to", "does not lie above the floor"),
        ('[[pin.pour]]\nto = "20 mm"\n[[pin.pour]]\nto = "top"', "pin.pour[2]", "'at' is missing"),
        (
            '[[pin.pour]]\nto = "20 mm"\n[[pin.pour]]\nto = "20 mm"\nat = "2 h"',
            "pin.pour[2].to",
            "does not lie above the pour below",
        ),
        (
            '[[pin.pour]]\nto = "20 mm"\nat = "3 h"\n[[pin.pour]]\nto = "top"\nat = "2 h"',
            "pin.pour[2].at",
            "is not after the pour below",
        ),
        ('[[pin.pour]]\nto = "top"\n[[pin.pour]]\nto = "9 mm"\nat = "2 h"', "pin.pour[1].to", "another"),
        ('[pin]\nuntil = "0 h"', "pin.until", "not after the last pour"),
        ('[[pin.probe]]\nname = "a"', "pin.probe[1].z", "'z' is missing"),
        (
            '[[pin.probe]]\nname = "a"\nz = "1 mm"\n[[pin.probe]]\nname = "a"\nz = "2 mm"',
            "pin.probe[2]",
            "a second probe called 'a'",
        ),
        (
            '[pin.surroundings]\ntimes = ["0 h", "2 h", "1 h"]\ntemperatures = ["1 K", "2 K", "3 K"]',
            "pin.surroundings.times",
            "do not rise",
        ),
        (
            '[pin.surroundings]\ntimes = ["0 h"]\ntemperatures = ["1 degC", "2 degC"]',
            "pin.surroundings",
            "1 times and 2 temperatures",
        ),
    ],
)
def test_careless_pins_are_refused(text, pin, place, what):
    message = refusal(f"{text}\n{pin}\n")
    assert message.startswith("slab/job.toml:")
    assert f" {place}: " in message
    assert what in message


def test_a_variant_may_pin_what_the_job_does_not(text):
    job = read_job(text + '\n[[variant]]\nname = "as it is"\n[[variant]]\nname = "check"\n'
                   '[variant.pin.film]\nh = "8 W/(m2 K)"\n')  # fmt: skip
    assert [one.pin is None for one in job.variants()] == [True, False]
