"""Typst: a fixed template and JSON data in, a tagged PDF out. The only module that knows Typst."""

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import typst

_HERE = Path(__file__).parent


class TypesetError(Exception):
    """The template stopped; the text is Typst's own."""


def as_data(document: Mapping[str, object]) -> str:
    """Return a document as the text a template reads."""
    return json.dumps(document, ensure_ascii=False)


def typeset(
    template: str,
    document: Mapping[str, object] | str,
    files: Mapping[str, bytes] | None = None,
    standards: tuple[str, ...] = ("ua-1",),
) -> bytes:
    """Return the PDF of a template in this folder, filled from ``document``, which may be ``as_data`` already.

    ``files`` lie beside it, all of them text.

    PDF/UA-1 is asked for because Typst then stops at what it would drop silently otherwise: a
    character without glyph, a picture without words. Only the fonts in ``fonts/`` and those built
    into Typst are used, so every machine sets the same sheet. Only what is made of other PDFs goes without, since
    Typst places no PDF in a PDF/UA.

    Raises:
        TypesetError: the template stopped or the result would not be PDF/UA-1.
    """
    made: bytes = _compiled(template, document, "pdf", files, standards)
    return made


def pictured(template: str, document: Mapping[str, object]) -> list[bytes]:
    """Return the pages of a template as SVG, letters as outlines.

    Raises:
        TypesetError: the template stopped.
    """
    made = _compiled(template, document, "svg")
    return made if isinstance(made, list) else [made]


def _compiled(
    template: str,
    document: Mapping[str, object] | str,
    form: str,
    files: Mapping[str, bytes] | None = None,
    standards: tuple[str, ...] = (),
) -> Any:
    sources = _sources()
    try:
        return typst.compile(  # type: ignore[call-overload]  # files by name are not in its stubs
            {"main.typ": sources[template], **sources, **(files or {})},
            format=form,
            font_paths=[str(_HERE / "fonts")],
            ignore_system_fonts=True,
            pdf_standards=list(standards),
            sys_inputs={"doc": document if isinstance(document, str) else as_data(document)},
        )
    except typst.TypstError as error:
        raise TypesetError(str(error)) from error


@cache
def _sources() -> Mapping[str, bytes]:
    """Return the templates by name; they belong to the program and do not change while it runs."""
    return {path.name: path.read_bytes() for path in sorted(_HERE.glob("*.typ"))}
