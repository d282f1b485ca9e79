"""What ``show`` says of a van: traits, topics, chassis number, facts, as plain text."""

from collections.abc import Iterator

from generator.commands.chassis import note
from generator.model.caravan import Trait
from generator.model.manual import TopicChoice
from generator.model.sourced import Fact, Unknown
from generator.pipeline.examining import Examined
from generator.units import Quantity, unit_text


def description(examined: Examined) -> str:
    """Return everything known of one van and why, as far as it could be made."""
    caravan = examined.caravan
    parts = [
        f"{caravan.model}, {caravan.market.name}, sold by {caravan.dealer.name.value} ({examined.file})",
        f"chassis {caravan.chassis}: {note(caravan.chassis)}",
        _listed("Traits", (_trait(caravan.traits[name]) for name in sorted(caravan.traits))),
        _listed("Facts", (_fact(path, fact) for path, fact in sorted(caravan.facts.items()))),
    ]
    if examined.manual:
        choices = examined.manual.choices
        parts.append(_listed("Topics in", (_choice(each) for each in choices if each.block)))
        parts.append(_listed("Topics out", (_choice(each) for each in choices if not each.block)))
    else:
        parts.append("Topics: none, since the van has faults")
    return "\n\n".join(parts)


def _trait(trait: Trait) -> str:
    return trait.reason if trait.reason.startswith(f"{trait.id}: ") else f"{trait.id}: {trait.reason}"


def _listed(title: str, lines: Iterator[str]) -> str:
    found = list(lines)
    return "\n".join([f"{title} ({len(found)})", *(f"  {line}" for line in found)])


def _choice(choice: TopicChoice) -> str:
    block = f" ({choice.block})" if choice.block else ""
    return f"{choice.topic}{block}: {choice.reason}"


def _fact(path: str, fact: Fact) -> str:
    return f"{path}: {_value(fact.value)}  [{fact.origin.value}, {fact.source}]"


def _value(value: Quantity | int | str | Unknown) -> str:
    if isinstance(value, Unknown):
        return value.value
    if isinstance(value, int | str):
        return str(value)
    return f"{value.magnitude:g} {unit_text(str(value.units))}".strip()
