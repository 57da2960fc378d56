"""The card of a piece and the labels for tubs, read back from the PDF."""

import io
import re
from datetime import UTC, datetime
from typing import Any

import pypdf
import pytest

from pourwright.sheets import lot_labels
from pourwright.sheets.codes import qr_picture
from pourwright.sheets.lot_labels import LotLabel, labels_pdf
from pourwright.sheets.piece_card import PieceCard, card_pdf

CARD: dict[str, Any] = {
    "paper": "A4",
    "number": 7,
    "title": "Hourglass stool",
    "variant": "main",
    "invented": True,
    "size": "280 × 280 × 450 mm",
    "facts": [("weighs", "31.40 kg", "")],
    "lots": [("3", "pail 7", "2.00 kg")],
    "care": [("Heat", "Keep it below 48 °C.")],
    "note": "for the show",
    "plan": "ab" * 32,
    "version": "0.1.0",
    "finished": datetime(2026, 11, 10, 16, tzinfo=UTC),
}
POINTS = 72 / 25.4


def read(pdf: bytes) -> tuple[list[str], tuple[float, float]]:
    """Words of each page, and the size of the first [mm]."""
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    box = reader.pages[0].mediabox
    size = (round(float(box.width) / POINTS), round(float(box.height) / POINTS))
    return [re.sub(r"\s+", " ", page.extract_text()) for page in reader.pages], size


def label(number: int, **more: Any) -> LotLabel:
    told = {"name": f"pail {number}", "what": ["resin", "part A"], "dates": [("Opened", "")]}
    return LotLabel(number=number, **{**told, **more})


def test_a_card_says_what_the_piece_is_on_half_a_sheet() -> None:
    (text,), size = read(card_pdf(PieceCard(**CARD)))
    for words in (
        "Hourglass stool",
        "No. 7",
        "invented",
        "31.40 kg",
        "280 × 280 × 450 mm",
        "pail 7",
        "48 °C",
        "for the show",
        "ab" * 32,
    ):
        assert words in text
    # ISO 216: A5
    assert size == (148, 210)


def test_a_card_for_letter_paper_is_half_of_it() -> None:
    # 5 1/2 by 8 1/2 in
    assert read(card_pdf(PieceCard(**CARD | {"paper": "letter"})))[1] == (140, 216)


@pytest.mark.parametrize("kind", ["image/heic", "image/jpeg"])
def test_a_photo_that_cannot_be_printed_is_left_out(kind: str) -> None:
    plain = card_pdf(PieceCard(**CARD))
    assert card_pdf(PieceCard(**CARD | {"photo": (kind, b"\xff\xd8\xff no photo")})) == plain


def test_what_to_mind_is_never_torn_apart() -> None:
    care = [(f"Word {number}", "so much to mind. " * 12) for number in range(6)]
    lots = [(str(number), f"pail {number}", "1 kg") for number in range(30)]
    texts, _ = read(card_pdf(PieceCard(**CARD | {"care": care, "lots": lots})))
    assert len(texts) == 2
    assert all("Word 0" not in text or "Word 5" in text for text in texts)


def test_words_of_the_maker_are_set_as_they_are() -> None:
    (text,), _ = read(card_pdf(PieceCard(**CARD | {"note": "#panic() *1* $2$ @3"})))
    assert "#panic() *1* $2$ @3" in text


def test_labels_stand_ten_to_a_page() -> None:
    texts, size = read(labels_pdf([label(number) for number in range(1, 12)], "A4"))
    assert size == (210, 297)
    assert len(texts) == 2
    assert all(f"pail {number}" in texts[0] for number in range(1, 11))
    assert "lot 11" in texts[1]
    assert read(labels_pdf([label(1)], "letter"))[1] == (216, 279)


def test_a_code_holds_plain_words_and_no_address(monkeypatch: pytest.MonkeyPatch) -> None:
    coded: list[str] = []

    def noted(text: str) -> bytes:
        coded.append(text)
        return qr_picture(text)

    monkeypatch.setattr(lot_labels, "qr_picture", noted)
    labels_pdf([label(12)], "A4")
    assert coded == ["pourwright lot 12"]
