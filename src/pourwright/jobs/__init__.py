"""What the maker writes and what the tool answers: job file, plan document, their schemas."""

from __future__ import annotations

from importlib import import_module

_PUBLIC = {
    "Answers": "new",
    "Job": "job",
    "JobError": "errors",
    "PlanDocument": "plan",
    "input_hashes": "hashes",
    "job_hash": "hashes",
    "job_schema": "schema",
    "load_job": "loading",
    "load_plan": "reading",
    "plan_schema": "schema",
    "read_job": "loading",
    "read_plan": "reading",
    "write_new_job": "new",
}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
