"""Who installs the wheel has the whole page, with the licences of what it carries, and nothing for tests."""

import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.contracts.house import PACKAGE, ROOT

WEB = PACKAGE / "web"
# built once, whoever runs the tests
pytestmark = pytest.mark.xdist_group("wheel")


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> dict[str, int]:
    """What is in the wheel: names and sizes. It is built without a network."""
    goal = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--disable-pip-version-check", "--no-index"]
    built = subprocess.run(
        [*command, "--no-deps", "--no-build-isolation", "--wheel-dir", str(goal), str(ROOT)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert built.returncode == 0, built.stderr
    (file,) = goal.glob("*.whl")
    with ZipFile(file) as opened:
        return {one.filename: one.file_size for one in opened.infolist()}


def _named(folder: Path) -> set[str]:
    files = (one for one in folder.rglob("*") if one.is_file() and "__pycache__" not in one.parts)
    return {one.relative_to(PACKAGE.parent).as_posix() for one in files}


def test_the_page_is_in_the_wheel(wheel: dict[str, int]) -> None:
    own = _named(WEB / "templates") | _named(WEB / "static" / "js") | _named(WEB / "static" / "css")
    assert len(own) > 10
    assert own - set(wheel) == set()


def test_the_parts_of_others_are_in_it_with_their_licences(wheel: dict[str, int]) -> None:
    built = "pourwright/web/static/built"
    assert wheel[f"{built}/three.js"] > 100_000
    assert wheel[f"{built}/uplot.js"] > 10_000
    for part in ("three", "uplot"):
        assert wheel[f"{built}/licences/{part}.txt"] > 500


def test_what_only_tests_need_is_not_in_it(wheel: dict[str, int]) -> None:
    foreign = ("node_modules", "tests/", "page/", "docs/", "examples/")
    assert [name for name in wheel if name.startswith(foreign) or "axe-core" in name] == []
    assert [name for name in wheel if name.endswith("axe.min.js")] == []
