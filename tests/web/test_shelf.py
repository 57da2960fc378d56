"""The shelf lists what the shop folder holds."""

from pathlib import Path

from fastapi.testclient import TestClient


def test_every_job_is_on_the_shelf_with_its_title(page: TestClient) -> None:
    jobs = {job["name"]: job for job in page.get("/shelf.json").json()["jobs"]}
    assert {name: job["title"] for name, job in jobs.items()} == {
        "hourglass-stool": "Hourglass stool",
        "table-lamp": "Lamp base",
    }
    assert all(job["state"] == "new" for job in jobs.values())


def test_a_job_file_with_an_error_stays_on_the_shelf_and_says_so(page: TestClient, shop: Path) -> None:
    file = shop / "table-lamp" / "job.toml"
    file.write_text(file.read_text("utf8").replace("[casting]", "[casting"), "utf8")
    card = page.get("/jobs/table-lamp.json").json()
    assert card["state"] == "broken"
    assert "job.toml:" in card["error"]


def test_hidden_folders_and_files_are_no_jobs(page: TestClient, shop: Path) -> None:
    (shop / ".old").mkdir()
    (shop / ".old" / "job.toml").write_text("format = 1", "utf8")
    (shop / "notes").mkdir()
    (shop / "job.toml").write_text("format = 1", "utf8")
    assert len(page.get("/shelf.json").json()["jobs"]) == 2


def test_the_pages_hold_their_jobs(page: TestClient) -> None:
    assert "Lamp base" in page.get("/").text
    assert "Lamp base" in page.get("/jobs/table-lamp").text
