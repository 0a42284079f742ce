"""How the facts that are compared are written: short, and the same for equal facts."""

from __future__ import annotations

from collections.abc import Mapping

from regwright.macros.literals import digits_of
from regwright.model.chip import Condition, Halves, Instruction, Region, Reset, Space, Window
from regwright.resolve.layout import Layout


def number(value: int, width: int = 8) -> str:
    """Return ``value`` as hexadecimal digits for so many bits."""
    return f"0x{value:0{digits_of(width)}X}"


def reset(found: Reset | None, width: int) -> str:
    """Return a reset value: hexadecimal, or binary with an x for each bit that is left open."""
    if found is None:
        return ""
    if not found.undefined:
        return number(found.value, width)
    bits = [
        "x" if found.undefined >> bit & 1 else str(found.value >> bit & 1)
        for bit in range(width - 1, -1, -1)
    ]
    return "0b" + "".join(bits)


def bits(layout: Layout) -> str:
    """Return where a field stands, from its high end: ``bit 5``, ``bits 7:6``, ``bits 5,2:0``."""
    spans: list[tuple[int, int]] = []
    for low, _, width in layout.pieces:
        if spans and spans[-1][1] == low - 1:
            spans[-1] = spans[-1][0], low + width - 1
        else:
            spans.append((low, low + width - 1))
    parts = [str(low) if low == high else f"{high}:{low}" for low, high in reversed(spans)]
    return f"bit{'s' if layout.width > 1 else ''} {','.join(parts)}"


def reserved(masks: Mapping[str, int], width: int) -> str:
    """Return which bits are reserved, by what must be written to them."""
    words = {"": "not said", "preserve": "preserve", "0": "write 0", "1": "write 1"}
    return ", ".join(
        f"{number(masks[key], width)}: {words[key]}" for key in sorted(masks, reverse=True)
    )


def text(found: str | int | None) -> str:
    """Return what a description says as it stands there; nothing when it does not."""
    return "" if found is None else str(found)


def names(found: tuple[str, ...]) -> str:
    """Return names in one order, whatever theirs is."""
    return " ".join(sorted(found))


def truth(found: bool | None) -> str:  # noqa: FBT001
    """Return yes or no; nothing when neither is said."""
    return {None: "", False: "no", True: "yes"}[found]


def width(bits_of: int) -> str:
    """Return how many bits something has."""
    return f"{bits_of} bit{'' if bits_of == 1 else 's'}"


def condition(items: tuple[Condition, ...]) -> str:
    """Return when a register is the one that answers."""
    return " and ".join(f"{field} = {value:#x}" for field, value in sorted(items))


def halves(found: Halves | None) -> str:
    """Return the names of the two halves."""
    return f"{found.low.name}, {found.high.name}" if found else ""


def space(found: Space) -> str:
    """Return how large a space is, and who reaches it."""
    reach = "pointers reach it" if found.pointer else "pointers do not reach it"
    return f"{found.size:#x} units of {found.unit} bits, {reach}"


def window(found: Window) -> str:
    """Return what of a space is seen where in another."""
    single = found.single_bit
    tail = f", single-bit {single.first:#04x} to {single.last:#04x}" if single else ""
    return f"{found.first:#04x} to {found.last:#04x} at +{found.offset:#04x}{tail}"


def region(found: Region) -> str:
    """Return what lies where."""
    return f"{found.first:#06x} to {found.last:#06x}, {found.kind}"


def instruction(found: Instruction) -> str:
    """Return what an instruction's operands are."""
    parts = [f"{found.access} {found.space} by operand {found.address}"]
    if found.bit is not None:
        parts.append(f"bit by operand {found.bit}")
    if found.value is not None:
        parts.append(f"value by operand {found.value}")
    return ", ".join(parts)
