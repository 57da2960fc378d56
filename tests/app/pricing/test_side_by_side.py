"""Variants side by side: each number by hand, where it stands, and a gap where one cannot be had."""

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from pourwright.app import cost_variants
from pourwright.jobs import cost_variants_schema
from tests.app.pricing.costed import JOB, NOW, PRICES, plan_document, planned, ways_document
from tests.cli.asking import asked

VARIANTS = JOB + (
    '[[variant]]\nname = "plain"\n'
    '[[variant]]\nname = "polished"\n'
    '[[variant]]\nname = "plaster"\ncasting = { material = "gypsum-casting" }\nfill = { water_ratio = 0.6 }\n'
    '[[variant]]\nname = "unheard of"\ncasting = { material = "moonstone" }\n'
)
LIST = PRICES.replace('surface = "raw"', 'surface = "raw"\nof = { polished = "polished" }') + (
    '[sell]\nmargin = 0.5\n[[price]]\nof = "mineral"\nprice = "2 EUR/kg"\n'
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A job of four variants: two of a plan that lies there, gypsum, and one that cannot be."""
    monkeypatch.setenv("POURWRIGHT_CACHE", str(tmp_path / "caches"))
    job = planned(tmp_path, LIST, VARIANTS)
    plan = plan_document(
        json.loads((tmp_path / "plan" / "plan.json").read_text("utf8"))["inputs"]["job.toml"]
    )
    plan["pours"][0]["start"] = "2026-12-02T08:00:00+01:00"
    plan["demold"]["at"] = "2026-12-07T20:00:00+01:00"
    for name in ("plain", "polished"):
        place = tmp_path / "plan" / name
        (place / "mold").mkdir(parents=True)
        (place / "plan.json").write_text(json.dumps(plan | {"job": plan["job"] | {"variant": name}}), "utf8")
        (place / "mold" / "mold.json").write_text(json.dumps({"ways": ways_document()}), "utf8")
    return job


def cells(table: dict[str, Any], name: str) -> dict[str, Any]:
    row = next(row for row in table["variants"] if row["name"] == name)
    return {cell["key"]: cell for cell in row["cells"]}


def followed(document: Any, path: str) -> Any:
    for name, at in re.findall(r"(\w+)|\[(\d+)\]", path):
        document = document[name] if name else document[int(at)]
    return document


def test_variants_side_by_side(folder: Path) -> None:
    table = cost_variants(folder, now=NOW).to_json()
    jsonschema.validate(table, cost_variants_schema())
    plain = cells(table, "plain")
    # 212.63 as added up by hand for the job alone; a margin of half of the price; 5.5 days and a night's rest
    assert (plain["cost"]["money"], plain["shown"]["money"]) == ("212.63", "425.26")
    assert (plain["margin"]["value"], plain["days"]["value"], plain["weight"]["value"]) == (0.5, 6.0, 12.0)
    # (3 / 20 + 3.25) 1.25 + 0.5 hours; 30.44 days hold 5.07 castings, four of five are good
    assert plain["hours"]["value"] == pytest.approx(4.75)
    assert plain["per_month"]["value"] == pytest.approx(365.25 / 12 / 6 * 0.8, abs=1e-3)
    # 0.5 m2 at 10 grits half an hour each a square metre and 3 min, polished 1 h and 3 min: 3.55 h at 25
    polished = cells(table, "polished")
    assert float(polished["cost"]["money"]) == pytest.approx(212.63 + 3.55 * 25, abs=0.06)
    assert (
        "pours are planned"
        in next(r for r in table["variants"] if r["name"] == "plaster")["cost"]["plan"]["words"]
    )
    for row in table["variants"]:
        for cell in row["cells"]:
            assert bool(cell["gap"]) != bool(cell["made_of"])
            for trace in cell["made_of"]:
                if trace["where"] == "cost":
                    assert float(followed(row["cost"], trace["path"])) == trace["value"]


def test_what_cannot_be_planned_is_a_gap_with_its_reason(folder: Path) -> None:
    table = cost_variants(folder, now=NOW).to_json()
    odd = table["variants"][3]
    assert (odd["cells"], odd["cost"]) == ([], None)
    assert "moonstone" in odd["gap"]
    assert cells(table, "plaster")["over_limit"]["gap"]
    said = asked("cost", str(folder), "--all", "--trace")
    assert said.exit_code == 0
    assert "moonstone" in said.output
    assert "plain, days in mold: the mold rests" in " ".join(said.output.split())


def test_all_variants_or_one(folder: Path) -> None:
    said = asked("cost", str(folder), "--all", "--variant", "plain")
    assert said.exit_code == 2
    assert "leave --variant, --out and --risk out" in said.output
