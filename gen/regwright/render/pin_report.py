"""What the report shows of each package: a drawing, and a table of its pins."""

from __future__ import annotations

import re
from collections.abc import Iterator

from regwright.model.packages import Package
from regwright.pins.lookup import FoundPin, Pins
from regwright.pins.text import drawing
from regwright.render.drawings import drawing_name
from regwright.render.part_report import ReportSection, ReportTable, page_text
from regwright.render.safe_text import code_span, markdown, printable
from regwright.resolve.chip import ResolvedChip

_HEAD = ["Pin", "Name", "Kind", "Port bit", "Register bits", "Functions", "Page", "Title"]


def package_sections(resolved: ResolvedChip) -> Iterator[ReportSection]:
    """Yield a section for each package."""
    for package in resolved.chip.packages:
        lines = tuple(printable(line).rstrip() for line in drawing(package))
        longest = max((len(run) for line in lines for run in re.findall("`+", line)), default=0)
        rows = [_row(found) for found in Pins(resolved, package.name).every()]
        yield ReportSection(
            f"Package {code_span(package.name)}",
            list(_about(resolved, package)),
            ReportTable(_HEAD, rows) if rows else None,
            lines,
            "`" * max(3, longest + 1),
        )


def _about(resolved: ResolvedChip, package: Package) -> Iterator[str]:
    page = f", page {package.page}" if package.page else ""
    title = markdown(package.title or f"{package.pin_count} pins")
    yield f"{title}{page}"
    name = drawing_name(resolved.chip, package)
    yield f"seen from above; [as a drawing]({name})"


def _row(found: FoundPin) -> list[str]:
    pin = found.pin
    bits = (
        f"{item.placed.name}.{item.field.field.name if item.field else item.bit}"
        if item.field is None or item.field.layout.width == 1
        else f"{item.placed.name}.{item.bit}"
        for item in found.bits
    )
    return [
        pin.number,
        code_span(pin.name),
        pin.kind,
        code_span(f"{pin.port.port}.{pin.port.bit}") if pin.port else "",
        ", ".join(map(code_span, bits)),
        ", ".join(map(code_span, pin.functions)),
        page_text(pin.page),
        markdown(pin.title or ""),
    ]
