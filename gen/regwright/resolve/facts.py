"""What is true of a register wherever it stands: its width, access, reset and fields."""

from typing import NamedTuple

from regwright.model.chip import Field, Half, Register, Reserved, Reset
from regwright.resolve.layout import Layout, layout


class FieldFacts(NamedTuple):
    """A field with what it inherits; ``reset`` counts from the field's own bit 0."""

    field: Field
    layout: Layout
    access: str
    reset: Reset | None


class ReservedFacts(NamedTuple):
    """Reserved bits and their mask."""

    reserved: Reserved
    mask: int


class Defaults(NamedTuple):
    """What a register inherits from its block or chip when it does not say it."""

    width: int
    access: str
    byte_order: str


class RegisterFacts(NamedTuple):
    """A register with what it inherits; ``reset_given`` is false when fields gave the reset.

    ``mask`` has a 1 for each bit that a field or reserved part takes, ``taken`` is the sum of
    their widths: more than the ones of ``mask`` when they overlap.
    """

    register: Register
    width: int
    access: str
    byte_order: str
    reset: Reset | None
    reset_given: bool
    fields: tuple[FieldFacts, ...]
    reserved: tuple[ReservedFacts, ...]
    mask: int = 0
    taken: int = 0


def _reset_of_fields(fields: tuple[Field, ...], width: int) -> Reset | None:
    """Return the reset value that the fields' own ones make together."""
    known = value = 0
    for field in fields:
        if field.reset is not None:
            place = layout(field.bits)
            value |= place.insert(field.reset.value)
            known |= place.mask & ~place.insert(field.reset.undefined)
    return Reset(value & known, ((1 << width) - 1) & ~known) if known else None


def field_reset(field: Field, place: Layout, reset: Reset | None) -> Reset | None:
    """Return a field's reset value: its own, or else its bits of the register's."""
    if field.reset is not None or reset is None:
        return field.reset
    return Reset(place.extract(reset.value), place.extract(reset.undefined))


def register_facts(register: Register, defaults: Defaults) -> RegisterFacts:
    """Return what is true of ``register`` wherever it stands."""
    width = register.width or defaults.width
    access = register.access or defaults.access
    reset = register.reset or _reset_of_fields(register.fields, width)
    fields = []
    mask = taken = 0
    for field in register.fields:
        place = layout(field.bits)
        mask |= place.mask
        taken += place.width
        own = field_reset(field, place, reset)
        fields.append(FieldFacts(field, place, field.access or access, own))
    reserved = []
    for item in register.reserved:
        place = layout(item.bits)
        mask |= place.mask
        taken += place.width
        reserved.append(ReservedFacts(item, place.mask))
    return RegisterFacts(
        register,
        width,
        access,
        register.byte_order or defaults.byte_order,
        reset,
        register.reset is not None,
        tuple(fields),
        tuple(reserved),
        mask,
        taken,
    )


def half_facts(whole: RegisterFacts, own: Half, half: str) -> RegisterFacts:
    """Return what is true of ``own``, the ``low`` or ``high`` half of ``whole``; without fields."""
    width = whole.width // 2 or 1
    shift = 0 if half == "low" else width
    ones = (1 << width) - 1
    reset = whole.reset
    part = (
        Reset((reset.value >> shift) & ones, (reset.undefined >> shift) & ones) if reset else None
    )
    side = f"{half} half of {whole.register.title or whole.register.name}"
    register = Register(
        name=own.name,
        title=own.title or side,
        addresses=own.addresses,
        width=width,
        page=own.page or whole.register.page,
        aliases=own.aliases,
        when=whole.register.when,
        origin=own.origin,
    )
    return RegisterFacts(
        register, width, whole.access, whole.byte_order, part, whole.reset_given, (), ()
    )
