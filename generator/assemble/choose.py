"""Chooses the one block that answers each topic in a van, and says why.

Which topics there are is left to the outline.
"""

from collections.abc import Mapping

from generator.assemble.faults import Faults
from generator.assemble.van import Van
from generator.model.blocks import Block
from generator.model.content import Content
from generator.model.manual import TopicChoice

_NOBODY = "no block answers it"


def outline_topics(content: Content) -> tuple[str, ...]:
    """Return every topic of the outline in reading order, each once."""
    pages = (page for section in content.outline.sections for page in section.pages)
    return tuple(dict.fromkeys(topic.value for page in pages for topic in page.topics))


def choose(content: Content, van: Van, faults: Faults) -> tuple[Mapping[str, Block], tuple[TopicChoice, ...]]:
    """Return the chosen block by topic, and for every topic the reason in words.

    Faults: two blocks that answer one topic in this van.
    """
    topics = outline_topics(content)
    by_topic = {topic: [block for block in content.blocks if block.topic.value == topic] for topic in topics}
    answers: dict[str, Block] = {}
    choices = []
    for topic, blocks in by_topic.items():
        holding = [block for block in blocks if van.meets(block.applies)]
        if holding:
            answers[topic] = holding[0]
        for rival in holding[1:]:
            _two(holding[0], rival, van, faults)
        choices.append(_choice(topic, blocks, holding[0] if holding else None, van))
    return answers, tuple(choices)


def _two(first: Block, rival: Block, van: Van, faults: Faults) -> None:
    faults.add(
        f'topic "{first.topic.value}" has two blocks in {van.caravan.model} ({van.caravan.tail}): '
        f"{first.source.file} and {rival.source.file}",
        rival.topic.source,
        "make their applies exclude each other",
    )


def _choice(topic: str, blocks: list[Block], chosen: Block | None, van: Van) -> TopicChoice:
    if chosen is not None:
        return TopicChoice(topic=topic, block=chosen.id, reason=_why_in(chosen, van))
    reasons = [why_out(block, van) for block in blocks]
    if len(blocks) > 1:
        reasons = [f"{block.id}: {reason}" for block, reason in zip(blocks, reasons, strict=True)]
    return TopicChoice(topic=topic, block=None, reason="; ".join(reasons) or _NOBODY)


def _why_in(block: Block, van: Van) -> str:
    held = [van.caravan.traits[trait.value].reason for trait in block.applies.all]
    absent = [f"no {trait.value}" for trait in block.applies.none]
    return "applies: " + ", ".join(dict.fromkeys(held + absent)) if held or absent else "applies to every van"


def missing_traits(block: Block, van: Van) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the traits ``block`` needs and this van lacks, and those it excludes and this van has."""
    needs = tuple(trait.value for trait in block.applies.all if trait.value not in van.caravan.traits)
    excludes = tuple(trait.value for trait in block.applies.none if trait.value in van.caravan.traits)
    return needs, excludes


def why_absent(topic: str, content: Content, van: Van) -> str:
    """Return why ``topic`` is not answered in this van: nobody wrote it, or what its blocks ask for."""
    reasons = [why_out(block, van) for block in content.blocks if block.topic.value == topic]
    return "; ".join(reasons) or _NOBODY


def why_out(block: Block, van: Van) -> str:
    """Return why ``block`` is not in this van: "needs trait gas"."""
    needs, excludes = missing_traits(block, van)
    parts = [f"needs trait {trait}" for trait in needs]
    parts += [f"not with trait {trait} ({van.caravan.traits[trait].reason})" for trait in excludes]
    return ", ".join(parts)
