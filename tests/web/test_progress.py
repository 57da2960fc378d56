"""What comes next at the bench: without a network the phone works it out, and says what the laptop says."""

import json
import random
import subprocess
from collections.abc import Sequence
from dataclasses import asdict
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

import pourwright.web
from pourwright.app.benching.step import PRESSED as PRESSES, Happened, bare, next_step
from pourwright.app.benching.steps import steps_of
from tests.sheets.sample_plan import sample_plan

NINE = datetime(2026, 12, 1, 9, 0, tzinfo=UTC)
STEPS = steps_of(sample_plan(2))
IDS = [step.id for step in STEPS]
BENCH = Path(pourwright.web.__file__).parent / "static" / "js" / "bench"
ASKED = """
import { readFileSync } from "node:fs";
const [where, cases] = process.argv.slice(2);
const { left, isDone } = await import(where);
const { steps, logs } = JSON.parse(readFileSync(cases, "utf8"));
const done = (log) => steps.filter((step) => isDone(step, log)).map((step) => step.id);
console.log(JSON.stringify(logs.map((log) => [left(steps, log)[0]?.id ?? null, done(log)])));
"""


def node(folder: Path, module: str, script: str, *given: str) -> object:
    """Run a script beside one module of the page; what it prints, read."""
    own = folder / f"{module}.mjs"
    own.write_text((BENCH / f"{module}.js").read_text("utf8"), "utf8")
    main = folder / "main.mjs"
    main.write_text(script, "utf8")
    done = subprocess.run(
        ["node", str(main), own.as_uri(), *given], capture_output=True, text=True, check=True
    )
    return json.loads(done.stdout)


def said(kind: str, minute: float, text: str = "", pour: int = 1) -> Happened:
    return Happened(pour=pour, kind=kind, at=NINE + timedelta(minutes=minute), text=text)


def batch(number: int) -> list[Happened]:
    name = f"batch {number} of 3"
    return [
        said(kind, 10 * number + minute, text)
        for minute, (kind, text) in enumerate(
            [("weigh_a", name), ("weigh_b", name), ("mixed", name), ("step", f"in the mold: {name}")]
        )
    ]


READY = said("step", 0, "ready for pour 1")
ALL_IN = [READY, *batch(1), *batch(2), *batch(3)]
TABLE: list[tuple[list[Happened], str | None]] = [
    ([], "1.ready"),
    ([READY], "1.1.weigh_a"),
    # of another pour, or with other words
    ([said("step", 0, "ready for pour 2")], "1.ready"),
    ([READY, *batch(1)[:2]], "1.1.mixed"),
    ([READY, *batch(1)], "1.2.weigh_a"),
    # mixed says that it was weighed
    ([READY, *batch(1), said("mixed", 30)], "1.2.in"),
    # from the terminal: what was poured is over
    ([said("poured", 1), said("poured", 2)], "1.3.weigh_a"),
    (ALL_IN, "1.level"),
    # a level that was read before the last batch is not that of the pour
    ([*ALL_IN[:-1], said("level", 32), ALL_IN[-1]], "1.level"),
    ([*ALL_IN, said("no_level", 40)], "1.bubbles"),
    # at the very moment of the last batch counts
    ([*ALL_IN, said("level", 33)], "1.bubbles"),
    ([*ALL_IN, said("level", 40), said("step", 41, "passed over: bubbles of pour 1")], "1.gel"),
    ([*ALL_IN, said("level", 40), said("bubbles", 41), said("gel", 600)], "1.close"),
    # something went into the next pour: this one is over
    ([READY, *batch(1), said("weigh_a", 900, pour=2)], "2.1.weigh_b"),
    ([said("note", 900, pour=2)], "1.ready"),
    ([said("weigh_a", 900, pour=2), said("demolded", 5000, pour=0)], "2.1.weigh_b"),
]
KINDS = ("weigh_a", "weigh_b", "mixed", "poured", "level", "no_level", "bubbles", "gel", "demolded", "note")


def any_log(dice: random.Random) -> list[Happened]:
    """Presses and other entries in any order, not only such as a careful maker makes."""
    presses = [(step.pour, button.kind, button.text) for step in STEPS for button in step.buttons] + [
        (step.pour, "step", step.passed) for step in STEPS if step.passed
    ]
    others = [(pour, kind, "") for pour in (0, 1, 2) for kind in KINDS]
    chosen = dice.choices(presses * 3 + others, k=dice.randrange(40))
    minutes = sorted(dice.randrange(60) for _ in chosen)
    return [said(kind, at, text, pour) for at, (pour, kind, text) in zip(minutes, chosen, strict=True)]


def laptop(log: Sequence[Happened]) -> list[object]:
    following = next_step(STEPS, log)
    return [following.id if following else None, [step.id for step in STEPS if step.is_done(log)]]


@pytest.fixture(scope="module")
def logs() -> list[list[Happened]]:
    dice = random.Random(9)
    return [log for log, _ in TABLE] + [any_log(dice) for _ in range(300)]


def test_the_laptop_says_what_the_table_says() -> None:
    assert [laptop(log)[0] for log, _ in TABLE] == [following for _, following in TABLE]


def test_the_phone_says_the_same_of_every_log(logs: list[list[Happened]], tmp_path: Path) -> None:
    told = {
        "steps": [asdict(step) for step in STEPS],
        "logs": [[asdict(one) | {"at": one.at.isoformat()} for one in log] for log in logs],
    }
    cases = tmp_path / "cases.json"
    cases.write_text(json.dumps(told), "utf8")
    phone = node(tmp_path, "progress", ASKED, str(cases))
    assert phone == [laptop(log) for log in logs]
    # and the logs are not all of one kind
    assert {following for following, _ in phone} >= {"1.ready", "1.level", "2.1.weigh_b", "2.gel"}


MARKED = """
const { bare } = await import(process.argv[2]);
const { texts, pressed } = JSON.parse(process.argv[3]);
console.log(JSON.stringify(texts.map((text) => bare(text, pressed))));
"""
TEXTS = {
    "batch 1 of 3, as planned": "batch 1 of 3",
    "batch 1 of 3, A and B together": "batch 1 of 3",
    "as expected": "",
    "batch 1 of 3": "batch 1 of 3",
    "not as planned": "not as planned",
    "": "",
}


def test_both_take_the_mark_of_a_press_off_what_was_read(tmp_path: Path) -> None:
    assert [bare(text) for text in TEXTS] == list(TEXTS.values())
    asked = json.dumps({"texts": list(TEXTS), "pressed": PRESSES})
    assert node(tmp_path, "progress", MARKED, asked) == list(TEXTS.values())


PRESSED = """
const { pressId } = await import(process.argv[2]);
const press = { job: "stool", variant: "main", casting: 1, step: "1.1.weigh_a" };
const others = [{ job: "lamp" }, { variant: "second" }, { casting: 2 }, { step: "1.2.weigh_a" }];
const first = pressId(press, new Set());
const again = pressId(press, new Set([first]));
const made = (more) => pressId({ ...press, ...more }, new Set());
console.log(JSON.stringify([first, made({}), again, ...others.map(made)]));
"""


def test_the_same_press_has_the_same_id_on_every_phone(tmp_path: Path) -> None:
    first, other_phone, *others = node(tmp_path, "made", PRESSED)
    assert first == other_phone
    assert len({first, *others}) == 6
    # RFC 9562: version 8, variant 10
    assert all(one[14] == "8" and one[19] in "89ab" and len(one) == 36 for one in (first, *others))
