"""JSON Schemas of what is written, job file and price list, and of the documents that are answered."""

from __future__ import annotations

from typing import Any

from pourwright.jobs.buying_sheet import BuyingSheet
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.jobs.cost_variants import CostVariants
from pourwright.jobs.heat import HeatDocument
from pourwright.jobs.job import Job
from pourwright.jobs.orders import OrderList
from pourwright.jobs.orders_sheet import OrdersSheet
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.prices import PriceList

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def job_schema() -> dict[str, Any]:
    """Describe the job file.

    Returns
    -------
    dict
        JSON Schema of the tables as TOML gives them.
    """
    return {"$schema": DIALECT, **Job.model_json_schema(by_alias=True)}


def plan_schema() -> dict[str, Any]:
    """Describe the plan document.

    Returns
    -------
    dict
        JSON Schema of ``plan.json``.
    """
    return {"$schema": DIALECT, **PlanDocument.model_json_schema(by_alias=True, mode="serialization")}


def heat_schema() -> dict[str, Any]:
    """Describe the heat document.

    Returns
    -------
    dict
        JSON Schema of what `pourwright heat --json` prints.
    """
    return {"$schema": DIALECT, **HeatDocument.model_json_schema(by_alias=True, mode="serialization")}


def prices_schema() -> dict[str, Any]:
    """Describe the price list.

    Returns
    -------
    dict
        JSON Schema of the tables as TOML gives them.
    """
    return {"$schema": DIALECT, **PriceList.model_json_schema(by_alias=True)}


def cost_schema() -> dict[str, Any]:
    """Describe the cost document.

    Returns
    -------
    dict
        JSON Schema of what `pourwright cost --json` prints.
    """
    return {"$schema": DIALECT, **CostSheet.model_json_schema(by_alias=True, mode="serialization")}


def order_list_schema() -> dict[str, Any]:
    """Describe the order list.

    Returns
    -------
    dict
        JSON Schema of the tables as TOML gives them.
    """
    return {"$schema": DIALECT, **OrderList.model_json_schema(by_alias=True)}


def orders_schema() -> dict[str, Any]:
    """Describe the dates of an order list.

    Returns
    -------
    dict
        JSON Schema of what `pourwright orders --json` prints.
    """
    return {"$schema": DIALECT, **OrdersSheet.model_json_schema(by_alias=True, mode="serialization")}


def buying_schema() -> dict[str, Any]:
    """Describe what is bought for an order list.

    Returns
    -------
    dict
        JSON Schema of what `pourwright buy --json` prints.
    """
    return {"$schema": DIALECT, **BuyingSheet.model_json_schema(by_alias=True, mode="serialization")}


def cost_variants_schema() -> dict[str, Any]:
    """Describe the document of all variants side by side.

    Returns
    -------
    dict
        JSON Schema of what `pourwright cost --all --json` prints.
    """
    return {"$schema": DIALECT, **CostVariants.model_json_schema(by_alias=True, mode="serialization")}
