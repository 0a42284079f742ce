"""What ``<chip>_check.c`` asserts of memories, vectors, settings, the clock, ports and pins.

Bytes are compared with units, addresses of vectors with their numbers, defaults and masks of words
with those of their settings, the clock with its source and dividers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from regwright.macros.literals import c_type, hexadecimal
from regwright.macros.memories import places_in, vector_address
from regwright.macros.parts import (
    BUILD,
    CLOCK,
    IDENTITY,
    MEMORY,
    PACKAGE,
    PORT,
    SETTING,
    VECTOR,
    VECTORS,
    WORD,
    Part,
    plain_word,
    stem_of,
)
from regwright.model.chip import BitRange
from regwright.model.configuration import ConfigurationField, ConfigurationWord
from regwright.model.memories import Identity, Memory, VectorTable
from regwright.model.packages import Package
from regwright.render.move_checks import move_checks
from regwright.render.safe_text import comment
from regwright.render.views import Input
from regwright.resolve.chip import ResolvedChip

#: What fits into ``int`` wherever C runs, so that sums and products do.
_SMALL = 0x7FFF


def part_checks(data: Input) -> list[tuple[str, list[str]]]:
    """Return what each part is, safe in a C comment, with the conditions that hold for it."""
    found = []
    for part in data.macros.parts:
        conditions = list(_CHECKS.get(part.kind, _no_numbers)(part, data.resolved))
        if part.kind in _OF_TEXTS:
            conditions += [f"sizeof({name}) == {len(text) - 1}U" for name, text in part.code]
        if conditions:
            found.append((comment(part.what), conditions))
    return found


#: The kinds whose macros for C only are texts.
_OF_TEXTS = (PACKAGE, BUILD)


def _no_numbers(_part: Part, _resolved: ResolvedChip) -> Iterator[str]:
    yield from ()


def _memory(part: Part, resolved: ResolvedChip) -> Iterator[str]:
    memory: Memory = part.node
    space = resolved.spaces.get(memory.space)
    units = next(name for name, _ in part.numbers if name.endswith("_UNITS"))
    for name, _ in part.numbers:
        if name.endswith("_ADDR"):
            yield f"{name} == {memory.first}U"
        elif name.endswith("_PAGE_UNITS"):
            yield f"{name} == {hexadecimal(memory.page_size or 0)}"
        elif name.endswith("_ERASE_UNITS"):
            yield f"{name} == {hexadecimal(memory.erase_unit or 0)}"
        elif name == units:
            yield f"{name} == {memory.size}U"
        elif space is not None and space.unit % 8 == 0:
            each = space.unit // 8
            if each == 1:
                yield f"{name} == {units}"
            else:
                yield f"{name} / {each}U == {units} && {name} % {each}U == 0U"
        elif space is not None:
            yield f"{name} == {hexadecimal(memory.size * space.unit // 8)}"


def _vectors(part: Part, _resolved: ResolvedChip) -> Iterator[str]:
    table: VectorTable = part.node
    (count, _), (step, _) = part.numbers
    yield f"{count} == {hexadecimal(places_in(table))}"
    yield f"{step} == {hexadecimal(table.size)}"


def _vector(part: Part, resolved: ResolvedChip) -> Iterator[str]:
    table = resolved.chip.vector_table
    number = part.numbers[0][0]
    yield f"{number} == {hexadecimal(part.node.number)}"
    if table is None:
        return
    for name, _ in part.numbers[1:]:
        place = vector_address(table, part.node)
        is_regular = place == table.base + part.node.number * table.size
        if is_regular and place <= _SMALL:
            base = f"{table.base}U + " if table.base else ""
            yield f"{name} == {base}{number} * {stem_of(resolved)}VECTORS_STEP"
        else:
            yield f"{name} == {place}U"


def _identity(part: Part, _resolved: ResolvedChip) -> Iterator[str]:
    identity: Identity = part.node
    bytes_left = list(identity.signature)
    for name, _ in part.numbers:
        if name.endswith("_BYTES"):
            yield f"{name} == {hexadecimal(len(identity.signature))}"
        elif name.endswith("_ADDR"):
            yield f"{name} == {identity.address}U"
        else:
            yield f"{name} == {bytes_left.pop(0)}U"


def _word(part: Part, resolved: ResolvedChip) -> Iterator[str]:
    from regwright.configuration.words import required_bits

    word: ConfigurationWord = part.node
    stem = f"{stem_of(resolved)}SETTING_"
    fields = {field.setting: f"{stem}{plain_word(field.setting)}" for field in word.fields}
    for name, _ in part.numbers:
        if name.endswith("_ADDR"):
            yield f"{name} == {word.address}U"
        elif name.endswith("_VERIFY_MASK"):
            masks = [f"{own}_MASK" for own in fields.values()]
            yield f"{name} == ({' | '.join([*masks, f'{required_bits(word)[0]}U'])})"
        else:
            yield f"{name} == ({' | '.join(_defaults(word, fields, resolved))})"


def _defaults(
    word: ConfigurationWord, fields: dict[str, str], resolved: ResolvedChip
) -> Iterator[str]:
    """Yield what a word's default is put together from: its settings', and the rest of its bits."""
    from regwright.configuration.decode import choice_in

    rest = word.default
    configuration = resolved.chip.configuration
    for field in word.fields:
        choice = choice_in(configuration, field, word.default) if configuration else None
        if choice is not None:
            rest &= ~_range_sum(field.bits)
            yield f"{fields[field.setting]}_{plain_word(choice.name)}"
    yield f"{rest}U"


def _setting(part: Part, resolved: ResolvedChip) -> Iterator[str]:
    from regwright.configuration.decode import choices_of

    field: ConfigurationField = part.node
    configuration = resolved.chip.configuration
    (position, _), (mask, _), *values = part.numbers
    yield f"{position} == {hexadecimal(min(field.bits[-1]))} && {mask} == {_range_sum(field.bits)}U"
    choices = choices_of(configuration, field) if configuration else ()
    for (name, _), choice in zip(values, choices, strict=True):
        yield f"{name} == {_moved(field.bits, choice.value)}U"
    if part.code:
        stem = mask.removesuffix("MASK")
        yield from move_checks(stem, field.bits, _word_width(field, resolved))


def _word_width(field: ConfigurationField, resolved: ResolvedChip) -> int:
    configuration = resolved.chip.configuration
    words = configuration.words if configuration else ()
    return next(word.width for word in words if any(item is field for item in word.fields))


def _range_sum(bits: tuple[BitRange, ...]) -> int:
    """Return a mask as a sum over its ranges, 2^(high+1) - 2^low for each."""
    return sum((2 << max(pair)) - (1 << min(pair)) for pair in bits)


def _moved(bits: tuple[BitRange, ...], value: int) -> int:
    """Return ``value`` in place, bit by bit from its low end."""
    places = [bit for pair in reversed(bits) for bit in range(min(pair), max(pair) + 1)]
    return sum((value >> index & 1) << place for index, place in enumerate(places))


def _clock(part: Part, resolved: ResolvedChip) -> Iterator[str]:
    from regwright.clock.chain import default_chain

    for name, _ in part.numbers:
        found = default_chain(resolved)
        text = _steps_of(found.start.nominal, [step.factor for step in found.steps])
        yield f"{name} == {text or hexadecimal(int(found.cpu.nominal or 0))}"


def _steps_of(now: Fraction | None, factors: list[Fraction]) -> str:
    """Return the way from the source to the CPU as C, when each step of it is a whole number."""
    if now is None or now.denominator != 1:
        return ""
    text = f"{now.numerator}U"
    for factor in factors:
        for sign, number in (("/", factor.denominator), ("*", factor.numerator)):
            now = now / number if sign == "/" else now * number
            if now.denominator != 1 or now >= 1 << 32:
                return ""
            text += f" {sign} {number}U" if number != 1 else ""
    return text


def _port(part: Part, resolved: ResolvedChip) -> Iterator[str]:
    whole = f"{stem_of(resolved)}PORT_"
    position, bit = "", 0
    for name, text in part.numbers:
        if name.startswith(whole):
            yield f"{name} == {_range_sum(part.node.bits)}U"
        elif name.endswith("_BITPOS"):
            position, bit = name, int(text.removesuffix("U"), 0)
            yield f"{name} == {hexadecimal(bit)}"
        else:
            kind = c_type(bit + 1)
            yield f"{name} == ({kind})(({kind})1 << {position})"


def _package(part: Part, _resolved: ResolvedChip) -> Iterator[str]:
    package: Package = part.node
    known = {int(pin.number) for pin in package.pins if pin.number.isdigit()}
    for name, text in part.numbers:
        number = int(text.removesuffix("U"), 0)
        if number in known:
            yield f"{name} == {hexadecimal(number)}"


_CHECKS: dict[str, Callable[[Part, ResolvedChip], Iterator[str]]] = {
    MEMORY: _memory,
    VECTORS: _vectors,
    VECTOR: _vector,
    WORD: _word,
    SETTING: _setting,
    CLOCK: _clock,
    IDENTITY: _identity,
    PORT: _port,
    PACKAGE: _package,
}
