"""What importing a table needs besides: its offset, and printing it again."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from regwright.cli.exits import CLEAN, FINDINGS
from regwright.cli.importing import located
from regwright.cli.terminal import print_findings
from regwright.cli.words_given import number_of

if TYPE_CHECKING:
    from regwright.importing.draft import Draft


def offset_of(text: str | None) -> int | None:
    """Return the number that ``--window-offset`` gives. Raises ``click.UsageError``."""
    return None if text is None else number_of(text, "--window-offset")


def print_again(name: str, data: bytes, draft: Draft, options: dict[str, Any]) -> int:
    """Print the tables of ``data`` as they were understood, and return the exit code.

    Each layout that is in the file is printed, in the file's form; of a PDF the text.
    """
    from regwright.importing.tables.printing import echo
    from regwright.importing.tables.reading import PDF, TEXT, form_of, read_grids
    from regwright.importing.tables.recognise import sections

    found = [located(name, item, strict=options["strict"]) for item in draft.remarks]
    print_findings(found, err=True)
    if draft.tree is None:
        return FINDINGS
    form = options["form"] or form_of(name, data)
    layouts = [
        item.layout for item in sections(read_grids(name, data, form), options["layout"] or "")
    ]
    texts = [
        echo(draft.tree, layout, TEXT if form == PDF else form) for layout in dict.fromkeys(layouts)
    ]
    click.echo("\n".join(texts).encode("utf-8"), nl=False)
    return CLEAN
