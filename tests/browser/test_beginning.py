"""A new job, from whatever the maker has."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import httpx
import pytest
import trimesh
from playwright.sync_api import Page, expect

from pourwright.jobs import load_job
from tests.browser.serving import Served
from tests.browser.watched import Watched, ready

MB = 1_000_000
_DROPS = """([selector, name, words]) => {
    const brought = new DataTransfer();
    brought.items.add(new File([words], name));
    for (const kind of ['dragenter', 'dragover', 'drop'])
        document.querySelector(selector).dispatchEvent(
            new DragEvent(kind, { dataTransfer: brought, bubbles: true, cancelable: true }));
}"""


@pytest.fixture
def cup(tmp_path: Path) -> Path:
    """A shape file: a plain cylinder, 60 wide and 40 high."""
    path = tmp_path / "small-cup.stl"
    trimesh.creation.cylinder(radius=30, height=40, sections=48).export(path)
    return path


@pytest.fixture
def asked(maker: Watched) -> Page:
    """The five questions."""
    page = maker.page("/new")
    page.locator("#new[data-ready=yes]").wait_for()
    return page


def begun(page: Page) -> str:
    """Begin; gives the name of the job whose page opens."""
    page.get_by_role("button", name="Begin").click()
    page.wait_for_url("**/jobs/*")
    ready(page)
    return page.url.rpartition("/")[2]


def test_a_shape_file_becomes_a_job_with_the_size_that_is_chosen(
    asked: Page, server: Served, cup: Path
) -> None:
    asked.get_by_label("Drag a file here, or choose one").set_input_files(cup)
    asked.get_by_role("radio", name=re.compile("^mm: it is .*40 mm")).check()
    expect(asked.get_by_label("Name of the piece")).to_have_value("small cup")
    name = begun(asked)
    expect(asked.locator("#job-title")).to_have_text("small cup")
    folder = server.shop / name
    assert (folder / "small-cup.stl").read_bytes() == cup.read_bytes() or any(
        one.read_bytes() == cup.read_bytes() for one in folder.glob("*.stl")
    )
    assert load_job(folder / "job.toml").shape.unit == "mm"
    asked.get_by_role("link", name="Shelf").click()
    expect(asked.get_by_role("link", name="small cup").first).to_be_visible()


def test_a_few_sizes_become_a_job(asked: Page) -> None:
    asked.get_by_label("a few sizes, drawn here").check()
    asked.get_by_label("Form").select_option("cylinder")
    for field, size in zip(asked.locator(".size").all(), ("2 3/8 in", "40 mm"), strict=True):
        field.fill(size)
    asked.get_by_label("Name of the piece").fill("Turned foot")
    begun(asked)
    expect(asked.locator("#job-title")).to_have_text("Turned foot")


def test_an_answer_that_is_missing_is_asked_for_and_nothing_is_made(
    asked: Page, maker: Watched, server: Served
) -> None:
    maker.may.add(400)
    before = set(server.shop.iterdir())
    asked.get_by_label("a few sizes, drawn here").check()
    asked.get_by_label("Name of the piece").fill("Nothing")
    asked.get_by_role("button", name="Begin").click()
    expect(asked.locator("#refused")).not_to_be_empty()
    expect(asked.get_by_role("button", name="Begin")).to_be_enabled()
    assert set(server.shop.iterdir()) == before


def test_garbage_that_is_dropped_is_refused_in_one_sentence(asked: Page, maker: Watched) -> None:
    maker.may.add(400)
    asked.evaluate(_DROPS, ["#drop", "holiday.stl", "no shape at all"])
    expect(asked.locator("#refused")).to_contain_text("cannot be read")
    assert len(asked.locator("#refused").inner_text().splitlines()) == 1
    assert asked.locator("input[name=unit]").count() == 0


def test_a_file_beyond_the_limit_is_refused_before_all_of_it_has_come(
    server: Served, caches: Path, new_job: Callable[..., Path]
) -> None:
    sent = 0

    def much() -> Iterator[bytes]:
        nonlocal sent
        for _ in range(201):
            sent += MB
            yield bytes(MB)

    answer = httpx.put(
        f"{server.address}/uploads?name=large.stl",
        content=much(),
        headers={"origin": server.address},
        timeout=60,
    )
    assert answer.status_code == 413
    assert "200 MB" in answer.json()["error"]["what"] + answer.json()["error"]["allowed"]
    assert sum(one.stat().st_size for one in caches.rglob("*") if one.is_file()) < MB
    assert httpx.get(f"{server.address}/shelf.json").status_code == 200
