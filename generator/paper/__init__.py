"""Printed matter of one van: labels for its places, booklet, walk-round sheet, card and calendar."""

from collections.abc import Mapping

from generator.model.manual import Manual
from generator.model.paper import LabelChoice, Paper, Whole
from generator.model.specs import LabelStock
from generator.paper.labels import labels
from generator.paper.stock import USUAL
from generator.paper.whole import whole_paper


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
    notes: dict[str, str] = {}
    report = None
    if manual.labels and address:
        files["labels.pdf"], report = labels(manual, address, stock or USUAL, signs)
    if whole:
        for name, data, note in whole_paper(manual, address, stock or USUAL, whole):
            files[name], notes[name] = data, note
    return Paper(files=files, labels=report, notes=notes)


def some_labels(
    manual: Manual, address: str, stock: LabelStock | None, signs: Mapping[str, str], choice: LabelChoice
) -> Paper:
    """Return labels alone: from a position of the first sheet on, or of some places.

    Raises:
        PublishError: as for ``paper``; or there is no such position or place.
    """
    pdf, report = labels(manual, address, stock or USUAL, signs, choice)
    return Paper(files={"labels-some.pdf": pdf}, labels=report)
