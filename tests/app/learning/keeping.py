"""What a shop has learnt, put into its book without the records behind it."""

from pathlib import Path

from pourwright.app.booking.places import book_place
from pourwright.records import Learned, keep_learned, open_book


def keep(job: Path, quantity: str, subject: str, mean: float, records: int = 6, prior: float = 0.03) -> int:
    """Keep a number in the book of the shop that a job file lies in; its line in the book."""
    row = Learned(
        quantity=quantity, subject=subject, prior_mean=prior, prior_sd=0.01, mean=mean, sd=0.002,
        records=records,
    )  # fmt: skip
    with open_book(book_place(job.parent)) as book:
        return keep_learned(book, row).id
