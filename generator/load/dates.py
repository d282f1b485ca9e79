"""What a date rule of a market or a kind may say of itself.

Whether the traits and topics it names exist is checked by ``references``.
"""

from collections.abc import Iterable

from generator.load.faults import Faults
from generator.load.inline import TRAIT
from generator.model.dates import DateRule

_LONGEST = 50  # years; a longer time is a slip of the unit


def check_dates(rules: Iterable[DateRule], faults: Faults) -> None:
    """Check the rules of one file."""
    seen: set[str] = set()
    for rule in rules:
        if not TRAIT.fullmatch(rule.id):
            faults.add(f'"{rule.id}" is no name for a date', rule.title.source, 'write kebab-case, such as "gas-hose"')
        if rule.id in seen:
            faults.add(f'two dates are called "{rule.id}"', rule.title.source)
        seen.add(rule.id)
        _check_every(rule, faults)


def _check_every(rule: DateRule, faults: Faults) -> None:
    if rule.every is None and rule.counts_from != "stamped":
        faults.add(f'date "{rule.id}" does not say after how long', rule.title.source, 'write "every: 5 year"')
    for name, every in (("every", rule.every), ("then_every", rule.then_every)):
        if every is None:
            continue
        if rule.counts_from == "stamped":
            faults.add(f'date "{rule.id}" is stamped on the part, so it has no "{name}"', every.source)
        months = float(every.value.to("month").magnitude)
        if not 1 <= months <= 12 * _LONGEST or abs(months - round(months)) > 1e-6:
            message = f'"{name}" of date "{rule.id}" is no count of months or years'
            faults.add(message, every.source, f"write 12 month or 1 year, at most {_LONGEST} year")
