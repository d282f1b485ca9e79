"""Photographs made small: WebP within a budget of bytes and pixels, upright, without anything but the picture.

The only module that knows Pillow. What a camera writes beside a picture (place, time, owner) does not get through: a
new picture is made from the pixels alone.
"""

import io
from contextlib import suppress
from typing import TYPE_CHECKING

from generator.load.drawn import PictureError

if TYPE_CHECKING:
    from PIL import Image

LONGEST_SIDE = 960  # pixels
MOST_BYTES = 40_000
_MOST_PIXELS = 60_000_000  # before shrinking; more is no photograph of a caravan
_QUALITIES = (82, 74, 66, 58, 50, 42)
_SMALLEST_SIDE = 200


def shrink(data: bytes) -> tuple[bytes, int, int]:
    """Return a photograph as WebP within the budget, with its width and height.

    Raises:
        PictureError: it is no picture that can be read, moves, or cannot be made small enough.
    """
    from PIL import Image, ImageOps

    Image.MAX_IMAGE_PIXELS = None  # counted below, before any pixel is read
    try:
        with Image.open(io.BytesIO(data), formats=("JPEG", "PNG", "WEBP")) as opened:
            if opened.width * opened.height > _MOST_PIXELS:
                raise PictureError(f"this picture has {opened.width} x {opened.height} pixels", "save it smaller")
            # A camera may put further pictures behind a photograph (MPO): the first is the photograph.
            if getattr(opened, "n_frames", 1) > 1 and opened.format != "MPO":
                raise PictureError("a picture does not move", "save one of its frames")
            picture = _bare(ImageOps.exif_transpose(_in_srgb(opened)))
    except PictureError:
        raise
    except (OSError, SyntaxError, ValueError, ArithmeticError, MemoryError, KeyError, IndexError, TypeError) as error:
        raise PictureError("this is no picture that can be read", "JPEG, PNG or WebP") from error
    return _within_budget(picture)


def _in_srgb(picture: "Image.Image") -> "Image.Image":
    """Return the picture in the colours of the web, where it says which it has."""
    from PIL import ImageCms

    profile = picture.info.get("icc_profile")
    if profile and picture.mode in ("RGB", "RGBA"):
        with suppress(ImageCms.PyCMSError, OSError):
            own, web = ImageCms.ImageCmsProfile(io.BytesIO(profile)), ImageCms.createProfile("sRGB")
            exif = picture.getexif()
            converted = ImageCms.profileToProfile(picture, own, web)
            if converted is not None:
                converted.info["exif"] = exif.tobytes()  # its way up is read from there
                return converted
    return picture


def _bare(picture: "Image.Image") -> "Image.Image":
    """Return the pixels alone: whatever else the file held stays behind."""
    from PIL import Image

    mode = "RGBA" if picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info else "RGB"
    clean = Image.new(mode, picture.size)
    clean.paste(picture.convert(mode))
    clean.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    return clean


def _within_budget(picture: "Image.Image") -> tuple[bytes, int, int]:
    from PIL import Image

    while True:
        for quality in _QUALITIES:
            out = io.BytesIO()
            picture.save(out, "WEBP", quality=quality, method=6)
            if out.tell() <= MOST_BYTES:
                return out.getvalue(), picture.width, picture.height
        smaller = (picture.width * 4 // 5, picture.height * 4 // 5)
        if max(smaller) < _SMALLEST_SIDE:
            raise PictureError(f"this picture cannot be made smaller than {MOST_BYTES // 1000} kB", "crop it")
        picture = picture.resize(smaller, Image.Resampling.LANCZOS)
