"""The forms in which an answer about a clock is reported."""

from __future__ import annotations

from collections.abc import Callable

from regwright.clock.answer import Answer
from regwright.reports.lazily import forms

Form = Callable[[Answer], str]


#: Every form by its name: a function to the whole text, which ends in a line break.
FORMS: dict[str, Form] = forms("clock", ("text", "json", "markdown"))
