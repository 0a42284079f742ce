"""Print a description again as the tables of a data sheet, to be laid beside the original."""

from __future__ import annotations

from collections.abc import Callable

from regwright.importing.draft import Tree
from regwright.importing.tables.printing import (
    box,
    field_list,
    forms,
    matrix,
    offsets,
    summary,
)
from regwright.importing.tables.printing.shown import Shown, shown
from regwright.importing.tables.printing.table import Printed

_LAYOUTS: dict[str, Callable[[Shown], list[Printed]]] = {
    "summary": summary.tables,
    "offsets": offsets.tables,
    "box": box.registers,
    "fields": field_list.tables,
    "grid": box.grids,
    "matrix": matrix.tables,
}
_FORMS: dict[str, Callable[[list[Printed]], str]] = {
    "csv": forms.as_csv,
    "tsv": forms.as_tsv,
    "text": forms.as_text,
    "html": forms.as_html,
}


def tables(tree: Tree, layout: str) -> list[Printed]:
    """Return the tables that show the description ``tree``, which the schema accepts.

    ``layout`` is one of those of ``recognise.LAYOUTS``. What a layout has no place for is left
    out: a list of fields has no registers without fields. Raises ``KeyError`` for another layout,
    ``TooDeep`` and ``TooManyRegisters`` as reading and resolving do.
    """
    return _LAYOUTS[layout](shown(tree))


def echo(tree: Tree, layout: str, form: str) -> str:
    """Return the tables of :func:`tables` in the form ``csv``, ``tsv``, ``text`` or ``html``."""
    return _FORMS[form](tables(tree, layout))
