"""Makes the manual of the van that is looked at, again after each save, and renders the pages that are asked for.

What was read, and what was rendered, is kept by content, so that a save costs what it changed.
"""

import tempfile
import threading
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from generator.assemble import assemble
from generator.compute import compute
from generator.errors import Fault, Level, ManualError, Source
from generator.fill.one_page import files_beside, one_page
from generator.language import Hit, judge_block
from generator.language.checks import reading_ease
from generator.load import load
from generator.load.faults import Memo
from generator.model.blocks import Block
from generator.model.caravan import Caravan
from generator.model.content import Workspace
from generator.model.digests import page_key
from generator.model.manual import Manual
from generator.model.numbers import Numbers
from generator.model.pages import Page
from generator.model.site import Edition
from generator.model.sourced import Given
from generator.model.specs import Spec
from generator.preview.improvised import improvised
from generator.preview.views import View
from generator.render import render
from generator.resolve import resolve

IMPROVISED = "improvised van"  # what faults call the build sheet nobody wrote
State = tuple[tuple[str, int, int], ...]
_OF_VANS = ("van_specs", "content/equipment", "content/markets")
_FIRST = ("topic", "emergency")  # templates of the pages that writers write


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One view as of one build: the manual, the last whole one where there are errors, and what is wrong now."""

    build: int
    manual: Manual | None = None
    workspace: Workspace | None = None
    caravan: Caravan | None = None
    faults: tuple[Fault, ...] = ()
    keys: Mapping[str, str]
    changed: tuple[str, ...] = ()  # paths of pages that look otherwise than in the build before: edited blocks first
    elsewhere: tuple[str, ...] = ()  # files of edited blocks that are not in this van

    @property
    def errors(self) -> tuple[Fault, ...]:
        """What keeps the manual from being made."""
        return tuple(fault for fault in self.faults if fault.level is Level.ERROR)


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What the language rules say of one block, and where else it is used."""

    block: Block
    hits: tuple[Hit, ...]
    ease: float | None
    vans: tuple[str, ...]  # names of the build sheets whose traits it applies to


class Bench:
    """Holds what is needed from one save to the next. Safe to be asked from several threads.

    Args:
        root: The workspace.
        template: Folder of page templates.
        specs: Build sheets beside those in van_specs/vans.
        day: Printed on the pages.
    """

    def __init__(self, root: Path, template: Path, specs: Sequence[Path], day: date) -> None:
        self.root, self.build = root, 1
        self._template, self._edition = template, Edition(number=1, day=day)
        self._specs = {path.stem: path for path in specs}
        self._memo: Memo = {}
        self._shown: dict[View, Shown] = {}
        self._changes: dict[View, dict[int, tuple[str, ...]]] = {}
        self._html: dict[str, str] = {}
        self._assets: Mapping[str, bytes] = {}
        self._toolchain = ""
        self._resolved: tuple[State, Mapping[str, Caravan]] = ((), {})
        self._computed: dict[View, tuple[State, Caravan, Numbers]] = {}
        self._beside: tuple[Manual | None, str, Mapping[str, str], Mapping[str, bytes]] = (None, "", {}, {})
        self._lock = threading.RLock()
        self._scratch = tempfile.TemporaryDirectory(prefix="lockerleaf-preview-")

    def close(self) -> None:
        """Take the scratch folder away."""
        self._scratch.cleanup()

    def refresh(self) -> None:
        """Take note that some file has changed."""
        with self._lock:
            self.build += 1
            self._toolchain = ""  # the template may have changed too

    def vans(self) -> dict[str, Path]:
        """Return the build sheets there are, by name."""
        folder = self.root / "van_specs/vans"
        return {path.stem: path for path in sorted(folder.glob("*.yaml"))} | self._specs

    def shown(self, view: View) -> Shown:
        """Return a view as the files are now."""
        with self._lock:
            known = self._shown.get(view)
            if known is None or known.build != self.build:
                known = self._shown[view] = self._made(view, known)
                self._changes.setdefault(view, {})[self.build] = known.changed
            return known

    def changed_since(self, view: View, build: int) -> tuple[str, ...]:
        """Return the pages that look otherwise than at an earlier build: last saves first, edited blocks first."""
        shown = self.shown(view)
        later = sorted(number for number in self._changes[view] if number > build)
        paths = [path for number in reversed(later) for path in self._changes[view][number]]
        return tuple(path for path in dict.fromkeys(paths) if path in shown.keys)

    # --- one view -----------------------------------------------------------------------------------

    def _made(self, view: View, last: Shown | None) -> Shown:
        faults: list[Fault] = []
        workspace = caravan = manual = None
        with _gathering(faults):
            workspace, spec = self._loaded(view)
            caravan, numbers = self._numbers(view, spec, workspace)
            faults.extend(numbers.warnings)
            manual = assemble(caravan, numbers, workspace.content, workspace.catalogue, None)
        keys = {page.path: page_key(page) for page in manual.pages} if manual else last.keys if last else {}
        edited = _edited(last, workspace)
        return Shown(
            build=self.build,
            manual=manual or (last.manual if last else None),
            workspace=workspace or (last.workspace if last else None),
            caravan=caravan or (last.caravan if last else None),
            faults=tuple(self._named(fault) for fault in dict.fromkeys(faults)),
            keys=keys,
            changed=_changed(last, manual, keys, edited),
            elsewhere=_elsewhere(edited, manual),
        )

    def _numbers(self, view: View, spec: Spec, workspace: Workspace) -> tuple[Caravan, Numbers]:
        """Return the van and its numbers, which no edit of words changes."""
        state, known = self._state(), self._computed.get(view)
        if known is None or known[0] != state:
            caravan = resolve(spec, workspace)
            known = self._computed[view] = (state, caravan, compute(caravan))
        return known[1], known[2]

    def _state(self) -> State:
        """Return the state of the files that vans are resolved from."""
        paths = sorted(path for part in _OF_VANS for path in (self.root / part).rglob("*.yaml"))
        single = [
            self.root / "content/traits.yaml",
            Path(self._scratch.name) / "improvised.yaml",
            *self._specs.values(),
        ]
        files = [path for path in (*paths, *single) if path.is_file()]
        return tuple((str(path), path.stat().st_mtime_ns, path.stat().st_size) for path in files)

    def _loaded(self, view: View) -> tuple[Workspace, Spec]:
        path = self._spec_file(view)
        workspace = load(self.root, [path], self._memo)
        (spec,) = workspace.vans.values()
        if view.van and view.market:
            spec = replace(spec, market=Given(view.market, spec.market.source if spec.market else spec.source))
        return workspace, spec

    def _spec_file(self, view: View) -> Path:
        vans = self.vans()
        if not view.van:
            path = Path(self._scratch.name) / "improvised.yaml"
            path.write_text(improvised(view, load(self.root, None, self._memo)), encoding="utf-8")
            return path
        if view.van not in vans:
            raise ManualError(Fault(f'no build sheet is called "{view.van}"', hint=", ".join(vans)))
        return vans[view.van]

    def _named(self, fault: Fault) -> Fault:
        """Return a fault of the build sheet nobody wrote without its scratch file."""
        if fault.source and fault.source.file.startswith(Path(self._scratch.name).as_posix()):
            return replace(fault, source=Source(IMPROVISED, fault.source.line, fault.source.column))
        return fault

    # --- pages --------------------------------------------------------------------------------------

    def page(self, view: View, path: str) -> tuple[Page, str] | None:
        """Return a page of a view and its HTML, or None where it has none.

        Raises:
            ManualError: the template is wrong.
        """
        with self._lock:
            manual = self.shown(view).manual
            page = next((page for page in manual.pages if page.path == path), None) if manual else None
            if manual is None or page is None:
                return None
            html = self._rendered(page)
            return page, one_page(page, html, manual, self._files(manual)[0], self._edition)

    def file(self, view: View, path: str) -> bytes | None:
        """Return a file that a page of a view fetches."""
        with self._lock:
            manual = self.shown(view).manual
            return self._files(manual)[1].get(path) if manual else None

    def _files(self, manual: Manual) -> tuple[Mapping[str, str], Mapping[str, bytes]]:
        """Return names and content of the files beside the pages of a manual."""
        of, toolchain, names, files = self._beside
        if of is not manual or toolchain != self._toolchain:
            names, files = files_beside(manual, self._assets)
            self._beside = (manual, self._toolchain, names, files)
        return names, files

    def _rendered(self, page: Page) -> str:
        key = page_key(page)
        if not self._toolchain or key not in self._html:
            with tempfile.TemporaryDirectory(dir=self._scratch.name) as scratch:
                rendered = render([page], self._template, Path(scratch))
            if rendered.toolchain != self._toolchain and self._toolchain:
                self._html.clear()
            self._toolchain, self._assets = rendered.toolchain, rendered.assets
            self._html |= rendered.pages
        return self._html[key]

    # --- words --------------------------------------------------------------------------------------

    def judged(self, view: View, page: Page) -> tuple[Judged, ...]:
        """Return what the language rules say of the blocks of a page, and which vans they are in."""
        with self._lock:
            workspace = self.shown(view).workspace
            rules = workspace.content.language if workspace else None
            if workspace is None or rules is None or page.template not in _FIRST:
                return ()
            content = workspace.content
            blocks = [block for block in content.blocks if block.id in page.blocks]
            traits = self._traits()
            return tuple(
                Judged(
                    block=block,
                    hits=tuple(judge_block(block, content.terms, rules)),
                    ease=reading_ease(block, rules, content.terms),
                    vans=_applies(block, traits),
                )
                for block in blocks
            )

    def vans_with(self, view: View, file: str) -> tuple[str, ...]:
        """Return the build sheets of the vans that a block's file is printed in."""
        with self._lock:
            workspace = self.shown(view).workspace
            blocks = workspace.content.blocks if workspace else ()
            block = next((block for block in blocks if block.source.file == file), None)
            return _applies(block, self._traits()) if block else ()

    def _traits(self) -> Mapping[str, Caravan]:
        """Return the vans that can be resolved, by build sheet."""
        state = self._state()
        if self._resolved[0] == state:
            return self._resolved[1]
        vans: dict[str, Caravan] = {}
        with _gathering([]):
            workspace = load(self.root, list(self.vans().values()), self._memo)
            for name, spec in zip(self.vans(), workspace.vans.values(), strict=True):
                with _gathering([]):
                    vans[name] = resolve(spec, workspace)
        self._resolved = (state, vans)
        return vans


def _applies(block: Block, vans: Mapping[str, Caravan]) -> tuple[str, ...]:
    wanted = tuple(trait.value for trait in block.applies.all)
    unwanted = tuple(trait.value for trait in block.applies.none)
    return tuple(name for name, caravan in vans.items() if caravan.has(wanted, unwanted))


@contextmanager
def _gathering(faults: list[Fault]) -> Iterator[None]:
    try:
        yield
    except ManualError as error:
        faults.extend(error.faults)


def _edited(last: Shown | None, workspace: Workspace | None) -> tuple[Block, ...]:
    """Return the blocks that are new or read otherwise than at the build before."""
    if last is None or last.workspace is None or workspace is None:
        return ()
    before = {block.id: block.digest for block in last.workspace.content.blocks}
    return tuple(block for block in workspace.content.blocks if before.get(block.id) != block.digest)


def _changed(
    last: Shown | None, manual: Manual | None, keys: Mapping[str, str], edited: Iterable[Block]
) -> tuple[str, ...]:
    """Return the pages that are new or look otherwise: of edited blocks first, then others that writers write."""
    if last is None or manual is None or last.manual is None:
        return ()
    ids = {block.id for block in edited}
    pages = [page for page in manual.pages if last.keys.get(page.path) != keys[page.path]]
    pages.sort(key=lambda page: (not ids & set(page.blocks), page.template not in _FIRST))
    return tuple(page.path for page in pages)


def _elsewhere(edited: Iterable[Block], manual: Manual | None) -> tuple[str, ...]:
    """Return the files of blocks that were edited and are not in this van."""
    return tuple(block.source.file for block in edited if block.id not in manual.blocks) if manual else ()
