"""What the report shows of the clock: where it comes from, and what the CPU has as delivered."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.clock.amounts import hertz, volts
from regwright.configuration.hazards import cause_in_words
from regwright.model.clock import Clock, ClockSource
from regwright.render.clock_words import default_words, source_words
from regwright.render.part_report import ReportSection, ReportTable, page_text
from regwright.render.safe_text import code_span, markdown
from regwright.resolve.chip import ResolvedChip


def clock_section(clock: Clock, resolved: ResolvedChip) -> ReportSection:
    """Return the section of the clock."""
    head = ["Source", "Kind", "Frequency", "When", "Page", "Title"]
    rows = [_source(source) for source in clock.sources]
    return ReportSection("Clock", list(_lines(clock, resolved)), ReportTable(head, rows))


def _lines(clock: Clock, resolved: ResolvedChip) -> Iterator[str]:
    if resolved.chip.kind == "chip":
        words = default_words(resolved)
        yield f"As delivered, the CPU has **{words.result}**"
        yield from (markdown(step) for step in words.steps)
    if clock.constant:
        yield f"The program's own name for its clock: {code_span(clock.constant)}"
    for limit in clock.limits:
        yield f"At {volts(limit.supply)}: {hertz(limit.highest)} at most"
    for rate in clock.rates:
        title = f": {markdown(rate.title)}" if rate.title else ""
        yield f"Rate {code_span(rate.name)}{title}"


def _source(source: ClockSource) -> list[str]:
    return [
        code_span(source.name),
        source.kind,
        source_words(source),
        code_span(cause_in_words(source.when)) if source.when else "always",
        page_text(source.page),
        markdown(source.title or ""),
    ]
