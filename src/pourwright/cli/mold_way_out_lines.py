"""The way out as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import facts
from pourwright.cli.words import Words

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
    yield Text(part["bulge"]["words"])
    yield Text(part["warm"]["words"])
    for number, step in enumerate(part["order"], 1):
        yield Text(f"{number}  {step}")


def _facts(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    yield NAMES[part["opening"]], part["reason"]
    yield "walls", draft_words(part["draft"], words.share)
    for each in part["held"]:
        yield (
            f"undercut {each['number']}",
            (
                f"{words.volume(each['volume_m3'])} of rubber, "
                f"reaches in {words.length(each['reaches_in_m'])}, "
                f"deepest {each['where']} up"
            ),
        )
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
                f"bears {each['margin']:.1f} times the pull"
            ),
        )
    yield "suction", suction_words(part, words)


def draft_words(draft: Mapping[str, float], share: Any) -> str:
    """How the walls lean, as shares."""
    return (
        f"{share(draft['undercut'])} undercut, {share(draft['upright'])} upright to 1 degree, "
        f"{share(draft['little'])} 1 to 3, {share(draft['free'])} more"
    )


def margin_words(part: Part, share: Any, length: Any) -> str:
    """Lengthening against break and against a nick."""
    cut = part["hinge_share"] is not None
    strain = part["hinge_share"] if cut else part["stretch_share"]
    margin = part["hinge_margin"] if cut else part["stretch_margin"]
    return (
        f"lengthens by {share(strain)}; breaks at {margin:.0f} times that, a nick of "
        f"{length(part['nick_m'])} "
        f"runs on at {part['nick_margin']:.0f} times"
    )


def suction_words(part: Part, words: Words) -> str:
    """What the air does."""
    return (
        f"up to {words.force(part['suction_N'])} (the weight of "
        f"{words.mass(part['suction_kg'])}) if no air gets "
        f"under the piece; some {words.duration(part['air_creeps_in_h'])} of steady pull until "
        f"it creeps in by "
        f"itself; with the floor's board off, the rubber follows at {words.force(part['floor_follows_N'])}"
    )
