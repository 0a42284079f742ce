"""What the consistency report shows: each register in each space, the verdict, the findings."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from regwright.macros.literals import shown
from regwright.macros.registers import has_parts
from regwright.model.finding import Finding
from regwright.model.origin import Origin
from regwright.model.words import levels_in_words
from regwright.render.safe_text import code_span, markdown
from regwright.render.views import Input, address_views, reset_text
from regwright.resolve.chip import Placed

if TYPE_CHECKING:  # for a chip that has more than registers
    from regwright.render.part_report import ReportSection


class ReportRow(NamedTuple):
    """One register: a cell for each space, and what the rules say of it."""

    name: str
    cells: list[str]
    width: int
    access: str
    reset: str
    page: str
    title: str
    verdict: str


class ReportFinding(NamedTuple):
    """One finding, with its place."""

    place: str
    level: str
    message: str
    rule: str


class ReportView(NamedTuple):
    """The report; every text is safe in a Markdown table.

    ``sections`` are of what there is besides registers.
    """

    spaces: list[str]
    space_lines: list[str]
    rows: list[ReportRow]
    findings: list[ReportFinding]
    verdict: str
    given: int
    derived: int
    sections: "list[ReportSection]"


def _within(origin: Origin) -> Iterator[int]:
    """Yield the identity of ``origin`` and of everything around it."""
    while origin is not None:
        yield id(origin)
        origin = origin[0]


def _verdicts(findings: list[Finding]) -> dict[int, str]:
    """Return the gravest level found at or within each node, by the node's identity."""
    gravity = {"note": 0, "warning": 1, "error": 2}
    found: dict[int, str] = {}
    for finding in findings:
        for key in _within(finding.origin):
            if gravity[finding.level] >= gravity[found.get(key, "note")]:
                found[key] = finding.level
    return found


def _row(placed: Placed, data: Input, verdicts: dict[int, str]) -> ReportRow:
    views = {view.space: view for view in address_views(placed)}
    cells = []
    for space in data.resolved.chip.spaces:
        view = views.get(space.name)
        cells.append(f"`{view.text}` {view.how}" if view else "")
    facts = placed.facts
    return ReportRow(
        code_span(placed.name),
        cells,
        facts.width,
        facts.access,
        reset_text(facts.reset, facts.width),
        str(facts.register.page or ""),
        markdown(facts.register.title or ""),
        verdicts.get(id(facts.register.origin), "ok"),
    )


def _space_lines(data: Input) -> Iterator[str]:
    chip = data.resolved.chip
    for space in chip.spaces:
        reached = "reached by C pointers" if space.pointer else "not reached by C pointers"
        title = f" ({markdown(space.title)})" if space.title else ""
        size = f"{shown(space.size)} addresses of {space.unit} bits"
        yield f"`{space.name}`{title}: {size}, {reached}"
        for region in space.regions:
            span = f"{shown(region.first)} to {shown(region.last)}"
            yield f"`{space.name}` {span}: {markdown(region.title or region.name)}"
    for window in chip.windows:
        span = f"{shown(window.first)} to {shown(window.last)}"
        text = f"`{window.source}` {span} is seen in `{window.into}` at {shown(window.offset)} more"
        if window.single_bit:
            bit_span = f"{shown(window.single_bit.first)} to {shown(window.single_bit.last)}"
            text += f"; single-bit instructions reach {bit_span}"
        yield text


def report_view(data: Input) -> ReportView:
    """Return the report as its template sees it."""
    verdicts = _verdicts(data.findings)
    addresses = [item for placed in data.resolved.registers for item in placed.addresses]
    given = sum(1 for item in addresses if item.given)
    return ReportView(
        [space.name for space in data.resolved.chip.spaces],
        list(_space_lines(data)),
        [_row(placed, data, verdicts) for placed in data.resolved.registers],
        [
            ReportFinding(place, item.level, markdown(item.message), item.rule)
            for place, item in zip(data.places, data.findings, strict=True)
        ],
        levels_in_words(item.level for item in data.findings),
        given,
        len(addresses) - given,
        _sections(data),
    )


def _sections(data: Input) -> "list[ReportSection]":
    if not has_parts(data.resolved.chip):
        return []
    from regwright.render.part_report import report_sections

    return report_sections(data.resolved)
