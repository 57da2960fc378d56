"""The printed plan, read back from the PDF."""

import io
import re

import pypdf
import pytest

from pourwright.jobs.plan import PlanDocument
from pourwright.sheets import plan_mark, plan_pdf
from tests.sheets.printed import words_of
from tests.sheets.sample_plan import sample_document, sample_plan


def pages(plan: PlanDocument) -> list[str]:
    return words_of(plan_pdf(plan))


def tickets(texts: list[str]) -> list[str]:
    return [text for text in texts if "A and B together" in text and "Before you mix" in text]


@pytest.fixture(scope="module")
def stool() -> list[str]:
    return pages(sample_plan())


def test_first_page_holds_the_numbers_that_decide(stool: list[str]) -> None:
    for words in [
        "Hourglass stool",
        "26.95 kg",
        "9.77 kg",
        "17.73 kg",
        "43.20 kg",
        "Thu 10 Dec",
        "limit 60 °C",
    ]:
        assert words in stool[0]
    assert "invented" in stool[0]
    for warning in sample_plan().warnings:
        assert warning in stool[0]


def test_section_on_the_first_page_is_text_that_can_be_read(stool: list[str]) -> None:
    for words in ["amber, fine", "clear window", "up 330 mm (120 mm)", "dip 120 mm"]:
        assert words in stool[0]


@pytest.mark.parametrize("count", [1, 4, 12])
def test_every_pour_and_the_rubber_have_a_ticket_of_their_own(count: int) -> None:
    found = tickets(pages(sample_plan(count)))
    assert len(found) == count + 1
    assert "Rubber" in found[0]
    for number in range(1, count + 1):
        assert f"Pour {number} of {count}" in found[number]


def test_ticket_tells_each_weight_and_the_level(stool: list[str]) -> None:
    plan = sample_plan()
    second = tickets(stool)[2]
    batch = plan.pours[1].batches[0]
    assert f"{batch.part_a_kg:.3f} kg" in second
    assert f"{batch.part_b_kg * 1000:.0f} g" in second
    for words in ["250 mm", "200 mm", "100 : 45", "45 min", "Wed 2 Dec, 09:00", "1.50 kg of green glass"]:
        assert words in second
    assert "on Thu 3 Dec between 08:00 and 16:00" in second


def test_ticket_tells_how_long_the_batch_may_stand(stool: list[str]) -> None:
    # rounded down: to five minutes, or to one where little is left
    second = tickets(stool)[2]
    for words in [
        "Left in a pail of 10.0 l the batch is 5 °C warmer after 1 h 15 min",
        "can go over 65 °C after 3 h 35 min.",
        "Spread 10 mm deep in trays it stays below 32 °C.",
        "Mixed 10 °C warmer it has only 25 min.",
        "keep out of its smoke",
    ]:
        assert words in second


def test_a_batch_that_stays_cool_needs_no_smoke() -> None:
    document = sample_document()
    cool = {name: None for name in document["pours"][1]["standing"] if name.endswith(("after_h", "until_h"))}
    document["pours"][1]["standing"] |= cool
    second = tickets(pages(PlanDocument.model_validate(document)))[2]
    assert "stays cool and liquid for 1 day" in second
    assert "keep out of its smoke" not in second
    assert "has only" not in second


def test_rubber_ticket_tells_the_mark_and_the_weight_on_the_master(stool: list[str]) -> None:
    rubber = tickets(stool)[0]
    for words in ["357 mm", "480 mm", "6.545 kg", "655 g", "11.4 kg on the bars", "100 : 10"]:
        assert words in rubber


def test_lists_are_all_there(stool: list[str]) -> None:
    text, plan = " ".join(stool), sample_plan()
    lines = [check.text for check in plan.go_no_go] + [event.title for event in plan.calendar]
    lines += [need.item for need in plan.shopping] + [reason.text for reason in plan.reasons] + plan.cautions
    for line in lines:
        assert line in text
    assert "998.50 EUR" in text
    assert "citation from memory" in text
    assert f"plan {plan_mark(plan)}" in text


def test_same_plan_same_bytes() -> None:
    assert plan_pdf(sample_plan()) == plan_pdf(sample_plan())


def test_us_shop_reads_inches_pounds_and_fahrenheit_on_letter_paper() -> None:
    plan = sample_plan(units="us", paper="letter", currency="USD")
    box = pypdf.PdfReader(io.BytesIO(plan_pdf(plan))).pages[0].mediabox
    assert (float(box.width), float(box.height)) == (612.0, 792.0)
    text = " ".join(pages(plan))
    for words in ["17 11/16 in", "59 lb 7 oz", "140 °F", "9:00 am", "998.50 USD"]:
        assert words in text
    assert not re.search(r"\d mm\b(?! in| thick)", tickets(pages(plan))[1])


@pytest.mark.parametrize(
    "title",
    [
        "# $x$ *bold* _it_ @ref <label> `code` // gone /* too */",
        '#panic("no") \\ "quoted" ~ -- ... = heading',
        "https://example.org/[a](b) {c} #include",
    ],
)
def test_markup_in_a_title_is_only_words(title: str) -> None:
    document = sample_document(title=title)
    document["fill"]["bands"][0]["name"] = title
    document["calendar"][0]["detail"] = title
    text = " ".join(pages(PlanDocument.model_validate(document)))
    squeezed = text.replace(" ", "")
    assert squeezed.count(title.replace(" ", "")) >= 3


def test_long_names_break_and_lose_nothing() -> None:
    name = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerk" * 3
    document = sample_document(title=name)
    document["piece"]["casting_material"] = name
    document["shopping"][0]["item"] = name
    text = "".join(pages(PlanDocument.model_validate(document))).replace(" ", "")
    assert text.count(name) >= 3


def test_a_plan_with_nothing_to_say_still_prints() -> None:
    document = sample_document(1)
    for key in (
        "warnings",
        "cautions",
        "reasons",
        "go_no_go",
        "shopping",
        "sources",
        "calendar",
        "dip_stick",
    ):
        document[key] = []
    document["fill"]["glass"] = []
    assert len(tickets(pages(PlanDocument.model_validate(document)))) == 2


def test_a_pour_over_its_limit_is_called_so() -> None:
    document = sample_document()
    document["pours"][1]["peak_temperature_degC"] = 74.2
    first = pages(PlanDocument.model_validate(document))[0]
    assert "74 °C" in first
    assert "pour 2, goes over the limit of 60 °C" in first


def test_a_screwed_master_is_held_by_screws() -> None:
    document = sample_document()
    document["mold"]["method"] = document["mold"]["hold_down"]["method"] = "screwed"
    document["mold"]["hold_down"]["screws_needed"] = 6
    document["mold"]["rubber"]["fill_mark_before_master_m"] = None
    rubber = tickets(pages(PlanDocument.model_validate(document)))[0]
    assert "6 screws from below" in rubber
    assert "fill to this mark" not in rubber


def test_many_batches_run_on_with_their_heads() -> None:
    document = sample_document(1)
    batches = document["pours"][0]["batches"]
    document["pours"][0]["batches"] = [dict(batches[0], number=n) for n in range(1, 21)]
    texts = pages(PlanDocument.model_validate(document))
    assert sum("A and B together" in text for text in texts) >= 3
    assert sum(text.count("weighed") for text in texts) == 2 * (20 + 6)


def test_a_bond_that_ends_after_the_clock_changes_is_told_on_the_new_clock() -> None:
    document = sample_document()
    first, second = document["pours"][:2]
    first["start"], first["bonds_until_h"] = "2027-03-27T12:00:00+01:00", 20.0
    first["next_from"], first["next_until"] = "2027-03-28T08:00:00+02:00", "2027-03-28T09:00:00+02:00"
    second["start"] = "2027-03-28T08:00:00+02:00"
    ticket = tickets(pages(PlanDocument.model_validate(document)))[2]
    assert "takes it on Sun 28 Mar between 08:00 and 09:00; after Sun 28 Mar, 09:00 sand it first" in ticket
