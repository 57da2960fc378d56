"""The view over HTTP: parts, bodies, tints, what is pointed at, and the heat where there is a plan."""

from fastapi.testclient import TestClient

from pourwright.app.viewing.packed import unpacked

LAMP = "/jobs/table-lamp"


def test_every_part_that_is_listed_has_its_body(page: TestClient) -> None:
    view = page.get(f"{LAMP}/view.json").json()
    assert view["title"] == "Lamp base"
    for part in view["parts"]:
        about, arrays = unpacked(page.get(f"{LAMP}/view/{part['id']}.bin").content)
        assert about["id"] == part["id"]
        assert len(arrays["corners"]) == part["triangles"]
        assert arrays["corners"].max() < len(arrays["positions"])


def test_a_body_that_the_browser_holds_is_not_sent_again(page: TestClient) -> None:
    first = page.get(f"{LAMP}/view/rubber.bin")
    again = page.get(f"{LAMP}/view/rubber.bin", headers={"if-none-match": first.headers["etag"]})
    assert (first.status_code, again.status_code, again.content) == (200, 304, b"")
    other = page.get(f"{LAMP}/view/master.bin", headers={"if-none-match": first.headers["etag"]})
    assert other.status_code == 200


def test_what_is_pointed_at_and_what_is_shown_is_said_in_the_jobs_units(page: TestClient) -> None:
    surface = unpacked(page.get(f"{LAMP}/view/surface.bin").content)[1]
    values = unpacked(page.get(f"{LAMP}/view/tint/draft.bin").content)[1]["values"]
    assert len(values) == len(surface["corners"])
    asked = {"x": 0.07, "y": 0.0, "z": 0.05, "part": "surface", "tint": "draft", "triangle": 0}
    told = page.get(f"{LAMP}/view/at.json", params=asked).json()
    assert "x = 2 3/4 in" in told["text"]
    words = page.get(f"{LAMP}/view/words.json").json()
    assert next(row["words"] for row in words["parts"]) == "piece"


def test_drawings_come_as_pictures(page: TestClient) -> None:
    answer = page.get(f"{LAMP}/view/drawings/mold-poured.svg")
    assert answer.headers["content-type"] == "image/svg+xml"
    assert b"<svg" in answer.content


def test_what_there_is_none_of_has_the_one_shape_of_a_refusal(page: TestClient) -> None:
    for path in ("view/lid.bin", "view/drawings/lid.svg", "heat.json", "heat/plane.bin?axis=y&at=0",
                 "heat/at.json?x=0&y=0&z=0&hours=1", "view/at.json?x=0&y=0&z=0&part=lid"):  # fmt: skip
        answer = page.get(f"{LAMP}/{path}")
        assert answer.status_code == 404, path
        assert set(answer.json()["error"]) == {"what", "where", "allowed", "todo"}
    for path in ("view/tint/gloss.bin", "heat/plane.bin?axis=w&at=0", "view/at.json?x=nan&y=0&z=0"):
        assert page.get(f"{LAMP}/{path}").status_code == 422, path
    assert page.get("/jobs/chair/view.json").status_code == 404
    assert page.get(f"{LAMP}/view.json?variant=blue").status_code == 400
