"""Printed matter of one van: labels for its places, booklet, walk-round sheet, card and calendar."""

from collections.abc import Mapping

from generator.model.manual import Manual
from generator.model.paper import Paper, Whole
from generator.model.specs import LabelStock
from generator.paper.labels import labels
from generator.paper.stock import USUAL


def paper(
    manual: Manual,
    address: str,
    stock: LabelStock | None = None,
    signs: Mapping[str, str] | None = None,
    whole: Whole | None = None,
) -> Paper:
    """Return what is printed for one van: its labels, and with ``whole`` everything else too.

    Args:
        manual: The van's manual; for labels only its places, language, model and chassis tail are used.
        address: Where the manual is published, ending in a slash: ``https://vans.example/7K3QX9F4WM/``. Where that is
            not known yet, "": then there are no labels, and no codes to scan.
        stock: The dealer's label sheets; without it 21 labels of 63.5 x 38.1 mm on A4.
        signs: Safety signs as SVG by code.
        whole: What else there is to print.

    Raises:
        PublishError: the stock is no sheet of labels or too small, a label does not read back from the finished sheet
            as its own address, or a text cannot be printed.
    """
    files: dict[str, bytes] = {}
    report = None
    if manual.labels and address:
        choice = whole.labels if whole else None
        files["labels.pdf"], report = labels(manual, address, stock or USUAL, signs, choice)
    return Paper(files=files, labels=report)
