"""What only the writer sees on a page: what is wrong, which van it is, and what the page is made of.

It is put into HTML that was made without it, so that it cannot get into a published page.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup, escape

from generator.errors import Fault, Level
from generator.model.catalogue import Catalogue
from generator.preview.bench import Judged, Shown
from generator.preview.views import View

OWN = "/-"  # where the bench's own pages and files are
SCHEMES = ("as the device", "light", "dark")
_HERE = Path(__file__).parent
_BODY = re.compile(r"<body\b[^>]*>")
_NONE = "(none)"
_NOTHING = Markup("")


def own_file(name: str) -> bytes | None:
    """Return the bench's style or script."""
    return (_HERE / name).read_bytes() if name in ("bench.css", "bench.js") else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What the chrome of one page says."""

    view: View
    path: str
    shown: Shown
    vans: Sequence[str]
    markets: Sequence[str]
    scheme: str
    judged: tuple[Judged, ...] = ()
    found_in: Mapping[str, tuple[str, ...]]  # file of an edited block that is not here -> build sheets it is in


def framed(html: str, around: Around) -> str:
    """Return a page with the bench put in front of everything on it."""
    page = colours(html, around.scheme)
    page = page.replace("</head>", f'<link rel="stylesheet" href="{OWN}/bench.css">\n{_script(around)}\n</head>', 1)
    return _BODY.sub(lambda body: f"{body.group()}\n{_panel(around)}", page, count=1)


def bare(title: str, around: Around, more: Markup = _NOTHING) -> str:
    """Return a page of the bench's own, for where there is no page of a manual."""
    return framed(
        f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<meta name="color-scheme" content="light dark">\n<title>{escape(title)}</title>\n</head>\n'
        f'<body class="bench-alone">\n<main>\n<h1>{escape(title)}</h1>\n{more}\n</main>\n</body>\n</html>\n',
        around,
    )


def colours(text: str, scheme: str) -> str:
    """Return a page or style sheet that shows one colour scheme whatever the device prefers."""
    if scheme not in ("light", "dark"):
        return text
    other = "dark" if scheme == "light" else "light"
    text = text.replace(f"(prefers-color-scheme: {scheme})", "(min-width: 0px)")
    text = text.replace(f"(prefers-color-scheme: {other})", "(min-width: 99999px)")
    return text.replace(
        '<meta name="color-scheme" content="light dark">', f'<meta name="color-scheme" content="{scheme}">'
    )


def _script(around: Around) -> Markup:
    return Markup('<script src="{}/bench.js" defer data-build="{}" data-view="{}" data-path="{}"></script>').format(
        OWN, around.shown.build, around.view.name, around.path
    )


def _panel(around: Around) -> Markup:
    return Markup('<aside class="bench" id="lockerleaf-bench" aria-label="Preview">\n{}{}{}\n</aside>').format(
        _faults(around), _switch(around), _page(around)
    )


# --- what is wrong ----------------------------------------------------------------------------------


def _faults(around: Around) -> Markup:
    unsafe = [hit.fault for one in around.judged for hit in one.hits if hit.fault.level is Level.ERROR]
    faults = sorted((*around.shown.faults, *unsafe), key=lambda fault: fault.level is not Level.ERROR)
    errors = [fault for fault in faults if fault.level is Level.ERROR]
    if not faults:
        return Markup('<p class="bench__good" role="status">No faults.</p>\n')
    words = f"{len(errors)} to put right" if errors else f"{len(faults)} to look at"
    before = around.shown.errors and around.shown.manual
    last = Markup("<p>The page below is as it was before.</p>\n") if before else _NOTHING
    return Markup(
        '<details class="bench__faults bench__faults--{}"{}>\n<summary>{}</summary>\n{}{}</details>\n'
    ).format("error" if errors else "warning", Markup(" open") if errors else Markup(""), words, last, _list(faults))


def _list(faults: Iterable[Fault]) -> Markup:
    return Markup("<ol>{}</ol>\n").format(Markup("").join(map(_fault, faults)))


def _fault(fault: Fault) -> Markup:
    where = Markup("<code>{}</code> ").format(str(fault.source)) if fault.source else Markup("")
    hint = Markup('<span class="bench__hint">{}</span>').format(fault.hint) if fault.hint else Markup("")
    return Markup("<li>{}{}: {} {}</li>").format(where, fault.level.value, fault.message, hint)


# --- which van --------------------------------------------------------------------------------------


def _switch(around: Around) -> Markup:
    view = around.view
    vans = [(view.name, "improvised")] if not view.van else []
    fields = (
        _select("van", "Van", [*vans, *((van, van) for van in around.vans)], view.van or view.name),
        _select("market", "Market", [("", "its own"), *((one, one) for one in around.markets)], view.market),
        _select("scheme", "Colours", [(one, one) for one in SCHEMES], around.scheme),
    )
    return Markup(
        '<form class="bench__switch" action="{}/go">{}<input type="hidden" name="path" value="{}">'
        '<button>Show</button> <a href="{}/mix?from={}">Other equipment</a></form>\n'
    ).format(OWN, Markup("").join(fields), around.path, OWN, view.name)


def _select(name: str, label: str, choices: Iterable[tuple[str, str]], chosen: str) -> Markup:
    options = Markup("").join(
        Markup('<option value="{}"{}>{}</option>').format(value, Markup(" selected") * (value == chosen), words)
        for value, words in choices
    )
    return Markup('<label>{} <select name="{}">{}</select></label> ').format(label, name, options)


# --- what the page is made of -----------------------------------------------------------------------


def _page(around: Around) -> Markup:
    parts = [_elsewhere(file, around.found_in.get(file, ())) for file in around.shown.elsewhere]
    return Markup("").join([*parts, *(_block(one) for one in around.judged)])


def _elsewhere(file: str, vans: tuple[str, ...]) -> Markup:
    links = Markup(", ").join(Markup('<a href="/{}/index.html">{}</a>').format(van, van) for van in vans)
    where = links or Markup("none of the vans here: try other equipment")
    return Markup("<p><code>{}</code> is not in this van. It is in {}.</p>\n").format(file, where)


def _block(one: Judged) -> Markup:
    count = len(one.hits)
    ease = f", reading ease {one.ease:.0f}" if one.ease is not None else ""
    vans = f"in {len(one.vans)} {'van' if len(one.vans) == 1 else 'vans'}"
    summary = Markup("<code>{}</code> {}{}, {}").format(
        one.block.source.file, vans, ease, f"{count} about words" if count else "nothing about words"
    )
    inner = Markup("<p>In {}.</p>{}").format(
        ", ".join(one.vans) or "no van here", _list(hit.fault for hit in one.hits) if one.hits else ""
    )
    return Markup("<details><summary>{}</summary>{}</details>\n").format(summary, inner)


# --- other equipment --------------------------------------------------------------------------------


def picker(view: View, catalogue: Catalogue, markets: Sequence[str], fitted: Mapping[str, str]) -> Markup:
    """Return the form that puts a van together: a kind for each slot, market and axles.

    Args:
        view: Whose equipment is chosen first.
        catalogue: What there is.
        markets: Market ids.
        fitted: Slot -> kind chosen first.
    """
    rows = [
        _select(f"slot.{slot}", one.name, _kinds(slot, catalogue), fitted.get(slot, ""))
        for slot, one in catalogue.slots.items()
    ]
    return Markup(
        '<form class="bench__mix" action="{}/mix">{}{}{}<button>Show this van</button></form>\n'
        "<p>What the rules ask for beside your choice is added: the smallest van that can be ordered.</p>"
    ).format(
        OWN,
        _select("market", "Market", [(one, one) for one in markets], view.market or next(iter(markets), "")),
        _select("axles", "Axles", [("1", "1"), ("2", "2")], str(view.axles)),
        Markup("").join(rows),
    )


def _kinds(slot: str, catalogue: Catalogue) -> list[tuple[str, str]]:
    kinds = [(kind.id, kind.name) for key, kind in catalogue.kinds.items() if key[0] == slot]
    return [("", _NONE), *kinds]
