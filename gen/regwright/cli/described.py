"""Read the one description that a command works on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from regwright.cli.inputs import load
from regwright.cli.terminal import complain, print_findings

if TYPE_CHECKING:
    from regwright.pipeline import Checked


def described(path: str, undone: str) -> Checked | None:
    """Return the description in the file ``path``, checked, or ``None`` when it has an error.

    Its findings are printed then, and ``undone``, what could not be done, as ``nothing was
    computed``. Raises ``BadConfig`` and ``CannotRead``.
    """
    from regwright.cli.settings_file import settings
    from regwright.pipeline import check

    checked = check(load(path), "", settings())
    return checked if is_usable(checked, undone) else None


def is_usable(checked: Checked, undone: str) -> bool:
    """Tell whether a description has no error; where it has, print that and what is ``undone``."""
    if checked.resolved is not None and not checked.has_errors:
        return True
    print_findings(checked.findings, err=True)
    complain(f"{checked.source.name}: correct this description first; {undone}")
    return False
