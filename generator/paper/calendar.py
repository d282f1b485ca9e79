"""This van's dates as an iCalendar file: services, inspections, replacements and tests, each with the page to read.

Written after RFC 5545; which dates there are was worked out before.
"""

import hashlib
from collections.abc import Iterable, Iterator, Mapping
from datetime import date

from generator.model.dates import Due
from generator.model.manual import Manual

_FOLD = 75  # octets a line may have without its end, RFC 5545 section 3.1
_REMIND = 6  # months between two dates from which on a reminder comes a fortnight before


def calendar(manual: Manual, address: str, day: date, edition: int) -> bytes:
    """Return the calendar of one van; the same dates keep their identity from one edition to the next.

    Args:
        manual: The van's manual.
        address: Where it is online, ending in a slash; "" where that is not known yet.
        day: Of the edition. Every entry is stamped with it, so that the same edition gives the same bytes.
        edition: Its number, 0 for a proof; calendars take a higher one for a newer version of an entry.
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//lockerleaf//owner manuals//EN",
        "CALSCALE:GREGORIAN",
        f"X-WR-CALNAME:{_escaped(f'{manual.model}, van {manual.tail}')}",
    ]
    pages = {topic: address + page.path for page in manual.pages for topic in page.topics} if address else {}
    for due in manual.dates:
        if due.day is not None:
            lines += _event(manual, due, due.day, pages.get(due.topic, ""), day, edition)
    lines += _stamped(manual, [due for due in manual.dates if due.day is None], pages, day, edition)
    lines.append("END:VCALENDAR")
    return "".join(_folded(line) for line in lines).encode()


def _event(manual: Manual, due: Due, first: date, target: str, day: date, edition: int) -> Iterator[str]:
    words = [due.why, f"{due.when}.", f"Source: {due.source}."]
    yield from _head(manual, due.id, first, day, edition)
    yield f"SUMMARY:{_escaped(f'{due.title}: {manual.model} {manual.tail}')}"
    if target:
        words.append(f"Read: {target}")
        yield f"URL:{target}"
    yield f"DESCRIPTION:{_escaped(' '.join(words))}"
    if due.every_months:
        yield f"RRULE:{_rule(first, due.every_months)}"
    if due.every_months >= _REMIND:
        yield from (
            "BEGIN:VALARM",
            "ACTION:DISPLAY",
            f"DESCRIPTION:{_escaped(due.title)}",
            "TRIGGER:-P14D",
            "END:VALARM",
        )
    yield "END:VEVENT"


def _stamped(manual: Manual, dues: Iterable[Due], pages: Mapping[str, str], day: date, edition: int) -> Iterator[str]:
    """Yield one entry for all dates that the parts themselves say: on the day of the edition, to read them off."""
    told = [
        f"{due.title}: {due.when}. {due.why}" + (f" Read: {pages[due.topic]}" if due.topic in pages else "")
        for due in dues
    ]
    if told:
        yield from _head(manual, "stamped", day, day, edition)
        yield f"SUMMARY:{_escaped(f'Dates to read off the parts: {manual.model} {manual.tail}')}"
        yield f"DESCRIPTION:{_escaped('Put each into your calendar.' + chr(10) + chr(10).join(told))}"
        yield "END:VEVENT"


def _head(manual: Manual, id_: str, first: date, day: date, edition: int) -> Iterator[str]:
    """Yield the start of an entry that fills a day and blocks nobody's time."""
    yield "BEGIN:VEVENT"
    yield f"UID:{_uid(manual.chassis, id_)}"
    yield f"DTSTAMP:{day:%Y%m%d}T000000Z"
    yield f"SEQUENCE:{edition}"
    yield f"DTSTART;VALUE=DATE:{first:%Y%m%d}"
    yield "TRANSP:TRANSPARENT"


def _uid(chassis: str, id_: str) -> str:
    """Return an identity of 122 bits of a digest, in the form of a UUID of version 8 (RFC 9562, section 5.8)."""
    digits = hashlib.sha256(f"lockerleaf {chassis} {id_}".encode()).hexdigest()
    variant = f"{int(digits[16], 16) & 3 | 8:x}"
    return f"{digits[:8]}-{digits[8:12]}-8{digits[13:16]}-{variant}{digits[17:20]}-{digits[20:32]}"


def _rule(first: date, months: int) -> str:
    """Return how it comes again; a day that a month does not have falls on that month's last."""
    rule = f"FREQ=MONTHLY;INTERVAL={months}" if months % 12 else f"FREQ=YEARLY;INTERVAL={months // 12}"
    if first.day <= 28:
        return rule
    days = ",".join(str(day) for day in range(28, first.day + 1))
    month = "" if months % 12 else f";BYMONTH={first.month}"
    return f"{rule}{month};BYMONTHDAY={days};BYSETPOS=-1"


def _escaped(text: str) -> str:
    """Return a text value, RFC 5545 section 3.3.11."""
    for sign in ("\\", ";", ","):
        text = text.replace(sign, f"\\{sign}")
    return text.replace("\n", "\\n")


def _folded(line: str) -> str:
    """Return a line with its end, broken so that no piece has more than 75 octets and no character is torn."""
    pieces, piece, size = [], "", 0
    for character in line:
        octets = len(character.encode())
        if size + octets > _FOLD:
            pieces.append(piece)
            piece, size = " ", 1
        piece, size = piece + character, size + octets
    return "\r\n".join([*pieces, piece]) + "\r\n"
