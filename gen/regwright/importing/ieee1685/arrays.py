"""Arrays: how many of something stand in a row, and how far apart."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, NamedTuple

from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.spelled import LONGEST_ROW

if TYPE_CHECKING:
    from collections.abc import Iterator

    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts


class Row(NamedTuple):
    """``dimensions`` of something, the last one fastest; ``stride`` if the file says one."""

    dimensions: tuple[int, ...]
    stride: int | None = None

    @property
    def length(self) -> int:
        """How many there are in all."""
        length = 1
        for size in self.dimensions:
            length *= size
        return length

    def indices(self) -> Iterator[str]:
        """Yield what to put behind a name for each of them: ``3``, or ``1_3``."""
        for index in product(*(range(size) for size in self.dimensions)):
            yield "_".join(map(str, index))


def row_of(document: Document, facts: Facts, most: int = LONGEST_ROW) -> Row | None:
    """Return the array that ``facts`` speak of, or ``None`` when it is but one.

    Raises :class:`Unclear` when it has more than ``most`` elements or is not clear.
    """
    array = facts.get("array")
    elements: list[etree._Element] = facts.get("dim", [])
    stride = None
    if array is not None:
        inner = document.facts(array, "array")
        elements = inner.get("dim", [])
        stride = inner.get("stride", inner.get("bitStride"))
    if not elements:
        return None
    dimensions = tuple(filter(None, (_dimension(document, element) for element in elements)))
    if not dimensions:
        return None
    row = Row(dimensions, document.number(stride) if stride is not None else None)
    if row.length > most:
        raise Unclear(f"an array of {row.length} elements has more than {most}", elements[0])
    if len(dimensions) > 1 and row.length > 1:
        sizes = " x ".join(map(str, dimensions))
        message = f"an array of {sizes} is numbered in one row, the last index counting fastest"
        document.log.tell_often("array-flattened", message, elements[0])
    return row


def _dimension(document: Document, element: etree._Element) -> int:
    document.lose_attribute(element, "indexVar")
    size = document.number(element)
    if size == 0:
        message = "an array of 0 elements was taken for a single one"
        document.log.assume_often("array-of-none", message, element)
    return size
