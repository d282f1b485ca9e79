"""Printed matter of one van: for now the labels for its places."""

from generator.model.manual import Manual
from generator.model.paper import Paper
from generator.model.specs import LabelStock
from generator.paper.labels import labels
from generator.paper.stock import USUAL


def paper(manual: Manual, address: str, stock: LabelStock | None = None) -> Paper:
    """Return everything that is printed for one van.

    Args:
        manual: The van's manual; only its places, language, model and chassis tail are used.
        address: Where the manual is published, ending in a slash: ``https://vans.example/7K3QX9F4WM/``.
        stock: The dealer's label sheets; without it 21 labels of 63.5 x 38.1 mm on A4.

    Raises:
        PublishError: the stock is no sheet of labels or too small, or a label does not read back
            from the finished sheet as its own address.
    """
    if not manual.labels:
        return Paper(files={})
    pdf, report = labels(manual, address, stock or USUAL)
    return Paper(files={"labels.pdf": pdf}, labels=report)
