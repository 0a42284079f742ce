"""The forms in which a comparison is reported."""

from __future__ import annotations

from collections.abc import Callable

from regwright.reports.compared import Compared
from regwright.reports.lazily import forms

Form = Callable[[Compared], str]


#: Every form by its name: a function to the whole text, which ends in a line break and can be
#: written as UTF-8, whatever the descriptions hold.
FORMS: dict[str, Form] = forms("compare", ("text", "markdown", "json", "html"))
