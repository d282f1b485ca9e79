"""What writers keep beside blocks: outline, safety messages, markets and terms.

Whether the topics and traits they name exist is checked by ``references``.
"""

import re
from pathlib import Path

from generator import units
from generator.errors import Source, nearest
from generator.load.dates import check_dates
from generator.load.documents import file_name
from generator.load.faults import Faults
from generator.load.inline import TOPIC, TRAIT
from generator.load.plain_text import check_words
from generator.load.reader import Reader
from generator.load.sources import read_record, read_value, yaml_files
from generator.model.content import Market, OrderRule, Outline, OutlinePage, SafetyMessage, Terms
from generator.model.handover import Handover, LabelSign
from generator.model.sourced import Given

# File names that pages of the program's own have, and names that Windows keeps for devices; compared without case.
_OWN_PAGES = (
    *("index", "404", "not-yet", "sw", "assets", "app", "edition", "numbers", "safety"),
    *("lights-and-sounds", "contents", "about", "what-changed", "snags"),
    *("plan-loading", "plan-car", "plan-days", "plan-mains"),
)
_NUMBERS = "numbers-"  # the page of a group of numbers begins like this
_DEVICES = ["con", "nul", "aux", "prn", *(f"{port}{digit}" for port in ("com", "lpt") for digit in range(10))]
_PLACE_CODE = re.compile(r"[abcdh][0-9]{1,2}")
_SIGN = re.compile(r"[EFMPW][0-9]{3}")


def read_outline(root: Path, faults: Faults) -> Outline | None:
    """Return the outline, its page ids and topics checked."""
    outline = read_record(root, root / "content/outline.yaml", Outline, Reader(faults))
    if outline is not None:
        _check_pages(outline, faults)
    return outline


def _check_pages(outline: Outline, faults: Faults) -> None:
    for phase in outline.phases:
        if not TRAIT.fullmatch(phase) or phase in (*_OWN_PAGES, *_DEVICES) or phase.startswith(_NUMBERS):
            faults.add(f'"{phase}" is no name for a phase', outline.source, 'write kebab-case, such as "laying-up"')
    _check_sections(outline, faults)
    reserved = {*_OWN_PAGES, *_DEVICES, *outline.phases}
    seen: dict[str, Source] = {}
    topics: dict[str, Source] = {}
    for page in (page for section in outline.sections for page in section.pages):
        _check_page_id(page, reserved, seen, faults)
        for topic in page.topics:
            if not TOPIC.fullmatch(topic.value):
                faults.add(f'"{topic.value}" is no topic', topic.source, 'such as "gas/open"')
            if topic.value in topics:
                first = f"first on line {topics[topic.value].line}"
                faults.add(f'topic "{topic.value}" stands on two pages', topic.source, first)
            topics.setdefault(topic.value, topic.source)
        if not page.topics:
            faults.add(f'page "{page.id.value}" has no topic', page.id.source)
        elif len(page.topics) > 1 and page.title is None:
            faults.add(f'page "{page.id.value}" has several topics and no title', page.id.source, "give it a title")


def _check_sections(outline: Outline, faults: Faults) -> None:
    """Refuse two sections that a link could not tell apart: signs and capitals make no other title."""
    seen: dict[str, str] = {}
    for section in outline.sections:
        at = section.pages[0].id.source if section.pages else outline.source
        key = re.sub(r"[^a-z0-9]+", "-", section.title.lower()).strip("-")
        if key in seen or not key:
            faults.add(f'two sections are called "{section.title}"' if key else "a section has no name", at)
        seen.setdefault(key, section.title)


def _check_page_id(page: OutlinePage, reserved: set[str], seen: dict[str, Source], faults: Faults) -> None:
    name, at = page.id.value, page.id.source
    if not TRAIT.fullmatch(name):
        faults.add(f'"{name}" is no name for a page', at, 'write kebab-case, such as "open-the-gas"')
    lower = name.lower()
    if lower in reserved or lower.startswith(_NUMBERS) or _PLACE_CODE.fullmatch(lower):
        faults.add(f'the page name "{name}" is taken', at, "the program or Windows uses it; choose another")
    if name.lower() in seen:
        faults.add(f'two pages are called "{name}"', at, f"first on line {seen[name.lower()].line}")
    seen.setdefault(name.lower(), at)


def read_safety(root: Path, faults: Faults) -> dict[str, SafetyMessage]:
    """Return the safety messages by id, which is the file name."""
    messages = {}
    for path in yaml_files(root / "content/safety"):
        message = read_record(root, path, SafetyMessage, Reader(faults), id=path.stem)
        if message is not None:
            messages[message.id] = message
            if message.sign is not None and not _SIGN.fullmatch(message.sign):
                faults.add(f'"{message.sign}" is no ISO 7010 code', message.source, 'such as "W021"')
    return messages


def read_markets(root: Path, faults: Faults) -> dict[str, Market]:
    """Return the markets by id, which is the file name."""
    markets = {}
    for path in yaml_files(root / "content/markets"):
        market = read_record(root, path, Market, Reader(faults), id=path.stem)
        if market is not None:
            markets[market.id] = market
            _check_market(market, faults)
    return markets


def _check_market(market: Market, faults: Faults) -> None:
    gauge = ((market.gauge_unit, "bar"),) if market.gauge_unit else ()
    for unit, like in ((market.pressure_unit, "bar"), *gauge, (market.speed_unit, "km/h")):
        try:
            units.parse(f"1 {unit}", like)
        except units.UnitError:
            faults.add(f'"{unit}" is no unit like {like}', market.source)
    low, high = market.ball_load_share.value
    if low > high:
        faults.add("the smaller share comes first", market.ball_load_share.source, "write [5 percent, 7 percent]")
    if not market.pitch_ratings.value:
        faults.add("no rating of a pitch is given", market.pitch_ratings.source, "write [10 A, 16 A]")
    check_dates(market.dates, faults)
    for kerb in (market.kerb_braked, market.kerb_unbraked):
        if kerb and not 0 < kerb.share.value.to("percent").magnitude <= 200:
            faults.add("this is no share of a car's mass", kerb.share.source, "write 85 percent")


def read_terms(root: Path, faults: Faults) -> Terms | None:
    """Return trade words, words that are asked alike, and words tied to traits."""
    terms = read_record(root, root / "content/terms.yaml", Terms, Reader(faults))
    if terms is not None:
        _check_trade(terms, {path.stem for path in yaml_files(root / "content/markets")}, faults)
    return terms


def _check_trade(terms: Terms, markets: set[str], faults: Faults) -> None:
    """Check that each trade word is there for every market, and for no other."""
    for term, words in terms.trade.items():
        for market in sorted(set(words) - {*markets, "default"}):
            faults.add(f'term "{term}": unknown market "{market}"', terms.source, nearest(market, markets))
        lacking = sorted(markets - set(words))
        if lacking and "default" not in words:
            faults.add(f'term "{term}" has no word for {", ".join(lacking)}', terms.source, 'give it a "default"')


def read_order(root: Path, faults: Faults) -> tuple[OrderRule, ...]:
    """Return which marked actions stand before which; a workspace may have no such rules."""
    path = root / "content/order.yaml"
    return (read_value(root, path, tuple[OrderRule, ...], faults) or ()) if path.exists() else ()


def read_handover(root: Path, faults: Faults) -> Handover | None:
    """Return what is prepared, shown first and handed over; a workspace may have no such file."""
    path = root / "content/handover.yaml"
    handover = read_record(root, path, Handover, Reader(faults)) if path.exists() else None
    if handover is not None:
        check_words(handover, Source(file_name(root, path)), faults)
        for time in (handover.time, handover.phone_time):
            if not time.value.magnitude > 0:
                faults.add("this time is not above zero", time.source)
    return handover


def read_label_signs(root: Path, faults: Faults) -> tuple[LabelSign, ...]:
    """Return which signs stand on labels; a workspace may have no such file."""
    path = root / "content/labels.yaml"
    return (read_value(root, path, tuple[LabelSign, ...], faults) or ()) if path.exists() else ()


def topics_of(outline: Outline) -> dict[str, Given[str]]:
    """Return the topics of an outline as written."""
    return {topic.value: topic for section in outline.sections for page in section.pages for topic in page.topics}
