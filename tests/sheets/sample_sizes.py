"""An invented ledger: a stool of 300 x 300 x 440 mm, from the piece wanted to its master."""

from typing import Any

from tests.sheets.sample_plan import sample_document

MILLIMETRE = 1e-3
STEPS = {"sanded_m": 1.0, "casting_m": 0.5, "warm_rubber_m": -0.1, "rubber_m": 0.3}


def direction(axis: str, piece: float) -> dict[str, Any]:
    """One direction, its lines as in STEPS; sizes in mm."""
    cast = piece + STEPS["sanded_m"]
    master = piece + sum(STEPS.values())
    numbers = {
        "piece_m": piece,
        "piece_low_m": piece - 0.6,
        "piece_high_m": piece + 0.4,
        "cast_m": cast,
        "cavity_m": master - STEPS["rubber_m"],
        "master_m": master,
        "master_low_m": master - 0.4,
        "master_high_m": master + 0.6,
        **STEPS,
    }
    words = f"{axis}, {'up as poured' if axis == 'z' else 'across'}"
    told = {name: number * MILLIMETRE for name, number in numbers.items()}
    return {"axis": axis, "poured": axis, "words": words} | told


def sizes_document(shape_is: str = "piece", **job: Any) -> dict[str, Any]:
    """The invented plan with a ledger; sides sanded through the skin."""
    face = {"area_m2": 0.09, "sanded_m": 0.0, "stands_out_m": 0.0005, "text": "", "through": False}
    faces = [
        {**face, "name": "open face", "words": "open face (underside as it stands)"}
        | {"skin_m": None, "glass_share": None},
        {**face, "name": "sides", "words": "sides", "sanded_m": 0.001, "skin_m": 0.00073, "glass_share": 0.55}
        | {"through": True, "text": "sanding 1 mm off the sides goes through the skin to the glass"},
    ]
    number = {"name": "gels_at", "words": "it gels at", "value": 310.0, "value_low": 295.0}
    number |= {"value_high": 325.0, "unit": "K", "kind": "common practice", "source": "Common practice"}
    sizes = {
        "shape_is": shape_is,
        "cut": True,
        "directions": [direction("x", 300.0), direction("y", 300.0), direction("z", 440.0)],
        "faces": faces,
        "piece_volume_m3": 0.0396,
        "cavity_volume_m3": 0.0401,
        "master_volume_m3": 0.0402,
        "master_size_m": (0.3017, 0.3017, 0.4417),
        "gels_at_degC": 37.0,
        "run": None,
        "numbers": [number | {"told": "37 °C (22 to 52 °C)"}],
        "notes": ["Mold, glass, resin and heat are reckoned with the cold cavity."],
    }
    return sample_document(**job) | {"sizes": sizes}
