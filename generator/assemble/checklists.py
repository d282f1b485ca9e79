"""One checklist page per phase, in the order of a trip.

What is ticked is kept in the browser, under ids that stay the same across editions.
"""

from generator.assemble.book import Book, own_page
from generator.assemble.mentions import printed_phases
from generator.assemble.sitemap import START, anchor_of, checklist_path
from generator.model import pages as p
from generator.model.blocks import Text
from generator.model.content import Phase


def checklist_pages(book: Book) -> tuple[p.Page, ...]:
    """Return a page for each phase that has a line in this van."""
    links = checklist_links(book)
    pages = []
    for number, (id_, phase) in enumerate(printed_phases(book).items()):
        checks = checks_of(id_, phase, book)
        page = own_page(
            book,
            checklist_path(id_),
            phase.title,
            "checklist",
            (p.Checks(id_, checks),),
            # The next phases of the trip first, then round to the first.
            related=links[number + 1 :] + links[:number],
            crumbs=(START, ("Checklists", "index.html#phases")),
            blocks=tuple(book.site.answers[topic].id for topic in _listed(phase, book)),
        )
        pages.append(page)
    return tuple(pages)


def _listed(phase: Phase, book: Book) -> tuple[str, ...]:
    """Return the topics of a phase that are answered here and have a line, each once, in order."""
    topics = dict.fromkeys(topic.value for topic in phase.topics)
    return tuple(topic for topic in topics if topic in book.written and book.written[topic].block.checklist)


def checks_of(id_: str, phase: Phase, book: Book) -> tuple[p.Check, ...]:
    """Return the tick boxes of a phase, each linked to the page that explains it."""
    checks = []
    for topic in _listed(phase, book):
        checklist, target = book.written[topic].block.checklist, book.site.targets[topic]
        words = checklist.value if checklist else ""
        checks.append(p.Check(f"{id_}-{anchor_of(topic)}", (Text(words),), target.path, target.anchor))
    return tuple(checks)


def checklist_links(book: Book) -> tuple[p.LinkItem, ...]:
    """Return a link to each checklist with the number of its checks."""
    items = []
    for id_, phase in printed_phases(book).items():
        count = len(_listed(phase, book))
        note = f"{count} checks" if count > 1 else "1 check"
        items.append(p.LinkItem(checklist_path(id_), "", phase.title, note))
    return tuple(items)
