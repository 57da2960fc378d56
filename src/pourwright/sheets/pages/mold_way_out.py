"""The page of the way out: where to cut, what holds the piece, in which order the mold is opened."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import format_margin
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.mold_way_out import MoldWayOut
from pourwright.sheets.pages.common import Page, fact, plural, table
from pourwright.sheets.wording import Wording

NAMES = {
    "straight": "straight out",
    "stretch": "stretched out",
    "one cut": "cut on one side",
    "two cuts": "cut on two sides",
    "two parts": "two parts",
}


def way_out_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page of the way out.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told of the mold.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
        The page; none where nothing was told.
    """
    part = sheet.way_out
    if part is None:
        return
    yield {
        "title": "Way out",
        "note": NAMES[part.opening],
        "lead": part.reason,
        "facts": list(_facts(part, words)),
        "blocks": list(_blocks(part, words)),
    }


def _facts(part: MoldWayOut, words: Wording) -> Iterator[dict[str, str]]:
    if part.cuts:
        cut = part.cuts[0]
        yield fact(plural(len(part.cuts), "cut"), words.length(cut.length_m), cut.side)
    yield fact("undercut", words.share(part.draft.undercut), "of the surface that touches rubber")
    yield fact("suction", words.load(part.suction_kg), "if no air gets under it")
    alone = "gives way" if part.bulge.gives_way else words.length(part.bulge.alone_m)
    yield fact("bulge without its box", alone, "so never fill it without")


def _blocks(part: MoldWayOut, words: Wording) -> Iterator[Page]:
    yield {"drawing": "drawings/way-out.svg", "alt": "The piece with its undercuts, cut, air and way out"}
    for cut in part.cuts:
        yield {"text": f"Cut: {'; '.join(cut.words)}."}
    for each in part.plugs:
        yield {"text": f"{each.words} in the hollow of the piece: a body of its own."}
    for each in part.cores:
        yield {"text": f"{each.words} stands in the hollow of the piece."}
    yield {"sub": "In this order"}
    steps = [["", f"{number}. {step}"] for number, step in enumerate(part.order, 1)]
    yield {"table": table(["", ""], steps, "ll"), "ticks": True}
    if part.held:
        yield {"sub": "Rubber in front of the piece"}
        yield {"table": _held(part, words)}
    if part.tongues:
        yield {"sub": "Rubber in slots and holes"}
        yield {"table": _tongues(part, words)}
    yield {"sub": "What the rubber bears"}
    yield {"table": _margins(part, words)}
    yield {"sub": "Suction and air"}
    yield {"text": part.suction}
    yield {"text": f"Air goes in {'; '.join(dict.fromkeys(each.words for each in part.air))}."}
    yield {"sub": "Bulge and warm rubber"}
    yield {"text": part.bulge.words}
    yield {"text": part.warm.words}
    if part.warm.shows:
        yield {"table": _thick(part, words)}
    yield {"sub": "Between casts"}
    for text in part.keeping:
        yield {"text": text}


def _held(part: MoldWayOut, words: Wording) -> Page:
    rows = [
        [
            f"place {each.number}",
            words.volume(each.volume_m3),
            words.length(each.reaches_in_m),
            f"{each.where} up",
            "yes" if each.closed_above else "no",
        ]
        for each in part.held
    ]
    return table(["in the picture", "rubber", "reaches in", "deepest", "piece closes over it"], rows, "lrrll")


def _tongues(part: MoldWayOut, words: Wording) -> Page:
    rows = [
        [
            plural(each.count, each.kind),
            words.length(each.thickness_m),
            words.length(each.depth_m),
            f"{each.where} up",
            format_margin(each.margin),
        ]
        for each in part.tongues
    ]
    return table(["", "thick", "deep", "where", "bears"], rows, "lrrlr")


def _thick(part: MoldWayOut, words: Wording) -> Page:
    rows = [
        [each.sides, words.length(each.thick_m), f"{each.where} up", each.words] for each in part.warm.places
    ]
    return table(["thickest rubber", "thick", "where", "comes in by"], rows, "lrlr")


def _margins(part: MoldWayOut, words: Wording) -> Page:
    rows = []
    if part.stretch_margin is not None:
        whole = [
            words.share(part.stretch_share),
            format_margin(part.stretch_margin),
            words.force(part.stretch_force_N),
        ]
        rows.append(["out of whole rubber", *whole])
    if part.hinge_share is not None:
        assert part.hinge_margin is not None
        assert part.hinge_force_N is not None
        bent = [
            words.share(part.hinge_share),
            format_margin(part.hinge_margin),
            words.force(part.hinge_force_N),
        ]
        rows.append(["where the cut rubber bends", *bent])
    nick = f"a nick of {words.length(part.nick_m)} runs on at"
    rows.append([nick, words.share(part.nick_grows_share), "", ""])
    return table(["", "lengthens by", "breaks at", "pull"], rows, "lrrr")
