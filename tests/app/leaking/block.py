"""A straight block with a plan on disk, whose every answer can be reckoned by hand."""

import json
from datetime import datetime
from pathlib import Path

from pourwright.jobs import input_hashes, load_job
from pourwright.jobs.plan import PlanDocument
from pourwright.materials import load_materials
from tests.sheets.sample_plan import sample_document

AREA = 0.080 * 0.060
RESIN = load_materials().resin["epoxy-slow-deep"]
DENSITY = RESIN.density.value


def block(job: Path) -> dict[str, object]:
    """A plan of one pour: a block of 80 by 60 mm, glass up to 30 mm, clear to 50 mm, poured as it stands."""
    document = sample_document(1)
    glass, clear = document["fill"]["bands"][0], document["fill"]["bands"][1]
    document["fill"]["bands"] = [
        glass | {"from_m": 0.0, "to_m": 0.030, "from_standing_m": 0.0, "to_standing_m": 0.030},
        clear | {"from_m": 0.030, "to_m": 0.050, "from_standing_m": 0.030, "to_standing_m": 0.050},
    ]
    document["fill"]["resin"] |= {"film_kg": 0.001}
    document["pours"][0] |= {"from_m": 0.0, "to_m": 0.050, "resin_kg": 0.16}
    document["pours"][0]["batches"] = [
        {"number": 1, "mass_kg": 0.16, "part_a_kg": 0.11, "part_b_kg": 0.05, "ratio_error": 0.0}
    ]
    document["piece"] |= {"height_m": 0.050, "flipped": False, "up": "+z", "casting_material": RESIN.id}
    document["dip_stick"] = [
        {
            "height_m": z,
            "height_standing_m": z,
            "dip_m": 0.050 - z,
            "cavity_m3": AREA * z,
            "liquid_m3": AREA * (0.45 * min(z, 0.030) + max(z - 0.030, 0.0)),
        }
        for z in (0.0, 0.010, 0.020, 0.030, 0.040, 0.050)
    ]
    return document | {"inputs": input_hashes(load_job(job))}


def planned(small: Path) -> Path:
    """Put the plan beside a job file."""
    (small.parent / "plan").mkdir()
    (small.parent / "plan" / "plan.json").write_text(json.dumps(block(small)), "utf8")
    return small


def begun(plan: PlanDocument) -> datetime:
    return datetime.fromisoformat(plan.pours[0].start)


def full_mass(plan: PlanDocument, level: float) -> float:
    """Resin up to a level over the glass [kg]: voids below 30 mm, all of it above."""
    return DENSITY * AREA * (0.030 * plan.fill.bands[0].void_fraction + level - 0.030)
