"""A product of an order list: its job, its plan as it lies there, its hours and its prices."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from pourwright.app.booking.places import PlanOnDisk, job_folder, plan_on_disk
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.of_plan import taken_of_plan
from pourwright.app.pricing.planned import planned_beside
from pourwright.app.pricing.quotes import Quotes, quotes_beside
from pourwright.app.which import chosen_variants
from pourwright.app.working.standing import plan_of
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from pourwright.jobs.orders import OrderList
from pourwright.jobs.orders_sections import Product
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.prices import PriceList


@dataclass(frozen=True)
class Made:
    """A product and all it is told from.

    Parameters
    ----------
    row : Product
        As the list has it.
    look : CostLook
        Job, plan, mold and prices; of prices perhaps none.
    plan : PlanDocument
        Its plan.
    old : str
        Why its plan is old; empty where it is of today's choices.
    hash : str
        sha256 of its plan.json.
    """

    row: Product
    look: CostLook
    plan: PlanDocument
    old: str
    hash: str

    @property
    def folder(self) -> Path:
        """Of its job."""
        return self.look.job.path.parent

    @property
    def priced(self) -> bool:
        """Whether there is a price list for it."""
        return bool(self.look.quotes.listed.digest)


def products_of(orders: OrderList, today: date) -> list[Made]:
    """Read every product of a list.

    Raises
    ------
    UserError
        For a job that is not there, and for one without a plan, with the line of the list.
    """
    return [_made(orders, at, row, today) for at, row in enumerate(orders.product)]


def _made(orders: OrderList, at: int, row: Product, today: date) -> Made:
    place = orders.path.parent / row.job
    where = orders.where(("product", at, "job"))
    try:
        folder = job_folder(place)
    except UserError as error:
        raise UserError(
            f"no job is there: {row.job}", where=where, todo="name the folder of a job, from this file's own"
        ) from error
    _refuse_mineral(folder, row, where)
    lying = _plan(orders, at, folder)
    job = chosen_variants(load_job(folder / "job.toml"), lying.variant)[0]
    quotes = quotes_beside(job, today) or Quotes(
        PriceList(format=1, currency=lying.plan.job.currency), job, today
    )
    planned = planned_beside(job, lying.plan, lying.place)
    look = CostLook(job, planned, quotes, taken_of_plan(lying.plan, planned, job, shop_materials(job)))
    standing = plan_of(job.path, job.variant_name)
    old = "; ".join(standing["because"]) or "made by another version" if standing["old"] else ""
    return Made(row, look, lying.plan, old, lying.hash)


def _refuse_mineral(folder: Path, row: Product, where: str) -> None:
    job = load_job(folder / "job.toml")
    if job.casting.material in shop_materials(job).mineral:
        raise UserError(
            f"{row.name} is cast of {job.casting.material}, which has no plan of pours, so no dates",
            where=where,
            allowed="jobs of resin",
            todo="leave it out of the list",
        )


def _plan(orders: OrderList, at: int, folder: Path) -> PlanOnDisk:
    row = orders.product[at]
    try:
        return plan_on_disk(folder, row.variant)
    except UserError as error:
        named = "variant" if row.variant or "variant" in error.what else "job"
        todo = f"pourwright plan {folder / 'job.toml'}"
        if "variant" in error.what and error.allowed:
            todo = "name one that is planned as variant = .., or plan it"
        raise UserError(
            f"{row.name}: {error.what}",
            where=orders.where(("product", at, named)),
            allowed=error.allowed,
            todo=todo,
        ) from error
