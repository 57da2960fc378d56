"""Invented under-cure and damp for the invented plan; nothing is computed."""

from typing import Any

from pourwright.jobs.plan import PlanDocument
from tests.sheets.sample_plan import sample_document

BLUSHES, DAMP_START = 1, 3


def _place(pour: int, moment: str, at: str | None, cured: float) -> dict[str, Any]:
    return {
        "pour": pour,
        "moment": moment,
        "at": at,
        "cured": cured,
        "glass_transition_degC": 31.0 if moment == "demold" else -4.0,
        "shop_degC": 22.0,
        "place_m": (0.13, 0.0, 0.44),
        "place": "the rim at the open face (the foot as it stands), 440 mm up (10 mm as it stands), outside",
    }


def _least(form: str, verdict: str, thickness: float, after: float | None) -> dict[str, Any]:
    return {
        "form": form,
        "solid_fraction": 0.0 if form == "layer" else 0.55,
        "verdict": verdict,
        "thickness_m": thickness,
        "hard_after_h": after,
        "within_h": 168.0,
        "text": f"An invented {form}.",
    }


def _pour_damp(pour: dict[str, Any]) -> dict[str, Any]:
    number = pour["number"]
    dry, blushes = number != DAMP_START, number == BLUSHES
    return {
        "number": number,
        "surface_degC": 19.0,
        "humidity": 0.62,
        "dry": dry,
        "dry_from": pour["start"] if dry else None,
        "dry_until": pour["start"] if dry else None,
        "warm_to_degC": 17.0,
        "dry_below": 0.71,
        "damp_h": 5.0 if blushes else 0.0,
        "blushes": blushes,
        "text": f"Pour {number}: dry enough all day before and after its start."
        if dry
        else f"Pour {number}: too damp at its start. Warm mold and glass to 18 °C before you pour.",
        "wash": "Its top is damp for 5 h while it sets, so it blushes: wash, dry and sand it."
        if blushes
        else "",
    }


def _hours(pours: list[dict[str, Any]]) -> dict[str, Any]:
    times = [float(hour) for hour in range(-24, 24 * len(pours))]
    night = [hour % 24 > 12 for hour in times]
    return {
        "time_h": times,
        "air_degC": [17.0 if late else 22.0 for late in night],
        "humidity": [0.81 if late else 0.6 for late in night],
        "mold_degC": [19.0 if late else 21.0 for late in night],
        "top_degC": [
            None if hour < 0.0 else (18.0 if late else 45.0) for hour, late in zip(times, night, strict=True)
        ],
        "too_close": night,
    }


def _warm_box(begin: str) -> dict[str, Any]:
    return {
        "begin": begin,
        "shop_degC": 22.0,
        "hold_degC": 45.0,
        "ramp_K_per_h": 5.0,
        "warm_at": "2026-12-08T13:00:00+01:00",
        "lag_h": 6.0,
        "hold_h": 12.0,
        "cool_at": "2026-12-09T01:00:00+01:00",
        "shop_at": "2026-12-09T06:00:00+01:00",
        "open_at": "2026-12-09T14:00:00+01:00",
        "open_within_K": 5.0,
        "cured_from": 0.86,
        "cured_to": 0.97,
        "glass_transition_from_degC": 30.0,
        "glass_transition_to_degC": 46.0,
        "without_degC": 31.0,
        "peak_degC": 44.8,
        "peak_limit_degC": 60.0,
        "hard_at": "2026-12-08T18:00:00+01:00",
        "time_h": [0.0, 5.0, 17.0, 30.0],
        "hottest_degC": [23.0, 33.0, 44.8, 27.0],
        "coolest_degC": [22.0, 26.0, 42.0, 23.0],
        "steps": [
            "Begin on an invented day.",
            "Warm it slowly.",
            "Hold it.",
            "Do not open before Wed 9 Dec, 14:00.",
        ],
        "gain": "Without a warm box it is soft above 31 °C; warmed like this, only above 46 °C.",
        "cautions": ["The data sheet decides.", "No open flame, no heat gun."],
    }


def soft_document(count: int = 4, *, box: bool = True, **job: Any) -> dict[str, Any]:
    """The invented plan as JSON: pour 1 blushes, pour 3 is too damp at its start."""
    plan = sample_document(count, **job)
    pours = plan["pours"]
    places = [_place(pour["number"], "next pour", pour["start"], 0.66) for pour in pours[1:]]
    places += [_place(pour["number"], "demold", plan["demold"]["at"], 0.88) for pour in pours]
    thin = {"thickness_m": 0.021, "hard_after_h": 92.0, "place_m": None, "pour": None}
    soft = {
        "places": places,
        "stall": {
            "shop_degC": 21.0,
            "cured": 0.9,
            "glass_transition_degC": 31.0,
            "full_glass_transition_degC": 52.0,
            "keep_below_degC": 21.0,
            "text": "At 21 °C this resin stalls at about 90 % cured.",
        },
        "least": [
            _least("layer", "any", 0.003, 119.0),
            _least("layer", "from", 0.014, 166.0),
            _least("rib", "none", 0.096, None),
        ],
        "thin": [
            {**thin, "form": "rib", "text": "The thinnest section of this piece is 21 mm."},
            {**thin, "form": "layer", "pour": 2, "text": "The shallowest pour is number 2, 80 mm deep."},
        ],
        "warm_box": _warm_box("2026-12-08T08:00:00+01:00") if box else None,
        "damp": {
            "dew_point_degC": 13.9,
            "humidity_given": 0.6,
            "given_at_degC": 22.0,
            "highest_humidity": 0.81,
            "margin_K": 3.0,
            "most_humidity": 0.85,
            "hours": _hours(pours),
            "pours": [_pour_damp(pour) for pour in pours],
            "text": "Air of 22 °C and 60 % humidity has its dew point at 14 °C.",
        },
        "notes": ["An invented note."],
    }
    return plan | {"soft": soft}


def soft_plan(count: int = 4, *, box: bool = True, **job: Any) -> PlanDocument:
    """The same as a plan document."""
    return PlanDocument.model_validate(soft_document(count, box=box, **job))
