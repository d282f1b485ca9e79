"""The public functions of the stage: everything of a workspace, or what of it is sound beside all its faults.

Each kind of file is read by a module of its own.
"""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from generator.errors import ContentError, Fault, Source
from generator.load.blocks import read_blocks
from generator.load.catalogue import read_catalogue
from generator.load.content import (
    read_handover,
    read_label_signs,
    read_markets,
    read_order,
    read_outline,
    read_safety,
    read_terms,
)
from generator.load.faults import Faults, Memo
from generator.load.fragments import read_fragments
from generator.load.language import read_language
from generator.load.pictures import read_picture_files, read_pictures
from generator.load.plain_text import check_words
from generator.load.references import ReferenceCheck, first_traits, known_names
from generator.load.reviews import read_reviews
from generator.load.specs import read_dealers, read_models, read_vans, with_spoilt
from generator.model.blocks import Block
from generator.model.catalogue import Catalogue
from generator.model.content import Content, Market, OrderRule, Outline, SafetyMessage, Terms, Workspace

REVIEWS = "content/reviews.yaml"


def load(
    root: Path, specs: Sequence[Path] | None = (), memo: Memo | None = None, names_known: bool = True
) -> Workspace:
    """Return all documents of a workspace.

    Args:
        root: The folder that holds content/ and van_specs/.
        specs: Build sheets of the vans wanted; an empty one means every one in van_specs/vans, None means none.
        memo: Keeps what was read, for a caller that loads again when a file has changed.
        names_known: Whether a name that nothing has is a fault; not for a caller who is about to make what has it.

    Raises:
        ManualError: files have faults; all of them, with positions. The subclass names what must be put right
            where that is of one sort.
    """
    faults = Faults(memo)
    workspace = _workspace(root, specs, faults, names_known)
    faults.raise_any()
    return workspace


def load_sound(
    root: Path, specs: Sequence[Path] | None = (), memo: Memo | None = None
) -> tuple[Workspace, tuple[Fault, ...]]:
    """Return what could be read of a workspace, and what is wrong with the rest.

    ``Workspace.spoilt`` says which files have faults. What came of them is there as far as it could be read; what they
    lack is nobody else's fault.

    Args:
        root: The folder that holds content/ and van_specs/.
        specs: Build sheets of the vans wanted; an empty one means every one in van_specs/vans, None means none.
        memo: Keeps what was read, for a caller that loads again when a file has changed.

    Raises:
        ContentError: there is no workspace at all.
    """
    faults = Faults(memo)
    return _workspace(root, specs, faults, names_known=True), faults.in_order()


def _workspace(root: Path, specs: Sequence[Path] | None, faults: Faults, names_known: bool) -> Workspace:
    root = root.resolve()
    if not (root / "content").is_dir():
        hint = "run in the folder that holds content/ and van_specs/, or name it with --workspace"
        raise ContentError(Fault("this is no workspace: it has no folder content/", hint=hint))
    catalogue, markets = read_catalogue(root, faults), read_markets(root, faults)
    content = _content(root, catalogue, markets, faults, names_known)
    dealers, models = read_dealers(root, faults), read_models(root, faults)
    vans = {} if specs is None else read_vans(root, specs, faults)
    files = read_picture_files(root, content.pictures, (*models.values(), *vans.values()), faults)
    return Workspace(
        catalogue=catalogue,
        content=replace(content, spoilt=faults.spoilt),
        markets=markets,
        dealers=dealers,
        models=with_spoilt(models, faults),
        vans=with_spoilt(vans, faults),
        picture_files=files,
    )


def _content(
    root: Path, catalogue: Catalogue, markets: dict[str, Market], faults: Faults, names_known: bool
) -> Content:
    """Return the content; of a file that nothing came of, it has nothing."""
    outline, safety = read_outline(root, faults), read_safety(root, faults)
    pictures = read_pictures(root, faults)
    terms, fragments = read_terms(root, faults), read_fragments(root, faults)
    blocks = read_blocks(root, faults, fragments)
    order, reviews = read_order(root, faults), read_reviews(root, root / REVIEWS, faults)
    language = read_language(root, faults)
    handover, signs = read_handover(root, faults), read_label_signs(root, faults)
    of_names = faults if names_known else Faults()
    check = ReferenceCheck(known_names(catalogue, outline, safety, markets, terms), of_names, faults.spoilt)
    if language is not None:
        check.language(language)
    check.pictures(catalogue, pictures)
    for fragment in fragments.values():
        check.body(fragment.body)
    _check_references(check, catalogue, markets, outline, safety, terms, blocks, order, faults)
    if handover is not None:
        check.handover(handover)
    check.label_signs(signs)
    return Content(
        outline=outline or Outline(sections=(), phases={}, source=Source("content/outline.yaml")),
        blocks=blocks,
        safety=safety,
        terms=terms or Terms(trade={}, source=Source("content/terms.yaml")),
        order=order,
        reviews=reviews,
        handover=handover,
        label_signs=signs,
        language=language,
        fragments=fragments,
        pictures=pictures,
    )


def _check_references(
    check: ReferenceCheck,
    catalogue: Catalogue,
    markets: dict[str, Market],
    outline: Outline | None,
    safety: dict[str, SafetyMessage],
    terms: Terms | None,
    blocks: tuple[Block, ...],
    order: tuple[OrderRule, ...],
    faults: Faults,
) -> None:
    check.catalogue(catalogue, first_traits(catalogue, markets))
    if outline is not None:
        check.outline(outline)
    for market in markets.values():
        check.dates(market.dates)
    if terms is not None:
        check.terms(terms)
    for block in blocks:
        check.block(block)
    for words in (outline, terms, *safety.values(), *markets.values(), *catalogue.kinds.values(), *blocks):
        check_words(words, Source("content"), faults)
    check.order(order, blocks)
