"""Every key of an order list stands on its page; the list that the page shows and the example are read."""

import re
import tomllib

import jsonschema

from pourwright.jobs import load_orders, order_list_schema, read_orders
from pourwright.jobs.orders import OrderList
from pourwright.jobs.reference import tables
from tests.contracts.house import ROOT

PAGE = (ROOT / "docs" / "orders.md").read_text("utf8")
EXAMPLE = ROOT / "examples" / "hourglass-stool" / "orders.toml"


def test_the_list_that_the_page_shows_and_the_example_are_read() -> None:
    (shown,) = re.findall(r"^```toml\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
    assert [order.count for order in read_orders(shown).order] == [3, 1]
    assert load_orders(EXAMPLE).invented
    jsonschema.validate(tomllib.loads(EXAMPLE.read_text("utf8")), order_list_schema())


def test_every_key_is_on_the_page_in_the_row_of_its_table() -> None:
    rows = dict(re.findall(r"^\| (the file|`\[+[\w.]+\]+`) \| (.*) \|$", PAGE, re.MULTILINE))
    for heading, model in tables(OrderList):
        row = rows[f"`{heading}`" if heading else "the file"]
        own = set() if heading else {each.strip("`[]") for each in rows}
        assert set(model.model_fields) - own - set(re.findall(r"`(\w+)`", row)) == set(), heading
