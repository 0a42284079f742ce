"""Write one register, with its fields and their values, as a description has it."""

from __future__ import annotations

import re
from typing import Any

from regwright.importing import names, spelled
from regwright.importing.draft import Draft
from regwright.importing.spelled import hexadecimal
from regwright.importing.tables import words
from regwright.importing.tables.addresses import OFFSET_SPACE
from regwright.importing.tables.facts import (
    FieldFacts,
    RegisterFacts,
    ReservedFacts,
    Spot,
    ValueFacts,
)
from regwright.importing.tables.notation import plain_dashes
from regwright.model.origin import Origin

_MOST_FIELDS = 64
_LONGEST_NAME = 48
_LINE = 200
_MOST_PAGE = 99_999
Node = dict[str, Any]


class Writer:
    """Writes registers; ``width`` is that of a register that does not say its own."""

    def __init__(self, draft: Draft, width: int, spaces: set[str]) -> None:
        self.draft = draft
        self.width = width
        self.spaces = spaces
        self.taken: set[str] = set()
        self.times: dict[str, int] = {}
        self.called: dict[str, str] = {}

    def remark(self, name: str, reason: str, line: int) -> None:
        """Say what a person must look at."""
        self.draft.assume("needs-review", f"{name}: {reason}", line)

    def register(self, facts: RegisterFacts, origin: Origin) -> Node:
        """Return the node of a register; its place and its marks go into the draft."""
        node = self._named(facts.name, self.taken, facts.spot, origin)
        self.called.setdefault(facts.name, node["name"])
        if " " in facts.name or "-" in plain_dashes(facts.name):
            facts.review("its name is printed with a space or hyphen: is it one name, broken?")
        if facts.title:
            self._add_title(node, facts.title)
        self._add_place(node, facts)
        width = facts.width or self.width
        if width != self.width:
            node["width"] = width
        if facts.byte_order:
            node["byteOrder"] = facts.byte_order
        effect = self._add_access(node, facts)
        self._add_reset(node, facts, width)
        if facts.when:
            node["when"] = facts.when
        if facts.alias_of:
            node["aliasOf"] = self.called.get(facts.alias_of, facts.alias_of)
        if facts.count > 1 and not facts.halves:
            self._add_row(node, facts, width)
        self._add_spot(node, facts.spot, facts)
        if facts.halves:
            node["halves"] = self._halves(facts, origin)
        self._add_fields(node, facts, effect, origin)
        if facts.notes:
            node["notes"] = names.prose("\n".join(dict.fromkeys(facts.notes)))
        self._add_review(node, facts.reviews, facts.spot.line)
        return node

    def _named(self, name: str, taken: set[str], spot: Spot, origin: Origin) -> Node:
        """Start a node with a free C identifier; the printed name, if it is none, is its title."""
        wanted = plain_dashes(re.sub(r"\[(\d+)(?::(\d+))?\]", r"_\1_\2", name).strip("_") or name)
        wanted = wanted or "UNNAMED"
        if taken is self.taken and wanted in taken:
            self.times[wanted] = self.times.get(wanted, 1) + 1
            wanted = f"{wanted}_{self.times[wanted]}"
        identifier = names.identifier(wanted, taken, _LONGEST_NAME)
        if identifier[0] == "_":
            identifier = names.identifier(f"N{identifier}", taken, _LONGEST_NAME)
        node: Node = {"name": identifier}
        if identifier != name and names.line(name):
            node["title"] = names.line(name)
            self.draft.tell("name-mapped", f"{name!r} became {identifier}", spot.line)
        self.draft.places[origin] = (spot.line, 1)
        return node

    def _add_title(self, node: Node, title: str) -> None:
        before = node.get("title")
        text = f"{before}: {title}" if before else title
        if names.line(text):
            node["title"] = names.line(text)
        if len(" ".join(text.split())) > _LINE:
            node["notes"] = names.prose(text)

    def _add_place(self, node: Node, facts: RegisterFacts) -> None:
        placed = {space: value for space, value in facts.placed.items() if space != OFFSET_SPACE}
        if OFFSET_SPACE in facts.placed:
            node["offset"] = hexadecimal(facts.placed[OFFSET_SPACE])
            return
        known = {space: value for space, value in placed.items() if space in self.spaces}
        if len(known) < len(placed):
            facts.review("it is in more banks than a description has spaces")
        if known:
            is_first = len(self.spaces) == 1
            spellings = [
                hexadecimal(value) if is_first else f"{space}:{hexadecimal(value)}"
                for space, value in known.items()
            ]
            node["address"] = " ".join(spellings)
        elif not any("address" in reason for reason in facts.reviews):
            facts.review("no address is printed for it")

    def _add_access(self, node: Node, facts: RegisterFacts) -> words.Access | None:
        """Add the access of the whole register; return what else it says of each field."""
        found = words.access(facts.access) if facts.access else None
        if facts.access and found is None:
            facts.review(f"the access {facts.access!r} is not known")
        if found is None:
            every = [words.access(item.access) for item in facts.fields]
            alike = {item.word if item else "" for item in every}
            if len(alike) == 1 and alike != {""}:
                found = words.Access(alike.pop())
        if found is not None and found.doubt:
            facts.review(found.doubt)
        if found is not None and found.word:
            node["access"] = found.word
        if found is not None and found.read:
            node["readAction"] = found.read
        if found is not None and found.write and not facts.fields:
            facts.review(f"{facts.access!r} is said of the register, but it has no fields here")
        return found

    def _add_reset(self, node: Node, facts: RegisterFacts, width: int) -> None:
        found = words.reset(facts.reset, width) if facts.reset else None
        if found is not None and not found.doubt:
            _compare_resets(facts, found)
        if found is None and facts.resets:
            text = "".join(facts.resets.get(bit, "x") for bit in reversed(range(width)))
            found = words.reset(text, width)
        elif found is not None and found.doubt:
            facts.review(found.doubt)
        everything = (1 << width) - 1
        if found is not None and not (found.doubt and found.undefined == everything):
            node["reset"] = spelled.reset(found.value, found.undefined, width)

    def _add_row(self, node: Node, facts: RegisterFacts, width: int) -> None:
        """Make a row of registers of a name that is printed for a range of addresses."""
        if facts.steps is not None and facts.steps.number <= spelled.LONGEST_ROW:
            node["count"] = facts.steps.number
            node["stride"] = hexadecimal(facts.steps.stride)
            if 0 < facts.steps.start <= spelled.LONGEST_ROW:
                node["firstIndex"] = facts.steps.start
            return
        units = max(1, width // 8)
        count = facts.count // units
        if facts.count == units:
            return
        if 1 < count <= spelled.LONGEST_ROW and facts.count % units == 0:
            node["count"] = count
            facts.review(
                f"printed for {facts.count} addresses: taken as {count} registers in a row"
            )
        else:
            facts.review(f"printed for {facts.count} addresses: only the first is described")

    def _add_spot(self, node: Node, spot: Spot, register: RegisterFacts) -> None:
        """Add the page that the document prints, or else that of the file, and the raw text."""
        page = register.page or (None if register.prints_page else spot.page)
        if page and page <= _MOST_PAGE:
            node["page"] = page
        node["printed"] = spot.printed

    def _add_review(self, node: Node, reasons: list[str], line: int) -> None:
        reasons = list(dict.fromkeys(reasons))
        if reasons:
            node["review"] = names.line("; ".join(reasons))
        for reason in reasons:
            self.remark(node["name"], reason, line)

    def _halves(self, facts: RegisterFacts, origin: Origin) -> Node:
        found: Node = {}
        for which, half in zip(("low", "high"), facts.halves, strict=True):
            place: Origin = ((origin, "halves"), which)
            node = self._named(half.name, self.taken, half.spot, place)
            if half.title:
                self._add_title(node, half.title)
                node.pop("notes", None)
            if OFFSET_SPACE not in half.placed:
                self._add_place(node, half)
            self._add_spot(node, half.spot, half)
            found[which] = node
        return found

    def _add_fields(
        self, node: Node, facts: RegisterFacts, effect: words.Access | None, origin: Origin
    ) -> None:
        if len(facts.fields) > _MOST_FIELDS:
            facts.review(f"{len(facts.fields)} fields are printed, {_MOST_FIELDS} are kept")
        taken: set[str] = set()
        fields = [
            self._field(item, facts, effect, taken, (origin, "fields", index))
            for index, item in enumerate(facts.fields[:_MOST_FIELDS])
        ]
        if fields:
            node["fields"] = fields
        reserved = _together(facts.reserved)[:_MOST_FIELDS]
        for index, one in enumerate(reserved):
            self.draft.places[(origin, "reserved", index)] = (one.spot.line, 1)
        if reserved:
            node["reserved"] = [
                {
                    "bits": spelled.bits([(one.high, one.low)]),
                    **({"write": one.write} if one.write else {}),
                    "printed": one.spot.printed,
                }
                for one in reserved
            ]

    def _field(
        self,
        item: FieldFacts,
        register: RegisterFacts,
        effect: words.Access | None,
        taken: set[str],
        origin: Origin,
    ) -> Node:
        if item.name in taken:
            item.reviews.append(f"{item.name!r} is printed at more than one place")
        node = self._named(item.name, taken, item.spot, origin)
        node["bits"] = spelled.bits(item.bits)
        if item.title:
            self._add_title(node, item.title)
        self._add_field_access(node, item, effect)
        found = words.reset(item.reset, item.width) if item.reset else None
        if found is not None and found.doubt:
            item.reviews.append(found.doubt)
        if found is not None and not (found.doubt and found.undefined):
            node["reset"] = spelled.reset(found.value, found.undefined, item.width)
        self._add_spot(node, item.spot, register)
        if item.values:
            node["values"] = [
                self._value(value, item.width, (origin, "values", index))
                for index, value in enumerate(item.values)
            ]
        self._add_field_review(node, item, register)
        return node

    def _add_field_review(self, node: Node, item: FieldFacts, register: RegisterFacts) -> None:
        reasons = list(dict.fromkeys(item.reviews))
        if reasons:
            node["review"] = names.line("; ".join(reasons))
        for reason in reasons:
            self.remark(f"{register.name}.{node['name']}", reason, item.spot.line)

    def _add_field_access(self, node: Node, item: FieldFacts, effect: words.Access | None) -> None:
        found = words.access(item.access) if item.access else effect
        if item.access and found is None:
            item.reviews.append(f"the access {item.access!r} is not known")
        if found is None:
            return
        if found.doubt and item.access:
            item.reviews.append(found.doubt)
        if found.word and not (effect and effect.word == found.word):
            node["access"] = found.word
        if found.write:
            node["modifiedWriteValue"] = found.write
        if found.read and not (effect and effect.read):
            node["readAction"] = found.read

    def _value(self, value: ValueFacts, width: int, origin: Origin) -> Node:
        self.draft.places[origin] = (value.spot.line, 1)
        node: Node = {"name": value.name, "value": hexadecimal(value.value, width)}
        if names.line(value.title):
            node["title"] = names.line(value.title)
        node["printed"] = value.spot.printed
        self._add_review(node, value.reviews, value.spot.line)
        return node


def _compare_resets(facts: RegisterFacts, said: words.Reset) -> None:
    """Mark a register whose value after reset differs from the digits under its bits."""
    digits = {bit: digit for bit, digit in facts.resets.items() if digit in "01"}
    other = [
        bit
        for bit, digit in digits.items()
        if not said.undefined >> bit & 1 and said.value >> bit & 1 != int(digit)
    ]
    if other:
        row = sum(int(digit) << bit for bit, digit in digits.items())
        facts.review(
            f"its value after reset is printed as {facts.reset}, but its row of bits says "
            f"{hexadecimal(row)}"
        )


def _together(pieces: list[ReservedFacts]) -> list[ReservedFacts]:
    """Join reserved bits of one row that lie beside each other."""
    found: list[ReservedFacts] = []
    for item in sorted(pieces, reverse=True):
        last = found[-1] if found else None
        is_beside = last is not None and last.low == item.high + 1
        if last and is_beside and last.spot.row == item.spot.row and last.write == item.write:
            found[-1] = last._replace(low=item.low)
        elif last is None or item.high < last.low:
            found.append(item)
    return found
