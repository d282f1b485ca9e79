"""Pictures of a page: a drawing in the ink of the page, a photograph from a file beside it."""

from collections.abc import Mapping

from markupsafe import Markup, escape

from generator.fill.assets import FOLDER
from generator.model.manual import Manual
from generator.model.pictures import Picture


def picture_figure(picture: Picture, root: str) -> Markup:
    """Return a picture with its words for who cannot see it.

    Args:
        picture: The picture; ``load`` has written its drawing from a list of what one may hold.
        root: Way from the page to the manual's root.
    """
    if picture.file.form == "svg":
        words = Markup('<svg role="img" aria-label="{}" focusable="false" ').format(picture.alt.value)
        return Markup(picture.file.data.decode("utf-8").replace("<svg ", str(words), 1))
    return Markup('<img src="{}{}" alt="{}" width="{}" height="{}" loading="lazy" decoding="async">').format(
        root, path_of(picture), picture.alt.value, picture.file.width, picture.file.height
    )


def path_of(picture: Picture) -> str:
    """Return the path of a photograph from the manual's root; it changes with what is in it."""
    return f"{FOLDER}/picture.{picture.file.digest[:10]}.webp"


def picture_files(manual: Manual) -> dict[str, bytes]:
    """Return the photographs of a manual by path."""
    pictures = (value for value in manual.values.values() if isinstance(value, Picture))
    return {path_of(picture): picture.file.data for picture in pictures if picture.file.form == "webp"}


def inlined(html: str, files: Mapping[str, bytes]) -> str:
    """Return HTML that holds its photographs itself, for the copy in one file."""
    import base64

    for path, data in files.items():
        inline = "data:image/webp;base64," + base64.b64encode(data).decode("ascii")
        for root in ("", "../"):
            html = html.replace(f'src="{root}{escape(path)}"', f'src="{inline}"')
    return html
