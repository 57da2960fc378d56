"""How to make a cup test, printed on one page."""

from __future__ import annotations

from importlib.resources import files
from typing import Any, cast

import typst

from pourwright.foundation.files import canonical_json
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    UnitSystem,
    format_duration,
    format_mass,
    format_temperature,
)
from pourwright.jobs.fit import FitDocument

PAPERS = {"metric": "a4", "us": "us-letter"}
LAST_BUNDLED_LETTER = 0x52F
STEPS = """
Let resin, hardener, cup and sensor stand in the shop overnight, out of sun and draught.
Set the logger to a reading a minute. A second sensor lies beside the cup, not touching it.
Weigh out A and B as above. Mix as long as you do in a pour, pour over into the cup, weigh what is in it.
Stand the cup on the bench. Hang the sensor in the middle: half way up, half way across, in thin foil.
Leave it alone until it is as cold as the shop. Do not lift the sensor to look.
Export the readings with their title line; add a [[cup]] to the facts file: file, mass, diameter, mixed.
"""
CAUTION = """
Gloves, and fresh air. A cup that fumes or softens goes outdoors on stone; sand at hand, never water into
hot resin. Test again with half the mass. The data sheet's own cautions come first.
"""


def recipe_pdf(document: FitDocument) -> bytes:
    """Set the page; the same fit gives the same bytes.

    Parameters
    ----------
    document : FitDocument
        The fit, which says how much to pour.

    Returns
    -------
    bytes
        A PDF file of one page.
    """
    content = _content(document)
    templates = files("pourwright.sheets").joinpath("templates")
    project = {
        "main": templates.joinpath("cup_test.typ").read_bytes(),
        "look.typ": templates.joinpath("look.typ").read_bytes(),
        "data.json": canonical_json(content),
    }
    # only letters that are not bundled need the fonts of the computer
    bundled = max(map(ord, document.name)) <= LAST_BUNDLED_LETTER
    # the library takes a folder of files in memory, its type hints do not know it yet
    return typst.compile(cast("bytes", project), format="pdf", timestamp=0, ignore_system_fonts=bundled)


def _content(document: FitDocument) -> dict[str, Any]:
    system, cup = UnitSystem(document.units), document.next_cup

    def warmth(celsius: float) -> str:
        return format_temperature(celsius + ZERO_CELSIUS, system)

    return {
        "paper": PAPERS[document.units],
        "title": document.name,
        "invented": document.invented,
        "facts": [
            {"label": "in the cup", "value": format_mass(cup.mass_kg, system), "note": "mixed resin"},
            {"label": "A", "value": format_mass(cup.part_a_kg, system), "note": "with a fifth to spare"},
            {"label": "B", "value": format_mass(cup.part_b_kg, system), "note": "with a fifth to spare"},
            {
                "label": "log for",
                "value": format_duration(cup.logged_h * 3600),
                "note": f"it gets {warmth(cup.peak_degC_p10)} to {warmth(cup.peak_degC_p90)}",
            },
        ],
        "steps": STEPS.strip().splitlines(),
        "blanks": [
            ["mixed resin in the cup", "mass"],
            ["inner width of the cup, top and bottom", "diameter: their mean"],
            ["what the cup is of", "wall: plastic, paper, glass, metal, foam"],
            ["from first contact of A and B to the sensor in the cup", "mixed"],
            ["fresh mix, by the same sensor", "start"],
            ["the shop's air, where no second sensor lies there", "room"],
        ],
        "caution": " ".join(CAUTION.split()),
        "footer": f"pourwright {document.version}, for {document.id}; masses for a shop at {warmth(23.0)}",
    }
