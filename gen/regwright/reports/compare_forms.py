"""The forms in which a comparison is reported."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from regwright.reports.compared import Compared

Form = Callable[[Compared], str]


def _lazily(name: str) -> Form:
    """Return the form ``name``, whose module is imported when it is first asked for."""

    def form(compared: Compared) -> str:
        module = import_module(f"regwright.reports.compare_{name}")
        made: str = getattr(module, f"compare_{name}")(compared)
        return made

    return form


#: Every form by its name: a function to the whole text, which ends in a line break and can be
#: written as UTF-8, whatever the descriptions hold.
FORMS: dict[str, Form] = {name: _lazily(name) for name in ("text", "markdown", "json", "html")}
