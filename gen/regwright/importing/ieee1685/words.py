"""Put fields into registers, and cut registers wider than 64 bits into words."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from regwright.importing.ieee1685.resets import Reset, spell
from regwright.importing.spelled import WIDEST

if TYPE_CHECKING:
    from regwright.importing.ieee1685.documents import Document
    from regwright.importing.ieee1685.fields import Field
    from regwright.importing.ieee1685.labels import Node
    from regwright.importing.ieee1685.making import Making

#: So many fields, and as many reserved parts, a register of a description may have.
_MOST_FIELDS = 64


def word_sizes(size: int, unit: int) -> list[int]:
    """Return the widths of the words of a register ``size`` bits wide, the lowest first."""
    if size <= WIDEST:
        return [size]
    word = WIDEST // unit * unit
    return [min(word, size - low) for low in range(0, size, word)]


def put_fields(
    document: Document, node: Node, fields: list[Field], span: tuple[int, int], making: Making
) -> None:
    """Give ``node`` those of ``fields`` that lie in ``span``, a lowest bit and a width."""
    low, size = span
    own: list[Node] = []
    reserved: list[Node] = []
    end = low + size
    for field in fields:
        bottom, top = field.low, field.low + field.width
        if bottom < low or top > end:
            bottom, top = max(bottom, low), min(top, end)
            if top <= bottom:
                continue
        target = reserved if field.reserved else own
        if len(target) == _MOST_FIELDS:
            message = f"{node['name']} has more than {_MOST_FIELDS} fields"
            document.log.refuse("too-much", message, field.element)
            break
        bits = _spelled(top - 1 - low, bottom - low)
        made = field.node
        if top - bottom != field.width:
            made = _piece(document, field, bottom, top)
        if field.reserved:
            made = _reserved(made, bits)
        else:
            made["bits"] = bits
        making.remember(made, field.element)
        target.append(made)
    if own:
        node["fields"] = own
    if reserved:
        node["reserved"] = reserved


@lru_cache(maxsize=4096)
def _spelled(high: int, low: int) -> str:
    return str(low) if high == low else f"{high}:{low}"


def _piece(document: Document, field: Field, bottom: int, top: int) -> Node:
    """Return what is said of the bits of a field from ``bottom`` up to ``top``."""
    node = dict(field.node)
    high, low = top - 1 - field.low, bottom - field.low
    node["name"] = f"{node['name'][:70]}_{high}_{low}" if high > low else f"{node['name']}_{low}"
    if node.pop("values", None):
        message = f"the named values of {field.node['name']}, which is cut into words"
        document.log.lose(message, field.element)
    node.pop("valuesComplete", None)
    if field.reset is not None:
        ones = (1 << top - bottom) - 1
        value, undefined = field.reset.value >> low & ones, field.reset.undefined >> low & ones
        node["reset"] = spell(Reset(value, undefined), top - bottom)
        if undefined == ones:
            del node["reset"]
    return node


def _reserved(said: Node, bits: str) -> Node:
    return {"bits": bits, "title": said.get("title") or said["name"]}
