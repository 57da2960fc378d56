"""A shop of one small job with a plan whose hours and kilograms are easily added up; all of it invented."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from tests.app.pricing.costed import JOB, PRICES, plan_document, planned

NOW = datetime(2027, 1, 4, 6, 0, tzinfo=UTC)
ORDERS = """format = 1
title = "January"
currency = "EUR"
start = "2027-01-11 08:00"
[[product]]
name = "plinth"
job = "plinth"
rest = "12 h"
[[order]]
name = "shelf"
product = "plinth"
count = 2
by = 2027-04-30
"""
OFFER = """[[offer]]
of = "resin"
id = "epoxy-slow-deep"
supplier = "dealer"
kit = "4 kg"
price = "50 EUR"
delivery = "2 days"
"""


def plan_of_days() -> dict[str, Any]:
    """Two pours a day apart, the second within 30 h of the first, hard 48 h later; half an hour each."""
    plan = plan_document()
    starts = ("2026-12-02T08:00:00+01:00", "2026-12-03T08:00:00+01:00")
    for pour, start in zip(plan["pours"], starts, strict=True):
        pour |= {"start": start, "bonds_from_h": 12.0, "bonds_until_h": 30.0}
    plan["demold"] |= {"after_h": 48.0, "kept_after_h": None}
    plan["fill"]["parts_by_weight"] = (3.0, 1.0)
    hours = {"Go/no-go list": 0, "Pour 1 of 2": 0, "Pour 2 of 2": 1, "Sweep the shop": 0, "Demold": 3}
    for event in plan["calendar"]:
        days = hours.get(event["title"], 0)
        for end in ("start", "end"):
            event[end] = event[end].replace("2026-12-02", f"2026-12-0{2 + days}")
    return plan


def shop(folder: Path, orders: str = ORDERS, prices: str = PRICES) -> Path:
    """Write the shop; return its order list."""
    job = folder / "plinth"
    job.mkdir(exist_ok=True)
    planned(job, prices, JOB.replace("[shop]", '[shop]\ntime_zone = "Europe/Berlin"'))
    (job / "plan" / "plan.json").write_text(json.dumps(plan_of_days()), "utf8")
    path = folder / "orders.toml"
    path.write_text(orders, "utf8")
    return path
