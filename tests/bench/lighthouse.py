"""What Lighthouse says of speed: the median of five looks at five pages of the full tourer, for each its own.

Run from the workspace: ``python -m tests.bench.lighthouse [LOOKS]``, after ``npm ci --prefix .ci``. Lighthouse reckons
with a phone on slow 4G; other work on the computer makes it slower. Nothing is asserted: machines differ.
"""

import sys
import tempfile
from pathlib import Path
from statistics import median

from tests.browser.demo_vans import published
from tests.browser.lighthouse import PAGES, missing, report
from tests.browser.wire import WireHost

TIMES = {
    "first-contentful-paint": "first words",
    "largest-contentful-paint": "largest part",
    "total-blocking-time": "blocked",
}


def main() -> None:
    """Look at every page and print the medians."""
    if missing():
        raise SystemExit(missing())
    looks = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    with tempfile.TemporaryDirectory() as scratch:
        [van] = published(Path(scratch), ["marram-0417"])
        host = WireHost(van.folder.parent)
        host.start()
        try:
            for page in PAGES:
                told = [report(f"{host.address}{van.name}/{page}", ["performance"]) for _ in range(looks)]
                marks = sorted(round(100 * one["categories"]["performance"]["score"]) for one in told)
                times = (
                    f"{words} {median(one['audits'][name]['numericValue'] for one in told):.0f} ms"
                    for name, words in TIMES.items()
                )
                print(f"{page:18} {median(marks):3.0f}  of {marks}: {', '.join(times)}", flush=True)
        finally:
            host.stop()


if __name__ == "__main__":
    main()
