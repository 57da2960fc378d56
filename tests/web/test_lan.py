"""Open to the network: a paired phone reaches bench, leak and what to saw, everybody else nothing at all."""

import re
import shutil
import uuid
from collections.abc import Iterator
from datetime import UTC, datetime
from http.cookies import SimpleCookie
from pathlib import Path

import pytest
from fastapi.routing import APIRoute
from fastapi.testclient import TestClient

from pourwright.app.pairing.phones import Phones
from pourwright.app.plan_folder import write_plan
from pourwright.web.application import ROUTES, make_app
from pourwright.web.lan import COOKIE, Lan, reached
from tests.sheets.sample_plan import sample_plan
from tests.web.conftest import HERE
from tests.web.test_guards import error_of

THERE = "http://192.168.1.20:8420"
STOOL = "/jobs/hourglass-stool"
BENCH = [f"{STOOL}/bench", f"{STOOL}/bench.json", "/bench", "/bench.json", "/static/js/bench.js"]


@pytest.fixture
def phones(tmp_path: Path) -> Phones:
    return Phones(tmp_path / "cache" / "phones.json")


@pytest.fixture(scope="module")
def plan(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Folder of an invented plan with all its sheets."""
    folder = tmp_path_factory.mktemp("planned") / "plan"
    write_plan(sample_plan(2), folder)
    return folder


@pytest.fixture
def laptop(shop: Path, phones: Phones, plan: Path) -> Iterator[TestClient]:
    """The page on this computer, of a server that is open to the network."""
    shutil.copytree(plan, shop / "hourglass-stool" / "plan")
    lan = Lan(THERE, frozenset({"192.168.1.20", "bench-laptop", "bench-laptop.local"}), phones)
    with TestClient(make_app(shop, lan=lan), base_url=HERE, headers={"origin": HERE}) as client:
        yield client


@pytest.fixture
def stranger(laptop: TestClient) -> TestClient:
    """Somebody in the network."""
    return TestClient(laptop.app, base_url=THERE, headers={"origin": THERE})


@pytest.fixture
def phone(stranger: TestClient, phones: Phones) -> TestClient:
    """A phone that was paired."""
    answer = stranger.post("/pair", params={"code": phones.new_code()[0]})
    assert answer.status_code == 200
    return stranger


def entry(laptop: TestClient) -> dict[str, object]:
    plan = laptop.get(f"{STOOL}/bench.json").json()["plan"]
    given = {"id": str(uuid.uuid4()), "plan": plan, "casting": 1, "pour": 1, "kind": "note", "text": "a"}
    return given | {"at": datetime.now(UTC).isoformat()}


@pytest.mark.parametrize("path", [*BENCH, "/", "/shelf.json", STOOL, "/openapi.json", "/phones", "/nowhere"])
def test_who_is_not_paired_gets_nothing(stranger: TestClient, path: str) -> None:
    for cookies in ({}, {COOKIE: "x"}, {COOKIE: ""}):
        stranger.cookies = cookies  # type: ignore[assignment]
        answer = stranger.get(path)
        assert answer.status_code == 401
        error_of(answer)


def test_who_is_not_paired_enters_nothing(laptop: TestClient, stranger: TestClient, shop: Path) -> None:
    body = {"entries": [entry(laptop)]}
    assert stranger.post(f"{STOOL}/entries", json=body).status_code == 401
    assert stranger.put(f"{STOOL}/photos/{'0' * 64}", content=b"x").status_code == 401
    assert not (shop / "hourglass-stool" / "journal.jsonl").exists()


def test_a_paired_phone_reaches_the_bench(laptop: TestClient, phone: TestClient) -> None:
    for path in BENCH:
        assert phone.get(path).status_code == 200
    one = entry(laptop)
    for new in (True, False):
        answer = phone.post(f"{STOOL}/entries", json={"entries": [one]}).json()
        assert answer["answers"][0] == {"id": one["id"], "kept": True, "new": new, "error": None}
    assert "plain http" in phone.get(f"{STOOL}/bench").text


ALLOWED = [
    ("GET", "/bench"),
    ("GET", "/bench.json"),
    ("GET", f"{STOOL}/bench"),
    ("GET", f"{STOOL}/bench.json"),
    ("GET", f"{STOOL}/leak"),
    ("POST", f"{STOOL}/leak.json"),
    ("POST", f"{STOOL}/entries"),
    ("PUT", f"{STOOL}/photos/{'0' * 64}"),
    ("GET", f"{STOOL}/cut"),
    *(("GET", f"{STOOL}/cut/{name}") for name in ("ticks.json", "fits.json", "cut.pdf", "bars.svg")),
    ("GET", f"{STOOL}/cut/sheets/1.svg"),
    *(("POST", f"{STOOL}/cut/{name}.json") for name in ("ticks", "understood", "again")),
    *(("POST", f"{STOOL}/cut/{name}.json") for name in ("offcuts", "offcuts/back")),
    ("GET", "/static/js/leak.js"),
    ("GET", "/static/css/leak.css"),
]
"""All that a paired phone may ask; every other pair of method and path stays closed."""


@pytest.mark.parametrize(("method", "path"), ALLOWED)
def test_what_a_paired_phone_may_ask_reaches_its_handler(phone: TestClient, method: str, path: str) -> None:
    answer = phone.request(method, path, json={})
    assert answer.status_code not in {401, 403, 405}
    # that no list was made yet is the handler's own word
    assert answer.status_code != 404 or "no list of what to saw" in error_of(answer)["what"]


def test_no_route_is_open_to_a_phone_that_is_not_listed() -> None:
    """Every route of the page, asked in every way it answers, against the list."""
    listed = {(method, path.replace(STOOL, "/jobs/{job}")) for method, path in ALLOWED}
    listed |= {("GET", "/jobs/{job}/cut/sheets/{number}.svg")}
    listed |= {("PUT", "/jobs/{job}/photos/{sha256}")}
    routes = [route for router in ROUTES for route in router().routes if isinstance(route, APIRoute)]
    asked = {(method, route.path) for route in routes for method in route.methods}
    for method, path in asked - listed:
        filled = path.replace("{job}", "hourglass-stool").replace("{sha256}", "0" * 64)
        assert not reached(method, filled), (method, path)
    assert len(asked) > 2 * len(listed)


def test_a_leak_is_reckoned_on_the_phone(phone: TestClient) -> None:
    page = phone.get(f"{STOOL}/leak", headers={"accept": "text/html"}).text
    assert "plain http" in page
    # what it leads to is open to the phone too
    for there in re.findall(r'(?:href|src)="(/[^"?]*)', page):
        assert phone.get(there).status_code == 200, there
    asked = {"poured": ["9 kg"], "dip": ["6 cm"], "at": ["17:00"], "pour": 1, "now": "2026-12-01 17:05"}
    mass = phone.post(f"{STOOL}/leak.json", json=asked).json()["mass"]
    assert mass["in_mold_kg"] + mass["out_kg"] == pytest.approx(9.0)


@pytest.mark.parametrize(
    "path",
    [
        "/",
        "/shelf.json",
        "/learnt",
        "/book",
        "/book/stock.json",
        f"/book/photos/{'0' * 64}",
        "/new",
        "/openapi.json",
        "/phones",
        "/phones.json",
        STOOL,
        f"{STOOL}.json",
        f"{STOOL}/choices.json",
        f"{STOOL}/file.json",
        f"{STOOL}/plan.json",
        f"{STOOL}/sheets/plan.pdf",
        f"{STOOL}/bench/../file.json",
        f"{STOOL}/bench%2F..%2Ffile.json",
        f"{STOOL}/bench.json/",
        "/static/../../command.py",
        "/static/%2e%2e/%2e%2e/command.py",
    ],
)
def test_a_paired_phone_reaches_nothing_else(phone: TestClient, path: str) -> None:
    answer = phone.get(path)
    assert answer.status_code == 403
    assert "bench, leak and what to saw only" in error_of(answer)["what"]


def test_a_paired_phone_changes_nothing_else(phone: TestClient, shop: Path) -> None:
    file = shop / "hourglass-stool" / "job.toml"
    before = file.read_bytes()
    assert phone.post(f"{STOOL}/choices", json={"changes": []}).status_code == 403
    assert phone.post(f"{STOOL}/runs", json={"what": "plan"}).status_code == 403
    assert phone.put("/uploads?name=a.stl", content=b"x").status_code == 403
    assert phone.post("/learnt.json", json={}).status_code == 403
    assert phone.post("/phones/codes").status_code == 403
    # the right path in the wrong way
    assert phone.get(f"{STOOL}/leak.json").status_code == 403
    assert phone.put(f"{STOOL}/entries", json={}).status_code == 403
    assert phone.delete("/phones/0").status_code == 403
    assert file.read_bytes() == before


def test_the_code_is_changed_for_a_cookie_that_no_script_reads(stranger: TestClient, phones: Phones) -> None:
    code, _ = phones.new_code()
    asked = stranger.get("/pair", params={"code": code})
    assert asked.status_code == 200
    assert "set-cookie" not in asked.headers
    answer = stranger.post("/pair", params={"code": code}, headers={"user-agent": "Mozilla (Android 16)"})
    cookie = SimpleCookie(answer.headers["set-cookie"])[COOKIE]
    assert (cookie["httponly"], cookie["samesite"].lower(), cookie["path"]) == (True, "strict", "/")
    assert 0 < int(cookie["max-age"]) <= 14 * 24 * 3600
    assert answer.headers["cache-control"] == "no-store"
    # neither code nor token stands on the page
    assert cookie.value not in answer.text
    assert code not in answer.text
    assert phones.phones()[0].name == "Android"


def test_a_code_that_was_used_stolen_or_has_run_out_gets_nothing(
    phone: TestClient, phones: Phones, stranger: TestClient
) -> None:
    used, _ = phones.new_code()
    assert phone.post("/pair", params={"code": used}).status_code == 200
    phone.cookies.clear()
    old, _ = phones.new_code()
    phones.new_code()
    for code in (used, old, "", "x" * 43):
        for ask in (stranger.get, stranger.post):
            answer = ask("/pair", params={"code": code})
            assert answer.status_code == 401
            assert "set-cookie" not in answer.headers
            error_of(answer)


def test_a_phone_that_was_taken_back_gets_nothing(laptop: TestClient, phone: TestClient) -> None:
    (one,) = laptop.get("/phones.json").json()["phones"]
    assert laptop.delete(f"/phones/{one['id']}").status_code == 204
    assert laptop.get("/phones.json").json()["phones"] == []
    assert laptop.delete(f"/phones/{one['id']}").status_code == 404
    replayed = phone.post(f"{STOOL}/entries", json={"entries": [entry(laptop)]})
    assert replayed.status_code == 401


@pytest.mark.parametrize(
    "host", ["evil.example:8420", "127.0.0.1:8420", "localhost:8420", "", "192.168.1.21"]
)
def test_the_network_knows_this_computer_by_its_own_names_only(phone: TestClient, host: str) -> None:
    answer = phone.get("/bench.json", headers={"host": host})
    assert answer.status_code == 403
    assert error_of(answer)["where"] == "Host"


def test_the_name_of_the_computer_will_do(phone: TestClient) -> None:
    for host in ("bench-laptop:8420", "Bench-Laptop.local:8420"):
        assert phone.get("/bench.json", headers={"host": host}).status_code == 200


def test_a_page_of_somebody_else_does_nothing_with_the_phones_cookie(
    laptop: TestClient, phone: TestClient
) -> None:
    for origin in ("http://evil.example", "null", "", HERE):
        body = {"entries": [entry(laptop)]}
        answer = phone.post(f"{STOOL}/entries", json=body, headers={"origin": origin})
        assert answer.status_code == 403
        assert error_of(answer)["where"] == "Origin"


def test_the_laptop_makes_a_code_as_a_picture_and_prints_it_nowhere(
    laptop: TestClient, phones: Phones
) -> None:
    answer = laptop.post("/phones/codes")
    assert answer.status_code == 201
    told = answer.json()
    assert set(told) == {"picture", "until"}
    assert told["picture"].startswith("data:image/svg+xml")
    assert not re.search(r"code=|[A-Za-z0-9_-]{43}", re.sub(r"%..|[^\w=-]", " ", told["picture"]))
    assert answer.headers["cache-control"] == "no-store"
    page = laptop.get("/phones")
    assert THERE in page.text
    assert "plain http" in page.text


def test_the_page_on_the_laptop_is_as_it_was(laptop: TestClient) -> None:
    for path in ("/", "/shelf.json", STOOL, "/bench", f"{STOOL}/bench"):
        answer = laptop.get(path)
        assert answer.status_code == 200
        assert "Over plain http" not in answer.text


def test_without_lan_nobody_pairs(page: TestClient) -> None:
    assert page.get("/phones.json").json() == {"address": None, "phones": []}
    assert "serve --lan" in page.get("/phones").text
    for answer in (page.post("/phones/codes"), page.get("/pair?code=x"), page.delete("/phones/x")):
        assert answer.status_code == 404
        assert "--lan" in error_of(answer)["todo"]
