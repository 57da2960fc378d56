"""A job of one small block with a plan whose kilograms and hours are easily added up; all of it invented."""

import hashlib
import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from tests.sheets.sample_plan import sample_document

NOW = datetime(2026, 12, 1, 12, 0, tzinfo=UTC)
JOB = """format = 1
title = "Plinth"
[shape]
box = ["60 mm", "60 mm", "40 mm"]
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
"""
PRICES = """format = 1
currency = "EUR"
date = "2026-11-02"
without = ["packing", "items", "freight", "fixings"]
[[price]]
of = "resin"
price = "10 EUR/kg"
[[price]]
of = "glass"
price = "1 EUR/kg"
[[price]]
of = "rubber"
price = "20 EUR/kg"
[[price]]
of = "board"
price = "30 EUR/piece"
[[price]]
of = "master"
price = "100 EUR/piece"
[[price]]
of = "release"
price = "2 EUR/piece"
[[price]]
of = "consumables"
price = "3 EUR/piece"
[[price]]
of = "energy"
price = "0.30 EUR/kWh"
[[price]]
of = "hour"
price = "20 EUR/h"
[energy]
casting = "2 kWh"
[overhead]
hour = "5 EUR"
[mold]
casts = 20
[scrap]
rate = 0.2
[finish]
surface = "raw"
[work]
photos = "30 min"
"""
CALENDAR = (
    ("Pour the rubber", "mold", 1.0),
    ("Go/no-go list", "check", 0.5),
    ("Pour 1 of 2", "pour", 0.5),
    ("Pour 2 bonds to pour 1", "wait", 9.0),
    ("Pour 2 of 2", "pour", 0.5),
    ("Sweep the shop", "prepare", 0.25),
    ("Demold", "demold", 1.0),
)


def plan_document(digest: str = "") -> dict[str, Any]:
    """5 kg of resin, 4 kg of glass, 10 kg of rubber, 1 m2 of board; a piece of 12 kg and 0.5 m2."""
    plan = sample_document(2)
    for pour, mass in zip(plan["pours"], (2.0, 3.0), strict=True):
        pour["resin_kg"] = mass
    plan["fill"]["glass"] = [plan["fill"]["glass"][0] | {"mass_kg": 4.0}]
    plan["mold"]["rubber"] |= {"id": "silicone-platinum-a25", "mixed_kg": 10.0}
    plan["piece"] |= {"casting_material": "epoxy-slow-deep", "mass_kg": 12.0, "area_m2": 0.5}
    plan["shopping"] = [{"item": "MDF for the box", "quantity": 1.0, "unit": "m2", "price": None, "note": ""}]
    plan["calendar"] = [_event(*row) for row in CALENDAR]
    plan["inputs"] = {"job.toml": digest}
    return plan


def _event(title: str, kind: str, hours: float) -> dict[str, str]:
    end = f"2026-12-02T{8 + int(hours):02d}:{round(hours % 1 * 60):02d}:00+01:00"
    return {"start": "2026-12-02T08:00:00+01:00", "end": end, "title": title, "detail": "", "kind": kind}


def _step(name: str, hours: float) -> dict[str, Any]:
    return {"name": name, "work_h": hours, "low_h": hours, "high_h": hours, "wait_h": 0.0}


def ways_document() -> dict[str, Any]:
    """One way, of 30 castings; its rubber is in the calendar too."""
    zeros = (
        "rubber_volume_m3", "rubber_kg", "mixed_kg", "board_m2", "space_block_volume_m3",
        "shell_volume_m3", "clay_volume_m3", "work_h", "work_low_h", "work_high_h", "elapsed_h",
        "work_per_cast_h", "parting_length_m", "lift_N", "turned_kg",
    )  # fmt: skip
    money = dict.fromkeys(("rubber", "wood", "shell", "work", "mold", "per_cast")) | {"missing": []}
    way = dict.fromkeys(zeros, 0.0) | {
        "id": "block-hung", "words": "one block", "way": "block", "held": "hung", "space_blocks": False,
        "in_job": True, "recommended": True, "possible": True, "planned": True, "no": [], "against": [],
        "pours": 1, "batches": 1, "space_block_count": 0, "parting_lines": 0, "floats": "", "money": money,
        "casts_low": 20.0, "casts": 30.0, "casts_high": 50.0, "job_lines": [],
        "steps": [_step("box", 2.0), _step("pour the rubber", 0.7)],
        "each_cast": [_step("close and open", 0.5)],
    }  # fmt: skip
    return {
        "ways": [way], "recommended": "block-hung", "why": "", "change": "", "rule": "", "currency": None,
        "casts_wanted": None, "skin_m": 0.0, "shell_m": 0.0,
    }  # fmt: skip


def planned(folder: Path, prices: str = PRICES, job: str = JOB) -> Path:
    """Write job, prices and plan; the plan is of today's choices."""
    path = folder / "job.toml"
    path.write_text(job, "utf8")
    (folder / "prices.toml").write_text(prices, "utf8")
    (folder / "plan" / "mold").mkdir(parents=True, exist_ok=True)
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    (folder / "plan" / "plan.json").write_text(json.dumps(plan_document(digest)), "utf8")
    (folder / "plan" / "mold" / "mold.json").write_text(json.dumps({"ways": ways_document()}), "utf8")
    return path
