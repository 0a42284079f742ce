"""Rules on the bits of a register: fields, reserved bits, values and reset."""

from collections.abc import Iterator
from typing import NamedTuple

from regwright.macros.literals import digits_of, shown
from regwright.model.chip import BitRange, Reset
from regwright.model.finding import ERROR
from regwright.model.origin import Origin
from regwright.resolve.chip import Placed
from regwright.resolve.facts import RegisterFacts
from regwright.resolve.layout import layout
from regwright.rules.catalogue import Problem, Subject, rule
from regwright.rules.wording import bit_list

_RESERVED = "reserved bits"


class _Part(NamedTuple):
    """A field or a reserved part: its name, bits, and the property that has them."""

    name: str
    bits: tuple[BitRange, ...]
    origin: Origin
    key: str = "bits"


def _parts(facts: RegisterFacts) -> Iterator[_Part]:
    """Yield each field and reserved part."""
    for item in facts.fields:
        yield _Part(item.field.name, item.field.bits, item.field.origin)
    for reserved in facts.reserved:
        yield _Part(_RESERVED, reserved.reserved.bits, reserved.reserved.origin)


def _place(origin: Origin, key: str) -> Origin:
    """Return the place of a field's bits; a flag in a summary row has only its own."""
    is_flag = origin is not None and origin[1] == "flags"
    return origin if is_flag else (origin, key)


@rule("fields-overlap", ERROR)
def fields_overlap(subject: Subject) -> Iterator[Problem]:
    """Two fields share a bit.

    ## What it catches
    Fields or reserved bits of one register that lie on each other, and a field that names a bit
    twice.

    ## Why it matters
    One of the two masks is wrong; setting one field changes the other.

    ## Example
    `<field name="MODE" bits="5:4"/> <field name="GO" bits="4"/>`

    ## Instead
    Look up the bit numbers; `bits="6:5"` perhaps.

    ## When to silence it
    When the document itself defines both, told apart by another bit.
    """
    for placed in subject.described:
        if placed.facts.taken == placed.facts.mask.bit_count():
            continue
        yield from _overlaps(placed)


def _overlaps(placed: Placed) -> Iterator[Problem]:
    parts = list(_parts(placed.facts))
    earlier: list[_Part] = []
    for part in parts:
        mask = layout(part.bits).mask
        if layout(part.bits).width != mask.bit_count():
            twice = f"{placed.name}: {part.name} names a bit twice, among {bit_list(mask)}"
            yield Problem(twice, _place(part.origin, part.key))
        other = next((item for item in earlier if layout(item.bits).mask & mask), None)
        earlier.append(part)
        if other is None:
            continue
        shared = bit_list(layout(other.bits).mask & mask)
        hints = [(p, _fitting(p, parts, placed.facts)) for p in (part, other)]
        fitting = [(p, bits) for p, bits in hints if bits]
        wrong, hint = fitting[0] if len(fitting) == 1 else (part, "")
        right = other if wrong is part else part
        verb = "lie" if wrong.name == _RESERVED else "lies"
        message = f"{placed.name}: {wrong.name} {verb} on {right.name} at {shared}"
        if hint:
            message += f"; {hint} would fit, with no bit left over"
        yield Problem(message, _place(wrong.origin, wrong.key))


def _fitting(part: _Part, parts: list[_Part], facts: RegisterFacts) -> str:
    """Return the bits next to those of ``part`` that are free and close a gap, if there are any."""
    others = 0
    for item in parts:
        if item.origin is not part.origin:
            others |= layout(item.bits).mask
    own = layout(part.bits).mask
    for shift in (1, -1):
        moved = own << 1 if shift == 1 else own >> 1
        fits = not moved & others and not moved >> facts.width
        if fits and moved.bit_count() == own.bit_count() and moved & ~facts.mask:
            return _spelled(part.bits, shift)
    return ""


def _spelled(bits: tuple[BitRange, ...], shift: int) -> str:
    pieces = [
        str(high + shift) if high == low else f"{high + shift}:{low + shift}" for high, low in bits
    ]
    count = layout(bits).width
    return f"{'bits' if count > 1 else 'bit'} {','.join(pieces)}"


@rule("field-outside-register", ERROR)
def field_outside_register(subject: Subject) -> Iterator[Problem]:
    """A field reaches past the end of its register.

    ## What it catches
    Bits at or above the register's width, in a field, in reserved bits or in a row of flags.

    ## Why it matters
    The mask does not fit the register: what is written there is lost.

    ## Example
    `<register name="CTRL" width="8"><field name="EN" bits="8"/></register>`

    ## Instead
    Correct the bit number, or give the register its `width`.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        width = placed.facts.width
        if not placed.facts.mask >> width:
            continue
        meant = placed.facts.mask.bit_length()
        if placed.register.width and meant in (16, 32, 64) and _is_filled(placed.facts, meant):
            message = f"{placed.name} is {width} bits wide, but its fields fill {meant}"
            yield Problem(message, (placed.register.origin, "width"))
            continue
        miscounted = placed.register.flags not in (None, width)
        for name, bits, origin, key in _parts(placed.facts):
            outside = layout(bits).mask >> width << width
            is_flag = origin is not None and origin[1] == "flags"
            if outside and not (is_flag and miscounted):  # flags-count says it
                verb = "takes" if name != _RESERVED else "take"
                message = (
                    f"{placed.name} is {width} bits wide, but {name} {verb} {bit_list(outside)}"
                )
                yield Problem(message, _place(origin, key))


def _is_filled(facts: RegisterFacts, width: int) -> bool:
    """Tell whether fields and reserved parts take each of ``width`` bits once."""
    return facts.mask == (1 << width) - 1 and facts.taken == width


@rule("bits-reversed", ERROR)
def bits_reversed(subject: Subject) -> Iterator[Problem]:
    """A range of bits is written with the lower bit first.

    ## What it catches
    `bits="4:6"`, in a field, in reserved or unused bits, in a setting or in a port.

    ## Why it matters
    In some documents a swapped range means that the numbering itself runs the other way, with
    bit 0 at the high end. Which it is must be looked up, not guessed.

    ## Example
    `<field name="MODE" bits="4:6"/>`

    ## Instead
    `<field name="MODE" bits="6:4"/>`

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        for name, bits, origin, key in _parts(placed.facts):
            yield from _reversed(f"{placed.name}: {name}", bits, _place(origin, key))
    for port in subject.chip.ports:
        yield from _reversed(f"port {port.name}", port.bits, (port.origin, "bits"))
    configuration = subject.chip.configuration
    for word in configuration.words if configuration else ():
        for field in word.fields:
            yield from _reversed(f"{word.name}: {field.name}", field.bits, (field.origin, "bits"))
        for unused in word.unused:
            yield from _reversed(f"{word.name}: unused", unused.bits, (unused.origin, "bits"))


def _reversed(name: str, bits: tuple[BitRange, ...], origin: Origin) -> Iterator[Problem]:
    for high, low in bits:
        if high < low:
            message = f"{name} has the bits {high}:{low}; write the higher bit first, {low}:{high}"
            yield Problem(message, origin)


@rule("flags-count", ERROR)
def flags_count(subject: Subject) -> Iterator[Problem]:
    """A row of flags has not one entry for each bit.

    ## What it catches
    A `flags` row with more or fewer entries than its register has bits.

    ## Why it matters
    With one entry skipped, every flag before it is off by one bit.

    ## Example
    `<register name="CTRL" width="8" flags="EN IE - - ERR DONE"/>`

    ## Instead
    `flags="EN IE - - - - ERR DONE"`: a hyphen for each bit without a name.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        count = placed.register.flags
        if count is not None and count != placed.facts.width:
            message = (
                f"{placed.name} is {placed.facts.width} bits wide, but its row of flags has "
                f"{count} entries; write one for each bit from the highest down, - for none"
            )
            yield Problem(message, (placed.register.origin, "flags"))


@rule("reset-does-not-fit", ERROR)
def reset_does_not_fit(subject: Subject) -> Iterator[Problem]:
    """A reset value is wider than its register or field.

    ## What it catches
    A reset value with a 1, or an undefined bit, at or above the width.

    ## Why it matters
    The value belongs to another register, or the width is wrong.

    ## Example
    `<register name="CTRL" width="8" reset="0x100"/>`

    ## Instead
    Correct the value, or give the register its `width`.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        facts = placed.facts
        if not placed.half and facts.register.reset is not None:
            yield from _too_wide(
                placed.name, facts.register.reset, facts.width, (facts.register.origin, "reset")
            )
        for item in facts.fields:
            if item.field.reset is not None:
                name = f"{placed.name}.{item.field.name}"
                origin = (item.field.origin, "reset")
                yield from _too_wide(name, item.field.reset, item.layout.width, origin)


def _too_wide(name: str, reset: Reset, width: int, origin: Origin) -> Iterator[Problem]:
    if (reset.value | reset.undefined) >> width:
        most = shown((1 << width) - 1, digits_of(width))
        bits = "1 bit" if width == 1 else f"{width} bits"
        message = (
            f"{name} has the reset value {shown(reset.value | reset.undefined)}, but is "
            f"{bits} wide: {most} at most"
        )
        yield Problem(message, origin)


@rule("value-does-not-fit", ERROR)
def value_does_not_fit(subject: Subject) -> Iterator[Problem]:
    """A named value is wider than its field.

    ## What it catches
    A value that the field's bits cannot hold.

    ## Why it matters
    Its macro would set bits of the neighbouring field, or lose its own.

    ## Example
    `<field name="MODE" bits="5:4"><value name="FAST" value="0b100"/></field>`

    ## Instead
    Values count from the field's own bit 0: `value="0b01"`, not the register's `0x10`.

    ## When to silence it
    Never.
    """
    for placed in subject.described:
        for item in placed.facts.fields:
            for value in item.field.values:
                if value.value >> item.layout.width:
                    most = shown((1 << item.layout.width) - 1, 1)
                    message = (
                        f"{placed.name}.{item.field.name} holds {most} at most, but {value.name} "
                        f"is {shown(value.value, 1)}; a value counts from the field's own bit 0"
                    )
                    yield Problem(message, (value.origin, "value"))
