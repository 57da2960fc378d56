"""What to saw over HTTP: shown, ticked, made anew, and what is left put into the book once."""

import re
import shutil
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from pourwright.app.booking.counting import add_lot, take_lot
from pourwright.app.booking.places import book_place
from pourwright.app.job_texts import keep_text
from pourwright.app.pairing.phones import Phones
from pourwright.app.working import tasks
from pourwright.app.working.ledger import ledger_of
from pourwright.app.working.orders import NoOptions, order_of
from pourwright.app.working.state import RunState
from pourwright.foundation.progress import SILENT
from pourwright.records import Lot, lots_of, open_book
from pourwright.web.application import make_app
from pourwright.web.lan import Lan
from tests.web.conftest import HERE
from tests.web.test_guards import error_of
from tests.web.test_lan import THERE

JOB, HTML = "/jobs/block", {"accept": "text/html"}
TEXT = """
format = 1
title = "Small block"
invented = true
[shape]
box = ["60 mm", "60 mm", "36 mm"]
[casting]
material = "epoxy-slow-deep"
[mold]
wall = "20 mm"
[shop]
temperature = "21 degC"
[[sheet]]
board = "mdf"
thickness = "18 mm"
length = "600 mm"
width = "400 mm"
"""
WIDER = TEXT.replace('wall = "20 mm"', 'wall = "24 mm"')
"""The box is 8 mm longer and wider; the master is as it was."""
SHEET = 0.6 * 0.4
Pages = Callable[[], TestClient]


def worked_out(job: Path, text: str) -> RunState:
    """Write the job file and do the work in this process, as a run of its own does."""
    job.write_text(text, "utf8")
    order = order_of(job, None, NoOptions())
    keep_text(order.text, order.digest)
    answer = tasks.cut(order, SILENT)
    return RunState(
        id="1", what="cut", words="", variant="main", job_sha256=order.digest, asked="", answer=answer
    )


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop and its kept results: the list of a small block, and that of one in a wider box."""
    folder = tmp_path_factory.mktemp("made")
    job = folder / "shop" / "block" / "job.toml"
    job.parent.mkdir(parents=True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("POURWRIGHT_CACHE", str(folder / "caches"))
        worked_out(job, WIDER)
        run = worked_out(job, TEXT)
    (folder / "run.json").write_text(run.model_dump_json())
    return folder


@pytest.fixture
def shop(made: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The same, of its own; that the list was made is remembered."""
    shutil.copytree(made / "shop", tmp_path / "shop")
    shutil.copytree(made / "caches", tmp_path / "caches")
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    ledger = ledger_of(tmp_path / "shop" / "block")
    ledger.note(RunState.model_validate_json((made / "run.json").read_bytes()))
    ledger.save()
    return tmp_path / "shop"


@pytest.fixture
def pages(shop: Path) -> Pages:
    """Opens the page once more: another device, or the same one after the server was started again."""
    return lambda: TestClient(make_app(shop), base_url=HERE, headers={"origin": HERE})


@pytest.fixture
def page(pages: Pages) -> TestClient:
    return pages()


def state(page: TestClient) -> dict[str, Any]:
    found: dict[str, Any] = page.get(f"{JOB}/cut/ticks.json").json()
    return found


def ticked(page: TestClient, *marks: str, sawn: bool = True) -> dict[str, Any]:
    asked = {"seen": state(page)["list"], "marks": marks, "sawn": sawn}
    answer = page.post(f"{JOB}/cut/ticks.json", json=asked)
    assert answer.status_code == 200
    found: dict[str, Any] = answer.json()
    return found


def sawn_sheet(page: TestClient) -> dict[str, Any]:
    """Tick all parts of the one sheet; gives how it stands."""
    document = page.get(f"{JOB}/cut.json").json()["document"]
    (sheet,) = document["plan"]["sheets"]
    return wood_of(ticked(page, *(part["mark"] for part in sheet["parts"])))


def wood_of(told: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = told["wood"][0]
    assert found["name"] == "sheet-1"
    return found


def put(page: TestClient, where: str = "offcuts", **more: Any) -> Any:
    asked = {"seen": state(page)["list"], "sheet": "sheet-1", "piece": 1} | more
    return page.post(f"{JOB}/cut/{where}.json", json=asked)


def boards(shop: Path) -> tuple[Lot, ...]:
    with open_book(book_place(shop), make=False) as book:
        return lots_of(book, "board")


def test_sheets_cuts_and_parts_are_shown(page: TestClient) -> None:
    text = page.get(f"{JOB}/cut", headers=HTML).text
    document = page.get(f"{JOB}/cut.json").json()["document"]
    assert document["schema"] == "pourwright-cut/1.0"
    for part in document["list"]["parts"]:
        assert text.count(f'data-mark="{part["mark"]}"') == 1
    # inside 60 + 2 x 20 mm, the sides lap the ends of 18 mm; the master's boards are sawn 5 mm larger around
    for size in ("136 × 136 mm", "70 × 70 mm", "60 × 60 mm"):
        assert size in text
    (sheet,) = document["plan"]["sheets"]
    assert text.count("<li value=") == len(sheet["cuts"]) + 3, "one that trims the bar, two for its parts"
    drawing = page.get(f"{JOB}/cut/sheets/1.svg")
    assert drawing.headers["content-type"] == "image/svg+xml"
    assert "136 × 136 mm" in drawing.text
    assert "bar 2" in page.get(f"{JOB}/cut/bars.svg").text
    assert page.get(f"{JOB}/cut/cut.pdf").content.startswith(b"%PDF-")
    (paper,) = [one for one in page.get(f"{JOB}/sheets.json").json()["sheets"] if one["name"] == "cut"]
    assert (paper["pages"] > 1, paper["old"]) == (True, False)
    assert page.get(f"{JOB}/cut/sheets/2.svg").status_code == 404


def test_what_was_not_worked_out_is_not_there(page: TestClient, shop: Path) -> None:
    (shop / "other").mkdir()
    (shop / "other" / "job.toml").write_text(TEXT.replace("Small", "Another"), "utf8")
    assert "It is not worked out yet" in page.get("/jobs/other/cut", headers=HTML).text
    for path in ("ticks.json", "fits.json", "sheets/1.svg", "bars.svg", "cut.pdf"):
        answer = page.get(f"/jobs/other/cut/{path}")
        assert answer.status_code == 404
        assert error_of(answer)["todo"] == "work out what to saw first"
    lists = page.get("/bench.json").json()["to_saw"]
    assert [(one["job"], one["url"]) for one in lists] == [("block", "/jobs/block/cut?variant=main")]


def test_a_tick_stays_and_is_seen_everywhere(page: TestClient, pages: Pages, shop: Path) -> None:
    assert state(page)["sawn"] == []
    for _ in range(2):
        assert ticked(page, "front side")["sawn"] == ["front side"]
    other = pages()
    assert state(other)["sawn"] == ["front side"]
    assert 'data-mark="front side" autocomplete="off" checked' in other.get(f"{JOB}/cut", headers=HTML).text
    assert ticked(other, "bar 1")["sawn"] == ["front side", "bar 1"]
    assert ticked(page, "front side", sawn=False)["sawn"] == ["bar 1"]
    assert state(pages())["sawn"] == ["bar 1"]
    assert not book_place(shop).exists(), "no book is needed, and none is begun"


def test_ticks_that_come_at_once_are_all_kept(page: TestClient, pages: Pages) -> None:
    seen = state(page)["list"]
    marks = ["front side", "back side", "left end", "right end", "base board", "master 1", "master 2"]

    def tick(mark: str) -> int:
        asked = {"seen": seen, "marks": [mark], "sawn": True}
        return pages().post(f"{JOB}/cut/ticks.json", json=asked).status_code

    with ThreadPoolExecutor(len(marks)) as pool:
        assert set(pool.map(tick, marks)) == {200}
    assert set(state(page)["sawn"]) == set(marks)


def test_what_cannot_be_ticked_is_refused_and_changes_nothing(page: TestClient, shop: Path) -> None:
    seen = ticked(page, "front side")["list"]
    right = {"seen": seen, "marks": ["back side"], "sawn": True}
    for wrong, status in (
        ({"marks": ["back side", "lid"]}, 404),
        ({"seen": "0" * 64}, 409),
        ({"seen": "x"}, 422),
        ({"by": "me"}, 422),
    ):
        answer = page.post(f"{JOB}/cut/ticks.json", json=right | wrong)
        assert answer.status_code == status
        error_of(answer)
    assert state(page)["sawn"] == ["front side"]
    (shop / "block" / "sawn.json").write_text("{", "utf8")
    for answer in (page.get(f"{JOB}/cut/ticks.json"), page.post(f"{JOB}/cut/ticks.json", json=right)):
        assert answer.status_code == 400
        assert error_of(answer)["where"] == "sawn.json"
    assert (shop / "block" / "sawn.json").read_text("utf8") == "{"


def test_an_old_list_stays_and_says_so(page: TestClient, shop: Path) -> None:
    ticked(page, "front side")
    paper = page.get(f"{JOB}/cut/cut.pdf").content
    (shop / "block" / "job.toml").write_text(TEXT.replace("21 degC", "19 degC"), "utf8")
    told = state(page)
    assert (told["old"], told["sawn"]) == (True, ["front side"])
    assert told["because"] == ["shop.temperature was 21 degC, is now 19 degC"]
    text = page.get(f"{JOB}/cut", headers=HTML).text
    assert "Old: made from other choices." in text
    assert page.get(f"{JOB}/cut/cut.pdf").content == paper, "the paper of the list that is shown"


def test_a_list_made_anew_keeps_what_is_the_same_and_says_what_is_dropped(
    page: TestClient, shop: Path
) -> None:
    seen = state(page)["list"]
    sawn_sheet(page)
    ticked(page, "bar 1")
    (shop / "block" / "job.toml").write_text(WIDER, "utf8")
    told = state(page)
    assert told["list"] != seen
    assert told["sawn"] == ["master 1", "master 2"]
    # 60 + 2 x 20 + 2 x 18 mm before, 60 + 2 x 24 + 2 x 18 mm now
    assert "base board, sawn as 136 × 136 × 18 mm: it is 144 × 144 × 18 mm now." in told["dropped"]
    assert len(told["dropped"]) == 6
    # a tick that was meant for the list of before is refused
    asked = {"seen": seen, "marks": ["left end"], "sawn": True}
    assert page.post(f"{JOB}/cut/ticks.json", json=asked).status_code == 409
    left = sawn_sheet(page)
    assert (left["sawn"], left["left"]) == (left["parts"], [])
    assert left["words"].startswith("Some of its parts were sawn by an earlier list")
    add_lot(shop, "consumable", "gloves", "40")
    assert put(page).status_code == 409
    # what no longer holds is forgotten when it is read
    assert state(page)["dropped"] == ["bar 1, sawn as 136 × 45 × 70 mm: it is 144 × 45 × 70 mm now."]
    answer = page.post(f"{JOB}/cut/understood.json", json={"seen": state(page)["list"]})
    assert (answer.json()["dropped"], len(answer.json()["sawn"])) == ([], left["parts"])


def test_without_a_book_nothing_is_put_there(page: TestClient, shop: Path) -> None:
    (piece, *_) = sawn_sheet(page)["left"]
    assert (piece["lot"], state(page)["book"]) == (None, False)
    assert "This shop has no book yet" in page.get(f"{JOB}/cut", headers=HTML).text
    answer = put(page)
    assert answer.status_code == 404
    assert error_of(answer)["todo"] == "begin it: put a first lot on stock"
    assert not book_place(shop).exists()


def test_an_offcut_is_put_on_stock_once_and_taken_back(page: TestClient, pages: Pages, shop: Path) -> None:
    whole = add_lot(shop, "board", "mdf", "600 mm x 400 mm")["lot"]
    assert put(page, source=whole).status_code == 409, "nothing is sawn yet"
    (piece, *_) = sawn_sheet(page)["left"]
    assert [(one["lot"], one["likely"]) for one in piece["lots"]] == [(whole, True)]
    others = [page, page, pages(), pages()]
    with ThreadPoolExecutor(len(others)) as pool:
        answers = list(pool.map(lambda one: put(one, source=whole), others))
    assert {answer.status_code for answer in answers} == {200}
    sheet, offcut = boards(shop)
    assert offcut.name == f"offcut {piece['size'].removesuffix(' mm')} × 18 mm"
    # the board is not counted twice: what is put there comes from the sheet
    assert sheet.left + offcut.left == pytest.approx(SHEET)
    left = page.get(f"{JOB}/cut.json").json()["document"]["plan"]["sheets"][0]["left"][0]
    assert offcut.left == pytest.approx(left["length_m"] * left["width_m"])
    first, *others_left = wood_of(state(page))["left"]
    assert first["lot"] == offcut.id
    assert all(one["lots"][0]["lot"] == whole and one["lots"][0]["likely"] for one in others_left)
    # it stays there when a part is unticked, and is taken back by any device
    ticked(page, "front side", sawn=False)
    for one in others:
        assert put(one, "offcuts/back").status_code in {200, 409}
    assert [lot.left for lot in boards(shop)] == pytest.approx([SHEET, 0.0])
    ticked(page, "front side")
    assert put(page).status_code == 200
    assert [lot.left for lot in boards(shop)] == pytest.approx([SHEET, offcut.left]), "the same lot again"


def test_an_offcut_that_was_used_is_not_taken_back(page: TestClient, shop: Path) -> None:
    add_lot(shop, "consumable", "gloves", "40")
    sawn_sheet(page)
    assert put(page).status_code == 200
    (offcut,) = boards(shop)
    take_lot(shop, offcut.id, used="100 mm x 100 mm")
    answer = put(page, "offcuts/back")
    assert answer.status_code == 409
    assert error_of(answer)["todo"] == "count it under Stock instead"
    assert boards(shop)[0].left == pytest.approx(offcut.left - 0.01)


def test_a_lot_that_is_too_small_is_not_what_the_sheet_was(page: TestClient, shop: Path) -> None:
    small = add_lot(shop, "board", "mdf", "100 mm x 100 mm")["lot"]
    assert sawn_sheet(page)["left"][0]["lots"] == []
    answer = put(page, source=small)
    assert answer.status_code == 409
    assert [lot.left for lot in boards(shop)] == pytest.approx([0.01])


def test_sawn_once_more_everything_is_unticked_and_leaves_another_offcut(
    page: TestClient, shop: Path
) -> None:
    add_lot(shop, "consumable", "gloves", "40")
    sawn_sheet(page)
    put(page)
    answer = page.post(f"{JOB}/cut/again.json", json={"seen": state(page)["list"]})
    assert answer.json()["sawn"] == []
    sawn_sheet(page)
    put(page)
    one, other = boards(shop)
    assert one.left == other.left


def test_which_parts_fit_on_the_offcuts_of_the_book(page: TestClient, shop: Path) -> None:
    """Trimmed by 10 mm all round, 170 x 170 mm hold 136 x 136 mm and nothing of 70 x 70 mm beside it."""
    fits = add_lot(shop, "board", "mdf", "170 mm x 170 mm", name="by the door: 170 x 170 x 18 mm")["lot"]
    for name, amount in (
        ("170 x 170 x 12 mm", "170 mm x 170 mm"),  # of another thickness
        ("400 x 400 x 18 mm", "200 mm x 200 mm"),  # something was taken of it
        ("60 x 60 x 18 mm", "60 mm x 60 mm"),  # too small
        ("the thick one", "1 m x 1 m"),  # its sizes are not known
    ):
        add_lot(shop, "board", "mdf", amount, name=name)
    (one,) = page.get(f"{JOB}/cut/fits.json").json()["offcuts"]
    assert one["lot"] == fits
    assert one["marks"] == ["base board"]
    assert 'length = "170 mm"' in one["lines"]
    ticked(page, "base board")
    (one,) = page.get(f"{JOB}/cut/fits.json").json()["offcuts"]
    assert one["marks"]
    assert "base board" not in one["marks"]


def test_a_paired_phone_ticks_and_reaches_all_that_it_is_shown(shop: Path, tmp_path: Path) -> None:
    phones = Phones(tmp_path / "phones.json")
    lan = Lan(THERE, frozenset({"192.168.1.20"}), phones)
    phone = TestClient(make_app(shop, lan=lan), base_url=THERE, headers={"origin": THERE})
    assert phone.get(f"{JOB}/cut/ticks.json").status_code == 401
    assert phone.post("/pair", params={"code": phones.new_code()[0]}).status_code == 200
    assert ticked(phone, "front side")["sawn"] == ["front side"]
    text = phone.get(f"{JOB}/cut", headers=HTML).text
    assert "data-phone" in text
    shown = {there.replace("&amp;", "&") for there in re.findall(r'(?:href|src)="(/[^"]*)', text)}
    assert [there for there in sorted(shown) if phone.get(there).status_code != 200] == []
    assert phone.post(f"{JOB}/runs", json={"what": "cut"}).status_code == 403
    assert 'href="/jobs/block/cut?variant=main"' in phone.get("/bench", headers=HTML).text
