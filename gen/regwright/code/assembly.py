"""Assembler as it is seen in sources: files of it, and inline assembly in C."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from regwright.code.assembler import Equate, Piece, Statement, statements
from regwright.code.directives import Directives
from regwright.code.evaluate import Evaluator
from regwright.code.inline_assembly import reference, template_statements
from regwright.code.pieces import Spot
from regwright.code.scope import Constant
from regwright.code.seen import Operand, Where
from regwright.code.syntax import text_of
from regwright.code.text import CodeText
from regwright.code.words import names_in

#: The expression of each operand of an inline assembly, by its number and by its name.
Operands = Mapping[str | int, Any]


def equates(source: CodeText, number: int, found: Directives) -> list[Constant]:
    """Return the names that an assembler file gives to values."""
    made = []
    for item in statements(source.data):
        # one whose name is no UTF-8 is nobody's
        if isinstance(item, Equate) and "\ufffd" not in item.name.text:
            start = item.name.start
            made.append(
                Constant(
                    *(item.name.text, number, found.arms_at(start), start),
                    source.data[item.expression.start : item.expression.end],
                    Where(number, item.expression.start, item.expression.end),
                    Where(number, item.start, item.end),
                    "equate",
                )
            )
    return made


def instructions(data: bytes) -> Iterator[Statement]:
    """Yield the instructions of an assembler file, without labels and directives."""
    for item in statements(data):
        if isinstance(item, Statement) and _is_instruction(item):
            yield item


def inline_instructions(node: Any) -> Iterator[Statement]:
    """Yield the instructions of an inline assembly; their places are those of its strings."""
    code = node.child_by_field_name("assembly_code")
    if code is None:
        return
    strings = code.named_children if code.type == "concatenated_string" else [code]
    pieces = [
        ((item.text or b"")[1:-1], item.start_byte + 1)
        for item in strings
        if item.type == "string_literal"
    ]
    for item in template_statements(pieces):
        if isinstance(item, Statement) and _is_instruction(item):
            yield item


def _is_instruction(item: Statement) -> bool:
    return bool(item.mnemonic) and not item.mnemonic.startswith(".")


def operands_of(node: Any) -> Operands:
    """Return the operands of an inline assembly."""
    found: dict[str | int, Any] = {}
    count = 0
    for name in ("output_operands", "input_operands"):
        group = node.child_by_field_name(name)
        for item in group.named_children if group is not None else ():
            value = item.child_by_field_name("value")
            symbol = item.child_by_field_name("symbol")
            if value is None:
                continue
            found[count] = value
            count += 1
            if symbol is not None:
                found[text_of(symbol)] = value
    return found


def operand(
    piece: Piece, data: bytes, spot: Spot, evaluator: Evaluator, given: Operands
) -> Operand:
    """Return an operand with what it stands for; ``given`` are those of an inline assembly."""
    start, end = piece.start, piece.end
    key = reference(piece.text) if given else None
    if key is not None:
        value = given.get(key)
        if value is None:
            return Operand(piece.text, None, (), Where(spot.file, start, end))
        start, end = value.start_byte, value.end_byte
    text = data[start:end]
    means = evaluator.meaning(text, spot, start)
    shown = text.decode("utf-8", "replace")
    return Operand(shown, means, names_in(text), Where(spot.file, start, end))
