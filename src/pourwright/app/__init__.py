"""What is done in the shop, one function each: describe a shape, start a job, check, plan, heat, fit."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pourwright.app.answering.answers import answers_of as answers_of
    from pourwright.app.answering.desk import Desk as Desk
    from pourwright.app.answering.tape import tape_of as tape_of
    from pourwright.app.answering.trial import trial_of as trial_of
    from pourwright.app.booking.by_hand import ByHand as ByHand, enter_by_hand as enter_by_hand
    from pourwright.app.booking.cards import (
        piece_pdf as piece_pdf,
        piece_told as piece_told,
        pieces_told as pieces_told,
    )
    from pourwright.app.booking.carrying import (
        book_json as book_json,
        export_book as export_book,
        import_book as import_book,
    )
    from pourwright.app.booking.casting_log import (
        casting_told as casting_told,
        castings_told as castings_told,
    )
    from pourwright.app.booking.counting import (
        add_lot as add_lot,
        reserve_job as reserve_job,
        take_lot as take_lot,
        tell_stock as tell_stock,
    )
    from pourwright.app.booking.finishing import change_card as change_card, finish_piece as finish_piece
    from pourwright.app.booking.keeping import keep_no_more as keep_no_more
    from pourwright.app.booking.labelling import labels_of as labels_of
    from pourwright.app.booking.logging import LogReport as LogReport, log_job as log_job
    from pourwright.app.booking.printing import write_card as write_card, write_labels as write_labels
    from pourwright.app.booking.sent import take_in_book as take_in_book
    from pourwright.app.booking.shelves import lot_told as lot_told, stock_told as stock_told
    from pourwright.app.booking.showing import show_book as show_book
    from pourwright.app.checking import CheckReport as CheckReport, check_job as check_job
    from pourwright.app.cutting.cutting import (
        CutReport as CutReport,
        cut_job as cut_job,
        cut_with_paper as cut_with_paper,
    )
    from pourwright.app.cutting.offcut import OffcutAsked as OffcutAsked, offcut_job as offcut_job
    from pourwright.app.filling.filling import FillReport as FillReport, fill_job as fill_job
    from pourwright.app.fitting import FitReport as FitReport, fit_resin as fit_resin
    from pourwright.app.heating import heat_job as heat_job
    from pourwright.app.leaking.leak import LeakReport as LeakReport, leak_job as leak_job
    from pourwright.app.leaking.told import (
        LeakTold as LeakTold,
        leak_goes_on as leak_goes_on,
        leak_told as leak_told,
    )
    from pourwright.app.learning.shop import learn_in_shop as learn_in_shop
    from pourwright.app.measuring.attaching import (
        attach_logger as attach_logger,
        take_logger_back as take_logger_back,
    )
    from pourwright.app.measuring.logger_file import LoggerTold as LoggerTold
    from pourwright.app.measuring.measured import measured_of as measured_of
    from pourwright.app.measuring.of_job import (
        log_logger as log_logger,
        measured_job as measured_job,
        read_probes as read_probes,
    )
    from pourwright.app.measuring.shown import measured_csv as measured_csv, measured_svg as measured_svg
    from pourwright.app.molding.molding import MoldReport as MoldReport, mold_job as mold_job
    from pourwright.app.ordering.buying import BuyingReport as BuyingReport, buy_for_orders as buy_for_orders
    from pourwright.app.ordering.orders import OrdersReport as OrdersReport, date_orders as date_orders
    from pourwright.app.planning import PlanDocuments as PlanDocuments, plan_job as plan_job
    from pourwright.app.pricing.page import Costing as Costing
    from pourwright.app.pricing.pricing import CostReport as CostReport, cost_job as cost_job
    from pourwright.app.pricing.side_by_side import (
        VariantsReport as VariantsReport,
        cost_variants as cost_variants,
    )
    from pourwright.app.pricing.starting import new_prices as new_prices
    from pourwright.app.shapes import ShapeReport as ShapeReport, describe_shape as describe_shape
    from pourwright.app.shopping.page import OrdersPage as OrdersPage
    from pourwright.app.starting import (
        JobChoices as JobChoices,
        job_choices as job_choices,
        new_job as new_job,
    )
    from pourwright.app.ticking.page import Sawing as Sawing, lists_to_saw as lists_to_saw
    from pourwright.app.warming import warm_up as warm_up

_PUBLIC = {
    "ByHand": "booking.by_hand",
    "CheckReport": "checking",
    "CostReport": "pricing.pricing",
    "Costing": "pricing.page",
    "Desk": "answering.desk",
    "FillReport": "filling.filling",
    "FitReport": "fitting",
    "JobChoices": "starting",
    "LeakReport": "leaking.leak",
    "LeakTold": "leaking.told",
    "LogReport": "booking.logging",
    "LoggerTold": "measuring.logger_file",
    "MoldReport": "molding.molding",
    "PlanDocuments": "planning",
    "Sawing": "ticking.page",
    "ShapeReport": "shapes",
    "VariantsReport": "pricing.side_by_side",
    "add_lot": "booking.counting",
    "answers_of": "answering.answers",
    "attach_logger": "measuring.attaching",
    "book_json": "booking.carrying",
    "casting_told": "booking.casting_log",
    "castings_told": "booking.casting_log",
    "change_card": "booking.finishing",
    "check_job": "checking",
    "CutReport": "cutting.cutting",
    "OffcutAsked": "cutting.offcut",
    "cut_job": "cutting.cutting",
    "cut_with_paper": "cutting.cutting",
    "offcut_job": "cutting.offcut",
    "cost_job": "pricing.pricing",
    "BuyingReport": "ordering.buying",
    "buy_for_orders": "ordering.buying",
    "OrdersPage": "shopping.page",
    "OrdersReport": "ordering.orders",
    "date_orders": "ordering.orders",
    "cost_variants": "pricing.side_by_side",
    "describe_shape": "shapes",
    "enter_by_hand": "booking.by_hand",
    "export_book": "booking.carrying",
    "fill_job": "filling.filling",
    "finish_piece": "booking.finishing",
    "fit_resin": "fitting",
    "heat_job": "heating",
    "import_book": "booking.carrying",
    "job_choices": "starting",
    "keep_no_more": "booking.keeping",
    "labels_of": "booking.labelling",
    "leak_goes_on": "leaking.told",
    "leak_job": "leaking.leak",
    "leak_told": "leaking.told",
    "learn_in_shop": "learning.shop",
    "lists_to_saw": "ticking.page",
    "log_job": "booking.logging",
    "log_logger": "measuring.of_job",
    "lot_told": "booking.shelves",
    "measured_csv": "measuring.shown",
    "measured_job": "measuring.of_job",
    "measured_of": "measuring.measured",
    "measured_svg": "measuring.shown",
    "mold_job": "molding.molding",
    "new_job": "starting",
    "new_prices": "pricing.starting",
    "piece_pdf": "booking.cards",
    "piece_told": "booking.cards",
    "pieces_told": "booking.cards",
    "plan_job": "planning",
    "read_probes": "measuring.of_job",
    "reserve_job": "booking.counting",
    "show_book": "booking.showing",
    "stock_told": "booking.shelves",
    "take_in_book": "booking.sent",
    "take_logger_back": "measuring.attaching",
    "take_lot": "booking.counting",
    "tape_of": "answering.tape",
    "tell_stock": "booking.counting",
    "trial_of": "answering.trial",
    "warm_up": "warming",
    "write_card": "booking.printing",
    "write_labels": "booking.printing",
}
__all__ = sorted(_PUBLIC)  # noqa: PLE0605 - names are looked up on first use


def __getattr__(name: str) -> object:
    if name not in _PUBLIC:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_PUBLIC[name]}"), name)
