"""Words of a PDF, read by poppler as any reader of PDF files would."""

import subprocess


def words_of(pdf: bytes) -> list[str]:
    """Words of each page in the order in which they were set, one blank between."""
    command = ["pdftotext", "-raw", "-enc", "UTF-8", "-", "-"]
    told = subprocess.run(command, input=pdf, capture_output=True, check=True).stdout.decode("utf8")
    # every page ends with a form feed; a long word may be broken at a place that is not seen
    return [" ".join(page.replace("\u200b", "").split()) for page in told.split("\f")[:-1]]
