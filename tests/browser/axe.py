"""axe-core in a page: what it finds, by rules and at the size the page has now.

Which pages are asked, at which sizes, the tests say.
"""

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

# target-size (2.5.8) is off unless asked for.
OPTIONS = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]},
    "rules": {"target-size": {"enabled": True}},
    "resultTypes": ["violations", "incomplete"],
}
COLOURS = {"runOnly": ["color-contrast", "link-in-text-block"], "resultTypes": ["violations", "incomplete"]}

# Only what is said below is handed over: the whole answer of axe takes longer to pass than to find.
_ASK = """async options => {
  const { violations, incomplete } = await axe.run(options);
  const unsure = incomplete.filter(one => one.id === "color-contrast");
  const isBeyond = node => document.querySelector(node.target.at(-1)).closest("svg, .scroll");
  const nodes = (prefix, all) => all.flatMap(one => one.nodes
    .filter(node => !(prefix && isBeyond(node)))
    .map(node => `${prefix}${one.id}: ${node.html.slice(0, 160)}`));
  return [...nodes("", violations), ...nodes("unsure ", unsure)];
}"""


def findings(page: Page, options: dict[str, object] = OPTIONS) -> list[str]:
    """Return violations, and contrasts of HTML that axe could not judge by itself.

    Words in a drawing lie over shapes, which axe never judges; their colours are checked elsewhere. So are those of a
    table that scrolls, at a width where nothing of it is out of sight.
    """
    if not page.evaluate("Boolean(self.axe)"):
        page.evaluate(AXE_SCRIPT)
    found: list[str] = page.evaluate(_ASK, options)
    return found
