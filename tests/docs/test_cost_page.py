"""Every key of a price list stands on the cost page, and the list that it shows is read."""

import re
from pathlib import Path

from pourwright.jobs import read_prices
from pourwright.jobs.prices import PriceList
from pourwright.jobs.reference import tables

PAGE = (Path(__file__).parents[2] / "docs" / "cost.md").read_text("utf8")


def test_the_list_that_the_page_shows_is_read() -> None:
    (shown,) = re.findall(r"^```toml\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    prices = read_prices(shown)
    assert len(prices.price) == 4
    assert (prices.scrap.rate, prices.sell and prices.sell.margin) == (0.08, 0.3)


def test_every_key_is_on_the_page_in_the_row_of_its_table() -> None:
    rows = dict(re.findall(r"^\| (the file|`\[+\w+\]+`) \| (.*) \|$", PAGE, re.MULTILINE))
    for heading, model in tables(PriceList):
        row = rows[f"`{heading}`" if heading else "the file"]
        fields = model.model_fields.items()
        names = {name for name, _ in fields} - (
            {each.strip("`[]") for each in rows} if not heading else set()
        )
        assert names - set(re.findall(r"`(\w+)`", row)) == set(), heading
