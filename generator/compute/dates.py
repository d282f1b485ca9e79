"""When something has to be looked at, tested or renewed: by market and by what is fitted.

The rules themselves are written in the files of markets and kinds.
"""

from calendar import monthrange
from collections.abc import Container, Iterable
from datetime import date

from generator.compute.declare import Recipe, Rows, table
from generator.compute.inputs import Inputs
from generator.errors import Fault, Level
from generator.model.caravan import Caravan
from generator.model.dates import DateRule, Due
from generator.model.numbers import Worked
from generator.model.sourced import Given
from generator.model.wording import cited
from generator.units import Quantity, Rounding

_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
_FROM = {"built": "the van was built", "handed_over": "the handover"}


def due_dates(caravan: Caravan) -> tuple[Due, ...]:
    """Return every date of a van: soonest first, then those without a day, in the order they are written.

    A rule of the market takes the place of one of a kind with the same id.
    """
    dues = [_due(rule, caravan) for rule in _rules(caravan)]
    return tuple(sorted(dues, key=lambda due: (due.day is None, due.day or date.max)))


def _rules(caravan: Caravan) -> tuple[DateRule, ...]:
    of_kinds = [rule for fitted in caravan.equipment for rule in fitted.kind.dates]
    return tuple({rule.id: rule for rule in _holding((*of_kinds, *caravan.market.dates), caravan.traits)}.values())


def _holding(rules: Iterable[DateRule], traits: Container[str]) -> Iterable[DateRule]:
    return (rule for rule in rules if all(trait.value in traits for trait in rule.when))


def _due(rule: DateRule, caravan: Caravan) -> Due:
    first = _months(rule.every)
    again = _months(rule.then_every) or first
    start = _start(rule, caravan)
    day = months_later(start, first) if start and first else None
    return Due(
        id=rule.id,
        title=rule.title.value,
        day=day,
        every_months=again,
        when=_when(rule, day, first, again, caravan),
        why=rule.why,
        source=cited(rule.source, rule.read_on),
        topic=rule.topic.value if rule.topic else "",
    )


def _start(rule: DateRule, caravan: Caravan) -> date | None:
    """Return the day a date is counted from; None where the part itself says it, or that day is not known."""
    return {"built": caravan.built, "handed_over": caravan.handed_over, "stamped": None}[rule.counts_from]


def _months(every: Given[Quantity] | None) -> int:
    return round(float(every.value.to("month").magnitude)) if every else 0


def _when(rule: DateRule, day: date | None, first: int, again: int, caravan: Caravan) -> str:
    """Return when something comes due, in words."""
    if not first:
        return "By the date on it"
    if day is None:
        return f"{_span(first)} after {_FROM[rule.counts_from]}, then {_every(again)}"
    if _passed(day, caravan):
        return f"{words(day)}, before the handover: ask your dealer whether it was done"
    return f"{words(day)}, then {_every(again)}"


def _passed(day: date, caravan: Caravan) -> bool:
    """Return whether a day lay behind when the van was handed over."""
    return caravan.handed_over is not None and day <= caravan.handed_over


def months_later(start: date, months: int) -> date:
    """Return the same day ``months`` later, or the last day of that month where it is shorter."""
    year, month = divmod(start.year * 12 + start.month - 1 + months, 12)
    return date(year, month + 1, min(start.day, monthrange(year, month + 1)[1]))


def words(day: date) -> str:
    """Return a day as it is written in every market here: "15 June 2031"."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def _span(months: int) -> str:
    """Return a time as a reader says it: "1 year", "18 months"."""
    count, unit = (months // 12, "year") if months % 12 == 0 else (months, "month")
    return f"{count} {unit}" if count == 1 else f"{count} {unit}s"


def _every(months: int) -> str:
    return f"every {_span(months).removeprefix('1 ')}"


@table(
    "dates",
    group="Dates",
    title="Dates to keep",
    needs=("van.dates",),
    head=("What", "When", "Why"),
    rounding=Rounding.DOWN,
    method=(
        "The day the van was built or handed over, and the time after it that is usual here. A date stamped or written"
        " on the part itself wins."
    ),
    source="each row names its own",
)
def dates(given: Inputs) -> Rows:
    """Return a row for each date, soonest first."""
    caravan = given.dated
    dues = due_dates(caravan)
    # The source stands with the reason: a fourth column is wider than a phone.
    rows = tuple((due.title, due.when, f"{due.why} From: {due.source}.") for due in dues)
    passed = [due for due in dues if due.day and _passed(due.day, caravan)]
    worked = tuple(_worked(rule, start) for rule in _rules(caravan) if rule.every and (start := _start(rule, caravan)))
    return Rows(
        rows=rows,
        due=tuple((due.day, due.every_months) if due.day else None for due in dues),
        note=_note(caravan),
        worked=worked,
        faults=tuple(_passed_fault(due, caravan) for due in passed),
    )


def _worked(rule: DateRule, start: date) -> Worked:
    """Return the first time, added to the day it is counted from."""
    first = _months(rule.every)
    day = words(months_later(start, first))
    added = f"{words(start)} + {first} month{'' if first == 1 else 's'}"
    return Worked(label=rule.title.value, formula=(added,), result=day)


def _note(caravan: Caravan) -> str:
    known = ((caravan.built, "Built"), (caravan.handed_over, "Handed over"))
    told = "".join(f" {what} on {words(day)}." for day, what in known if day)
    return f"A date stamped or written on the part itself wins over this table.{told}"


def _passed_fault(due: Due, caravan: Caravan) -> Fault:
    message = f"{due.title}: due on {due.day}, before the handover"
    return Fault(message, caravan.source, "have it done, and hand over the proof", Level.WARNING)


RECIPES: tuple[Recipe, ...] = (dates,)
