"""The forms in which an answer about a clock is reported."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

from regwright.clock.answer import Answer

Form = Callable[[Answer], str]


def _lazily(name: str) -> Form:
    """Return the form ``name``, whose module is imported when it is first asked for."""

    def form(answer: Answer) -> str:
        module = import_module(f"regwright.reports.clock_{name}")
        made: str = getattr(module, f"clock_{name}")(answer)
        return made

    return form


#: Every form by its name: a function to the whole text, which ends in a line break.
FORMS: dict[str, Form] = {name: _lazily(name) for name in ("text", "json", "markdown")}
