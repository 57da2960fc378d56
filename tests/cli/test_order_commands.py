"""Dates and purchases on the command line: printed, as JSON, and refused in one line."""

import json
from pathlib import Path

import pytest

from tests.app.ordering.listed import OFFER, ORDERS, shop
from tests.cli.asking import asked, refusal

# what is bought has to be ordered from today on, whenever that is
LATER = ORDERS.replace("2027-01-11 08:00", "2101-01-10 08:00").replace("2027-04-30", "2101-05-06")


@pytest.fixture(scope="module")
def orders(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shop(tmp_path_factory.mktemp("line"), LATER + OFFER)


def test_orders_pieces_and_months_are_printed(orders: Path) -> None:
    said = asked("orders", str(orders))
    assert said.exit_code == 0, said.output
    places = [
        said.stdout.index(words)
        for words in ("wanted by", "shelf: In time", "Piece by piece", "plinth alone", "Mind this")
    ]
    assert places == sorted(places)
    assert "% of the months" in said.stdout


def test_the_answer_as_json_is_the_whole_of_stdout(orders: Path) -> None:
    assert json.loads(asked("orders", str(orders), "--json").stdout)["schema"] == "pourwright-orders/1.0"
    assert json.loads(asked("buy", str(orders), "--json").stdout)["schema"] == "pourwright-buying/1.0"


def test_a_shopping_list_has_its_days_and_its_sum(orders: Path) -> None:
    """Five kits of 4 kg at 50 EUR; 2 days before Monday 10 January 2101 is Saturday the 8th."""
    said = asked("buy", str(orders)).stdout
    assert "[ ] dealer: order by Sat 8 Jan 2101, there on Mon 10 Jan, 250.00 EUR" in said
    assert "5 x 4.00 kg of" in said
    assert "286.00 EUR in all: nothing is cheaper" in said


def test_a_list_that_is_not_there_is_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for command in ("orders", "buy"):
        assert "no such order list" in refusal(capsys, command, str(tmp_path / "orders.toml"))
