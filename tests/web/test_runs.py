"""Long work over HTTP: begun, refused, cancelled, followed; what changes is told as it changes."""

from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
import uvicorn

from pourwright.app.working.works import Works
from tests.app.working.conftest import TINY
from tests.app.working.work_chores import KINDS
from tests.runs.watching import gone, ids_in, wait_until
from tests.web.living import events, living

JOB = "/jobs/block"
Living = tuple[httpx.Client, uvicorn.Server]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    for name in ("block", "slab"):
        (tmp_path / "shop" / name).mkdir(parents=True)
        (tmp_path / "shop" / name / "job.toml").write_text(TINY, "utf8")
    return tmp_path / "shop"


@pytest.fixture
def there(shop: Path) -> Iterator[Living]:
    with living(shop, Works(KINDS)) as both:
        yield both


def begun(client: httpx.Client, what: str, folder: Path | None = None, job: str = JOB) -> httpx.Response:
    options = {} if folder is None else {"folder": str(folder)}
    return client.post(f"{job}/runs", json={"what": what, "options": options})


def latest(client: httpx.Client) -> dict[str, object]:
    run: dict[str, object] = client.get(f"{JOB}/runs.json").json()["runs"][0]
    return run


def test_a_run_is_begun_followed_and_cancelled(there: Living, tmp_path: Path) -> None:
    client, _ = there
    assert client.get(f"{JOB}/runs.json").json()["runs"] == []
    answer = begun(client, "slow", tmp_path)
    assert answer.status_code == 202
    wait_until((tmp_path / "block.ids").exists)
    wait_until(lambda: latest(client)["stage"] == "sitting there")
    assert (latest(client)["done"], latest(client)["total"], latest(client)["old"]) == (1, 4, False)
    answer = client.post(f"{JOB}/runs/{answer.json()['id']}/cancel")
    assert gone(ids_in(tmp_path))
    assert (answer.status_code, answer.json()["state"]) == (200, "cancelled")


def test_refusals_have_the_one_shape_and_their_status(there: Living, tmp_path: Path) -> None:
    client, _ = there
    first = begun(client, "slow", tmp_path).json()["id"]
    second = begun(client, "gated", tmp_path)
    assert second.status_code == 409
    assert first in second.json()["error"]["where"]
    assert begun(client, "dance", job="/jobs/slab").status_code == 400
    assert client.post("/jobs/slab/runs/none/cancel").status_code == 404
    assert client.post("/jobs/slab/runs", json={"what": "quick", "haste": 1}).status_code == 422
    assert client.post("/jobs/slab/runs?variant=none", json={"what": "quick"}).status_code == 400


def test_a_run_of_a_job_that_was_changed_meanwhile_is_marked_old(
    there: Living, shop: Path, tmp_path: Path
) -> None:
    client, _ = there
    begun(client, "gated", tmp_path)
    (shop / "block" / "job.toml").write_text(TINY.replace("22 degC", "20 degC"), "utf8")
    (tmp_path / "gate").touch()
    wait_until(lambda: latest(client)["state"] == "done")
    assert latest(client)["old"] is True


def test_answers_tell_whether_they_are_of_today(there: Living, shop: Path) -> None:
    client, _ = there
    assert client.get(f"{JOB}/plan.json").json()["document"] is None
    begun(client, "mold")
    wait_until(lambda: latest(client)["state"] == "done")
    assert client.get(f"{JOB}/mold.json").json()["old"] is False
    (shop / "block" / "job.toml").write_text(TINY.replace("22 degC", "20 degC"), "utf8")
    answer = client.get(f"{JOB}/mold.json").json()
    assert (answer["old"], answer["because"]) == (True, ["shop.temperature was 22 degC, is now 20 degC"])


def test_what_changes_is_told_as_it_changes(there: Living, shop: Path) -> None:
    client, _ = there
    with client.stream("GET", f"{JOB}/events") as answer:
        assert answer.headers["content-type"].startswith("text/event-stream")
        told = events(answer)
        name, hello = next(told)
        assert (name, hello["run"]) == ("hello", None)
        with httpx.Client(base_url=client.base_url, headers=client.headers) as another:
            begun(another, "quick")
        states = []
        for name, run in told:
            assert name == "run"
            states.append(run["state"])
            if run["state"] == "done":
                break
        assert states[0] == "running"
        (shop / "block" / "job.toml").write_text(TINY.replace("22 degC", "20 degC"), "utf8")
        name, file = next(told)
        assert name == "file"
        assert file["file"] != hello["file"]
        (shop / "block" / "plan").mkdir()
        (shop / "block" / "plan" / "plan.json").write_text("{}")
        assert next(told) == ("plan", {"there": True})


def test_heavy_work_stays_in_sight_while_something_is_read_beside_it(there: Living, tmp_path: Path) -> None:
    client, _ = there
    first = begun(client, "slow", tmp_path).json()["id"]
    assert begun(client, "quick").status_code == 202
    wait_until(lambda: latest(client)["state"] == "done")
    with client.stream("GET", f"{JOB}/events") as answer:
        _, hello = next(events(answer))
    assert (hello["run"]["id"], hello["run"]["heavy"]) == (first, True)


def test_who_listens_does_not_keep_the_server_from_stopping(shop: Path) -> None:
    with living(shop, Works(KINDS)) as (client, server), client.stream("GET", f"{JOB}/events") as answer:
        told = events(answer)
        assert next(told)[0] == "hello"
        server.should_exit = True
        # the server itself ends the stream, before the block does
        assert list(told) == []


def test_what_went_on_is_ended_with_the_server(shop: Path, tmp_path: Path) -> None:
    with living(shop, Works(KINDS)) as (client, _):
        begun(client, "slow", tmp_path)
        wait_until((tmp_path / "block.ids").exists)
    assert gone(ids_in(tmp_path))
    with living(shop, Works(KINDS)) as (client, _):
        run = latest(client)
    assert run["state"] == "interrupted"
