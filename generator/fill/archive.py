"""Packs the finished files into a zip, the same bytes each time.

Which files go in is the caller's choice.
"""

import io
import zipfile
from collections.abc import Mapping

_FIRST_DAY = (1980, 1, 1, 0, 0, 0)  # the earliest a zip can hold
_STORED = (".png",)


def archive(files: Mapping[str, bytes], folder: str) -> bytes:
    """Return a zip that unpacks into one folder."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as target:
        for path in sorted(files):
            info = zipfile.ZipInfo(f"{folder}/{path}", _FIRST_DAY)
            info.compress_type = zipfile.ZIP_STORED if path.endswith(_STORED) else zipfile.ZIP_DEFLATED
            info.external_attr = 0o644 << 16
            info.create_system = 3  # Unix whatever system wrote it, so that the bytes do not depend on that
            target.writestr(info, files[path])
    return out.getvalue()
