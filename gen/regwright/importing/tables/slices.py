"""Put the slices of a field together, and say of which wider field a lone slice is."""

from __future__ import annotations

from regwright.importing.tables.facts import FieldFacts, RegisterFacts


def join_slices(registers: list[RegisterFacts]) -> None:
    """Make one field of slices that are all there; name the others after the bits they are."""
    lone: list[tuple[RegisterFacts, FieldFacts]] = []
    for register in registers:
        groups: dict[str, list[FieldFacts]] = {}
        for item in register.fields:
            if item.index is not None:
                groups.setdefault(item.name, []).append(item)
        for pieces in groups.values():
            if _is_complete(pieces):
                _join(register, pieces)
            else:
                lone += [(register, item) for item in pieces]
    everywhere: dict[str, list[tuple[RegisterFacts, FieldFacts]]] = {}
    for register in registers:
        for item in register.fields:
            everywhere.setdefault(item.name, []).append((register, item))
    for name in dict.fromkeys(item.name for _, item in lone):
        _explain(name, [pair for pair in lone if pair[1].name == name], everywhere[name])


def _is_complete(pieces: list[FieldFacts]) -> bool:
    """Tell whether slices cover a field from its bit 0 on, each bit once."""
    below = 0
    for item in sorted(pieces, key=lambda one: one.index or (0, 0)):
        high, low = item.index or (0, 0)
        if low != below:
            return False
        below = high + 1
    return True


def _join(register: RegisterFacts, pieces: list[FieldFacts]) -> None:
    """Put one field in the place of its slices, its bits from its own high end down."""
    ordered = sorted(pieces, key=lambda one: one.index or (0, 0), reverse=True)
    first = min(pieces, key=register.fields.index)
    bits: list[tuple[int, int]] = []
    for item in ordered:
        for high, low in item.bits:
            if bits and bits[-1][1] == high + 1:
                bits[-1] = (bits[-1][0], low)
            else:
                bits.append((high, low))
    first.bits = bits
    for item in pieces:
        if item is not first:
            first.reviews += [reason for reason in item.reviews if reason not in first.reviews]
            first.title = first.title or item.title
            if item.access != first.access:
                first.reviews.append("its parts have different access")
            if item.reset or first.reset:
                first.reset = ""
                first.reviews.append("the values after reset of its parts were not joined")
            first.values = first.values or item.values
    kept = [item for item in register.fields if item is first or item not in pieces]
    register.fields = kept
    top = ordered[0].index
    first.index = (top[0], 0) if top else None


def _explain(
    name: str,
    lone: list[tuple[RegisterFacts, FieldFacts]],
    everywhere: list[tuple[RegisterFacts, FieldFacts]],
) -> None:
    """Name lone slices after their bits, and say where the other bits of their field are."""
    pieces = [pair for pair in everywhere if pair[1].index is not None]
    is_all = len(pieces) > 1 and _is_complete([item for _, item in pieces])
    for register, item in pieces if is_all else lone:
        high, low = item.index or (0, 0)
        others = [other.name for other, one in pieces if one is not item and other is not register]
        which = f"bit {high}" if high == low else f"bits {high} to {low}"
        where = f", the others are in {', '.join(dict.fromkeys(others))}" if others else ""
        said = f"{which} of {name}{where if is_all else ''}"
        item.title = f"{said}; {item.title}" if item.title else said
        if not is_all:
            item.reviews.append(f"{which} of {name} stand here; where are the others?")
        item.name = f"{name}_{high}" if high == low else f"{name}_{high}_{low}"
