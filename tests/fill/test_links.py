"""Dead links, links out of the manual, clashing ids and inline code are found before anything is published."""

import pytest
from bs4 import BeautifulSoup

from generator.fill.links import _read, check_links
from tests.finished import finished_fixture
from tests.fixture_manual import FOLDER

STYLE = '<link rel="stylesheet" href="s.css">'


def told(html: str, path: str = "a.html", **others: str) -> list[str]:
    files = {path: (STYLE.replace('"s.css"', '"../s.css"') if "/" in path else STYLE) + html, "s.css": ""}
    files |= {name.replace("__", "/") + ".html": text for name, text in others.items()}
    return [fault.message for fault in check_links({name: text.encode() for name, text in files.items()}, FOLDER)]


def test_the_fixture_is_clean() -> None:
    assert check_links(finished_fixture().files, FOLDER) == []


@pytest.mark.parametrize(
    ("html", "fault"),
    [
        ('<a href="gone.html">x</a>', 'a.html: "gone.html" leads nowhere'),
        ('<a href="#gone">x</a>', 'a.html: "#gone" leads to no place on that page'),
        ('<a href="b.html#gone">x</a>', 'a.html: "b.html#gone" leads to no place on that page'),
        ('<a href="../b.html">x</a>', 'a.html: "../b.html" is outside the manual'),
        ('<a href="/b.html">x</a>', 'a.html: "/b.html" is outside the manual'),
        ('<a href="//host/b.html">x</a>', 'a.html: "//host/b.html" is outside the manual'),
        ('<a href="https://host.example/">x</a>', 'a.html: "https://host.example/" is outside the manual'),
        ('<a href="javascript:x">x</a>', 'a.html: "javascript:x" is outside the manual'),
        ('<img src="http://host.example/x.png">', 'a.html: "http://host.example/x.png" is outside the manual'),
        ('<svg><a href="gone.html"/></svg>', 'a.html: "gone.html" leads nowhere'),
        ('<form action="https://host.example/"></form>', 'a.html: "https://host.example/" is outside the manual'),
        ('<p id="x"></p><p id="x"></p>', 'a.html: id "x" stands 2 times'),
        ('<p id=""></p>', 'a.html: id "" is none'),
        ("<script>x</script>", "a.html: inline <script>"),
        ("<script></script>", "a.html: <script> without a file"),
        ("<p class=x>y</p>", "a.html: no tag: '<p class=x>y'"),
        ("1 < 2", "a.html: no tag: '< 2'"),
        ("<style>x</style>", "a.html: inline <style>"),
        ('<p style="x">y</p>', 'a.html: inline attribute "style"'),
        ('<p onclick="x">y</p>', 'a.html: inline attribute "onclick"'),
        ('<p class="x" class="y">z</p>', "a.html: <p> gives an attribute twice"),
        ("<p>\ue000t:van/name\ue001</p>", "a.html: a value was not filled in"),
    ],
)
def test_what_is_wrong_is_told_with_page_and_target(html: str, fault: str) -> None:
    assert told(html, b='<p id="there">x</p>') == [fault]


@pytest.mark.parametrize(
    "html",
    [
        '<a href="b.html#there">x</a>',
        '<a href="b.html">x</a>',
        '<a href="a.html">x</a>',
        '<p id="here"><a href="#here">x</a></p>',
        '<a href="tel:111">x</a><a href="mailto:a@b.example">x</a>',
        '<a href="A1/index.html">x</a>',
        '<link rel="icon" href="data:,">',
    ],
)
def test_what_is_right_passes(html: str) -> None:
    assert told(html, b='<p id="there">x</p>', A1__index="") == []


def test_links_are_read_from_the_page_they_stand_on() -> None:
    assert told('<a href="../b.html">x</a>', path="A1/index.html", b="") == []
    assert told('<a href="b.html">x</a>', path="A1/index.html", b="") == ['A1/index.html: "b.html" leads nowhere']


def test_the_page_for_a_missing_address_may_name_its_own_folder_only() -> None:
    assert told(f'<a href="/{FOLDER}/b.html">x</a>', path="404.html", b="") == []
    assert told('<a href="/OTHER/b.html">x</a>', path="404.html", b="") == [
        '404.html: "/OTHER/b.html" is outside the manual'
    ]


def test_the_reader_sees_what_an_independent_parser_sees() -> None:
    """Targets and ids of every page, against BeautifulSoup."""
    for path, content in finished_fixture().files.items():
        if path.endswith(".html"):
            made = BeautifulSoup(content.decode(), "html.parser")
            seen = _read(content)
            targets = [tag[name] for tag in made.find_all(True) for name in ("href", "src") if name in tag.attrs]
            assert seen.targets == targets, path
            assert sorted(seen.ids.elements()) == sorted(tag["id"] for tag in made.find_all(id=True)), path
