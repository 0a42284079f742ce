"""An answer about a clock as Markdown tables."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from regwright.clock.answer import Answer
from regwright.model.words import visible
from regwright.render.safe_text import markdown
from regwright.reports.clock_rates import rate_tables, remarks
from regwright.reports.clock_words import (
    CAUTION,
    advice,
    heading,
    rows,
    supply_sentences,
    warnings,
    words_given,
)


def clock_markdown(answer: Answer) -> str:
    """Return the answer as Markdown."""
    parts = [f"# {_safe(heading(answer))}"]
    words = words_given(answer)
    if words:
        parts.append(f"With {_safe(words)}.")
    chain = rows(answer)
    if chain:
        parts.append(_table(("Step", "Does", "Frequency", "Because"), chain))
    parts += [f"- {_safe(text)}" for text in [*advice(answer), *supply_sentences(answer)]]
    parts += [f"- **Look out.** {_safe(text)}" for text in warnings(answer)]
    tables = list(rate_tables(answer))
    for table in tables:
        parts.append(f"## {_safe(table.heading)}")
        if table.rows:
            parts.append(
                _table(("Wanted", "Write", "Makes", "Error", "At worst", "Note"), table.rows)
            )
        parts += [f"- {_safe(text)}" for text in table.problems]
    parts += map(_safe, remarks(tables))
    parts.append(f"**Caution.** {_safe(CAUTION)}")
    return "\n\n".join(parts) + "\n"


def _safe(text: str) -> str:
    return markdown(visible(text))


def _table(head: Sequence[str], cells: Iterable[Sequence[str]]) -> str:
    lines = [f"| {' | '.join(head)} |", "|" + "---|" * len(head)]
    lines += [f"| {' | '.join(map(_safe, row))} |".replace("|  |", "| |") for row in cells]
    return "\n".join(lines)
