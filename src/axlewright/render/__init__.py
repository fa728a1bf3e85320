"""A pack in, bytes out: a page, a printed sheet, a terminal, data. A renderer knows sheets only.

    render(pack, Show(measures="us", paper="Letter"), "pdf")

Each renderer is imported when it is first asked for: the command line answers before typst and Jinja are needed.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from axlewright.render.show import Show
from axlewright.sheets import Pack

Renderer = Callable[[Pack, Show], bytes]


def _named(name: str) -> Renderer:
    def render_with(pack: Pack, show: Show) -> bytes:
        found = import_module(f"axlewright.render.{name}")
        made: bytes = getattr(found, "printed", found.render)(pack, show)
        return made

    return render_with


RENDERERS: dict[str, Renderer] = {name: _named(name) for name in ("html", "pdf", "text", "json")}
ENDINGS = {".html": "html", ".htm": "html", ".pdf": "pdf", ".txt": "text", ".json": "json"}


def render(pack: Pack, show: Show, name: str) -> bytes:
    """The pack by the renderer of this name.

    Raises:
        LookupError: no renderer has this name
    """
    if name not in RENDERERS:
        raise LookupError(f"nothing here renders {name}: choose one of {', '.join(RENDERERS)}")
    return RENDERERS[name](pack, show)


__all__ = ["ENDINGS", "RENDERERS", "Renderer", "Show", "render"]
