"""What importing a table needs besides: its offset, and printing it again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from regwright.cli.exits import CLEAN, FINDINGS
from regwright.cli.terminal import print_findings
from regwright.importing.draft import Draft
from regwright.importing.tables.printing import echo as printed


def offset_of(text: str | None) -> int | None:
    """Return the number that ``--window-offset`` gives. Raises ``click.UsageError``."""
    if text is None:
        return None
    from regwright.cli.words_given import number_of

    return number_of(text, "--window-offset")
