"""The page of the heat of gypsum or concrete: how hot, where, when, and when the mold may be opened."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_setting_heat import HeatLimit, SettingHeat
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

DRAWING = "drawings/setting-heat.svg"


def setting_heat_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With a heat run of setting, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.setting_heat
    if part is None:
        return
    rows = [_limit(limit, words) for limit in part.limits]
    yield {
        "title": "How hot it gets",
        "lead": "Hours count from filling.",
        "facts": list(_facts(part, words)),
        "blocks": [
            {"drawing": DRAWING, "alt": "Hottest and coldest place of the casting against time"},
            {"table": table(["", "reaches", "limit", ""], rows, "lrrl")},
            *({"small": note} for note in part.notes),
        ],
    }


def _facts(part: SettingHeat, words: Wording) -> Iterator[dict[str, str]]:
    at = f"{words.length(part.peak_z_m)} up, {words.length(part.peak_standing_m)} as it stands"
    yield fact("hottest", words.temperature(part.peak_degC), at)
    yield fact("after", words.duration(part.peak_h), "of filling")
    yield fact("uneven by", words.difference(part.difference_K), f"after {words.duration(part.difference_h)}")
    if part.open_h is not None and part.hard_h is not None:
        yield fact("open after", words.duration(part.open_h), f"hard after {words.duration(part.hard_h)}")


def _limit(limit: HeatLimit, words: Wording) -> list[str]:
    told = words.difference if limit.name == "core to face" else words.temperature
    return [limit.name, told(limit.reached), told(limit.limit), "goes over it" if limit.over else ""]
