"""What templates see: plain text and numbers, worked out beforehand. See DEVELOPERS.md."""

from typing import TYPE_CHECKING, NamedTuple

from regwright.macros.frame import Frame, choice
from regwright.macros.literals import digits_of, shown
from regwright.macros.registers import ChipMacros, FieldMacros, Macro, RegisterMacros
from regwright.model.chip import Reset
from regwright.model.finding import Finding
from regwright.render.safe_text import comment
from regwright.resolve.addresses import Address
from regwright.resolve.chip import Placed, ResolvedChip

if TYPE_CHECKING:  # for a chip that has more than registers
    from regwright.render.part_views import ClockHook, SectionView

EFFECTS = {
    "oneToClear": "writing 1 clears it",
    "oneToSet": "writing 1 sets it",
    "oneToToggle": "writing 1 toggles it",
    "zeroToClear": "writing 0 clears it",
    "zeroToSet": "writing 0 sets it",
    "zeroToToggle": "writing 0 toggles it",
    "clear": "any write clears it",
    "set": "any write sets it",
    "modify": "a write changes it",
}
READ_EFFECTS = {
    "clear": "reading clears it",
    "set": "reading sets it",
    "modify": "reading changes it",
}


class Input(NamedTuple):
    """All that rendering works on. ``source`` is the description's file name, without folders."""

    resolved: ResolvedChip
    macros: ChipMacros
    findings: list[Finding]
    places: list[str]
    source: str


class AddressView(NamedTuple):
    """An address: its space's name, its text, and how it is known."""

    space: str
    text: str
    given: bool
    how: str


class FieldView(NamedTuple):
    """A field for a template; ``comment`` is safe within a C comment."""

    name: str
    title: str
    bits: str
    access: str
    reset: str
    page: int | None
    comment: str
    numbers: list[Macro]
    code: list[Macro]


class RegisterView(NamedTuple):
    """A register for a template; ``comment`` and ``cautions`` are safe within a C comment."""

    name: str
    title: str
    block: str
    width: int
    access: str
    reset: str
    page: int | None
    addresses: list[AddressView]
    comment: str
    cautions: list[str]
    numbers: list[Macro]
    code: list[Macro]
    fields: list[FieldView]


class ChipView(NamedTuple):
    """A chip for a template; every text is safe within a C comment and on one line.

    ``sections`` are of what it has besides registers, ``hook`` compares the program's clock.
    """

    name: str
    upper: str
    title: str
    kind: str
    compiler_macro: str | None
    checked_against: str
    notes: list[str]
    source: str
    frame: Frame
    choice: str
    registers: list[RegisterView]
    sections: "list[SectionView]"
    hook: "ClockHook | None"


def reset_text(reset: Reset | None, width: int) -> str:
    """Return a reset value as text, with x for bits that are undefined."""
    if reset is None:
        return ""
    if not reset.undefined:
        return shown(reset.value, digits_of(width))
    digits = [
        "x" if reset.undefined >> bit & 1 else str(reset.value >> bit & 1) for bit in range(width)
    ]
    return "0b" + "".join(reversed(digits))


def how_known(address: Address) -> str:
    """Return how an address is known, in a few words."""
    if address.given:
        return "given"
    if address.via is None:
        return "base and offset"
    sign = "+" if address.space == address.via.into else "-"
    other = address.via.source if sign == "+" else address.via.into
    return f"{other} {sign} {shown(address.via.offset)}"


def address_views(placed: Placed) -> list[AddressView]:
    """Return a register's addresses as text."""
    views = []
    for address in placed.addresses:
        text = shown(address.value)
        views.append(AddressView(address.space, text, address.given, how_known(address)))
    return views


def bits_text(item: FieldMacros) -> str:
    """Return a field's bits as a description spells them."""
    return ",".join(
        str(high) if high == low else f"{high}:{low}" for high, low in item.facts.field.bits
    )


def _field_view(item: FieldMacros) -> FieldView:
    facts, field = item.facts, item.facts.field
    bits = bits_text(item)
    reset = reset_text(facts.reset, facts.layout.width)
    parts = [f"{'bit' if facts.layout.width == 1 else 'bits'} {bits}, {facts.access}"]
    if field.modified_write_value:
        parts.append(EFFECTS[field.modified_write_value])
    if field.read_action:
        parts.append(READ_EFFECTS[field.read_action])
    if reset:
        parts.append(f"reset {reset}")
    if field.page:
        parts.append(f"page {field.page}")
    if len(facts.layout.pieces) > 1:
        parts.append("in pieces: EXTRACT and INSERT use an argument more than once")
    title = comment(field.title) if field.title else ""
    text = f"{field.name}: {title}{'; ' if title else ''}{', '.join(parts)}"
    return FieldView(
        field.name, title, bits, facts.access, reset, field.page, text, item.numbers, item.code
    )


def _register_comment(item: RegisterMacros, addresses: list[AddressView], reset: str) -> str:
    placed = item.placed
    facts = placed.facts
    title = comment(facts.register.title) if facts.register.title else ""
    parts = [f"{facts.width} bits, {facts.access}"]
    parts += [f"{view.space} {view.text} ({view.how})" for view in addresses]
    if reset:
        parts.append(f"reset {reset}")
    if facts.register.page:
        parts.append(f"page {facts.register.page}")
    if facts.register.when:
        conditions = (f"{item.field} = {item.value}" for item in facts.register.when)
        parts.append(comment("when " + " and ".join(conditions)))
    return f"{placed.name}: {title}{'; ' if title else ''}{', '.join(parts)}"


def _cautions(item: RegisterMacros) -> list[str]:
    """Return what whoever writes to the register should know, a line each."""
    placed, facts = item.placed, item.placed.facts
    found = []
    if facts.register.read_action:
        found.append(f"Reading has an effect: {READ_EFFECTS[facts.register.read_action]}.")
    halves = facts.register.halves
    if halves and (halves.read_first or halves.write_first):
        verbs = (("read", halves.read_first), ("write", halves.write_first))
        order = ", ".join(f"{verb} the {half} half first" for verb, half in verbs if half)
        shared = f"; they share {comment(halves.temporary)}" if halves.temporary else ""
        found.append(f"Access the halves in order: {order}{shared}.")
        if halves.write_first:
            found.append("WRITE uses its argument twice: give it a variable, not a register.")
    for reserved in facts.reserved:
        if reserved.reserved.write:
            wanted = {"preserve": "as it was read"}.get(reserved.reserved.write)
            mask = shown(reserved.mask, digits_of(facts.width))
            found.append(f"Reserved bits {mask}: write {wanted or reserved.reserved.write}.")
    found += _flag_cautions(item)
    if item.access is None and placed.addresses:
        found.append("No volatile lvalue: C pointers do not reach it in one access.")
    elif facts.byte_order == "big" and placed.units > 1:
        found.append("Its high end comes first; one wide access has the bytes in the CPU's order.")
    return found


def _flag_cautions(item: RegisterMacros) -> list[str]:
    """Return what is easily done wrong with flags that a write or a read clears."""
    facts = item.placed.facts
    fields = facts.fields
    flags = [i.field.name for i in fields if i.field.modified_write_value == "oneToClear"]
    zero_flags = [i.field.name for i in fields if i.field.modified_write_value == "zeroToClear"]
    found = []
    if flags and len(fields) > 1 and facts.access == "read-write":
        names = comment(", ".join(flags))
        found.append(f"|= and INSERT of a value read here clear {names}; use CLEAR for one flag.")
    if zero_flags and len(fields) > 1:
        names = comment(", ".join(zero_flags))
        found.append(f"&= of another field may clear {names}; use CLEAR for one flag.")
    if facts.access in ("write-only", "writeOnce"):
        found.append("Write-only: |= and &= would read it first; write whole values.")
    read_cleared = [i.field.name for i in fields if i.field.read_action]
    if read_cleared and (flags or zero_flags):
        names = comment(", ".join(read_cleared))
        found.append(f"CLEAR reads the register when it has plain bits, which acts on {names}.")
    return found


def register_view(item: RegisterMacros) -> RegisterView:
    """Return one register as templates see it."""
    placed = item.placed
    facts = placed.facts
    addresses = address_views(placed)
    reset = reset_text(facts.reset, facts.width)
    return RegisterView(
        placed.name,
        comment(facts.register.title or ""),
        placed.block,
        facts.width,
        facts.access,
        reset,
        facts.register.page,
        addresses,
        _register_comment(item, addresses, reset),
        _cautions(item),
        item.numbers,
        item.code,
        [_field_view(field) for field in item.fields],
    )


def chip_view(data: Input) -> ChipView:
    """Return the chip as templates see it."""
    chip = data.resolved.chip
    document = chip.document
    checked = "no document"
    if document is not None:
        parts = [
            document.title,
            document.revision and f"revision {document.revision}",
            document.date,
        ]
        checked = comment(", ".join(part for part in parts if part))
    return ChipView(
        chip.name,
        chip.name.upper(),
        comment(chip.title or chip.name),
        chip.kind,
        chip.compiler_macro,
        checked,
        [comment(line) for line in (chip.notes or "").splitlines()],
        comment(data.source),
        data.macros.frame,
        choice(chip),
        [register_view(item) for item in data.macros.registers],
        *_parts(data),
    )


def _parts(data: Input) -> "tuple[list[SectionView], ClockHook | None]":
    """Return what the header has besides registers."""
    if not data.macros.parts:
        return [], None
    from regwright.render.part_views import clock_hook, section_views

    return section_views(data.resolved, data.macros), clock_hook(data.resolved, data.macros)
