import json
from collections.abc import Callable
from io import StringIO
from pathlib import Path

import pytest

from tests.cli.conftest import Said
from tests.cli.fake_app import FakeApp

Say = Callable[..., Said]
METRIC = {"material": "slow", "glass": [("medium", "clear")], "shop_temperature": "20 degC"}


class Keyboard(StringIO):
    """A terminal at which somebody types."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def types(monkeypatch: pytest.MonkeyPatch) -> Callable[..., None]:
    def answers(*lines: str) -> None:
        monkeypatch.setattr("sys.stdin", Keyboard("".join(f"{line}\n" for line in lines)))

    return answers


def test_defaults_without_a_keyboard(app: FakeApp, say: Say) -> None:
    said = say("new", "stool", "--shape", "stool.stl", "--unit", "mm", "--yes")
    assert said.status == 0
    assert "wrote stool/job.toml" in said.out
    assert app.calls == [("new", ("stool.stl", "mm", METRIC, Path("stool")))]


def test_json_gives_the_path(app: FakeApp, say: Say) -> None:
    said = say("new", "stool", "--shape", "stool.3mf", "--yes", "--json")
    assert json.loads(said.out) == {"job": "stool/job.toml"}
    assert app.calls[0][1][1] is None


def test_five_questions_at_the_keyboard(app: FakeApp, say: Say, types: Callable[..., None]) -> None:
    types("stool.stl", "in", "gypsum", "none", "")
    said = say("new", "stool", "--json")
    assert json.loads(said.out) == {"job": "stool/job.toml"}
    answers = {"material": "gypsum", "glass": [], "shop_temperature": "68 degF"}
    assert app.calls == [("new", ("stool.stl", "in", answers, Path("stool")))]
    for number in range(1, 6):
        assert f"{number}  " in said.err
    assert "gypsum and water" in said.err


def test_only_what_no_option_answered_is_asked(app: FakeApp, say: Say, types: Callable[..., None]) -> None:
    types("fine green, medium")
    said = say("new", "lamp", "--shape", "box", "--size", "8 in x 6 in x 10 in", "--material", "slow",
               "--shop-temperature", "66 F")  # fmt: skip
    assert said.status == 0
    answers = {
        "material": "slow",
        "glass": [("fine", "green"), ("medium", "clear")],
        "shop_temperature": "66 F",
        "size": ["8 in", "6 in", "10 in"],
    }
    assert app.calls == [("new", ("box", None, answers, Path("lamp")))]


def test_end_of_input_stops_without_a_file(app: FakeApp, say: Say, types: Callable[..., None]) -> None:
    types("stool.stl")
    assert say("new", "stool").status == 130
    assert app.calls == []


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (["--yes"], "--shape: one of the five questions has no answer; do: add --shape"),
        (["--yes", "--shape", "a.stl"], "--unit: one of the five questions has no answer; do: add --unit"),
        (["--yes", "--shape", "box"], "--size: one of the five questions has no answer; do: add --size"),
        (
            ["--shape", "a.glb"],
            "--material: one of the five questions has no answer; do: add --material, or --yes for",
        ),
        (
            ["--yes", "--shape", "a.glb", "--glass", "x"],
            "--glass: 'x' is not among them; allowed: medium, fine, none",
        ),
    ],
)
def test_nothing_is_guessed(app: FakeApp, say: Say, arguments: list[str], line: str) -> None:
    said = say("new", "stool", *arguments)
    assert said.status == 2
    assert said.err.startswith(line)
    assert app.calls == []
