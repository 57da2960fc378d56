"""An invented plan for the sheets to print: an hourglass stool, poured upside down.

Nothing here is computed by the program and nothing is measured: sizes, weights, temperatures
and prices are made up so that they agree with each other and look like a real plan.
"""

import math
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Any
from zoneinfo import ZoneInfo

from pourwright.jobs.plan import PlanDocument

ZONE = "Europe/Berlin"
HEIGHT = 0.450
RESIN, GLASS, VOIDS = 1100.0, 2500.0, 0.45
RATIO = (100.0, 45.0)
GREEN, NEAT, AMBER = "green, coarse", "clear window", "amber, fine"
BANDS = ((GREEN, 0.0, 0.160, "coarse", "green"), (NEAT, 0.160, 0.240, None, None))
TOP_BANDS = ((AMBER, 0.240, 0.438, "fine", "amber"), ("cover", 0.438, HEIGHT, None, None))


def radius(z: float) -> float:
    """Outline of the invented stool: 280 mm across the ends, 170 mm at the waist."""
    return 0.085 + 0.055 * (2.0 * z / HEIGHT - 1.0) ** 2


def volume(low: float, high: float) -> float:
    """Volume between two heights, midpoint rule on 200 slices."""
    step = (high - low) / 200
    return sum(math.pi * radius(low + (i + 0.5) * step) ** 2 * step for i in range(200))


def _standing(z: float) -> float:
    return HEIGHT - z


def _moment(hours: float) -> str:
    start = datetime(2026, 12, 1, 9, 0, tzinfo=ZoneInfo(ZONE))
    return (start + timedelta(hours=hours)).isoformat()


def _batches(
    mass: float, parts: tuple[float, float], pail: float, levels: tuple[float, float]
) -> list[dict[str, Any]]:
    count = math.ceil(mass / pail)
    share_a = parts[0] / sum(parts)
    batches = []
    for number in range(1, count + 1):
        part_a = round(mass / count * share_a, 3)
        part_b = round(part_a * parts[1] / parts[0], 3)
        level = levels[0] + (levels[1] - levels[0]) * number / count
        batches.append(
            {
                "number": number,
                "mass_kg": round(part_a + part_b, 3),
                "part_a_kg": part_a,
                "part_b_kg": part_b,
                "ratio_error": part_b / part_a / (parts[1] / parts[0]) - 1.0,
                "level_after_m": level,
            }
        )
    return batches


def _bands() -> list[dict[str, Any]]:
    return [_band(*band) for band in BANDS + TOP_BANDS]


def _band(name: str, low: float, high: float, grade: str | None, colour: str | None) -> dict[str, Any]:
    space = volume(low, high)
    voids = VOIDS if grade else 1.0
    return {
        "name": name,
        "from_m": low,
        "to_m": high,
        "from_standing_m": _standing(low),
        "to_standing_m": _standing(high),
        "kind": "glass" if grade else "neat",
        "grade": grade,
        "colour": colour,
        "volume_m3": space,
        "void_fraction": voids,
        "void_fraction_low": voids - 0.03 if grade else 1.0,
        "void_fraction_high": voids + 0.05 if grade else 1.0,
        "void_source": "range of poured crushed glass, from memory" if grade else "no glass in this band",
        "glass_kg": space * (1.0 - voids) * GLASS,
        "resin_kg": space * voids * RESIN,
    }


def _history(start: float, peak: float, after: float) -> dict[str, list[float]]:
    time_h, hottest, coolest, cured = [], [], [], []
    for i in range(97):
        hour = i * 0.5
        shape = (hour / after) ** 2 * math.exp(2.0 * (1.0 - hour / after))
        time_h.append(start + hour)
        hottest.append(22.0 + (peak - 22.0) * shape)
        coolest.append(22.0 + (peak - 22.0) * 0.35 * shape)
        cured.append(0.86 / (1.0 + math.exp(-(hour - 1.6 * after) / 3.0)))
    return {"time_h": time_h, "hottest_degC": hottest, "coolest_degC": coolest, "least_cured": cured}


def _portions(low: float, high: float) -> list[dict[str, Any]]:
    portions = []
    for name, start, end, grade, colour in BANDS + TOP_BANDS:
        bottom, top = max(low, start), min(high, end)
        if grade and top > bottom:
            mass = volume(bottom, top) * (1.0 - VOIDS) * GLASS
            portions.append({"band": name, "grade": grade, "colour": colour, "mass_kg": mass})
    return portions


def _resin(low: float, high: float) -> float:
    total = 0.0
    for _, start, end, grade, _ in BANDS + TOP_BANDS:
        bottom, top = max(low, start), min(high, end)
        if top > bottom:
            total += volume(bottom, top) * (VOIDS if grade else 1.0) * RESIN
    return total * 1.06


def _pour(number: int, count: int, low: float, high: float) -> dict[str, Any]:
    mass = _resin(low, high)
    batches = _batches(mass, RATIO, 2.5, (low, high))
    start = 24.0 * (number - 1)
    peak, after = 47.0 + 3.5 * math.sin(2.0 * number), 7.0 + 0.4 * number
    last = number == count
    return {
        "number": number,
        "from_m": low,
        "to_m": high,
        "from_standing_m": _standing(low),
        "to_standing_m": _standing(high),
        "dip_to_m": HEIGHT - high,
        "start": _moment(start),
        "volume_m3": volume(low, high),
        "resin_kg": sum(b["mass_kg"] for b in batches),
        "part_a_kg": sum(b["part_a_kg"] for b in batches),
        "part_b_kg": sum(b["part_b_kg"] for b in batches),
        "bands": [name for name, a, b, _, _ in BANDS + TOP_BANDS if min(high, b) > max(low, a)],
        "batches": batches,
        "glass": _portions(low, high),
        "start_temperature_degC": 22.0,
        "work_within_h": 0.75,
        "soaks_after_h": 0.43,
        "soak_limit_h": 12.5,
        "soak_margin": 20.0,
        "bubbles_from_m": 0.000112,
        "standing": {
            "batch_kg": max(b["mass_kg"] for b in batches),
            "pail_m3": 0.010,
            "mixed_at_degC": 22.0,
            "watched_h": 24.0,
            "warming_K": 5.0,
            "warm_after_h": 1.27,
            "thick_after_h": None,
            "hot_degC": 65.0,
            "hot_after_h": 3.59,
            "hot_stirred_after_h": 4.4,
            "tray_depth_m": 0.010,
            "tray_hot_after_h": None,
            "tray_peak_degC": 31.2,
            "prewarmed_by_K": 10.0,
            "prewarmed_until_h": 0.42,
            "prewarmed_hot_after_h": 1.6,
        },
        "peak_temperature_degC": peak,
        "peak_after_h": after,
        "peak_place_m": (0.0, 0.0, (low + high) / 2),
        "peak_limit_degC": 60.0,
        "peak_grid_error_K": 0.6,
        "face_peak_degC": peak - 8.0,
        "gel_after_h": 15.5,
        "gel_first_h": 9.0,
        "bonds_from_h": 17.0,
        "bonds_until_h": 31.0,
        "next_from": None if last else _moment(start + 23.0),
        "next_until": None if last else _moment(start + 31.0),
        "least_cured": 0.71,
        "least_cured_place_m": (radius(low), 0.0, low),
        "history": _history(start, peak, after),
    }


def _pours(count: int) -> list[dict[str, Any]]:
    levels = (
        [0.0, 0.120, 0.200, 0.330, HEIGHT] if count == 4 else [HEIGHT * i / count for i in range(count + 1)]
    )
    return [_pour(n, count, levels[n - 1], levels[n]) for n in range(1, count + 1)]


def _rubber() -> dict[str, Any]:
    batches = _batches(43.2, (100.0, 10.0), 8.0, (0.05, 0.480))
    return {
        "id": "silicone-shore-20-tin",
        "name": "silicone rubber, Shore A 20, tin cure",
        "wall_m": 0.020,
        "base_m": 0.025,
        "cover_m": 0.005,
        "volume_m3": 41.5 / 1180.0,
        "mass_kg": 41.5,
        "part_a_kg": sum(b["part_a_kg"] for b in batches),
        "part_b_kg": sum(b["part_b_kg"] for b in batches),
        "parts_by_weight": (100.0, 10.0),
        "fill_mark_before_master_m": 0.357,
        "level_after_master_m": 0.480,
        "head_at_bottom_Pa": 1180.0 * 9.80665 * 0.480,
        "working_time_h": 0.75,
        "demold_time_h": 24.0,
        "batches": batches,
    }


def _mold() -> dict[str, Any]:
    panel = {"thickness_m": 0.018, "pressure_at_bottom_Pa": 5560.0}
    return {
        "method": "hung",
        "rubber": _rubber(),
        "hold_down": {
            "method": "hung",
            "buoyancy_N": 178.0,
            "master_mass_kg": 10.6,
            "net_force_N": 74.0,
            "worst_level_m": 0.475,
            "safety_factor": 1.5,
            "weight_needed_kg": 11.4,
            "screws_needed": None,
        },
        "box": {
            "inside_m": (0.320, 0.320, 0.500),
            "outside_m": (0.356, 0.356, 0.518),
            "board": "melamine-faced board, 18 mm",
            "panels": [
                {"name": "side", "count": 2, "length_m": 0.500, "width_m": 0.356, "thrust_N": 410.0, **panel},
                {"name": "end", "count": 2, "length_m": 0.500, "width_m": 0.320, "thrust_N": 370.0, **panel},
                {"name": "base", "count": 1, "length_m": 0.356, "width_m": 0.356, "thrust_N": 570.0, **panel},
                {
                    "name": "hanging bar",
                    "count": 2,
                    "length_m": 0.440,
                    "width_m": 0.060,
                    "thrust_N": 74.0,
                    **panel,
                },
            ],
        },
        "empty_mass_kg": 55.0,
        "filled_mass_kg": 82.0,
    }


def _fill(bands: list[dict[str, Any]], resin: float) -> dict[str, Any]:
    voids = sum(b["resin_kg"] for b in bands if b["kind"] == "glass")
    neat = sum(b["resin_kg"] for b in bands if b["kind"] == "neat")
    green, amber = bands[0]["glass_kg"], bands[2]["glass_kg"]
    lots = [
        {
            "grade": "coarse",
            "colour": "green",
            "mass_kg": green,
            "bottles": 23,
            "sieve_from_m": 4e-3,
            "sieve_to_m": 8e-3,
        },
        {
            "grade": "fine",
            "colour": "amber",
            "mass_kg": amber,
            "bottles": 31,
            "sieve_from_m": 1e-3,
            "sieve_to_m": 2e-3,
        },
    ]
    extra = resin - voids - neat
    return {
        "glass_kg": green + amber,
        "resin_kg": resin,
        "bands": bands,
        "glass": lots,
        "resin": {
            "voids_kg": voids,
            "neat_kg": neat,
            "film_kg": 0.2 * extra,
            "bucket_kg": 0.3 * extra,
            "allowance_kg": 0.5 * extra,
        },
        "neat_cover_m": 0.012,
        "parts_by_weight": RATIO,
    }


def _dip_rows() -> list[dict[str, Any]]:
    heights = [i * 0.010 for i in range(1, 46)]
    return [_dip_row(h) for h in heights]


def _dip_row(height: float) -> dict[str, Any]:
    liquid = _resin(0.0, height) / 1.06 / RESIN
    return {
        "height_m": height,
        "height_standing_m": _standing(height),
        "dip_m": HEIGHT - height,
        "cavity_m3": volume(0.0, height),
        "liquid_m3": liquid,
    }


def _section() -> dict[str, Any]:
    steps = [HEIGHT * i / 60 for i in range(61)]
    right = [(radius(z), z) for z in steps]
    outline = [*right, *((-x, z) for x, z in reversed(right))]
    block = [(-0.160, -0.025), (0.160, -0.025), (0.160, 0.455), (-0.160, 0.455)]
    cavity = [*block, block[0]]
    left = [(-0.178, -0.025), (-0.160, -0.025), (-0.160, 0.475), (-0.178, 0.475)]
    return {
        "piece": [outline],
        "rubber": [cavity],
        "panels": [
            left,
            [(-x, z) for x, z in left],
            [(-0.178, -0.043), (0.178, -0.043), (0.178, -0.025), (-0.178, -0.025)],
        ],
        "rim_m": HEIGHT,
    }


def _heat_sections(pours: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Two bells of invented heat and cure on cells of 17.8 mm."""
    hottest = max(pours, key=lambda pour: pour["peak_temperature_degC"])
    across = [-0.178 + 0.0178 * i for i in range(21)]
    up = [-0.043 + (HEIGHT + 0.043) * i / 28 for i in range(29)]
    middles = [[((a + b) / 2, (c + d) / 2) for a, b in pairwise(across)] for c, d in pairwise(up)]
    top, peak = hottest["to_m"], hottest["peak_temperature_degC"]

    def warmth(x: float, z: float) -> float | None:
        if abs(x) < radius(z) and z > top:
            return None
        away = (x / 0.1) ** 2 + ((z - hottest["peak_place_m"][2]) / 0.08) ** 2
        return round(21.0 + (peak - 21.0) * math.exp(-away), 2)

    def cure(x: float, z: float) -> float | None:
        return round(0.95 - 0.07 * (z / HEIGHT) ** 2 - x * x, 4) if abs(x) < radius(z) and z > 0.0 else None

    common = {"axis": "y", "offset_m": 0.004, "across_m": across, "up_m": up, "outlines": _section()}
    return [
        common
        | {
            "moment": "hottest",
            "pour": hottest["number"],
            "after_h": hottest["peak_after_h"],
            "place_m": hottest["peak_place_m"],
            "temperature_degC": [[warmth(*place) for place in row] for row in middles],
        },
        common
        | {
            "moment": "demold",
            "pour": len(pours),
            "after_h": 144.0,
            "place_m": (0.13, 0.0, 0.98 * HEIGHT),
            "cured": [[cure(*place) for place in row] for row in middles],
        },
    ]


def _shopping(mold: dict[str, Any], fill: dict[str, Any]) -> list[dict[str, Any]]:
    rubber = mold["rubber"]
    share = RATIO[0] / sum(RATIO)
    return [
        {
            "item": "silicone rubber, part A",
            "quantity": rubber["part_a_kg"],
            "unit": "kg",
            "price": 706.0,
            "note": "",
        },
        {
            "item": "silicone rubber, part B",
            "quantity": rubber["part_b_kg"],
            "unit": "kg",
            "price": 118.0,
            "note": "",
        },
        {
            "item": "deep-pour epoxy, part A",
            "quantity": fill["resin_kg"] * share,
            "unit": "kg",
            "price": 96.0,
            "note": "",
        },
        {
            "item": "deep-pour epoxy, part B",
            "quantity": fill["resin_kg"] * (1 - share),
            "unit": "kg",
            "price": 57.0,
            "note": "",
        },
        {
            "item": "crushed glass, green, coarse",
            "quantity": fill["glass"][0]["mass_kg"],
            "unit": "kg",
            "price": None,
            "note": "23 bottles",
        },
        {
            "item": "crushed glass, amber, fine",
            "quantity": fill["glass"][1]["mass_kg"],
            "unit": "kg",
            "price": None,
            "note": "31 bottles",
        },
        {
            "item": "melamine-faced board, 18 mm",
            "quantity": 0.96,
            "unit": "m2",
            "price": 21.5,
            "note": "before saw cuts",
        },
        {
            "item": "clamps",
            "quantity": 8.0,
            "unit": "pieces",
            "price": None,
            "note": "or screws every 120 mm",
        },
    ]


def _calendar(pours: list[dict[str, Any]]) -> list[dict[str, Any]]:
    events = [
        _event(-240, 6, "Build the mold box", "Cut the panels, screw, seal the seams.", "mold"),
        _event(-216, 3, "Pour the rubber", "Weigh the master down, fill to the mark first.", "mold"),
        _event(-192, 2, "Take the master out", "Cut the rubber, open the box, refit.", "mold"),
        _event(
            -48,
            4,
            "Wash and dry the glass",
            "Weigh each tray in and out; dry until the weight stays.",
            "prepare",
        ),
        _event(-1, 1, "Go/no-go list", "Every line ticked before A meets B.", "check"),
    ]
    for pour in pours:
        start = 24.0 * (pour["number"] - 1)
        title = f"Pour {pour['number']} of {len(pours)}"
        events.append(_event(start, 1, title, f"{pour['resin_kg']:.2f} kg of resin.", "pour"))
    end = 24.0 * (len(pours) - 1)
    events.append(
        _event(end + 1, 143, "Cure in the mold", "Leave it in the box; keep the shop at 22 °C.", "wait")
    )
    events.append(
        _event(end + 144, 2, "Demold", "Open the box on all sides before pulling the rubber.", "demold")
    )
    return events


def _event(start: float, hours: float, title: str, detail: str, kind: str) -> dict[str, str]:
    return {
        "start": _moment(start),
        "end": _moment(start + hours),
        "title": title,
        "detail": detail,
        "kind": kind,
    }


def _lists() -> dict[str, Any]:
    return {
        "go_no_go": [
            {"text": "Glass dry: two weighings agree", "why": "Water leaves white halos and soft resin."},
            {"text": "Shop, glass and mold at 20 to 24 °C", "why": "Cold glass slows the cure."},
            {"text": "Box back around the rubber, clamps tight", "why": "Rubber bulges without its box."},
            {"text": "Mold level both ways", "why": "A band runs out of true by the slope of the bench."},
            {"text": "Scale at zero with the empty pail on it", "why": "A wrong ratio never hardens."},
            {"text": "Gloves, goggles, open window", "why": "Hardener sensitises skin for life."},
            {"text": "Metal tray and sand at hand for a hot pail", "why": "A pail left standing can smoke."},
        ],
        "reasons": [
            {"key": "pours", "text": "One to three pours go over the limit of 60 °C; four keep it."},
            {"key": "start", "text": "No start was given: the next working hour after the plan was made."},
            {"key": "mold.hold_down.screws_needed", "text": "The master hangs, so no screws are counted."},
        ],
        "cautions": [
            "Resin and hardener: gloves, goggles, fresh air. A pail left standing can smoke.",
            "Glass: cut-proof gloves, goggles, wet sieving or a mask against dust.",
            "The filled mold weighs 82 kg: two people and a trolley, never by hand from the floor.",
            "Cured resin dust and cutting dust: mask and extraction. Uncured waste is hazardous waste.",
        ],
        "warnings": [
            "No price was given for the glass: the total leaves it out.",
            "Pour 3 comes within 10 °C of the limit when the shop is 3 °C warmer than planned.",
        ],
        "sources": [
            {
                "id": "churchill-chu-1975",
                "citation": "Churchill and Chu (1975), vertical plates (citation from memory)",
                "kind": "published",
                "used_for": "air film outside the box",
            },
            {
                "id": "bed-range",
                "citation": "Poured crushed glass, voids 0.42 to 0.50",
                "kind": "from memory",
                "used_for": "voids of both glass bands",
            },
        ],
    }  # fmt: skip


def _temperatures(pours: list[dict[str, Any]]) -> dict[str, Any]:
    hours = [float(h) for h in range(24 * len(pours) + 25)]
    return {
        "spacing_m": 0.008,
        "coarse_spacing_m": 0.016,
        "cells": 91_000,
        "steps": 640,
        "grid_error_K": 0.6,
        "energy_error": 2e-12,
        "rubber_limit_degC": 180.0,
        "air_time_h": hours,
        "sections": _heat_sections(pours),
        "air_degC": [22.0 - 1.5 * math.cos((h - 6.0) / 24.0 * 2.0 * math.pi) for h in hours],
    }


def _piece(mass: float, bands: list[dict[str, Any]]) -> dict[str, Any]:
    return {
        "name": "hourglass stool",
        "volume_m3": volume(0.0, HEIGHT),
        "area_m2": 0.42,
        "height_m": HEIGHT,
        "mass_kg": mass,
        "size_m": (0.280, 0.280, HEIGHT),
        "centroid_m": (0.0, 0.0, HEIGHT / 2),
        "up": "-z",
        "flipped": True,
        "casting_material": "deep-pour epoxy, slow",
        "mass_by_material_kg": {
            "glass": sum(b["glass_kg"] for b in bands),
            "resin": sum(b["resin_kg"] for b in bands),
        },
    }


def sample_document(count: int = 4, **job: Any) -> dict[str, Any]:
    """The invented plan as plain values, to be changed by a test before it is read."""
    bands, pours, mold = _bands(), _pours(count), _mold()
    fill = _fill(bands, sum(p["resin_kg"] for p in pours))
    after = 144.0
    info = {
        "title": "Hourglass stool",
        "variant": "main",
        "units": "metric",
        "paper": "A4",
        "time_zone": ZONE,
        "currency": "EUR",
        "invented": True,
        "scale_step_kg": 0.001,
    }
    return {
        "schema": "pourwright-plan/1.7",
        "version": "0.1.0",
        "seed": 0,
        "computed_for": "2026-11-20T08:00:00+01:00",
        "inputs": {"job.toml": "0" * 64},
        "job": info | job,
        "piece": _piece(sum(b["glass_kg"] + b["resin_kg"] for b in bands), bands),
        "mold": mold,
        "fill": fill,
        "pours": pours,
        "demold": {
            "after_h": after,
            "at": _moment(24.0 * (count - 1) + after),
            "cured": 0.88,
            "glass_transition_degC": 41.0,
            "place_m": (0.14, 0.0, HEIGHT),
            "rule": "least-cured place at 85 % or more and its glass transition 15 °C above the shop",
        },
        "heat": _temperatures(pours),
        "dip_stick": _dip_rows(),
        "section": _section(),
        "shopping": _shopping(mold, fill),
        "calendar": _calendar(pours),
        **_lists(),
    }


def sample_plan(count: int = 4, **job: Any) -> PlanDocument:
    """The invented plan with a number of pours and changed job lines."""
    return PlanDocument.model_validate(sample_document(count, **job))
