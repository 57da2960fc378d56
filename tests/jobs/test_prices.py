"""Price lists: what is read, and what is refused with its line."""

import tomllib
from decimal import Decimal
from pathlib import Path

import jsonschema
import pytest

from pourwright.jobs import JobError, cost_schema, load_prices, prices_schema, read_prices

ROOT = Path(__file__).parents[2]
EXAMPLE = ROOT / "examples" / "hourglass-stool" / "prices.toml"
HEAD = 'format = 1\ncurrency = "EUR"\ndate = "2026-11-02"\n'


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[price]]\nof = "resin"\nprice = "9 USD/kg"', "prices.toml:6 price[1].price: '9 USD/kg' is in USD"),
        ('[fees]\nfixed = "1 CHF"', "prices.toml:5 fees.fixed: '1 CHF' is in CHF, the file in EUR"),
        ('[[price]]\nof = "resin"\nprice = "-9 EUR/kg"', "'-9 EUR/kg' is below zero"),
        ('[[price]]\nof = "resin"\nprice = 9', "has no currency"),
        ('[[price]]\nof = "resin"\nprice = "9 EUR/h"', "resin priced by the h; allowed: EUR/kg, EUR/l"),
        ('[[price]]\nof = "gold"\nprice = "9 EUR/kg"', "'gold' is not known here; allowed: resin, mineral"),
        ('[work]\npour = "0 h"', "'0 h' is no time of work; allowed: above 0"),
        ('[work]\ndemold = "-2 h"', "prices.toml:5 work.demold: '-2 h' is no time of work"),
        ("[mold]\ncasts = 0", "prices.toml:5 mold.casts: 0 is too little; allowed: 1 or more"),
        ("[scrap]\nrate = 1.0", "prices.toml:5 scrap.rate: a share of 100 %: nothing is left"),
        ('[scrap]\nrate = "100 %"', "allowed: 0 or more, below 100 %"),
        ("[sell]\nmargin = 1", "a share of 100 %: nothing is left"),
        ("[sell]\nmargin = 0.3\nmarkup = 0.5", "both margin and markup"),
        ("[sell]\nretail = 2.0", "neither margin nor markup"),
        ("[run]\nlearning = 1.2", "1.2 is too much; allowed: up to 1"),
        ("[run]\nper_month = 0", "0 is not possible here; allowed: above 0"),
        ('[overhead]\nmonth = "400 EUR"', "overhead of a month without its hours"),
        ('[[tool]]\nname = "pump"\nprice = "9 EUR"\nyears = 5', "a tool without the hours it serves"),
        ('[[price]]\nof = "hour"\nstep = "stir"\nprice = "9 EUR/h"', "no step 'stir'"),
        ('[[price]]\nof = "hour"\ncolour = "red"\nprice = "9 EUR/h"', "price[1].colour: colour does not go"),
        ('[[freight]]\nup_to = "0 kg"\nprice = "9 EUR"', "'0 kg' is too little"),
        ('[energy]\ncasting = "-1 kWh"', "'-1 kWh' is too little; allowed: above 0"),
        ("[finish]\ngrits = [80, 0]", "0 is no grit"),
        ("[sel]\nmargin = 0.3", "unknown key 'sel'"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_its_line(text: str, said: str) -> None:
    with pytest.raises(JobError) as refused:
        read_prices(HEAD + text)
    assert said in str(refused.value)
    assert str(refused.value).startswith("prices.toml:")


def test_a_list_from_an_editor_that_marks_its_encoding_is_read_with_its_lines(tmp_path: Path) -> None:
    """Editors of one system begin UTF-8 with the bytes EF BB BF (Unicode standard, section 23.8)."""
    file = tmp_path / "prices.toml"
    file.write_text(HEAD + "[fees]\n", "utf-8-sig")
    assert load_prices(file).currency == "EUR"
    file.write_text(HEAD + '[fees]\nfixed = "1 CHF"', "utf-8-sig")
    with pytest.raises(JobError, match=r"prices\.toml:5 fees\.fixed"):
        load_prices(file)


def test_every_price_has_a_date() -> None:
    row = '[[price]]\nof = "resin"\nprice = "9 EUR/kg"\n'
    with pytest.raises(JobError, match=r"prices.toml:3 price\[1\]: a price without a date"):
        read_prices(f'format = 1\ncurrency = "EUR"\n{row}')
    own = read_prices(f'format = 1\ncurrency = "EUR"\n{row}date = 2026-11-02\n')
    assert str(own.dated(own.price[0].date)) == "2026-11-02"


def test_an_unknown_currency_is_refused() -> None:
    with pytest.raises(JobError, match="no currency 'EURO' is known"):
        read_prices('format = 1\ncurrency = "EURO"\n')


def test_money_is_exact_to_the_last_digit() -> None:
    # 0.1 is no binary fraction: as a float three of them are more than 0.3
    prices = read_prices(HEAD + '[[price]]\nof = "resin"\nprice = "0.1 EUR/kg"\n')
    assert 3 * prices.price[0].price.per_si == Decimal("0.3")


def test_the_example_fits_its_schema_and_says_that_it_is_invented() -> None:
    prices = load_prices(EXAMPLE)
    assert prices.invented
    assert "invented" in EXAMPLE.read_text("utf8").splitlines()[0]
    jsonschema.validate(tomllib.loads(EXAMPLE.read_text("utf8")), prices_schema())


def test_schemas_are_schemas() -> None:
    for schema in (prices_schema(), cost_schema()):
        jsonschema.Draft202012Validator.check_schema(schema)
