"""The booklet as a reader finds it: all of it there, in order, with true page numbers."""

import hashlib
import random
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace

import pypdfium2
import pytest
from pypdfium2 import raw

from generator.model import pages as p
from generator.model.blocks import Text
from generator.paper.booklet import SIZES, booklet_document, chapters
from generator.paper.glyphs import PRINTABLE
from generator.paper.readback import symbols
from generator.paper.setting import Data
from generator.paper.typeset import typeset
from tests import fixture_manual as fixture
from tests.paper.printed import (
    ADDRESS,
    ROOT,
    VANS,
    body,
    booklet_of,
    bookmarks,
    document_of,
    manual_of,
    pages,
    squeezed,
    strays,
    whole_of,
)

BOTH = [("marram-0417", "a5"), ("sorrel-0032", "a5"), ("sorrel-0032", "a4")]


def printed_words(pdf: bytes, size: str) -> str:
    look = SIZES[size]
    return squeezed("".join(body(pdf, look["top"] - 2, look["bottom"] - 2)))


def texts(value: object, key: str = "") -> Iterator[str]:
    """Yield every text of a document that a reader is to see."""
    if isinstance(value, str) and key in ("t", "x", "n", "s", "v", "verdict", "name", "code", "hazard", "consequence"):
        yield value
    elif isinstance(value, dict) and value.get("k") != "photo":  # the words of a picture are read aloud, not printed
        for name, inner in value.items():
            if name not in ("signs", "meanings", "look", "foot", "cover", "index"):
                yield from texts(inner, name)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from texts(inner, key)


# --- whole ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("van", "size"), BOTH)
def test_nothing_of_the_tree_is_lost(van: str, size: str) -> None:
    # A hyphen at the end of a line is taken for one of the line by who reads a PDF.
    found = printed_words(booklet_of(van, size), size).replace("-", "")
    wanted = {squeezed(text).replace("-", "") for text in texts(document_of(van, size)["chapters"])}
    assert len(wanted) > 800
    lost = [text for text in wanted if text not in found]
    # A text may go over a page; such ones are found in two parts.
    assert [text for text in lost if not in_two_parts(text, found)] == []
    assert len(lost) < len(wanted) / 100


def in_two_parts(text: str, found: str) -> bool:
    return any(text[:cut] in found and text[cut:] in found for cut in range(8, len(text) - 8))


@pytest.mark.parametrize("van", ["marram-0417", "banksia-0215"])
def test_every_page_and_place_of_the_site_is_in_it(van: str) -> None:
    """But what only a screen has: start, contents, planners and what changed."""
    kept = {page.path for chapter in chapters(manual_of(van)) for page in chapter.pages}
    left_out = {page.path for page in manual_of(van).pages} - kept
    assert {path for path in left_out if not path.startswith("plan-")} <= {
        "index.html",
        "contents.html",
        "what-changed.html",
    }


@pytest.mark.parametrize(("van", "size"), BOTH)
def test_no_glyph_lies_in_the_margin(van: str, size: str) -> None:
    assert list(strays(booklet_of(van, size), 4)) == []


@pytest.mark.parametrize(("van", "size"), [*BOTH, ("banksia-0215", "a5")])
def test_no_page_is_nearly_empty(van: str, size: str) -> None:
    few = {at: words for at, page in enumerate(pages(booklet_of(van, size)), 1) if len(words := page.split()) < 45}
    assert set(few) <= {1}, few  # the cover


def test_the_first_page_inside_is_the_emergency() -> None:
    first = pages(booklet_of("marram-0417"))[1]
    assert first.lstrip().startswith("Emergency") and "999" in first
    assert "Emergency: turn this page." in pages(booklet_of("marram-0417"))[0]


def test_cover_and_foot_show_the_tail_and_never_the_whole_chassis() -> None:
    manual = manual_of("marram-0417")
    text = "".join(pages(booklet_of("marram-0417")))
    assert manual.tail in text and manual.chassis not in text
    assert all(
        f"Check for a newer edition: {ADDRESS}" in squeezed_spaces(page) for page in pages(booklet_of("marram-0417"))
    )


def squeezed_spaces(text: str) -> str:
    return " ".join(text.replace("\u200b", "").replace("\ufffe", "").split())


# --- finding ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("van", "size"), BOTH)
def test_contents_and_index_name_the_page_where_the_title_stands(van: str, size: str) -> None:
    pdf = booklet_of(van, size)
    text = pages(pdf)
    marks = bookmarks(pdf)
    contents = next(page for level, title, page in marks if title == "Contents")
    after = next(page for level, title, page in marks if level == 0 and page > contents)
    listed = " ".join(" ".join(text[contents - 1 : after - 1]).split())
    chapter = ""
    for level, title, page in marks:
        chapter = title if level == 0 else chapter
        found = re.search(rf"{re.escape(title)} {page}(?!\d)", listed)
        if level == 0 and title != "Contents":
            assert found, title
        elif level > 0 and not re.match(r"[A-DH]\d", title):
            # Chapters whose headings are not listed: a heading may still share its words and its page with another.
            assert found or chapter in ("The van", "All safety messages", "About this manual"), title
    index = " ".join(" ".join(text[next(page for _, title, page in marks if title == "Index") - 1 :]).split())
    for place in (page for page in manual_of(van).pages if page.template == "place"):
        where = next(page for _, title, page in marks if title == f"{place.plate} {place.title}")
        assert re.search(rf"{place.plate} {re.escape(place.title)} {where}(?!\d)", index), place.plate


def test_a_reference_names_the_page_it_leads_to() -> None:
    pdf = booklet_of("marram-0417")
    marks = {title: page for _, title, page in bookmarks(pdf)}
    text = " ".join(pages(pdf)[1:8])
    found = re.findall(r"(?:go to|read) (Fire|Gas smell|Burn or scald) \(p\.\s(\d+)\)", " ".join(text.split()))
    assert found and all(int(page) == marks[title] for title, page in found)


@pytest.mark.parametrize("van", VANS)
def test_no_row_leads_to_a_planner_which_paper_cannot_be(van: str) -> None:
    planners = {page.title for page in manual_of(van).pages if page.template == "planner"}
    document = document_of(van)
    rows = [row for node in all_nodes(document["chapters"]) if node.get("k") == "links" for row in node["x"]]  # type: ignore[attr-defined]
    assert planners and len(rows) > 40
    assert [row["t"] for row in rows if row["t"] in planners or row["to"] is None] == []


def all_nodes(value: object) -> Iterator[Data]:
    """Yield every mapping of a document."""
    if isinstance(value, dict):
        yield value
        value = list(value.values())
    if isinstance(value, list | tuple):
        for inner in value:
            yield from all_nodes(inner)


def test_a_table_that_lies_open_before_the_reader_is_not_named_again() -> None:
    pdf = booklet_of("marram-0417")
    for number, words in enumerate(pages(pdf), 1):
        for page in re.findall(r"The table stands on p\.\s(\d+)", words):
            assert number // 2 != int(page) // 2, number
    assert "The table stands on" in "".join(pages(pdf))


def test_a_lamp_is_named_once_in_its_row() -> None:
    words = squeezed_spaces("".join(pages(booklet_of("marram-0417"))))
    assert "Green lamp that blinks" in words and "Loud sound that repeats" in words
    assert "Green: Green" not in words and "Loud and repeated: Loud" not in words
    assert "Red: Lamp beside the flush button" in words


def test_bookmarks_are_the_chapters_in_reading_order() -> None:
    marks = [title for level, title, _ in bookmarks(booklet_of("marram-0417")) if level == 0]
    made = [chapter.title for chapter in chapters(manual_of("marram-0417"))]
    assert marks == [made[0], "Contents", *made[1:], "Index"]


def test_each_chapter_has_a_code_that_opens_its_page() -> None:
    document = document_of("sorrel-0032")
    wanted = {chapter["address"] for chapter in document["chapters"]} | {ADDRESS}  # type: ignore[attr-defined]
    found = {seen.text for seen in symbols(pypdfium2.PdfDocument(booklet_of("sorrel-0032")), 200)}
    assert found == wanted
    paths = {page.path for page in manual_of("sorrel-0032").pages}
    assert {address.removeprefix(ADDRESS).partition("#")[0] for address in wanted} <= paths | {""}


# --- safety -----------------------------------------------------------------------------------------


def test_messages_stand_on_the_page_of_the_step_they_belong_to() -> None:
    """All before step 1 on the page of step 1, those of a step on the page of its first line."""
    text = [squeezed(page) for page in pages(booklet_of("marram-0417"))]
    marks = {squeezed(title): page for _, title, page in bookmarks(booklet_of("marram-0417"))}
    checked = 0
    for page in pages_of(document_of("marram-0417")):
        start = marks.get(squeezed(f"{page['plate']} {page['t']}"), marks.get(squeezed(str(page["t"]))))
        for words, hazards in before_steps(page["body"]):  # type: ignore[arg-type]
            on = [number for number in range(start - 1, min(start + 4, len(text))) if words in text[number]]  # type: ignore[operator]
            assert any(all(hazard in text[number] for hazard in hazards) for number in on), (page["t"], words)
            checked += 1
    assert checked > 60


def pages_of(document: Data) -> Iterator[Data]:
    for chapter in document["chapters"]:  # type: ignore[attr-defined]
        yield from (page for page in chapter["pages"] if page["kind"] == "topic")


def before_steps(nodes: list[Data]) -> Iterator[tuple[str, list[str]]]:
    """Yield the first line of a step, and the hazards that stand before it."""
    waiting: list[str] = []
    for node in nodes:
        if node["k"] == "s":
            waiting.append(squeezed(str(node["m"]["hazard"])))  # type: ignore[index]
        elif node["k"] == "ol":
            for number, step in enumerate(node["x"]):  # type: ignore[arg-type, var-annotated]
                own = [squeezed(message["hazard"]) for message in step["m"]]
                if hazards := (waiting if number == 0 else []) + own:
                    first = step["x"][0]["x"]
                    yield squeezed("".join(part for part in first[:1] if isinstance(part, str))), hazards
            waiting = []
        elif node["k"] == "h":
            waiting = []


def test_messages_are_gravest_first() -> None:
    order = ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    for page in pages_of(document_of("marram-0417")):
        signals: list[int] = []
        for node in page["body"]:  # type: ignore[attr-defined]
            if node["k"] == "s":
                signals.append(order.index(node["m"]["signal"]))
            else:
                assert signals == sorted(signals), page["t"]
                signals = []


# --- text as data -----------------------------------------------------------------------------------

_TYPST = (
    *('#panic("x")', "$x^2$", "\\u{1f600}", '#read("/etc/passwd")', "*b*", "_i_", "<label>", "@ref", "// c", "/* c */"),
    *("= h", "- l", "+ e", "1. e", "[x]", "{x}", "`raw`", "```x```", "~", "---", "...", "\\", "\\#", "$", "#", "(p."),
    *('#import "@preview/x:0.1.0"', '"q"', "'q'", "</svg>", "<script>", "&amp;", "%s", "{{x}}", "é", "Ω", "Ж", "ﬁ"),
)


def hostile(count: int) -> list[str]:
    """Return strings that mean something in Typst, in HTML or to a printer, mixed with every character there is."""
    chance = random.Random(1500)
    letters = sorted(one for one in PRINTABLE if not one.isspace() and one not in "\u200b\u00ad")

    def part() -> str:
        kind = chance.randrange(4)
        if kind == 0:
            return chance.choice(_TYPST)
        if kind == 1:
            return "".join(chance.choice(letters) for _ in range(chance.randint(1, 30)))
        return chance.choice("#$*_`\\\"'<>@=-+/[](){}~^&|;:,.!?%") * chance.randint(1, 4) if kind == 2 else " "

    return ["".join(part() for _ in range(chance.randint(1, 6))).strip() or "#" for _ in range(count)]


def test_1500_hostile_values_come_out_as_typed() -> None:
    """White space aside, which lines are broken at, and ligatures, which a PDF reader takes for their letters."""
    strings = hostile(1500)
    lines = (((Text(f"K{i}("), p.TextHole(f"x/{i}"), Text(f")K{i}")),) for i in range(len(strings)))
    page = fixture.page("hostile.html", "Hostile", "topic", *map(p.Paragraph, lines), section="Hostile")
    values = {**fixture.VALUES, **{f"x/{i}": text for i, text in enumerate(strings)}}
    manual = fixture.fixture_manual(pages=(page,), values=values)
    pdf = typeset("booklet.typ", booklet_document(manual, ADDRESS, whole_of(manual), "a5"))
    found = printed_words(pdf, "a5")
    changed = [text for i, text in enumerate(strings) if squeezed(f"K{i}({text})K{i}") not in found]
    assert changed == []


def test_the_fixture_manual_is_set_whole_with_hostile_names() -> None:
    """Names of places and titles stand in headings, index and drawings too."""
    name = "#panic() $x$ <b>&amp; \\ \"q\" 'q' @ref *b* _i_ `r` [x] {x} = - + ~ //"
    manual = fixture.fixture_manual()
    renamed = tuple(replace(page, title=name) if page.template == "place" else page for page in manual.pages)
    values = {**manual.values, "van/name": name, "dealer/name": name, "dealer/phone": name}
    whole = replace(manual, pages=renamed, values=values, model=name)
    pdf = typeset("booklet.typ", booklet_document(whole, ADDRESS, whole_of(whole), "a5"))
    assert squeezed("".join(pages(pdf))).count(squeezed(name)) >= 20


# --- the file ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(("van", "size"), BOTH)
def test_it_is_tagged_titled_and_in_the_language_of_the_market(van: str, size: str) -> None:
    """Typst checks more of PDF/UA-1 itself and would have stopped; this is what another reader sees of it."""
    document = pypdfium2.PdfDocument(booklet_of(van, size))
    assert raw.FPDFCatalog_IsTagged(document)
    assert document.get_metadata_dict()["Title"] == f"{manual_of(van).model}, van {manual_of(van).tail}: owner manual"
    assert b"pdfuaid:part" in booklet_of(van, size)
    assert re.search(rb"/Lang\s*\((\xfe\xff)?e", booklet_of(van, size))


def test_same_input_same_bytes_in_another_process() -> None:
    here = hashlib.sha256(booklet_of("sorrel-0032")).hexdigest()
    script = (
        "import hashlib\nfrom tests.paper.printed import booklet_of\n"
        "print(hashlib.sha256(booklet_of('sorrel-0032')).hexdigest())"
    )
    there = subprocess.run(
        [sys.executable, "-c", script],
        cwd=ROOT,
        env={"PYTHONHASHSEED": "77", "TZ": "Pacific/Auckland", "LC_ALL": "C", "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert there.stdout.strip() == here


def test_a_proof_says_so_and_shows_no_code() -> None:
    manual = manual_of("sorrel-0032")
    pdf = typeset("booklet.typ", booklet_document(manual, "", whole_of(manual, None), "a5"))
    text = pages(pdf)
    assert "Proof, not an edition" in text[0] and all("Proof. Not published." in page for page in text)
    assert symbols(pypdfium2.PdfDocument(pdf), 150) == []


def test_a_draft_says_so_on_every_page() -> None:
    text = pages(booklet_of("marram-0417"))
    assert manual_of("marram-0417").waiting
    assert "Draft" in text[0]
    assert all("Draft: not yet checked by the dealer" in words for words in text[1:])
