"""render: distinct pages with holes -> HTML through MkDocs and Material."""

from generator.model.digests import page_key
from generator.render.stage import render

__all__ = ["page_key", "render"]
