"""Stands in for app, so that the terminal's own words and statuses are tested without a heat run."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pourwright.foundation.errors import UserError
from tests.sheets.sample_plan import sample_document


@dataclass
class Answer:
    """A result of app: JSON, and the files it wrote."""

    content: dict[str, Any]
    files: list[Path] = field(default_factory=list)

    def to_json(self) -> dict[str, Any]:
        return self.content


@dataclass
class Choices:
    materials: dict[str, str] = field(
        default_factory=lambda: {"slow": "slow casting resin", "gypsum": "gypsum and water"}
    )
    grades: dict[str, str] = field(default_factory=lambda: {"medium": "2 to 4 mm", "fine": "1 to 2 mm"})


class FakeApp:
    """Remembers what it was asked; raises what it is told to."""

    def __init__(self) -> None:
        self.calls: list[tuple[str, Any]] = []
        self.failure: BaseException | None = None
        self.plan = sample_document()
        self.findings: list[dict[str, str]] = [{"level": "ok", "text": "the mesh is closed"}]

    def _note(self, name: str, *what: Any) -> None:
        self.calls.append((name, what))
        if self.failure is not None:
            raise self.failure

    def job_choices(self) -> Choices:
        return Choices()

    def new_job(self, shape: str, unit: str | None, answers: dict[str, str], target: Path) -> Path:
        self._note("new", shape, unit, answers, target)
        return target / "job.toml"

    def check_job(self, path: Path, progress: Any, **_options: Any) -> Answer:
        progress.step("reading the shape", 1, 1)
        self._note("check", path)
        return Answer(
            {key: self.plan[key] for key in ("job", "piece", "fill", "mold")} | {"findings": self.findings}
        )

    def plan_job(self, path: Path, *, progress: Any, **options: Any) -> Answer:
        progress.step("heat run", 0, 10)
        progress.step("heat run", 10, 10)
        self._note("plan", path, options)
        return Answer(self.plan, [Path("stool/plan/plan.pdf"), Path("stool/plan/plan.json")])

    def describe_shape(self, path: Path, unit: str | None, **_options: Any) -> Answer:
        self._note("shape", path, unit)
        if unit is None:
            raise UserError(
                "an STL file does not say its unit", where=str(path), allowed="mm, in", todo="add --unit"
            )
        return Answer(
            {
                "piece": self.plan["piece"],
                "units": "us" if unit == "in" else "metric",
                "faults": [],
                "files": [],
            }
        )

    def warm_up(self, progress: Any) -> float:
        progress.step("compiling once", 0, 1)
        self._note("warm-up")
        return 21.4
