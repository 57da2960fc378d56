"""Invented chances for the invented plan: bands, rankings, plans not taken; nothing is computed."""

from typing import Any

from pourwright.jobs.plan import PlanDocument
from tests.sheets.sample_plan import sample_document

NAMES = (
    ("resin.rate", "speed of the resin's reaction"),
    ("shop.temperature", "temperature of the shop"),
    ("resin.heat", "heat of the resin's reaction"),
    ("bed.voids", "space between the glass"),
    ("mix.temperature", "temperature of the mixed resin"),
    ("film.coefficient", "how well air carries heat off the box"),
    ("rubber.conductivity", "how well the rubber carries heat"),
    ("glass.conductivity", "how well the glass carries heat"),
)
FIRST = (0.41, 0.22, 0.11, 0.06, 0.03, 0.02, 0.004, 0.001)
TOTAL = (0.52, 0.27, 0.15, 0.09, 0.04, 0.03, 0.006, 0.002)
UNITS = ("", "degC", "J/g", "", "degC", "W/(m2 K)", "W/(m K)", "W/(m K)")
VALUES = (1.0, 22.0, 340.0, 0.45, 22.0, 8.2, 0.21, 0.95)
RESIN = "the family's spread, from memory: no data sheet was fitted"
METHOD = (
    "Sobol indices by Saltelli's estimators on an emulator: a polynomial of third degree in all inputs, "
    "fitted to heat runs on the coarse grid"
)


def share(name: str, words: str, first: float, total: float) -> dict[str, Any]:
    """How much one input matters."""
    return {"name": name, "words": words, "first": first, "total": total}


def ranking(answer: str, words: str, unit: str, value: float, width: float) -> dict[str, Any]:
    """What matters most for one answer; each answer turns the inputs' order a little."""
    turn = len(answer) % 3
    names = NAMES[turn:] + NAMES[:turn]
    shares = [share(*name, *sizes) for name, *sizes in zip(names, FIRST, TOTAL, strict=True)]
    return {
        "answer": answer,
        "words": words,
        "unit": unit,
        "value": value,
        "value_p10": value - width,
        "value_p90": value + 1.4 * width,
        "held_out_error": width / 8.0,
        "shares": shares,
    }


def _pour_chance(pour: dict[str, Any]) -> dict[str, Any]:
    number = pour["number"]
    over = 0.0004 if number % 3 == 1 else 0.012 * number
    return {
        "number": number,
        "over_limit": over,
        "one_in": None if over < 0.001 else round(1.0 / over),
        "peak_kept_degC": pour["peak_temperature_degC"] + 8.0,
        "misses_bond": 0.03 * number,
        "cliff": number == 2,
        "text": f"Pour {number} stays below the limit in most cases.",
    }


def _compared(pours: int, chosen: int, height: float) -> dict[str, Any]:
    """From fewer pours, which fail, to more, which take longer."""
    levels = [height * i / pours for i in range(1, pours + 1)]
    common = {"pours": pours, "chosen": pours == chosen, "levels_m": levels}
    if pours < chosen:
        failed = {"constraint": "peak", "amount": 24.0 / pours, "unit": "K"}
        text = f"with {pours} pours, the hottest place goes over the limit by {24.0 / pours:.0f} °C or more"
        return common | failed | {"days": None, "over_limit": None, "text": text}
    share_over = 0.036 * 0.4 ** (pours - chosen)
    text = "as many as needed" if pours == chosen else "keeps the limits, and takes longer"
    return common | {"days": 6.0 + pours, "over_limit": share_over, "text": text}


def sample_chances(document: dict[str, Any]) -> dict[str, Any]:
    """Chances for a plan made by `sample_document`."""
    pours = document["pours"]
    hottest = max(pours, key=lambda pour: pour["peak_temperature_degC"])
    return {
        "probability": 0.95,
        "members": 200,
        "runs": 92,
        "held_out": 20,
        "method": METHOD,
        "seed": 0,
        "resin": RESIN,
        "doubts": [
            {
                "name": name,
                "words": words,
                "unit": unit,
                "value": value,
                "value_p10": 0.93 * value,
                "value_p90": 1.07 * value,
                "kind": "measured here" if name == "bed.voids" else "from memory",
            }
            for (name, words), unit, value in zip(NAMES, UNITS, VALUES, strict=True)
        ],
        "pours": [_pour_chance(pour) for pour in pours],
        "soft_when_opened": 0.04,
        "rankings": [
            ranking("peak", "hottest place of all pours", "degC", hottest["peak_temperature_degC"], 5.0),
            ranking("gel_of_2", "gel of pour 2", "h", 15.5, 1.6),
            ranking("bond_end", "end of the bond on pour 2", "h", 31.0, 3.4),
            ranking("demold", "hard enough to demold", "h", 144.0, 20.0),
        ],
        "compared": [_compared(count, len(pours), pours[-1]["to_m"]) for count in range(1, len(pours) + 3)],
        "notes": ["doubts are taken to be independent of each other"],
    }


def _what_if(change: str, pours: int | None, days: float | None, then: str) -> dict[str, Any]:
    return {"change": change, "pours": pours, "days": days, "text": f"{change}: {then}."}


def with_bands(document: dict[str, Any]) -> dict[str, Any]:
    """Give pours and demold the bands that such chances bring."""
    for pour in document["pours"]:
        peak = pour["peak_temperature_degC"]
        pour["peak_temperature_degC_p10"], pour["peak_temperature_degC_p90"] = peak - 5.0, peak + 7.0
        for key in ("gel_after_h", "bonds_from_h", "bonds_until_h"):
            pour[f"{key}_p10"], pour[f"{key}_p90"] = 0.9 * pour[key], 1.14 * pour[key]
    document["demold"] |= {"after_h_p10": 122.0, "after_h_p90": 175.0}
    return document


def sure_document(count: int = 4, **job: Any) -> dict[str, Any]:
    """The invented plan with its chances, as plain values."""
    document = with_bands(sample_document(count, **job))
    changes = [
        _what_if("16 °C at night", 3, 8.0, "3 pours instead of 4"),
        _what_if("28 °C by day", None, None, "no plan keeps the limits"),
    ]
    return document | {"chances": sample_chances(document), "what_if": changes}


def sure_plan(count: int = 4, **job: Any) -> PlanDocument:
    """The invented plan with its chances."""
    return PlanDocument.model_validate(sure_document(count, **job))
