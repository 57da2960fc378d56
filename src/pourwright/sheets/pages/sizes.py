"""Sizes: from the piece wanted back to the master, direction by direction and face by face."""

from collections.abc import Iterator

from pourwright.foundation.notation import format_cut_length
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_sizes import Direction, FaceGroup, Sizes
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

STEPS = (
    ("sanded off, both faces", "sanded_m"),
    ("casting shrinks, from gel until cold", "casting_m"),
    ("warm rubber comes in", "warm_rubber_m"),
    ("rubber shrinks", "rubber_m"),
)


def sizes_page(plan: PlanDocument) -> Page:
    """Fill the page of sizes.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Lead, facts, tables and notes; empty where the shape is the master and nothing is sanded.
    """
    found = plan.sizes
    if found is None or not found.cut:
        return {}
    words = Wording(plan.job)
    heads = ["", *(one.words for one in found.directions)]
    return {
        "lead": _lead(found),
        "note": "master.stl and master.3mf, in millimetres",
        "facts": [_fact(one, words) for one in found.directions],
        "steps": table(heads, _rows(found.directions, words), "lrrr"),
        "faces": table(
            ["faces", "sand off", "skin over the glass", "glass after it", "master stands out"],
            [_face(face, words) for face in found.faces],
            "lrrrr",
        ),
        "through": [face.through for face in found.faces],
        "run": "" if found.run is None else found.run.text,
        "said": [f"{face.text[:1].upper()}{face.text[1:]}." for face in found.faces if face.text],
        "numbers": table(
            ["rests on", "value and range", "kind"],
            [[one.words, one.told, one.kind] for one in found.numbers],
            "lll",
        ),
        "notes": [*found.notes, "Sources of the numbers stand on the last page."],
    }


def _lead(found: Sizes) -> str:
    if found.shape_is == "piece":
        return "The shape is the piece as it shall be once sanded. The master must be cut larger, as below."
    return "The shape is the master, cut as it is. So much smaller will the piece be once it is sanded."


def _cut(length: float, words: Wording) -> str:
    return format_cut_length(length, words.system)


def _fact(one: Direction, words: Wording) -> dict[str, str]:
    spans = " to ".join(_cut(each, words) for each in (one.piece_low_m, one.piece_high_m))
    return fact(f"cut the master, {one.words}", _cut(one.master_m, words), f"the piece measures {spans}")


def _rows(directions: list[Direction], words: Wording) -> Iterator[list[str]]:
    def row(name: str, key: str) -> list[str]:
        return [name, *(_cut(getattr(one, key), words) for one in directions)]

    yield row("piece, sanded and cold", "piece_m")
    yield from (row(f"+ {name}", key) for name, key in STEPS)
    yield row("= master", "master_m")
    yield row("the right master, at least", "master_low_m")
    yield row("the right master, at most", "master_high_m")
    yield row("casting before it is sanded", "cast_m")
    yield row("cavity of the cold mold", "cavity_m")


def _face(face: FaceGroup, words: Wording) -> list[str]:
    return [
        face.words,
        _cut(face.sanded_m, words),
        "no glass there" if face.skin_m is None else _cut(face.skin_m, words),
        "" if face.glass_share is None else words.share(face.glass_share),
        _cut(face.stands_out_m, words),
    ]
