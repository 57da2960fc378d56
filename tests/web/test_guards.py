"""Only this computer, writes only from this page, nothing foreign, one shape for what is refused."""

import pytest
from fastapi.testclient import TestClient

from pourwright.web.guards import BODY_LIMIT

SHAPE = {"what", "where", "allowed", "todo"}


def error_of(answer: object) -> dict[str, str]:
    error = answer.json()["error"]
    assert set(error) == SHAPE
    return error


@pytest.mark.parametrize(
    "host", ["evil.example", "127.0.0.1.evil.example:8420", "192.168.1.2:8420", "", "[::1"]
)
def test_a_foreign_name_for_this_computer_is_refused(page: TestClient, host: str) -> None:
    answer = page.get("/shelf.json", headers={"host": host})
    assert answer.status_code == 403
    assert "this computer" in error_of(answer)["what"]


@pytest.mark.parametrize("host", ["127.0.0.1:8420", "localhost:8420", "[::1]:8420"])
def test_every_name_of_this_computer_will_do(page: TestClient, host: str) -> None:
    assert page.get("/shelf.json", headers={"host": host}).status_code == 200


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH"])
@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "", "http://127.0.0.1:9", "https://127.0.0.1:8420"]
)
def test_a_change_from_anywhere_else_is_refused(page: TestClient, method: str, origin: str) -> None:
    answer = page.request(method, "/shelf.json", headers={"origin": origin})
    assert answer.status_code == 403
    assert error_of(answer)["where"] == "Origin"


def test_every_answer_forbids_foreign_content(page: TestClient) -> None:
    for path in ("/", "/shelf.json", "/nowhere", "/static/mark.svg"):
        policy = page.get(path).headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe" not in policy
        assert "http" not in policy


def test_styles_and_scripts_are_what_they_say_and_for_this_page_only(page: TestClient) -> None:
    for path in ("/static/css/base.css", "/static/js/dom.js"):
        headers = page.get(path).headers
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["cross-origin-resource-policy"] == "same-origin"


def test_a_body_beyond_the_limit_is_refused(page: TestClient) -> None:
    answer = page.post("/shelf.json", content=b"x" * (BODY_LIMIT + 1))
    assert answer.status_code == 413
    error_of(answer)


@pytest.mark.parametrize(
    ("path", "status"), [("/nowhere", 404), ("/jobs/none.json", 404), ("/jobs/..%2F..%2Fetc.json", 404)]
)
def test_what_is_not_there_is_told_in_the_one_shape(page: TestClient, path: str, status: int) -> None:
    answer = page.get(path)
    assert answer.status_code == status
    error_of(answer)


def test_a_person_gets_a_page_where_something_is_refused(page: TestClient) -> None:
    answer = page.get("/jobs/none", headers={"accept": "text/html"})
    assert answer.status_code == 404
    assert "no job has this name" in answer.text
    assert "<html" in answer.text
