"""Registers, fields and their values as elements of the standard, each with its extension."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element

from regwright.exporting.extensions import extension
from regwright.exporting.standard import Effects, Row, Standard, hexadecimal
from regwright.importing.ieee1685.own_standard import Inherited, Said
from regwright.importing.names import identifier
from regwright.model.chip import BitRange, Reset
from regwright.read.numbers import bit_ranges, number, reset

Tree = dict[str, Any]


class _Context(NamedTuple):
    """What fields take from their register: its reset and what reading it does."""

    reset: Reset | None
    read_action: str | None
    names: set[str]


class _Group(NamedTuple):
    """The elements that one field, or reserved bits, became; ``kind`` is empty for none of ours."""

    tree: Tree
    kind: str
    pieces: list[Element]


def register_element(
    standard: Standard,
    register: Tree,
    where: tuple[str, int, Row | None],
    said: Said,
    inherited: Inherited,
) -> Element:
    """Return the element of a register, with its extension.

    ``where`` is its name in the standard's part, its offset and its row, ``said`` what the
    importer will make of that.
    """
    name, offset, row = where
    width = register.get("width", inherited.width)
    element = standard.named("register", name, register.get("title"), register.get("notes"))
    standard.add_row(element, row)
    standard.add(element, "addressOffset", hexadecimal(offset))
    standard.add(element, "size", str(width))
    standard.add_access(element, register.get("access", inherited.access))
    _add_fields(standard, element, register, width)
    summary = _summary(register)
    known = standard.reader.said_of_register(element, said, inherited, summary)
    hints = {"summary": summary} if summary else {}
    standard.extend(element, extension("register", register, known, "register", hints))
    return element


def _summary(register: Tree) -> str:
    """Return how many entries a summary row has and how many of them are named."""
    row = register.get("flags", "").split()
    return f"{len(row)} {sum(item != '-' for item in row)}" if row else ""


def _add_fields(standard: Standard, element: Element, register: Tree, width: int) -> None:
    of_register = reset(register["reset"]) if "reset" in register else None
    context = _Context(of_register, register.get("readAction"), set())
    groups = [
        _Group(tree, "field", list(_field(standard, tree, context)))
        for tree in [*_flags(register), *register.get("fields", ())]
    ]
    groups += [
        _Group(tree, "reservedBits", list(_reserved(standard, tree, context)))
        for tree in register.get("reserved", ())
    ]
    groups += [
        _Group({}, "", list(_synthesized(standard, name, bits, context)))
        for name, bits in _open_bits(groups, of_register, width)
    ]
    every = [piece for group in groups for piece in group.pieces]
    element.extend(every)
    common = set(standard.reader.common(every, width))
    for group in groups:
        _extend(standard, group, common)


def _extend(standard: Standard, group: _Group, common: set[str]) -> None:
    """Add the extensions of a field, or reserved bits, to its pieces."""
    first, *rest = group.pieces
    name = first.findtext(f"{{{standard.namespace}}}name") or ""
    for piece in rest:
        standard.extension(piece, "piece").set("of", name)
    if group.kind == "field":
        said = standard.reader.said_of_field(group.pieces, common)
        standard.extend(first, extension("field", group.tree, said, "field"))
    elif group.kind:
        said = standard.reader.said_of_reserved(group.pieces)
        standard.extend(first, extension("reserved", group.tree, said, "reservedBits"))
    else:
        standard.extension(first, "synthesized")


def _flags(register: Tree) -> Iterator[Tree]:
    """Yield the fields that the names in a summary row stand for."""
    row = register.get("flags", "").split()
    for index, name in enumerate(row):
        if name != "-":
            yield {"name": name, "bits": len(row) - 1 - index}


def _pieces(bits: str | int) -> list[BitRange]:
    """Return the ranges of bits, from the field's high end, each with its higher bit first."""
    return [BitRange(max(ends), min(ends)) for ends in bit_ranges(bits)]


def _widths(ranges: list[BitRange]) -> list[int]:
    return [high - low + 1 for high, low in ranges]


def _piece_resets(
    ranges: list[BitRange], own: Reset | None, of_register: Reset | None
) -> Iterator[Reset | None]:
    """Yield the reset of each range: of the field's own, or else of the register's."""
    left = sum(_widths(ranges))
    for (_, low), width in zip(ranges, _widths(ranges), strict=True):
        left -= width
        source, shift = (own, left) if own is not None else (of_register, low)
        ones = (1 << width) - 1
        if source is None:
            yield None
        else:
            yield Reset(source.value >> shift & ones, source.undefined >> shift & ones)


def _field(standard: Standard, tree: Tree, context: _Context) -> Iterator[Element]:
    """Yield the elements of a field: one, or one for each of the places where its bits stand."""
    ranges = _pieces(tree["bits"])
    own = reset(tree["reset"]) if "reset" in tree else None
    resets = list(_piece_resets(ranges, own, context.reset))
    left = sum(_widths(ranges))
    for (high, low), piece_reset in zip(ranges, resets, strict=True):
        width = high - low + 1
        left -= width
        name = tree["name"]
        if len(ranges) > 1:
            name += f"_{left}" if width == 1 else f"_{left + width - 1}_{left}"
        element = standard.named(
            "field", identifier(name, context.names), tree.get("title"), tree.get("notes")
        )
        values = _values(standard, tree) if len(ranges) == 1 and tree.get("values") else None
        effects = Effects(
            tree.get("access"),
            tree.get("modifiedWriteValue"),
            tree.get("readAction", context.read_action),
        )
        _add_rest(standard, element, (low, width), piece_reset, tree.get("volatile"))
        standard.add_effects(element, effects, width, values)
        yield element


def _add_rest(
    standard: Standard,
    element: Element,
    bits: tuple[int, int],
    piece_reset: Reset | None,
    volatile: bool | None = None,  # noqa: FBT001
) -> None:
    """Add bits, reset and volatility of a field, in the order of the edition."""
    low, width = bits
    standard.add(element, "bitOffset", str(low))
    if piece_reset is not None and not standard.is_2022:
        standard.add_reset(element, *piece_reset, width)
    standard.add(element, "bitWidth", str(width))
    if volatile is not None:
        standard.add(element, "volatile", "true" if volatile else "false")
    if piece_reset is not None and standard.is_2022:
        standard.add_reset(element, *piece_reset, width)


def _values(standard: Standard, tree: Tree) -> Element:
    values = standard.element("enumeratedValues")
    names: set[str] = set()
    for value in tree["values"]:
        name = identifier(value["name"], names)
        element = standard.named("enumeratedValue", name, value.get("title"), None)
        if "usage" in value:
            element.set("usage", value["usage"])
        standard.add(element, "value", hexadecimal(number(value["value"])))
        said = standard.reader.said_of_value(element)
        standard.extend(element, extension("value", value, said, "value"))
        values.append(element)
    return values


def _reserved(standard: Standard, tree: Tree, context: _Context) -> Iterator[Element]:
    """Yield the elements of reserved bits."""
    ranges = _pieces(tree["bits"])
    resets = list(_piece_resets(ranges, None, context.reset))
    for (high, low), piece_reset in zip(ranges, resets, strict=True):
        name = identifier(f"RESERVED_{_span(high, low)}", context.names)
        element = standard.named("field", name, tree.get("title"), None)
        _add_rest(standard, element, (low, high - low + 1), piece_reset)
        effects = Effects(None, None, context.read_action, tree.get("write"), reserved=True)
        standard.add_effects(element, effects, high - low + 1, None)
        yield element


def _synthesized(
    standard: Standard, name: str, bits: BitRange, context: _Context
) -> Iterator[Element]:
    """Yield a field that the standard wants and no document knows."""
    high, low = bits
    (piece_reset,) = _piece_resets([bits], None, context.reset)
    element = standard.named("field", identifier(name, context.names), None, None)
    _add_rest(standard, element, (low, high - low + 1), piece_reset)
    effects = Effects(read_action=context.read_action)
    standard.add_effects(element, effects, high - low + 1, None)
    yield element


def _open_bits(
    groups: list[_Group], of_register: Reset | None, width: int
) -> Iterator[tuple[str, BitRange]]:
    """Yield what must be synthesized: a field at all, and one for each reset that none covers."""
    if not groups:
        yield "VALUE", BitRange(width - 1, 0)
        return
    taken = {
        bit
        for group in groups
        for high, low in _pieces(group.tree["bits"])
        for bit in range(low, high + 1)
    }
    wanted = of_register.value | of_register.undefined if of_register else 0
    bit = 0
    while bit < width:
        low = bit
        while bit < width and bit not in taken and wanted >> bit & 1:
            bit += 1
        if bit > low:
            yield f"UNNAMED_{_span(bit - 1, low)}", BitRange(bit - 1, low)
        bit += 1


def _span(high: int, low: int) -> str:
    return str(high) if high == low else f"{high}_{low}"
