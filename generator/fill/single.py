"""Writes the whole manual as one file that is read without script, host or neighbours.

Pages come as they were settled; their links become links inside the file.
"""

import base64
import hashlib
import posixpath
import re
from collections.abc import Mapping, Sequence
from html import unescape

from markupsafe import Markup, escape

from generator.model.holes import HOLE_CLOSE, HOLE_OPEN
from generator.model.pages import Page

_MAIN = re.compile(r"<main\b[^>]*>(.*)</main>", re.DOTALL)
# What only works, or only makes sense, on a page of its own.
_LEFT_OUT = re.compile(
    r'<form class="find".*?</form>|<noscript>.*?</noscript>|<div class="help">.*?</div>'
    r'|<p class="(?:ticks|reset)"[^>]*>.*?</p>|<div class="group group--find">\s*</div>',
    re.DOTALL,
)
_DEALER = re.compile(r'<section class="group group--dealer">.*?</section>', re.DOTALL)
_ROW = re.compile(r'<li><a class="row" href="([^"]*)">.*?</a></li>', re.DOTALL)
_HEADING = re.compile(r"<(/?)h([1-3])\b")
_KINDS = {"place": "Places", "checklist": "Checklists"}
_ID = re.compile(r' (id|for)="([^"]*)"')
_NAMED_BY = re.compile(r' aria-labelledby="([^"]*)"')
_HREF = re.compile(r' href="([^"]*)"')


def style_source(style: str) -> str:
    """Return the source expression that allows exactly this inline text (CSP Level 3, hash source)."""
    return "'sha256-" + base64.b64encode(hashlib.sha256(style.encode()).digest()).decode() + "'"


def single_file(pages: Sequence[tuple[Page, str]], style: str, name: str, tail: str) -> str:
    """Return the manual as one document; the edition's holes stay.

    Args:
        pages: Pages in reading order, each with its settled HTML.
        style: The style sheet.
        name: The van's name.
        tail: The last characters of its chassis.
    """
    shown = [(page, html) for page, html in pages if page.template != "gone"]
    anchors = {page.path: anchor_of(page.path) for page, _ in shown}
    start = [_part(page, html, anchors) for page, html in shown if page.template == "home"]
    parts = [_part(page, html, anchors) for page, html in shown if page.template != "home"]
    number, day = (f"{HOLE_OPEN}t:edition/{part}{HOLE_CLOSE}" for part in ("number", "date"))
    return _FRAME.format(
        language=escape(pages[0][0].language),
        policy=escape(
            f"default-src 'none'; style-src {style_source(style)}; img-src data:; base-uri 'none'; form-action 'none'"
        ),
        style=style,
        name=escape(name),
        about=escape(f"The whole manual in one file. Chassis ends {tail}. ") + Markup(f"Edition {number}, {day}."),
        start="\n".join(start),
        contents=_contents([page for page, _ in shown], anchors),
        parts="\n".join(parts),
    )


def anchor_of(path: str) -> str:
    """Return a page's anchor in the file: ``A1/index.html`` is ``p-A1``."""
    stem = path.removesuffix(".html").removesuffix("/index")
    return "p-" + re.sub(r"[^A-Za-z0-9-]", "-", stem)


def _contents(pages: Sequence[Page], anchors: Mapping[str, str]) -> str:
    """Return links by section; pages of no section stand at the end by what they are."""
    sections: dict[str, list[Markup]] = {page.section: [] for page in pages if page.section}
    for page in pages:
        if page.template != "home":
            link = Markup('<li><a href="#{}">{}{}</a></li>').format(
                anchors[page.path], f"{page.plate} " if page.template == "place" else "", page.title
            )
            sections.setdefault(page.section or _KINDS.get(page.template, "Reference"), []).append(link)
    lists = (
        Markup("<h3>{}</h3>\n<ul>{}</ul>").format(title, Markup("").join(found))
        for title, found in sections.items()
        if found
    )
    return "\n".join(lists)


def _part(page: Page, html: str, anchors: Mapping[str, str]) -> str:
    found = _MAIN.search(html)
    inner = _LEFT_OUT.sub("", found.group(1) if found else "")
    if page.template != "home":
        inner = _DEALER.sub("", inner)  # named once, on the start page
    inner = _ROW.sub(lambda row: row.group() if _target(row.group(1), page.path, anchors) else "", inner)
    anchor = anchors[page.path]
    inner = _ID.sub(rf' \1="{anchor}--\2"', inner)
    inner = _NAMED_BY.sub(lambda names: _prefixed(names.group(1), anchor), inner)
    inner = _HREF.sub(lambda href: _href(href.group(1), page.path, anchors), inner)
    inner = _HEADING.sub(lambda head: f"<{head.group(1)}h{int(head.group(2)) + 1}", inner)
    inner = inner.replace("<details ", "<details open ")  # no script unfolds them before the file is printed
    return f'<section class="part page--{page.template}" id="{anchor}">\n{inner.strip()}\n</section>'


def _prefixed(ids: str, anchor: str) -> str:
    return ' aria-labelledby="' + " ".join(f"{anchor}--{one}" for one in ids.split()) + '"'


def _href(address: str, own: str, anchors: Mapping[str, str]) -> str:
    """A link to a file that is not in this one loses its target and stays as words."""
    target = _target(address, own, anchors)
    return f' href="{target}"' if target else ""


def _target(address: str, own: str, anchors: Mapping[str, str]) -> str:
    if re.match(r"[a-z]+:", address):
        return address
    path, _, anchor = unescape(address).partition("#")
    target = posixpath.normpath(posixpath.join(posixpath.dirname(own), path)) if path else own
    if target not in anchors:
        return ""
    return f"#{anchors[target]}{'--' + escape(anchor) if anchor else ''}"


_FRAME = """<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="robots" content="noindex, nofollow">
<meta name="format-detection" content="telephone=no">
<meta name="color-scheme" content="light dark">
<title>{name}: the whole manual</title>
<link rel="icon" href="data:,">
<style>{style}</style>
</head>
<body class="page page--single">
<a class="skip" href="#contents">To the contents</a>
<header class="top">
<p class="top__van">{name}</p>
<p class="top__edition">{about}</p>
</header>
<main class="md-typeset">
<h1 class="unseen">{name}: the whole manual</h1>
{start}
<nav id="contents" class="contents" aria-label="Contents">
<h2>Contents</h2>
{contents}
</nav>
{parts}
</main>
<nav class="rail" aria-label="Always here">
<a href="#p-index">Start</a>
<a href="#contents">Contents</a>
<a class="rail__emergency" href="#p-index--emergency">Emergency</a>
</nav>
</body>
</html>
"""
