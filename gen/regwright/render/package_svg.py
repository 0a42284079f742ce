"""A package as a drawing (SVG 1.1): its pins in their places, coloured by what they are.

The look is our own: a body with round corners, a tab for each pin with its number, and beside it
what the pin is. Text is set in the reader's own monospaced font, so its width is estimated.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple
from xml.sax.saxutils import escape

from regwright.model.packages import Package, Pin
from regwright.model.words import visible
from regwright.pins.sides import grid, label, sides

#: Sizes in pixels: of a tab, from one to the next, and of the letters.
_TAB_LONG, _TAB_WIDE, _PITCH = 26, 18, 24
_LETTER, _SIZE = 7.3, 12
_MARGIN, _LEAST = 12, 120
#: The colour of a tab for each kind of pin; text on it is dark.
_COLOURS = {
    "io": "#bfe3c6",
    "supply": "#f5b7a8",
    "ground": "#c9ccd1",
    "reset": "#f7d98b",
    "clock": "#b9d3f5",
    "analog": "#dcc7ef",
    "unconnected": "#ffffff",
}
_STYLE = (
    "text{font-family:ui-monospace,monospace;font-size:12px;fill:#1d2733}"
    ".body{fill:#33404f}.name{fill:#ffffff;font-weight:bold}.number{font-size:10px}"
    ".tab{stroke:#33404f;stroke-width:1}"
    "@media (prefers-color-scheme:dark){.label{fill:#e6ebf0}}"
)


class _Spot(NamedTuple):
    """A pin's number and text, and the middle of its edge: ``x``, ``y`` and which side it is."""

    pin: Pin | None
    number: str
    side: str
    x: float
    y: float


def package_svg(chip: str, package: Package) -> str:
    """Return the drawing of ``package`` of the chip named ``chip`` as an SVG document."""
    if package.arrangement == "grid":
        return _whole(chip, package, *_grid(package))
    return _whole(chip, package, *_rows(package))


def _whole(chip: str, package: Package, width: float, height: float, body: list[str]) -> str:
    title = f"{chip} in {package.name}, seen from above"
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" '
        f'width="{width:g}" height="{height:g}" role="img">',
        f"<title>{_text(title)}</title>",
        f"<style>{_STYLE}</style>",
        *body,
        "</svg>",
    ]
    return "\n".join(lines) + "\n"


def _text(text: str) -> str:
    return escape(visible(text), {'"': "&quot;"})


def _rows(package: Package) -> tuple[float, float, list[str]]:
    """Return width, height and elements of a package with two or four rows of pins."""
    where = sides(package)
    longest = [
        max((len(label(pin)) for pin in side), default=0) * _LETTER + _MARGIN
        for side in (where.left, where.right, where.top, where.bottom)
    ]
    left, right = longest[0] + _TAB_LONG, longest[1] + _TAB_LONG
    top = longest[2] + _TAB_LONG if where.top else _MARGIN
    bottom = longest[3] + _TAB_LONG if where.bottom else _MARGIN
    across = max(len(where.top), len(where.bottom))
    wide = max(_LEAST, (across + 1) * _PITCH, len(package.name) * _LETTER + 4 * _MARGIN)
    tall = (max(len(where.left), len(where.right)) + 1) * _PITCH
    spots = []
    first = 1
    for side, pins in (("left", where.left), ("bottom", where.bottom)):
        for index, pin in enumerate(pins):
            along = (index + 1) * _PITCH
            shift = (wide - (len(pins) + 1) * _PITCH) / 2 if side == "bottom" else 0
            x, y = (left, top + along) if side == "left" else (left + shift + along, top + tall)
            spots.append(_Spot(pin, str(first + index), side, x, y))
        first += len(pins)
    for side, pins in (("right", where.right), ("top", where.top)):
        last = first + len(pins) - 1
        for index, pin in enumerate(pins):
            along = (index + 1) * _PITCH
            shift = (wide - (len(pins) + 1) * _PITCH) / 2 if side == "top" else 0
            x, y = (left + wide, top + along) if side == "right" else (left + shift + along, top)
            spots.append(_Spot(pin, str(last - index), side, x, y))
        first += len(pins)
    body = [
        f'<rect class="body" x="{left:g}" y="{top:g}" width="{wide:g}" height="{tall:g}" rx="10"/>',
        f'<circle cx="{left + 14:g}" cy="{top + 12:g}" r="4" fill="#ffffff"/>',
        f'<text class="name" x="{left + wide / 2:g}" y="{top + tall / 2 + 4:g}" '
        f'text-anchor="middle">{_text(package.name)}</text>',
    ]
    for spot in spots:
        body += _tab(spot)
    return left + wide + right, top + tall + bottom, body


def _tab(spot: _Spot) -> Iterator[str]:
    """Yield the elements of one pin at a side."""
    pin, number, side, x, y = spot
    is_upright = side in ("top", "bottom")
    long, wide = (_TAB_WIDE, _TAB_LONG) if is_upright else (_TAB_LONG, _TAB_WIDE)
    left = {"left": x - long, "right": x}.get(side, x - long / 2)
    top = {"top": y - wide, "bottom": y}.get(side, y - wide / 2)
    colour = _COLOURS[pin.kind] if pin else "#ffffff"
    yield (
        f'<rect class="tab" x="{left:g}" y="{top:g}" width="{long:g}" height="{wide:g}" rx="3" '
        f'fill="{colour}"/>'
    )
    yield (
        f'<text class="number" x="{left + long / 2:g}" y="{top + wide / 2 + 4:g}" '
        f'text-anchor="middle">{_text(number)}</text>'
    )
    gap = 6
    if is_upright:
        at = top - gap if side == "top" else top + wide + gap
        anchor = "start" if side == "top" else "end"
        yield (
            f'<text class="label" transform="translate({x + 4:g} {at:g}) rotate(-90)" '
            f'text-anchor="{anchor}">{_text(label(pin))}</text>'
        )
        return
    at = left - gap if side == "left" else left + long + gap
    anchor = "end" if side == "left" else "start"
    yield (
        f'<text class="label" x="{at:g}" y="{y + 4:g}" text-anchor="{anchor}">'
        f"{_text(label(pin))}</text>"
    )


def _grid(package: Package) -> tuple[float, float, list[str]]:
    """Return width, height and elements of a package with a grid of balls."""
    rows, columns, pins = grid(package)
    longest = max([2, *(len(pin.name) for pin in pins.values())])
    cell_wide, cell_tall = longest * _LETTER + 12, 30
    start = 30
    body = [
        f'<rect class="body" x="{start - 4}" y="{start - 4}" rx="10" '
        f'width="{len(columns) * cell_wide + 8:g}" height="{len(rows) * cell_tall + 8:g}"/>'
    ]
    for index, column in enumerate(columns):
        x = start + (index + 0.5) * cell_wide
        body.append(f'<text class="label" x="{x:g}" y="18" text-anchor="middle">{column}</text>')
    for line, row in enumerate(rows):
        y = start + line * cell_tall
        body.append(f'<text class="label" x="6" y="{y + cell_tall / 2 + 4:g}">{row}</text>')
        for index, column in enumerate(columns):
            pin = pins.get((row, column))
            if pin is None:
                continue
            x = start + index * cell_wide
            body.append(
                f'<rect class="tab" x="{x + 3:g}" y="{y + 3:g}" width="{cell_wide - 6:g}" '
                f'height="{cell_tall - 6}" rx="8" fill="{_COLOURS[pin.kind]}"/>'
            )
            body.append(
                f'<text x="{x + cell_wide / 2:g}" y="{y + cell_tall / 2 + 4:g}" '
                f'text-anchor="middle">{_text(pin.name)}</text>'
            )
    width = start + len(columns) * cell_wide + _MARGIN
    return width, start + len(rows) * cell_tall + _MARGIN, body
