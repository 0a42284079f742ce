"""What can differ between two chips, as data: where, of what kind, before and after."""

from __future__ import annotations

from typing import NamedTuple

from regwright.compare.rest_kinds import CLOCK, CONFIGURATION, MEMORIES, PINS, REST, VECTORS
from regwright.model.origin import Origin

#: What changes are about; ``--only`` and ``--ignore`` choose by these words.
PRESENCE, NAMES, ADDRESSES, WIDTHS, ACCESS = "presence", "names", "addresses", "widths", "access"
EFFECTS, RESETS, FIELDS, VALUES = "effects", "resets", "fields", "values"
RESERVED, ORDER, CONDITIONS = "reserved", "order", "conditions"
SPACES, TOOLCHAIN, DOCUMENTATION = "spaces", "toolchain", "documentation"
CATEGORIES = (
    PRESENCE,
    NAMES,
    ADDRESSES,
    WIDTHS,
    ACCESS,
    EFFECTS,
    RESETS,
    FIELDS,
    VALUES,
    RESERVED,
    ORDER,
    CONDITIONS,
    SPACES,
    MEMORIES,
    VECTORS,
    CONFIGURATION,
    CLOCK,
    PINS,
    TOOLCHAIN,
    DOCUMENTATION,
)


class Change(NamedTuple):
    """One difference.

    ``kind`` is one of the words of :data:`KINDS`. ``a`` and ``b`` are what it is about in either
    chip: a register, ``REGISTER.FIELD``, ``REGISTER.FIELD.VALUE``, a space, ``chip``, or
    with a word and a blank before it a thing that is no register, as ``vector RESET``; empty where
    that chip has none. ``detail`` says which of several, as the space of an address.
    ``before`` and ``after`` are what stands there in A and in B; empty for nothing. ``sure`` is how
    sure it is that ``a`` is ``b``.
    """

    kind: str
    a: str
    b: str
    before: str = ""
    after: str = ""
    detail: str = ""
    sure: str = ""
    origin_a: Origin = None
    origin_b: Origin = None


#: Every kind of change: its category, and the kind that it is the other way round.
KINDS: dict[str, tuple[str, str]] = {
    "register-only-in-a": (PRESENCE, "register-only-in-b"),
    "register-only-in-b": (PRESENCE, "register-only-in-a"),
    "register-split": (PRESENCE, "registers-merged"),
    "registers-merged": (PRESENCE, "register-split"),
    "register-renamed": (NAMES, "register-renamed"),
    "register-aliases": (NAMES, "register-aliases"),
    "address": (ADDRESSES, "address"),
    "single-bit-reach": (ADDRESSES, "single-bit-reach"),
    "register-width": (WIDTHS, "register-width"),
    "register-access": (ACCESS, "register-access"),
    "register-read-action": (EFFECTS, "register-read-action"),
    "register-reset": (RESETS, "register-reset"),
    "reserved": (RESERVED, "reserved"),
    "halves": (ORDER, "halves"),
    "read-order": (ORDER, "read-order"),
    "write-order": (ORDER, "write-order"),
    "byte-order": (ORDER, "byte-order"),
    "temporary": (ORDER, "temporary"),
    "condition": (CONDITIONS, "condition"),
    "alias-of": (CONDITIONS, "alias-of"),
    "field-only-in-a": (PRESENCE, "field-only-in-b"),
    "field-only-in-b": (PRESENCE, "field-only-in-a"),
    "field-renamed": (NAMES, "field-renamed"),
    "field-aliases": (NAMES, "field-aliases"),
    "field-moved": (FIELDS, "field-moved"),
    "field-bits": (FIELDS, "field-bits"),
    "field-width": (WIDTHS, "field-width"),
    "field-access": (ACCESS, "field-access"),
    "write-effect": (EFFECTS, "write-effect"),
    "field-read-action": (EFFECTS, "field-read-action"),
    "volatile": (EFFECTS, "volatile"),
    "field-reset": (RESETS, "field-reset"),
    "value-only-in-a": (VALUES, "value-only-in-b"),
    "value-only-in-b": (VALUES, "value-only-in-a"),
    "value-renamed": (VALUES, "value-renamed"),
    "value": (VALUES, "value"),
    "value-usage": (VALUES, "value-usage"),
    "value-aliases": (NAMES, "value-aliases"),
    "values-complete": (VALUES, "values-complete"),
    "space-only-in-a": (SPACES, "space-only-in-b"),
    "space-only-in-b": (SPACES, "space-only-in-a"),
    "space": (SPACES, "space"),
    "window": (SPACES, "window"),
    "region": (SPACES, "region"),
    "instruction": (TOOLCHAIN, "instruction"),
    "int-width": (TOOLCHAIN, "int-width"),
    "compiler-macro": (TOOLCHAIN, "compiler-macro"),
    "kind": (TOOLCHAIN, "kind"),
    **REST,
    "chip-name": (DOCUMENTATION, "chip-name"),
    "title": (DOCUMENTATION, "title"),
    "page": (DOCUMENTATION, "page"),
    "notes": (DOCUMENTATION, "notes"),
    "document": (DOCUMENTATION, "document"),
    "family": (DOCUMENTATION, "family"),
}


def category(change: Change) -> str:
    """Return what a change is about."""
    return KINDS[change.kind][0]


def mirrored(change: Change) -> Change:
    """Return the change that B against A has where A against B has ``change``."""
    return Change(
        KINDS[change.kind][1],
        change.b,
        change.a,
        change.after,
        change.before,
        change.detail,
        change.sure,
        change.origin_b,
        change.origin_a,
    )
