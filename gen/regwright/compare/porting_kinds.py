"""What each kind of change means for code that uses the changed thing."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from regwright.audit.usage import Place, Usage
from regwright.compare import show
from regwright.compare.changes import Change
from regwright.compare.pairs import FieldAt
from regwright.resolve.chip import Placed

#: It compiles and is wrong, or may be; it concerns every program, whatever registers it uses; it
#: does not compile; building with the new header does it.
WRONG, WHOLE, MISSING, MOVED = "wrong", "whole", "missing", "moved"
DANGERS = (WRONG, WHOLE, MISSING, MOVED)
#: The header's macros that clear a flag in the way that it asks for.
CLEARING = ("_CLEAR", "_TO_CLEAR", "_CLEAR()")
#: Those that access the halves of a register in the order that it asks for.
_IN_ORDER = {"read-order": "_READ_INTO", "write-order": "_WRITE"}


class Effect(NamedTuple):
    """Some places that use a thing, its register and field in B, and whether by numbers.

    ``is_set`` tells whether any place of the program writes the whole register, whatever was in it;
    ``by_bit`` whether any of ``places`` is an instruction for a single bit.
    """

    usage: Usage
    placed: Placed
    field: FieldAt | None
    places: tuple[Place, ...]
    is_by_hand: bool
    is_set: bool
    by_bit: bool

    @property
    def writes(self) -> bool:
        """Whether any of the places writes."""
        return any(place.how in ("write", "modify") for place in self.places)

    @property
    def reads(self) -> bool:
        """Whether any of the places reads, to change something or to know it."""
        return any(place.how in ("read", "modify") for place in self.places)

    @property
    def sets_all(self) -> bool:
        """Whether any of the places writes the whole register, whatever was in it."""
        return any(map(sets_all, self.places))

    @property
    def stays(self) -> bool:
        """Whether each bit that the field had stands where it stood."""
        old, new = self.usage.field, self.field
        if old is None or new is None:
            return False
        width = min(old.layout.width, new.facts.layout.width)
        bits = [1 << bit for bit in range(width)]
        return all(old.layout.insert(bit) == new.facts.layout.insert(bit) for bit in bits)

    @property
    def header_name(self) -> str:
        """What the new header calls the register."""
        return self.placed.name


def sets_all(place: Place) -> bool:
    """Tell whether a place writes a whole register, whatever was in it."""
    return place.how == "write" and not place.name.endswith(CLEARING)


#: Danger, rank within it, what is different, what to write instead; ``None`` for no work at all.
Verdict = tuple[str, int, str, str] | None
Kind = Callable[[Change, Effect], Verdict]


def _was(change: Change) -> str:
    return f"{change.before or 'nothing'} → {change.after or 'nothing'}"


def _address(change: Change, effect: Effect) -> Verdict:
    message = f"{change.detail} address {_was(change)}"
    if not effect.is_by_hand:
        return MOVED, 0, message, ""
    if not change.after:
        return WRONG, 0, message, f"there only {_elsewhere(effect)} reaches it"
    return WRONG, 0, message, f"write {change.after}, or use {effect.header_name} of the header"


def _elsewhere(effect: Effect) -> str:
    """Return the addresses that the register has in B, by the names that the header gives them."""
    names = [
        f"{effect.header_name}_{address.space.upper()}_ADDR ({show.number(address.value)})"
        for address in effect.placed.addresses
    ]
    return " or ".join(names) or "another register"


def _bits(change: Change, effect: Effect) -> Verdict:
    if not effect.is_by_hand:
        return MOVED, 1, _was(change), ""
    if effect.stays:
        return None
    return WRONG, 0, _was(change), f"use {_by_name(change, effect)} of the header"


def _by_name(change: Change, effect: Effect) -> str:
    name = change.b.replace(".", "_")
    if effect.field is None or effect.field.facts.layout.width == 1:
        return f"{name}_MASK or {name}_BITPOS"
    return f"{name}_INSERT() and {name}_EXTRACT(), or {name}_MASK,"


def _value(change: Change, effect: Effect) -> Verdict:
    name = change.b.replace(".", "_")
    message = f"value {_was(change)}"
    if effect.is_by_hand:
        return WRONG, 1, message, f"use {name} of the header"
    old = change.a.replace(".", "_")
    return (MOVED, 2, message, "") if any(old == place.name for place in effect.places) else None


def _reach(change: Change, effect: Effect) -> Verdict:
    if change.after != "not reached":
        return None
    message = "out of reach of single-bit instructions"
    if effect.by_bit:
        return MISSING, 2, message, "read it, change the bit, write it back; no interrupt between"
    if any(place.how == "modify" for place in effect.places):
        instead = "where an interrupt changes it too, keep that out while it is changed"
        return WRONG, 7, f"{message}: one bit takes several now", instead
    return None


def _register_width(change: Change, _effect: Effect) -> Verdict:
    return WRONG, 1, f"{_was(change)} wide", "check the types of variables, constants and casts"


def _field_width(change: Change, effect: Effect) -> Verdict:
    old, new = effect.usage.field, effect.field
    if old is None or new is None:
        return None
    message = f"{_was(change)} wide"
    if new.facts.layout.width < old.layout.width:
        most = (1 << new.facts.layout.width) - 1
        return WRONG, 1, message, f"no value above {most} has room: check what is written"
    if effect.is_by_hand and effect.stays:  # else there is other work to do at the same bits
        added = new.facts.layout.mask & ~old.layout.mask
        return (
            WRONG,
            7,
            message,
            f"see that the bits that are new, {show.number(added)}, are written as meant",
        )
    return None


def _access(change: Change, effect: Effect) -> Verdict:
    message = f"access {_was(change)}"
    if change.after == "read-only" and effect.writes:
        danger = WRONG if effect.is_by_hand else MISSING
        return danger, 2, message, "it cannot be written now: find what does it instead"
    if change.after == "write-only" and effect.reads:
        return WRONG, 2, message, "it cannot be read now: keep a copy of what was written"
    return (WRONG, 4, message, "check each write") if "Once" in change.after else None


def _effect(change: Change, effect: Effect) -> Verdict:
    message = f"a write acts differently: {_was(change)}"
    name = change.b.replace(".", "_")
    if all(place.name.endswith(CLEARING) for place in effect.places):
        return MOVED, 2, message, ""
    if change.before and not effect.writes:
        return None
    if change.after in ("oneToClear", "zeroToClear"):
        rest = "0" if change.after == "oneToClear" else "1"
        instead = f"clear it with {name}_CLEAR(), and write {rest} there wherever it is to stay"
        return WRONG, 0, message, instead
    return (WRONG, 0, message, "rewrite what sets or clears it") if effect.writes else None


def _read_action(change: Change, effect: Effect) -> Verdict:
    message = f"a read acts differently: {_was(change)}"
    return (WRONG, 1, message, "read it once, and keep the value") if effect.reads else None


def _reset(change: Change, effect: Effect) -> Verdict:
    if effect.is_set or effect.placed.facts.access == "read-only":
        return None
    message = f"after reset {_was(change)}"
    return WRONG, 6, message, "set it first, where the program relied on the old value"


def _reserved(_change: Change, effect: Effect) -> Verdict:
    """Judge what a whole value may now write to reserved bits.

    A value made of the header's names has 0 at all of them.
    """
    if not effect.sets_all:
        return None
    before = {item.mask: item.reserved.write or "" for item in effect.usage.placed.facts.reserved}
    parts = []
    for _, write, mask in sorted(_by_write(effect.placed)):
        same = sum(bits for bits, word in before.items() if word == write)
        added = mask & ~same
        if added and (effect.is_by_hand or write != "0"):
            parts.append(f"{show.number(added)}: {_WRITES.get(write, 'not said what to write')}")
    if not parts:
        return None
    return WRONG, 5, f"bits reserved now: {', '.join(parts)}", "check the value of each write"


def _by_write(placed: Placed) -> list[tuple[int, str, int]]:
    """Return a register's reserved bits by what must be written to them, the lowest first."""
    masks: dict[str, int] = {}
    for item in placed.facts.reserved:
        write = item.reserved.write or ""
        masks[write] = masks.get(write, 0) | item.mask
    return [(mask & -mask, write, mask) for write, mask in masks.items()]


_WRITES = {"0": "write 0", "1": "write 1", "preserve": "write what was read"}


def _order(change: Change, effect: Effect) -> Verdict:
    if not change.before:
        return None
    message = f"{change.kind.replace('-', ' ')} {_was(change)}"
    in_order = _IN_ORDER.get(change.kind)
    if in_order and all(place.name.endswith(in_order) for place in effect.places):
        return MOVED, 2, message, ""
    is_at_stake = {"read-order": effect.reads, "write-order": effect.writes}
    if not is_at_stake.get(change.kind, True):
        return None
    name = change.b
    return WRONG, 0, message, f"use {name}_READ_INTO(variable) and {name}_WRITE(value)"


def _condition(change: Change, _effect: Effect) -> Verdict:
    return WRONG, 3, f"answers when {_was(change)}", "check what must be set before"


def _moved(change: Change, _effect: Effect) -> Verdict:
    message = f"stands in {change.after} now, stood in {change.before}"
    return WRONG, 0, message, f"access {change.after} for it"


KINDS: dict[str, Kind] = {
    "address": _address,
    "field-bits": _bits,
    "value": _value,
    "single-bit-reach": _reach,
    "register-width": _register_width,
    "field-width": _field_width,
    "register-access": _access,
    "field-access": _access,
    "write-effect": _effect,
    "register-read-action": _read_action,
    "field-read-action": _read_action,
    "register-reset": _reset,
    "reserved": _reserved,
    "read-order": _order,
    "write-order": _order,
    "byte-order": _order,
    "condition": _condition,
    "alias-of": _condition,
    "field-moved": _moved,
}
