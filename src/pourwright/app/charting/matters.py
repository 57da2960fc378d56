"""What matters most: which doubts bring about the spread of the answers, and what a change would do."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pourwright.app.charting.chart import Cell, Chart, Table
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.plan_chances import Chances, Compared, Ranking, Share, WhatIf
from pourwright.sheets.matters_drawing import ranked
from pourwright.sheets.pages.chances import chance_words
from pourwright.sheets.wording import Wording

QUICK = "This plan was made with the likeliest numbers only, so nothing is known of what matters most."
WORDS = "Which of the things that are not known exactly bring about most of the spread of an answer"
HEADER = ("of what", "what", "alone [%]", "with its interplay [%]", "pours", "days", "told")


def matters_chart(plan: PlanDocument) -> Chart:
    """Chart what matters most.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    Chart
        Rankings of one answer each, numbers of pours compared, and changes that were looked at.
    """
    words, chances = Wording(plan.job), plan.chances
    return Chart(
        name="matters",
        title="What matters most",
        words=_sentence(chances),
        table=Table(HEADER, list(_rows(plan))),
        kind="matters",
        more={
            "rankings": [] if chances is None else [_ranking(each, words) for each in chances.rankings],
            "compared": [] if chances is None else [_compared(each) for each in chances.compared],
            "what_if": [_what_if(each) for each in plan.what_if],
        },
        notes=[] if chances is None else [f"{_upper(note)}." for note in chances.notes],
    )


def _sentence(chances: Chances | None) -> str:
    first = None if chances is None else _most(chances)
    if first is None:
        return QUICK
    ranking, share = first
    return f"{WORDS}. {_upper(ranking.words)}: mostly {share.words}."


def _most(chances: Chances) -> tuple[Ranking, Share] | None:
    shown = [(each, ranked(each)[0]) for each in chances.rankings if each.shares]
    return (shown[0][0], shown[0][1][0]) if shown else None


def _upper(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _ranking(each: Ranking, words: Wording) -> dict[str, Any]:
    shown, left_out = ranked(each)
    return {
        "answer": each.answer,
        "words": each.words,
        "value": each.value,
        "unit": each.unit,
        "text": words.banded(each.value, each.value_p10, each.value_p90, each.unit),
        "shares": [_share(share, words) for share in shown],
        "left_out": left_out,
        "held_out": words.told_difference(each.held_out_error, each.unit),
    }


def _share(share: Share, words: Wording) -> dict[str, Any]:
    return {
        "name": share.name,
        "words": share.words,
        "first": share.first,
        "total": share.total,
        "text": words.share(max(share.total, 0.0)),
        "alone": words.share(max(share.first, 0.0)),
    }


def _compared(each: Compared) -> dict[str, Any]:
    return {
        "pours": each.pours,
        "chosen": each.chosen,
        "days": each.days,
        "days_text": "–" if each.days is None else f"{each.days:.1f}",
        "over": "" if each.over_limit is None else chance_words(each.over_limit),
        "text": each.text,
    }


def _what_if(each: WhatIf) -> dict[str, Any]:
    return {"change": each.change, "pours": each.pours, "days": each.days, "text": each.text}


def _rows(plan: PlanDocument) -> Iterator[list[Cell]]:
    if plan.chances is not None:
        for ranking in plan.chances.rankings:
            for share in sorted(ranking.shares, key=lambda share: -share.total):
                yield [ranking.words, share.words, _cent(share.first), _cent(share.total), None, None, None]
        for each in plan.chances.compared:
            yield ["number of pours", None, None, None, each.pours, _days(each.days), each.text]
    for change in plan.what_if:
        yield ["what if", change.change, None, None, change.pours, _days(change.days), change.text]


def _cent(share: float) -> str:
    return f"{100.0 * share:.2f}"


def _days(days: float | None) -> str | None:
    return None if days is None else f"{days:.2f}"
