"""Forms of a report whose modules are imported when they are first asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from importlib import import_module
from typing import Any


def forms(subject: str, names: Iterable[str]) -> dict[str, Callable[[Any], str]]:
    """Return each form of ``subject`` by its name.

    The form ``json`` of ``clock`` is the function ``clock_json`` of ``reports/clock_json.py``.
    """
    return {name: _form(f"{subject}_{name}") for name in names}


def _form(name: str) -> Callable[[Any], str]:
    def form(reported: Any) -> str:
        made: str = getattr(import_module(f"regwright.reports.{name}"), name)(reported)
        return made

    return form
