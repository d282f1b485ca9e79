"""Asks Lighthouse, pinned in ``.ci/package.json``, about a page on this computer; nothing else is asked for.

What the scores have to be, the tests say.
"""

import json
import os
import shutil
import subprocess
from collections.abc import Sequence
from typing import Any

from tests.browser.conftest import FLAGS, chromium
from tests.finished import TEMPLATE

HOME = TEMPLATE.parent / ".ci"
COMMAND = HOME / "node_modules/lighthouse/cli/index.js"
PAGES = ["index.html", "hot-water.html", "A1/index.html", "numbers.html", "gas-smell.html"]
# No name but the computer's own is looked up, whatever browser or tool would like to ask.
_ALONE = "--host-resolver-rules='MAP * ~NOTFOUND, EXCLUDE 127.0.0.1'"
_LONGEST_S = 180


def missing() -> str:
    """Return why Lighthouse cannot be asked, or nothing where it can."""
    if shutil.which("node") is None:
        return "Lighthouse needs Node 18.16 or later: none is on PATH"
    return "" if COMMAND.exists() else "Lighthouse is not installed: npm ci --prefix .ci"


def report(address: str, categories: Sequence[str]) -> dict[str, Any]:
    """Return what Lighthouse reports of a page.

    Without ``performance`` nothing is slowed down, which is quicker and makes no difference to the rest. The pages
    are noindex on purpose, so whether they can be indexed is not asked.
    """
    command = [
        "node",
        str(COMMAND),
        address,
        "--quiet",
        "--no-enable-error-reporting",
        f"--only-categories={','.join(categories)}",
        "--skip-audits=is-crawlable",
        f"--throttling-method={'simulate' if 'performance' in categories else 'provided'}",
        "--output=json",
        f"--chrome-flags={' '.join([*FLAGS, _ALONE])}",
    ]
    settings = {**os.environ, "CHROME_PATH": chromium()}
    done = subprocess.run(command, capture_output=True, text=True, timeout=_LONGEST_S, check=False, env=settings)
    if done.returncode:
        raise RuntimeError(f"Lighthouse gave up on {address}: {done.stderr[-2000:]}")
    told: dict[str, Any] = json.loads(done.stdout)
    if "runtimeError" in told:
        raise RuntimeError(f"Lighthouse could not judge {address}: {told['runtimeError']['message']}")
    return told


def scores(told: dict[str, Any]) -> dict[str, int]:
    """Return the scores by category, 100 at best."""
    return {name: round(100 * category["score"]) for name, category in told["categories"].items()}


def failed(told: dict[str, Any]) -> list[str]:
    """Return the audits that cost points."""
    named = {ref["id"] for one in told["categories"].values() for ref in one["auditRefs"] if ref["weight"]}
    audits = (told["audits"][name] for name in sorted(named))
    return [f"{audit['id']}: {audit['title']}" for audit in audits if (audit["score"] or 0) < 1 and _counts(audit)]


def _counts(audit: dict[str, Any]) -> bool:
    return audit["scoreDisplayMode"] not in ("notApplicable", "manual", "informative")
