"""Values after reset, of registers (2009) and of fields (2014 and 2022)."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.spelled import reset as spelled

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document


class Reset(NamedTuple):
    """A value after reset; a 1 in ``undefined`` is a bit that nothing is said of."""

    value: int
    undefined: int


@lru_cache(maxsize=4096)
def spell(reset: Reset, bits: int) -> str:
    """Return ``reset`` as a description has it."""
    return spelled(reset.value & ~reset.undefined, reset.undefined, bits)


def reset_among(
    document: Document, resets: etree._Element, bits: int, path: tuple[str, str]
) -> Reset | None:
    """Return the hard one of ``resets``, or else the first; the others are losses.

    ``path`` is the name of the register and of the field.
    """
    elements = list(resets)
    if not elements:
        return None
    chosen = elements[0]
    if len(elements) > 1 or chosen.keys():
        chosen = _hard(document, elements, ".".join(path))
    return reset_of(document, chosen, bits, path)


def _hard(document: Document, elements: list[etree._Element], what: str) -> etree._Element:
    kinds = [document.attribute(item, "resetTypeRef") for item in elements]
    hard = next((at for at, kind in enumerate(kinds) if kind in ("", "HARD")), 0)
    chosen = elements[hard]
    for kind, item in zip(kinds, elements, strict=True):
        if item is not chosen:
            message = f"the value of {what} after a reset of the type {kind or 'HARD'}"
            document.log.lose(message, item)
        elif kind not in ("", "HARD"):
            message = f"that a value is that after a reset of the type {kind}"
            document.log.lose_often(message, item)
    return chosen


def reset_of(
    document: Document, element: etree._Element, bits: int, path: tuple[str, ...]
) -> Reset | None:
    """Return what a ``reset`` element says of ``bits`` bits; ``None`` when that is nothing."""
    value_of = mask_of = None
    names = document.names
    for child in element:
        name = names[child.tag]
        if name == "value":
            value_of = child
        elif name == "mask":
            mask_of = child
        else:
            document.facts(element, "reset")  # reports it
    if value_of is None:
        return None
    key = (value_of.text, mask_of.text if mask_of is not None else "-1", bits)
    if key in document.resets:
        return document.resets[key]
    try:
        value, unknown = document.bits(value_of)
        mask = document.bits(mask_of)[0] if mask_of is not None else -1
    except Unclear as problem:
        what = ".".join(path)
        message = f"the value of {what} after reset is not clear: {problem}; it was left out"
        document.log.assume("number-unclear", message, problem.element)
        return None
    ones = (1 << bits) - 1
    if value > ones:
        what = ".".join(path)
        message = f"the value of {what} after reset does not fit {bits} bits; the lower ones count"
        document.log.assume("value-cut", message, element)
    undefined = (~mask | unknown) & ones
    reset = Reset(value & ones & ~undefined, undefined) if undefined != ones else None
    if value <= ones and key[0] in document.clean and (mask_of is None or key[1] in document.clean):
        document.resets[key] = reset  # nothing odd to tell: the next one is the same
    return reset
