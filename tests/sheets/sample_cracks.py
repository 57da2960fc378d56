"""Invented lights for the invented plan: one of each colour; nothing is computed."""

from typing import Any

from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_part import Point
from tests.sheets.sample_plan import sample_document


def place(mark: str, kind: str, where: str, light: str, load: float, at: Point) -> dict[str, Any]:
    """One place."""
    skin = kind in {"skin", "corner"}
    return {
        "mark": mark,
        "kind": kind,
        "pour": 1,
        "where": where,
        "place_m": at,
        "light": light,
        "load": load,
        "load_low": 0.5 * load,
        "load_high": 1.6 * load,
        "soft_shrinkage": None if skin else 0.005,
        "glass_shrinkage": None if skin else 0.001,
        "hottest_degC": None if skin else 55.0,
        "glass_at_degC": None if skin else 33.0,
        "core_above_skin_K": 6.5 if skin else None,
        "reason": f"Why it is {light} there.",
        "remedy": "" if light == "green" else "Let it get less hot.",
    }


PLACES = [
    place("A", "core", "core of pour 1", "green", 0.3, (0.0, 0.0, 0.05)),
    place("B", "skin", "at the mold, pour 1", "green", 0.02, (0.11, 0.0, 0.05)),
    place("C", "grain", "between the grains, pour 1", "amber", 0.8, (0.0, 0.0, 0.12)),
    place("D", "corner", "inner corner, up 160 mm", "red", 1.3, (0.0, 0.09, 0.16)),
]


def cracks(mind: bool = True, places: list[dict[str, Any]] | None = None) -> dict[str, Any]:
    """All lights of a plan."""
    shown = PLACES if places is None else places
    lights = {each["light"] for each in shown}
    return {
        "light": next(light for light in ("red", "amber", "green") if light in lights),
        "places": shown,
        "shop_degC": 18.0,
        "cooling": {
            "most_K_per_h": 7.0, "core_above_skin_K": 21.0, "lag_h": 3.0, "mind": mind,
            "text": "Let it cool no faster than 7 °C an hour.",
        },
        "opening": {"within_K": 5.0, "cool_after_h": 50.0, "text": "Do not open before 2 days 2 h."},
        "tops": [
            {
                "pour": 1, "sink_m": 0.0007, "sink_most_m": 0.0021, "after_gel_m": 0.0001,
                "missing_kg": 0.15, "text": "Pour 1: the top sinks by 0.7 mm.",
            }
        ],
        "cover_m": 0.012,
        "grain_m": 0.006,
        "cover_text": "Sunk by the most, it still covers the glass.",
        "notes": ["An indication only."],
    }  # fmt: skip


def cracks_plan(**changes: Any) -> PlanDocument:
    """The invented plan with its lights."""
    return PlanDocument.model_validate({**sample_document(), "cracks": cracks(**changes)})
