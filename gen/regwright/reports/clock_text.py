"""An answer about a clock for a terminal: the chain from top to bottom, in columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from regwright.clock.answer import Answer
from regwright.model.words import visible
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


def clock_text(answer: Answer) -> str:
    """Return the answer in lines."""
    return "".join(f"{visible(line)}\n" for line in _lines(answer))


def _lines(answer: Answer) -> Iterator[str]:
    yield heading(answer)
    words = words_given(answer)
    if words:
        yield f"with {words}"
    chain = rows(answer)
    if chain:
        yield ""
        yield from columns(chain)
    said = [*advice(answer), *supply_sentences(answer)]
    if said:
        yield ""
        yield from said
    found = list(warnings(answer))
    if found:
        yield ""
        yield from found
    tables = list(rate_tables(answer))
    for table in tables:
        yield ""
        yield table.heading
        yield from columns(
            row._replace(worst=f"({row.worst})" if row.worst else "") for row in table.rows
        )
        yield from table.problems
    yield ""
    yield from remarks(tables)
    yield CAUTION


def columns(cells: Iterable[Sequence[str]]) -> Iterator[str]:
    """Yield a line for each row, indented, each column as wide as its longest text."""
    table = list(cells)
    widths = [max(map(len, column)) for column in zip(*table, strict=True)]
    for row in table:
        padded = (text.ljust(width) for text, width in zip(row, widths, strict=True) if width)
        yield "  " + "  ".join(padded).rstrip()
