"""The sentence for each kind of change."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import NamedTuple

from regwright.compare.changes import Change
from regwright.compare.rest_words import FORMS as REST_FORMS
from regwright.model.chip import Chip
from regwright.resolve.chip import Placed

_BY = {
    "oneToClear": ("cleared", "by writing 1"),
    "oneToSet": ("set", "by writing 1"),
    "oneToToggle": ("toggled", "by writing 1"),
    "zeroToClear": ("cleared", "by writing 0"),
    "zeroToSet": ("set", "by writing 0"),
    "zeroToToggle": ("toggled", "by writing 0"),
    "clear": ("cleared", "by any write"),
    "set": ("set", "by any write"),
    "modify": ("changed", "by any write"),
}
#: What a write and a read do, which end or half comes first, what reaches, when a value is meant.
EFFECTS = {"": "as written", **{key: " ".join(words) for key, words in _BY.items()}}
READ_EFFECTS = {"": "unchanged", "clear": "cleared", "set": "set", "modify": "changed"}
HALVES = {"low": "low half", "high": "high half"}
ORDERS = {"little": "low end first", "big": "high end first"}
REACH = {"reached": "within reach", "not reached": "out of reach"}
USAGES = {"read": "when read", "write": "when written", "read-write": "when read or written"}


class Context(NamedTuple):
    """What a sentence may need beside its change, of A and of B."""

    labels: tuple[str, str]
    registers: tuple[Mapping[str, Placed], Mapping[str, Placed]]
    chips: tuple[Chip, Chip]

    def others(self, change: Change) -> str:
        """Return where a register is that lost or gained an address, on the side without it."""
        side = 1 if change.before else 0
        placed = self.registers[side].get(change.b if side else change.a)
        found = placed.addresses if placed else ()
        return " and ".join(f"{item.space} 0x{item.value:02X}" for item in found)


Sentence = Callable[[Change, Context], str]


def said(change: Change, context: Context) -> str:
    """Return what ``change`` says, in words that go on from a name and a colon."""
    special = _SPECIAL.get(change.kind)
    if special is not None:
        return special(change, context)
    both, gone, new = _FORMS[change.kind]
    form = both
    if not change.after:
        form = gone
    elif not change.before:
        form = new
    spelled = _SPELLED.get(change.kind, {})
    before, after = (spelled.get(text, text) for text in (change.before, change.after))
    a, b = context.labels
    sentence = form.format(before=before, after=after, a=a, b=b, there=change.b)
    return f"{change.detail} {sentence}" if change.detail else sentence


_SPELLED = {"byte-order": ORDERS, "value-usage": USAGES}
_ONLY = ("", "only {a} has it: {before}", "only {b} has it: {after}")
_CALLED = ("is now called {after}, was called {before}", "", "")
_ALSO = (
    "is now also called {after}, was also called {before}",
    "has no other name now, was also called {before}",
    "is now also called {after}",
)
_IS = ("is now {after}, was {before}", "", "")
_WIDE = ("is now {after} wide, was {before}", "", "")
_RESET = (
    "is now {after} after reset, was {before}",
    "its value after reset is not said now, was {before}",
    "is now {after} after reset, which was not said",
)
_THING = (
    "is now {after}; was {before}",
    "only {a} has it: {before}",
    "only {b} has it: {after}",
)
#: A sentence for a change, for what only A has, and for what only B has.
_FORMS: dict[str, tuple[str, str, str]] = {
    **dict.fromkeys(("register-only-in-a", "register-only-in-b"), _ONLY),
    **dict.fromkeys(("field-only-in-a", "field-only-in-b"), _ONLY),
    **dict.fromkeys(("value-only-in-a", "value-only-in-b"), _ONLY),
    **dict.fromkeys(("space-only-in-a", "space-only-in-b"), _ONLY),
    "register-split": ("", "", "is several registers in {b}: {after}"),
    "registers-merged": ("", "are one register in {b}: {there}", ""),
    **dict.fromkeys(("register-renamed", "field-renamed", "value-renamed", "chip-name"), _CALLED),
    **dict.fromkeys(("register-aliases", "field-aliases", "value-aliases"), _ALSO),
    **dict.fromkeys(("register-width", "field-width"), _WIDE),
    **dict.fromkeys(("register-access", "field-access", "value"), _IS),
    **dict.fromkeys(("register-reset", "field-reset"), _RESET),
    "halves": (
        "its halves are now {after}, were {before}",
        "has no halves now, had {before}",
        "now has halves: {after}",
    ),
    "read-order": (
        "was read {before} half first, is now {after} half first",
        "was read {before} half first, now no order is said",
        "is now read {after} half first, no order was said",
    ),
    "write-order": (
        "was written {before} half first, is now {after} half first",
        "was written {before} half first, now no order is said",
        "is now written {after} half first, no order was said",
    ),
    "byte-order": (
        "now lies in memory {after}, lay there {before}",
        "now takes one address, took several, {before}",
        "now takes several addresses, {after}",
    ),
    "temporary": (
        "{after} now holds its other half meanwhile, {before} did",
        "nothing is said to hold its other half now, {before} did",
        "{after} now holds its other half meanwhile",
    ),
    "condition": (
        "now answers only while {after}, did while {before}",
        "now always answers, did only while {before}",
        "now answers only while {after}, always did",
    ),
    "alias-of": (
        "now stands for {after}, stood for {before}",
        "is now a register of its own, stood for {before}",
        "now stands for {after}, was a register of its own",
    ),
    "field-moved": ("moved from {before} to {after}", "", ""),
    "value-usage": ("now has this meaning {after}, had it {before}", "", ""),
    **dict.fromkeys(("space", "window", "region", "instruction"), _THING),
    **REST_FORMS,
    "int-width": (
        "int now has {after}, had {before}",
        "the width of int is not said now, was {before}",
        "int has {after}, which was not said",
    ),
    "compiler-macro": (
        "the compiler now defines {after}, defined {before}",
        "no macro of the compiler is named now, {before} was",
        "the compiler now defines {after}, no macro was named",
    ),
    "kind": ("is now a {after}, was a {before}", "", ""),
    "title": (
        'is now titled "{after}", was titled "{before}"',
        'has no title now, was titled "{before}"',
        'is now titled "{after}", had no title',
    ),
    "page": (
        "is now on page {after}, was on page {before}",
        "has no page now, was on page {before}",
        "is now on page {after}, had no page",
    ),
    "notes": (
        'its notes now say "{after}", said "{before}"',
        'has no notes now, they said "{before}"',
        'its notes now say "{after}", it had none',
    ),
    "document": (
        "is now described in {after}, was in {before}",
        "names no document now, named {before}",
        "is now described in {after}, no document was named",
    ),
    "family": (
        "now belongs to {after}, belonged to {before}",
        "names no family now, belonged to {before}",
        "now belongs to {after}, named no family",
    ),
}


def _address(change: Change, context: Context) -> str:
    space = change.detail
    if change.before and change.after:
        return f"moved from {space} {change.before} to {change.after}"
    others = context.others(change)
    is_gone = bool(change.before)
    side = 1 if is_gone else 0
    chip, label = context.chips[side], context.labels[side]
    if all(item.name != space for item in chip.spaces):
        why = f"{label} has no {space} space"
        if is_gone:
            return f"has no {space} address now, for {why}; was {change.before}"
        return f"now has the {space} address {change.after}; {why}"
    seen = bool(others) and any(item.source == space for item in chip.windows)
    if is_gone:
        lost = f"left the {space} window" if seen else f"has no {space} address now"
        reaches = "reach" if " and " in others else "reaches"
        return f"{lost}: only {others} {reaches} it" if others else f"{lost}, was {change.before}"
    if seen:
        return f"is now in the {space} window: {space} {change.after} reaches it too"
    return f"now has the {space} address {change.after}, had none"


def _reach(change: Change, context: Context) -> str:
    before, after = change.before, change.after
    if before and after:
        return f"is now {REACH[after]} of single-bit instructions"
    if after:
        return (
            f"is {REACH[after]} of single-bit instructions, of which {context.labels[0]} has none"
        )
    return f"was {REACH[before]} of single-bit instructions, of which {context.labels[1]} has none"


def _write_effect(change: Change, _context: Context) -> str:
    before, after = _BY.get(change.before), _BY.get(change.after)
    if after is None:
        old = " ".join(before or (change.before,))
        return f"now becomes what is written, was {old}"
    if before is None:
        return f"is now {' '.join(after)}, became what was written"
    old = before[1] if before[0] == after[0] else " ".join(before)
    return f"is now {' '.join(after)}, was {old}"


_READ_NOW = {"": "changes nothing", "clear": "clears it", "set": "sets it", "modify": "changes it"}
_READ_THEN = {"": "changed nothing", "clear": "cleared it", "set": "set it", "modify": "changed it"}


def _read_effect(change: Change, _context: Context) -> str:
    return f"reading it now {_READ_NOW[change.after]}, {_READ_THEN[change.before]} before"


def _reserved(change: Change, _context: Context) -> str:
    was = _reserved_part(change.before, "was") or "no bit was reserved"
    now = _reserved_part(change.after, "is") or "no bit is reserved"
    return f"{was}; now {now}"


_RULES = {
    "write 0": "to be written 0",
    "write 1": "to be written 1",
    "preserve": "to be preserved",
    "not said": "reserved",
}


def _reserved_part(text: str, verb: str) -> str:
    """Return ``0x14: write 0, 0x80: preserve`` as a clause."""
    parts = [part.partition(": ") for part in text.split(", ")] if text else []
    return " and ".join(f"{mask} {verb} {_RULES[rule]}" for mask, _, rule in parts)


def _bits(change: Change, _context: Context) -> str:
    if _count(change.before) == _count(change.after):
        return f"moved from {change.before} to {change.after}"
    return f"now takes {change.after}, took {change.before}"


def _count(text: str) -> int:
    """Return how many bits ``bits 5,2:0`` are."""
    ranges = re.findall(r"(\d+)(?::(\d+))?", text)
    return sum(int(high) - int(low or high) + 1 for high, low in ranges)


def _volatile(change: Change, _context: Context) -> str:
    now = {
        "yes": "now changes by itself",
        "no": "now does not change by itself",
        "": "whether it changes by itself is not said now",
    }
    then = {"yes": "it did", "no": "it did not", "": "which was not said"}
    return f"{now[change.after]}, {then[change.before]}"


def _complete(change: Change, _context: Context) -> str:
    if change.after == "yes":
        return "now has no values but those with a name"
    return "may now have values without a name"


def _lock(change: Change, _context: Context) -> str:
    return "now holds lock bits" if change.after == "yes" else "holds no lock bits now"


_SPECIAL: dict[str, Sentence] = {
    "word-lock": _lock,
    "address": _address,
    "single-bit-reach": _reach,
    "write-effect": _write_effect,
    "register-read-action": _read_effect,
    "field-read-action": _read_effect,
    "reserved": _reserved,
    "field-bits": _bits,
    "volatile": _volatile,
    "values-complete": _complete,
}
