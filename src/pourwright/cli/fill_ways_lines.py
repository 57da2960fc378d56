"""Two ways of filling, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words
from pourwright.foundation.notation import format_money, format_share

Part = Mapping[str, Any]
NAMES = {"over-dry-glass": "resin over dry glass", "stirred-in": "glass stirred in first"}


def ways_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell both ways, band by band.

    Parameters
    ----------
    part : mapping
        The part `filling` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Two ways of filling", style="bold")
    for band in part["bands"]:
        yield _side_by_side(band, part, words)
        better = NAMES[band["recommended"]]
        yield Text.assemble(("Better  ", "dim"), (f"{better}. ", "bold"), band["reason"])
        yield Text()
    yield facts(
        [("Reckoned at", _met(part, words)), ("First coat", _coat(part["coat"], words)), *_tube(part, words)]
    )


def _side_by_side(band: Part, part: Part, words: Words) -> Table:
    dry, stirred = band["dry"], band["stirred"]
    title = f"{band['band']}, {band['grade']}, {words.length(band['depth_m'])} deep"
    table = columns([title, NAMES["over-dry-glass"], NAMES["stirred-in"]])
    table.add_row("in time", _down(dry, words), _placed(stirred, words))
    table.add_row("air that stays", _air(dry["air"]), _air(stirred["air"]) if stirred["possible"] else "")
    bubbles = [f"{words.cut(way['bubbles_from_m'])} and more" for way in (dry, stirred)]
    table.add_row("bubbles that come up", f"{bubbles[0]}, past the grains", bubbles[1])
    table.add_row("upper border", "stays", f"sinks {words.length(stirred['sinks_m'])}")
    share = f", {words.share(stirred['glass_share'])} of it"
    table.add_row("glass", words.mass(dry["glass_kg"]), f"{words.mass(stirred['glass_kg'])}{share} at most")
    table.add_row("resin mixed", words.mass(dry["resin_kg"]), _resin(stirred, part, words))
    table.add_row("batches, work", _work(dry, words), _work(stirred, words))
    return table


def _down(dry: Part, words: Words) -> str:
    limit = words.duration(dry["limit_h"])
    if dry["down_after_h"] is None:
        return f"not down after {limit}: too thick"
    return f"down in {words.duration(dry['down_after_h'])} of {limit}"


def _placed(stirred: Part, words: Words) -> str:
    if not stirred["possible"]:
        return "too thick to stir glass in"
    return f"a batch in {words.duration(stirred['batch_h'])} of {words.duration(stirred['batch_limit_h'])}"


def _air(share: float) -> str:
    return "under 0.1 % of the band" if share < 0.001 else f"{format_share(share, digits=1)} of the band"


def _resin(stirred: Part, part: Part, words: Words) -> str:
    told = f"{words.mass(stirred['resin_kg'])}, {words.mass(stirred['more_resin_kg'])} more"
    cost = stirred["costs_more"]
    return told if cost is None else f"{told} ({format_money(cost, part['currency'])})"


def _work(way: Part, words: Words) -> str:
    return f"{way['batches']}, {words.duration(way['work_h'])}"


def _met(part: Part, words: Words) -> str:
    shop, resin = words.temperature(part["shop_degC"]), words.temperature(part["resin_degC"])
    return f"a shop at {shop}, resin at {resin}, {part['viscosity_Pa_s']:.1f} Pa s thick as mixed"


def _coat(coat: Part, words: Words) -> str:
    told = (
        f"{words.mass(coat['resin_kg'])} of neat resin, {words.cut(coat['thickness_m'])} on the face, so "
        f"that no grain prints; glass once it has gelled and is still sticky, "
        f"{words.duration(coat['gels_h'])} after mixing"
    )
    thins = f"; brushed on as mixed it runs down to {words.cut(coat['thins_to_m'])}"
    if coat["stands_from_h"] is None:
        return f"{told}{thins}: take resin thickened for brushing"
    stands = words.duration(coat["stands_from_h"])
    return (
        f"{told}{thins}: let it thicken in a flat tray until {stands}, or take resin thickened for brushing"
    )


def _tube(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    told = []
    for band in part["bands"]:
        dry = band["dry"]
        if dry["tube_h"] is None:
            told.append(f"{band['band']}: too slow for this resin")
        else:
            rate = words.mass(dry["tube_kg_per_min"])
            told.append(f"{band['band']}: {words.duration(dry['tube_h'])}, {rate} a minute")
    yield "From below", f"one tube to the floor drives the air up ahead of the resin; {'; '.join(told)}"
