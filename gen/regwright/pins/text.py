"""A package as text: its pins in their places, seen from above."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.packages import Package, Pin
from regwright.pins.sides import Sides, grid, label, sides

#: Columns within the body: at least, and for each pin at its top or bottom.
_LEAST, _STEP = 14, 4


def without_functions(package: Package) -> list[Pin]:
    """Return the pins whose functions :func:`drawing` has no room for, in the package's order.

    At the top and bottom, and in a grid, it shows names only.
    """
    if package.arrangement == "grid":
        return [pin for pin in package.pins if label(pin) != pin.name]
    where = sides(package)
    short = {pin.number for pin in (*where.bottom, *where.top) if pin is not None}
    return [pin for pin in package.pins if pin.number in short and label(pin) != pin.name]


def drawing(package: Package, marked: str = "") -> list[str]:
    """Return ``package`` in lines; an arrow points at the pin whose number is ``marked``."""
    if package.arrangement == "grid":
        return list(_grid(package, marked))
    return [line.rstrip() for line in _Body(package, sides(package), marked).lines()]


class _Body:
    """Draws a body with pins at two or four sides."""

    def __init__(self, package: Package, where: Sides, marked: str) -> None:
        self._package = package
        self._where = where
        self._marked = marked
        longest = max(len(where.top), len(where.bottom))
        self._inner = max(_LEAST, longest * _STEP + _STEP, len(package.name) + 8)
        self._left = [self._label(pin, "▶", first=False) for pin in where.left]
        self._margin = max(map(len, self._left), default=0) + 3

    def lines(self) -> Iterator[str]:
        """Yield the lines from the top down."""
        where = self._where
        blank = " " * self._margin
        yield from (blank + line for line in self._upright(where.top, "▼", at_top=True))
        yield f"{blank}╭{self._border(where.top, '┴')}╮"
        if where.top:
            yield f"{blank}│{self._numbers(where.top, self._package.pin_count)}│"
        yield from self._rows()
        if where.bottom:
            yield f"{blank}│{self._numbers(where.bottom, len(where.left) + 1, up=True)}│"
        yield f"{blank}╰{self._border(where.bottom, '┬')}╯"
        yield from (blank + line for line in self._upright(where.bottom, "▲", at_top=False))

    def _rows(self) -> Iterator[str]:
        where = self._where
        for index in range(max(len(where.left), len(where.right))):
            one, number = "", ""
            edge = "│"
            if index < len(where.left):
                one, number, edge = self._left[index] + " ─", str(index + 1), "┤"
            other, last, end = "", "", "│"
            if index < len(where.right):
                right = len(where.left) + len(where.bottom) + len(where.right) - index
                other = f"─ {self._label(where.right[index], '◀', first=True)}"
                last, end = str(right), "├"
            middle = self._package.name if index == len(where.left) // 2 else ""
            space = self._inner - len(number) - len(last) - 2
            yield f"{one:>{self._margin}}{edge} {number}{middle:^{space}}{last} {end}{other}"

    def _border(self, pins: list[Pin | None], sign: str) -> str:
        line = ["─"] * self._inner
        for column in self._columns(len(pins)):
            line[column] = sign
        return "".join(line)

    def _columns(self, number: int) -> list[int]:
        """Return where ``number`` pins stand within the body."""
        start = (self._inner - (number - 1) * _STEP) // 2
        return [start + index * _STEP for index in range(number)]

    def _numbers(self, pins: list[Pin | None], first: int, *, up: bool = False) -> str:
        line = [" "] * (self._inner + _STEP)
        for index, column in enumerate(self._columns(len(pins))):
            text = str(first + index if up else first - index)
            start = column - (len(text) - 1) // 2
            line[start : start + len(text)] = text
        return "".join(line)[: self._inner]

    def _upright(self, pins: list[Pin | None], arrow: str, *, at_top: bool) -> Iterator[str]:
        """Yield the names of the pins at the top or bottom, from the top down."""
        names = []
        for pin in pins:
            name = pin.name if pin else "?"
            if pin and pin.number == self._marked:
                name = f"{name} {arrow}" if at_top else f"{arrow} {name}"
            names.append(name)
        height = max(map(len, names), default=0)
        columns = self._columns(len(pins))
        for row in range(height):
            line = [" "] * (self._inner + 1)
            for name, column in zip(names, columns, strict=True):
                text = name.rjust(height) if at_top else name.ljust(height)
                line[column + 1] = text[row]
            yield "".join(line)

    def _label(self, pin: Pin | None, arrow: str, *, first: bool) -> str:
        text = label(pin)
        if pin is None or pin.number != self._marked:
            return text
        return f"{arrow} {text}" if first else f"{text} {arrow}"


def _grid(package: Package, marked: str) -> Iterator[str]:
    """Yield a table of the balls, rows by letter and columns by number."""
    rows, columns, pins = grid(package)
    names = {
        place: f"[{pin.name}]" if pin.number == marked else pin.name for place, pin in pins.items()
    }
    width = max([2, *map(len, names.values())])
    yield "   " + " ".join(f"{column:^{width}}" for column in columns)
    for row in rows:
        cells = " ".join(f"{names.get((row, column), '·'):^{width}}" for column in columns)
        yield f"{row:>2} {cells}"
