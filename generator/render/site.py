"""Runs MkDocs with Material once over all pages: the only module that knows either of them.

Bodies come ready made; MkDocs brings the build and the templates, Material the style of running text.
"""

import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Any

import jinja2
from markupsafe import Markup
from mkdocs.commands.build import build
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page as SitePage

from generator.errors import Fault, RenderError, Source
from generator.model.pages import Page
from generator.render.element import hole
from generator.render.style import chosen_rules

TOOLS = ("lockerleaf", "mkdocs", "mkdocs-material")
BY_THEMSELVES = ("404.html", "not-yet.html")  # pages that belong to no address of their own
_SCOPE = "md-typeset"  # Material's class for running text; the templates carry it
_TAGS = "h1 h2 h3 p ul ol li table thead tbody tr th td strong em a svg figure"


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page on its way through the build."""

    page: Page
    body: Markup
    searches: bool  # a search field stands on it
    helps: bool  # its body names the dealer already


@dataclass(frozen=True, slots=True)
class Site:
    """What came out of the build: HTML by key, the pages of no address of their own by name, the theme's rules."""

    pages: Mapping[str, str]
    by_themselves: Mapping[str, str]
    theme_rules: str


def tool_versions() -> str:
    """Return the versions of the libraries whose output the pages are."""
    return " ".join(f"{tool}=={version(tool)}" for tool in TOOLS)


def build_site(sheets: Mapping[str, Sheet], template: Path, scratch: Path) -> Site:
    """Build every sheet with the page templates of ``template``.

    Args:
        sheets: Pages by key; the key becomes the file name.
        template: Folder of page templates.
        scratch: An empty folder to work in.

    Raises:
        RenderError: a template is wrong, or MkDocs warned of anything.
    """
    docs, out = scratch / "docs", scratch / "site"
    docs.mkdir(parents=True, exist_ok=True)
    config = _configured(docs, out, template)
    rules = _theme_rules(config)
    _only_own_files(config, template)
    ours = config.plugins["sheets"] = _Sheets(sheets)
    faults: list[Fault] = []
    with _listening(faults):
        _run(config, template, faults)
    if faults:
        raise RenderError(*faults)
    by_themselves = {name: (out / name).read_text(encoding="utf-8") for name in BY_THEMSELVES}
    return Site(ours.pages, by_themselves, rules)


def _configured(docs: Path, out: Path, template: Path) -> MkDocsConfig:
    config = MkDocsConfig(config_file_path=None)
    config.load_dict(
        {
            "site_name": "manual",
            "docs_dir": str(docs),
            "site_dir": str(out),
            "use_directory_urls": False,
            "theme": {"name": "material", "custom_dir": str(template.resolve()), "font": False},
            # An empty list keeps the default search plugin out.
            "plugins": [],
            "validation": {"nav": {"omitted_files": "ignore"}},
        }
    )
    errors, warnings = config.validate()
    if errors or warnings:
        raise RenderError(*(Fault(f"mkdocs refused {name}: {message}") for name, message in [*errors, *warnings]))
    config.theme.static_templates = set(BY_THEMSELVES)
    return config


def _only_own_files(config: MkDocsConfig, template: Path) -> None:
    """Take away what MkDocs would prepare for nothing: the theme's thousands of files, and Markdown for every page."""
    config.markdown_extensions = []
    config.theme.dirs = [str(template.resolve())]


def _run(config: MkDocsConfig, template: Path, faults: list[Fault]) -> None:
    try:
        config.plugins.on_startup(command="build", dirty=False)
        build(config)
        config.plugins.on_shutdown()
    except jinja2.TemplateSyntaxError as error:
        source = Source(f"{template.name}/{error.name or ''}", error.lineno)
        raise RenderError(Fault(f"the template is wrong: {error.message}", source)) from error
    except jinja2.TemplateError as error:
        raise RenderError(Fault(f"the template is wrong: {error}")) from error
    except SystemExit as error:  # mkdocs' Abort; the log says why
        raise RenderError(*(faults or [Fault(f"mkdocs gave up: {error}")])) from error


@contextmanager
def _listening(faults: list[Fault]) -> Iterator[None]:
    """Collect what MkDocs warns of: a warning would be a page that is not as meant."""
    handler = _Collector(faults)
    logger = logging.getLogger("mkdocs")
    logger.addHandler(handler)
    try:
        yield
    finally:
        logger.removeHandler(handler)


class _Collector(logging.Handler):
    def __init__(self, faults: list[Fault]) -> None:
        super().__init__(logging.WARNING)
        self._faults = faults

    def emit(self, record: logging.LogRecord) -> None:
        self._faults.append(Fault(f"mkdocs: {record.getMessage()}"))


def _theme_rules(config: MkDocsConfig) -> str:
    """Material's file names carry a hash, so the style sheet is found by its pattern."""
    for folder in map(Path, config.theme.dirs):
        for sheet in sorted(folder.glob("assets/stylesheets/main.*.min.css")):
            return chosen_rules(sheet.read_text(encoding="utf-8"), _SCOPE, frozenset(_TAGS.split()))
    raise RenderError(Fault("the style sheet of the theme was not found"))


class _NoSettings(Config):  # type: ignore[no-untyped-call]
    """The plugin below has none."""


class _Sheets(BasePlugin[_NoSettings]):  # type: ignore[no-untyped-call]
    """Hands our pages to MkDocs and keeps the theme's own files out."""

    def __init__(self, sheets: Mapping[str, Sheet]) -> None:
        self._sheets = sheets
        self.pages: dict[str, str] = {}  # by key

    def on_files(self, files: Files, /, *, config: MkDocsConfig) -> Files:
        return Files([File.generated(config, f"{key}.md", content="") for key in self._sheets])

    def on_env(self, env: jinja2.Environment, /, *, config: MkDocsConfig, files: Files) -> jinja2.Environment:
        # Templates are compiled after this event, so all of them escape.
        env.autoescape = True
        env.trim_blocks = env.lstrip_blocks = True
        env.undefined = jinja2.StrictUndefined
        env.globals["hole"] = hole
        return env

    def on_page_markdown(self, markdown: str, /, *, page: SitePage, config: MkDocsConfig, files: Files) -> str:
        page.meta["template"] = f"{self._of(page).page.template}.html"
        return markdown

    def on_page_content(self, html: str, /, *, page: SitePage, config: MkDocsConfig, files: Files) -> Markup:
        return self._of(page).body

    def on_page_context(self, context: Any, /, *, page: SitePage, config: MkDocsConfig, nav: Any) -> Any:
        sheet = self._of(page)
        context["own"], context["sheet"], context["root"] = sheet.page, sheet, sheet.page.root
        return context

    def on_post_page(self, output: str, /, *, page: SitePage, config: MkDocsConfig) -> str:
        self.pages[page.file.src_uri.removesuffix(".md")] = output
        return ""  # nothing for MkDocs to write

    def _of(self, page: SitePage) -> Sheet:
        return self._sheets[page.file.src_uri.removesuffix(".md")]
