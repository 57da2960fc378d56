"""The page of sizes, read back from the PDF."""

import pytest

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import plan_pdf
from pourwright.sheets.pages.sizes import sizes_page
from tests.sheets.printed import words_of
from tests.sheets.sample_plan import sample_plan
from tests.sheets.sample_sizes import sizes_document


def page_of(plan: PlanDocument) -> str:
    texts = words_of(plan_pdf(plan))
    (found,) = [text for text in texts if "Sizes: cut the master" in text]
    return found


def test_the_page_holds_the_table_and_the_faces() -> None:
    page = page_of(PlanDocument.model_validate(sizes_document()))
    for words in [
        "master.stl and master.3mf",
        "301.70 mm",
        "441.70 mm",
        "the piece measures 439.40 mm to 440.40 mm",
        "-0.10 mm",
        "open face (underside as it stands)",
        "no glass there",
        "Sanding 1 mm off the sides goes through the skin to the glass.",
        "37 °C (22 to 52 °C)",
    ]:
        assert words in page, words


def test_inches_are_told_to_the_thousandth() -> None:
    page = sizes_page(PlanDocument.model_validate(sizes_document(units="us")))
    # 441.7 mm
    assert page["facts"][2]["value"] == "17.390 in"  # type: ignore[index]


def test_lines_add_up_as_printed() -> None:
    page = sizes_page(PlanDocument.model_validate(sizes_document()))
    rows = page["steps"]["rows"]  # type: ignore[index]
    upright = [float(row[3].removesuffix(" mm")) for row in rows[:6]]
    assert sum(upright[:5]) == pytest.approx(upright[5], abs=0.02)


def test_a_plan_that_asks_for_no_master_has_no_such_page() -> None:
    assert sizes_page(sample_plan()) == {}
    plain = sizes_document("master")
    plain["sizes"]["cut"] = False
    assert sizes_page(PlanDocument.model_validate(plain)) == {}
