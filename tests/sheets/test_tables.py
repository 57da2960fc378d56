"""Tables: units in the header, values of the plan, nothing a spreadsheet would run."""

import csv
import io

import pytest

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import TABLES, table_text
from tests.sheets.sample_plan import sample_document, sample_plan


def read(plan: PlanDocument, name: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(table_text(plan, name), newline="")))


@pytest.mark.parametrize("name", sorted(TABLES))
def test_every_row_has_a_cell_under_every_head(name: str) -> None:
    rows = list(csv.reader(io.StringIO(table_text(sample_plan(), name), newline="")))
    assert len(rows) > 1
    assert {len(row) for row in rows} == {len(rows[0])}


def test_pours_in_millimetres_and_kilograms() -> None:
    plan = sample_plan()
    rows = read(plan, "pours")
    assert [row["to, as poured [mm]"] for row in rows] == ["120.0", "200.0", "330.0", "450.0"]
    assert [row["dip from the rim [mm]"] for row in rows] == ["330.0", "250.0", "120.0", "0.0"]
    for row, pour in zip(rows, plan.pours, strict=True):
        assert float(row["resin [kg]"]) == pytest.approx(pour.resin_kg, abs=5e-4)
        assert row["start"] == pour.start


def test_pours_in_inches_pounds_and_fahrenheit() -> None:
    plan = sample_plan(units="us")
    row = read(plan, "pours")[0]
    assert float(row["to, as poured [in]"]) == pytest.approx(0.120 / 0.0254, abs=5e-4)
    assert float(row["resin [lb]"]) == pytest.approx(plan.pours[0].resin_kg / 0.45359237, abs=5e-4)
    assert row["limit [°F]"] == "140.0"


def test_batches_of_the_rubber_and_of_each_pour() -> None:
    plan = sample_plan()
    rows = read(plan, "batches")
    assert len(rows) == len(plan.mold.rubber.batches) + sum(len(pour.batches) for pour in plan.pours)
    assert rows[0]["for"] == "rubber"
    assert rows[0]["part A [kg]"] == "6.545"


def test_dip_stick_counts_down_from_the_rim() -> None:
    rows = read(sample_plan(), "dip-stick")
    for row in rows:
        assert float(row["dip from the rim [mm]"]) + float(row["height, as poured [mm]"]) == pytest.approx(
            450.0
        )


def test_a_missing_price_is_an_empty_cell() -> None:
    rows = read(sample_plan(), "shopping")
    assert [row["price [EUR]"] for row in rows if row["item"].startswith("crushed glass")] == ["", ""]
    assert rows[0]["price [EUR]"] == "706.00"


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r", "\n=", " ="])
def test_no_cell_is_a_formula(start: str) -> None:
    document = sample_document()
    document["shopping"][0]["item"] = f'{start}HYPERLINK("x")'
    row = read(PlanDocument.model_validate(document), "shopping")[0]
    assert row["item"].startswith("'")


def test_a_negative_number_stays_a_number() -> None:
    document = sample_document()
    document["pours"][0]["batches"][0]["ratio_error"] = -0.00036
    row = next(
        row for row in read(PlanDocument.model_validate(document), "batches") if row["for"] == "pour 1"
    )
    assert row["ratio error [%]"] == "-0.036"


def test_panels_and_board_in_us_units_say_nothing_in_si() -> None:
    plan = sample_plan(units="us")
    panels = read(plan, "panels")
    assert [head for head in panels[0] if head.endswith(("[Pa]", "[kPa]", "[N]"))] == []
    # 410 N / 4.4482216152605 N per lbf
    assert next(row for row in panels if row["panel"] == "side")["thrust [lbf]"] == "92.2"
    assert "m2" not in {row["unit"] for row in read(plan, "shopping")}


def test_levels_of_a_piece_on_its_side_have_no_reading_as_it_stands() -> None:
    document = sample_document()
    rows = read(PlanDocument.model_validate(document), "batches")
    filled = [row for row in rows if row["for"] != "rubber" and row["level after, as poured [mm]"]]
    for row in filled:
        both = float(row["level after, as poured [mm]"]) + float(row["level after, as it stands [mm]"])
        assert both == pytest.approx(450.0)
    assert filled
    document["piece"] |= {"up": "+x", "flipped": False}
    plan = PlanDocument.model_validate(document)
    for name, column in (("pours", "to"), ("bands", "from"), ("dip-stick", "height")):
        assert {row[f"{column}, as it stands [mm]"] for row in read(plan, name)} == {""}
