"""What the maker writes and what the tool answers: job file, plan document, their schemas."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pourwright.jobs.errors import JobError as JobError
    from pourwright.jobs.hashes import input_hashes as input_hashes, job_hash as job_hash
    from pourwright.jobs.heat import HeatDocument as HeatDocument
    from pourwright.jobs.job import Job as Job
    from pourwright.jobs.loading import load_job as load_job, load_shape as load_shape, read_job as read_job
    from pourwright.jobs.new import Answers as Answers, write_new_job as write_new_job
    from pourwright.jobs.orders import OrderList as OrderList
    from pourwright.jobs.orders_loading import load_orders as load_orders, read_orders as read_orders
    from pourwright.jobs.plan import PlanDocument as PlanDocument
    from pourwright.jobs.prices import PriceList as PriceList
    from pourwright.jobs.prices_loading import load_prices as load_prices, read_prices as read_prices
    from pourwright.jobs.reading import load_plan as load_plan, read_plan as read_plan
    from pourwright.jobs.schema import (
        buying_schema as buying_schema,
        cost_schema as cost_schema,
        cost_variants_schema as cost_variants_schema,
        heat_schema as heat_schema,
        job_schema as job_schema,
        order_list_schema as order_list_schema,
        orders_schema as orders_schema,
        plan_schema as plan_schema,
        prices_schema as prices_schema,
    )
    from pourwright.jobs.snapshots import SnapshotFile as SnapshotFile

_PUBLIC = {
    "Answers": "new",
    "HeatDocument": "heat",
    "Job": "job",
    "JobError": "errors",
    "OrderList": "orders",
    "PlanDocument": "plan",
    "PriceList": "prices",
    "SnapshotFile": "snapshots",
    "buying_schema": "schema",
    "cost_schema": "schema",
    "cost_variants_schema": "schema",
    "heat_schema": "schema",
    "input_hashes": "hashes",
    "job_hash": "hashes",
    "job_schema": "schema",
    "load_job": "loading",
    "load_orders": "orders_loading",
    "load_plan": "reading",
    "load_prices": "prices_loading",
    "load_shape": "loading",
    "order_list_schema": "schema",
    "orders_schema": "schema",
    "plan_schema": "schema",
    "prices_schema": "schema",
    "read_job": "loading",
    "read_orders": "orders_loading",
    "read_plan": "reading",
    "read_prices": "prices_loading",
    "write_new_job": "new",
}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
