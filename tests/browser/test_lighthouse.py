"""Lighthouse gives 100 for accessibility, best practice and search engines.

How fast the pages are, ``tests/bench/lighthouse.py`` says.
"""

from collections.abc import Iterator

import pytest

from tests.browser.demo_vans import published
from tests.browser.lighthouse import PAGES, failed, missing, report, scores
from tests.browser.wire import WireHost

pytestmark = [
    pytest.mark.browser,
    pytest.mark.lighthouse,
    pytest.mark.skipif(bool(missing()), reason=missing() or "installed"),
]

CATEGORIES = ["accessibility", "best-practices", "seo"]


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Serve the full tourer and return its address."""
    [van] = published(tmp_path_factory.mktemp("lighthouse"), ["marram-0417"])
    host = WireHost(van.folder.parent)
    host.start()
    yield f"{host.address}{van.name}/"
    host.stop()


@pytest.mark.parametrize("page", PAGES)
def test_full_marks(address: str, page: str) -> None:
    told = report(address + page, CATEGORIES)
    assert failed(told) == []
    assert scores(told) == dict.fromkeys(CATEGORIES, 100)
