"""What stays soft, what a warm box gains, and damp, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.cli.words import Words

Part = Mapping[str, Any]


def soft_rows(soft: Part | None, words: Words) -> Iterator[tuple[str, str]]:
    """Lay out under-cure and damp in a line each.

    Parameters
    ----------
    soft : mapping or None
        The plan's part as JSON.
    words : Words
        Of the job.

    Yields
    ------
    tuple of str
        Name and what holds; nothing where nobody looked.
    """
    if soft is None:
        return
    yield "Stalls", _stall(soft["stall"], words)
    if soft["warm_box"] is not None:
        yield "Warm box", _box(soft["warm_box"], words)
    yield "Damp", _damp(soft["damp"], words)


def _stall(stall: Part, words: Words) -> str:
    shop, full = (words.temperature(stall[key]) for key in ("shop_degC", "full_glass_transition_degC"))
    if stall["cured"] >= 1.0:
        return f"not at {shop}: it cures through"
    soft = words.temperature(stall["glass_transition_degC"])
    cured = words.share(stall["cured"])
    return f"at {shop} at about {cured} cured, soft above {soft}; fully cured above {full}"


def _box(box: Part, words: Words) -> str:
    hold, soft, without = (
        words.temperature(box[key]) for key in ("hold_degC", "glass_transition_to_degC", "without_degC")
    )
    hours = words.duration(box["hold_h"])
    return f"{hold} for {hours} in the mold: soft only above {soft}, not {without}; the data sheet decides"


def _damp(damp: Part, words: Words) -> str:
    wet = [str(pour["number"]) for pour in damp["pours"] if not pour["dry"]]
    blushed = [str(pour["number"]) for pour in damp["pours"] if pour["blushes"]]
    dew = words.temperature(damp["dew_point_degC"])
    told = [f"dew point {dew}"]
    told.append(f"too damp to start pour {', '.join(wet)}" if wet else "dry enough at every start")
    if blushed:
        told.append(f"wash and sand the top of pour {', '.join(blushed)}")
    return "; ".join(told)
