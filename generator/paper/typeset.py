"""Typst: a fixed template and JSON data in, a tagged PDF out. The only module that knows Typst."""

import json
from collections.abc import Mapping
from pathlib import Path

import typst

_HERE = Path(__file__).parent


class TypesetError(Exception):
    """The template stopped; the text is Typst's own."""


def typeset(template: str, document: Mapping[str, object]) -> bytes:
    """Return the PDF of a template in this folder, filled from ``document``.

    PDF/UA-1 is asked for because Typst then stops at what it would drop silently otherwise: a
    character without glyph, a picture without words. Only the fonts in ``fonts/`` and those built
    into Typst are used, so every machine sets the same sheet.

    Raises:
        TypesetError: the template stopped or the result would not be PDF/UA-1.
    """
    try:
        pdf: bytes = typst.compile(
            str(_HERE / template),
            root=str(_HERE),
            format="pdf",
            font_paths=[str(_HERE / "fonts")],
            ignore_system_fonts=True,
            pdf_standards=["ua-1"],
            sys_inputs={"doc": json.dumps(document, ensure_ascii=False)},
        )
    except typst.TypstError as error:
        raise TypesetError(str(error)) from error
    return pdf
