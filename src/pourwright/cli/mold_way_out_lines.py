"""The way out as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import facts
from pourwright.cli.words import Words
from pourwright.foundation.notation import format_margin

Part = Mapping[str, Any]
NAMES = {
    "straight": "straight out of the mouth",
    "stretch": "stretched out of whole rubber",
    "one cut": "rubber cut open on one side",
    "two cuts": "rubber cut on two sides",
    "two parts": "a mold of two parts",
}


def way_out_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Lay out the way out.

    Parameters
    ----------
    part : mapping
        Of the mold's answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Way out", style="bold")
    yield facts(list(_facts(part, words)))
    for number, step in enumerate(part["order"], 1):
        yield Text(f"{number}  {step}")
    yield Text("Between casts")
    for text in part["keeping"]:
        yield Text(text)


def _facts(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    yield NAMES[part["opening"]], part["reason"]
    yield "walls", draft_words(part["draft"], words.share)
    for each in part["held"]:
        yield (
            f"undercut {each['number']}",
            (
                f"{words.volume(each['volume_m3'])} of rubber, "
                f"reaches in {words.length(each['reaches_in_m'])}, "
                f"deepest {each['where']} up{over_it(each)}"
            ),
        )
    for each in part["plugs"]:
        yield "loose", f"{each['words']} in the hollow of the piece, a body of its own"
    for each in part["cores"]:
        yield "core", f"{each['words']} stands in the hollow of the piece"
    for cut in part["cuts"]:
        yield "cut", "; ".join(cut["words"])
    if part["nick_margin"] is not None:
        yield "margins", margin_words(part, words.share, words.length)
    for each in part["tongues"]:
        yield (
            f"{each['count']} x rubber in a {each['kind']}",
            (
                f"{words.fine(each['thickness_m'])} thick, {words.length(each['depth_m'])} deep, "
                f"{each['where']} up: "
                f"bears {format_margin(each['margin'])} the pull"
            ),
        )
    yield "suction", part["suction"]
    yield "air goes in", "; ".join(dict.fromkeys(each["words"] for each in part["air"]))
    yield "bulge", part["bulge"]["words"]
    yield "warm rubber", part["warm"]["words"]


def draft_words(draft: Mapping[str, float], share: Any) -> str:
    """How the walls lean, as shares."""
    return (
        f"{share(draft['undercut'])} undercut, {share(draft['upright'])} upright to 1 degree, "
        f"{share(draft['little'])} 1 to 3, {share(draft['free'])} more"
    )


def over_it(held: Part) -> str:
    """Whether the piece closes over rubber in front of it."""
    return "; the piece closes over some of it" if held["closed_above"] else ""


def margin_words(part: Part, share: Any, length: Any) -> str:
    """Lengthening against break and against a nick."""
    cut = part["hinge_share"] is not None
    strain = part["hinge_share"] if cut else part["stretch_share"]
    margin = part["hinge_margin"] if cut else part["stretch_margin"]
    return (
        f"lengthens by {share(strain)}; breaks at {format_margin(margin)} that, a nick of "
        f"{length(part['nick_m'])} runs on at {format_margin(part['nick_margin'])}"
    )
