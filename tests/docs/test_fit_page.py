"""Whoever types in the data sheet of the fit page gets what it shows; every key stands on the page."""

import re
import tomllib
from pathlib import Path

import pytest

from pourwright.cli import main
from pourwright.jobs.facts import Facts
from pourwright.jobs.facts_loading import load_facts
from pourwright.jobs.reference import tables

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "fit-a-resin.md").read_text("utf8")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
# what another processor's rounding may do to a fit that stops at a thousandth
NEAR = 1.0


def blocks(kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


def worded(line: str) -> str:
    return NUMBER.sub("#", " ".join(line.split()))


def test_the_page_shows_what_its_facts_print(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "resin").mkdir()
    (tmp_path / "resin" / "facts.toml").write_text(blocks("toml")[0], "utf8")
    monkeypatch.chdir(tmp_path)
    (session,) = blocks("console")
    command, *shown = [line for line in session.splitlines() if line.strip()]
    assert command == "$ pourwright fit resin/facts.toml"
    with pytest.raises(SystemExit) as left:
        main(command.split()[2:])
    out, err = capsys.readouterr()
    assert left.value.code == 0, err
    printed = [line for line in out.splitlines() if line.strip()]
    assert [worded(line) for line in printed] == [worded(line) for line in shown]
    # the facts as they are stated come back to the digit
    stated = [line.split("   ")[0] for line in shown[2:7]]
    assert all(any(line.startswith(each) for line in printed) for each in stated)
    degrees = [
        abs(float(a) - float(b))
        for line, other in zip(shown, printed, strict=True)
        for a, b in zip(re.findall(r"(\d+) °C", line), re.findall(r"(\d+) °C", other), strict=True)
    ]
    assert len(degrees) > 15
    assert max(degrees) <= NEAR


def test_every_key_is_on_the_page() -> None:
    marked = set(re.findall(r"`([\w.]+)`", PAGE))
    names = {field.alias or name for _, model in tables(Facts) for name, field in model.model_fields.items()}
    sections = {name for name, field in Facts.model_fields.items() if f"[{name}]" in PAGE}
    assert len(names) > 30
    assert names - marked - sections == set()


def test_the_example_is_read_and_is_invented() -> None:
    facts = load_facts(ROOT / "examples" / "resin" / "facts.toml")
    assert facts.invented
    assert (facts.path.parent / facts.cup[0].file).exists()


def test_snippets_of_the_page_are_toml() -> None:
    assert all(tomllib.loads(block) for block in blocks("toml"))
