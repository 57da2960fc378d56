"""What a field shows: the same in other units, what is allowed, where it stands."""

from pathlib import Path

import pytest

from pourwright.app.choosing.document import choices_of
from pourwright.app.choosing.values import read_as
from pourwright.foundation.errors import UserError
from tests.app.choosing.conftest import JOB

PER_KG = "price per mass or price per volume"


@pytest.mark.parametrize(
    ("text", "kind", "other"),
    [
        # an inch is 25.4 mm exactly, a pound 0.45359237 kg, a US gallon 3.785411784 l
        ("3/4 in", "length", "19.05 mm"), ("19.05 mm", "length", "3/4 in"), ("10 in", "length", "254 mm"),
        ("19 mm", "length", "about 3/4 in"), ("6'", "length", "1828.8 mm"), ("25.4 mm", "length", "1 in"),
        ("20 degC", "temperature", "68 °F"), ("68 °F", "temperature", "20 °C"),
        ("70 F", "temperature", "21.1 °C"), ("1 lb", "mass", "454 g"), ("10 kg", "mass", "22 lb 1 oz"),
        ("1 gallon", "volume", "3.79 l"), ("0.05", "share", "5 %"), ("2.5 %", "share", ""),
        ("10 USD/lb", PER_KG, "22.05 USD/kg"), ("10 EUR/kg", PER_KG, "4.54 EUR/lb"),
        ("10 EUR/l", PER_KG, "37.85 EUR/gallon"), ("1 g", "mass", ""), ("45 min", "time", ""),
    ],
)  # fmt: skip
def test_the_other_units_stand_beside(text: str, kind: str, other: str) -> None:
    assert read_as(text, kind).other == other


@pytest.mark.parametrize(
    ("text", "kind", "words"),
    [
        ("19", "length", "the unit is missing"), ("", "length", "nothing is written"),
        ("1,5 m", "length", "comma"), ("-300 degC", "temperature", "absolute zero"),
        ("5 kg", "volume", "unit of mass"), ("150 %", "share", "a share of 1.5"),
        ("2026-13-01 09:00", "moment", "no date"), ("x", "furlongs", "nothing is known"),
        ("9" * 3000, "length", "3000 letters"),
    ],
)  # fmt: skip
def test_one_sentence_where_it_cannot_be_read(text: str, kind: str, words: str) -> None:
    with pytest.raises(UserError, match=words):
        read_as(text, kind)


def test_fields_say_where_they_stand_and_what_may_be_chosen(folder: Path) -> None:
    document = choices_of(folder)
    assert [section["id"] for section in document["sections"]] == ["piece", "mold", "fill", "pour", "paper"]
    fields = {each["key"]: each for section in document["sections"] for each in section["fields"]}
    wall = fields["mold.wall"]
    assert JOB.splitlines()[wall["line"] - 1].startswith("wall = ")
    assert (wall["text"], wall["other"], wall["default"]) == ("19 mm", "about 3/4 in", "20 mm")
    assert (fields["mold.base"]["text"], fields["mold.base"]["line"]) == ("", None)
    allowed = {each["id"]: each["name"] for each in fields["casting.material"]["allowed"]}
    assert allowed["epoxy-slow-deep"] == "Slow deep-pour epoxy"
    assert "gypsum-casting" in allowed
    assert document["bands"][0]["raw"] == {"to": "30 mm", "grade": "medium", "colour": "green"}
    assert document["bands"][0]["to_m"] == 0.03


def test_only_the_way_the_shape_is_given_has_fields(folder: Path) -> None:
    keys = {each["key"] for section in choices_of(folder)["sections"] for each in section["fields"]}
    assert "shape.box" in keys
    assert not keys & {"shape.file", "shape.unit", "shape.cone.height"}


def test_a_material_of_the_shop_can_be_chosen(folder: Path) -> None:
    shop = folder / "shop"
    job = shop / "lamp"
    job.mkdir(parents=True)
    (job / "job.toml").write_text(JOB, "utf8")
    (shop / "materials").mkdir()
    board = (Path(__file__).parents[3] / "src/pourwright/data/materials/board.toml").read_text("utf8")
    mdf = "[oak-panel" + board.partition("[mdf")[2].partition("\n[plywood]")[0].replace("[mdf", "[oak-panel")
    (shop / "materials" / "board.toml").write_text(mdf, "utf8")
    sections = choices_of(job)["sections"]
    field = next(each for s in sections for each in s["fields"] if each["key"] == "mold.board")
    assert {"mdf", "oak-panel"} <= {each["id"] for each in field["allowed"]}
