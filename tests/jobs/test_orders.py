"""An order list is refused in one line that says where, what, and what to do."""

import re

import pytest

from pourwright.jobs import JobError, read_orders

LIST = """format = 1
currency = "EUR"
[[product]]
name = "stool"
job = "stool"
molds = 2
scrap = 0.1
leaves = "80 EUR"
[[order]]
name = "a"
product = "stool"
count = 3
by = 2027-02-01
[[offer]]
of = "resin"
supplier = "dealer"
kit = "12 kg"
price = "170 EUR"
more = [{ kits = 3, price = "160 EUR" }, { kits = 9, price = "150 EUR" }]
keeps = "180 days"
[[supplier]]
name = "dealer"
fee = "9 EUR"
"""


def test_a_list_keeps_its_words_and_lines() -> None:
    orders = read_orders(LIST)
    assert orders.offer[0].price.text == "170 EUR"
    assert orders.line(("offer", 0, "price")) == 18
    assert orders.product_at("stool") == 0


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("count = 3", "count = 0", r"orders.toml:12 order\[1\].count: 0 is too little"),
        ("molds = 2", "molds = -1", r"orders.toml:6 product\[1\].molds"),
        ("molds = 2", "molds = 2\nnew_molds = 3", "3 of 2 molds"),
        ("scrap = 0.1", "scrap = 1.0", r"orders.toml:7 .*nothing is left"),
        ("scrap = 0.1", 'rest = "-1 h"', r"orders.toml:7 .*rest of -1 h"),
        ('product = "stool"', 'product = "stol"', r"orders.toml:11 .*no product 'stol'; allowed: stool"),
        ('"12 kg"', '"0 kg"', r"orders.toml:17 .*above 0"),
        ('"12 kg"', "12", r"orders.toml:17 .*resin in kits of 12"),
        ('"170 EUR"', '"0 EUR"', r"orders.toml:18 .*price of 0 EUR"),
        ('"170 EUR"', '"-5 EUR"', r"orders.toml:18 .*below zero"),
        ('"160 EUR"', '"160 USD"', r"orders.toml:19 .*'160 USD' is in USD, the file in EUR"),
        ("kits = 9", "kits = 2", "prices for more kits that do not grow"),
        ('"180 days"', '"2 h"', r"orders.toml:20 .*a day or more"),
        ('currency = "EUR"\n', "", "without the currency of the file"),
        ('currency = "EUR"', 'currency = "EUS"', "no currency 'EUS' is known"),
        ('name = "dealer"', 'name = "dealr"', r"orders.toml:22 .*no offer of 'dealr'; allowed: dealer"),
        ("fee", "feee", r"unknown key 'feee'.*write fee"),
        ('currency = "EUR"', 'currency = "EUR"\nkept = 1.0', r"orders.toml:3 kept: .*no day holds always"),
        ("by = 2027-02-01", 'by = "soon"', r"orders.toml:13 .*is no date"),
        ("[[order]]", '[[product]]\nname = "stool"\njob = "x"\n[[order]]', "a second product 'stool'"),
    ],
)
def test_what_cannot_be_is_one_line(old: str, new: str, words: str) -> None:
    assert old in LIST
    with pytest.raises(JobError) as said:
        read_orders(LIST.replace(old, new, 1))
    assert re.search(words, str(said.value)), str(said.value)
