"""Registers, their alternates, and rows of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from regwright.importing.ieee1685.arrays import Row, row_of
from regwright.importing.ieee1685.documents import Part
from regwright.importing.ieee1685.fields import Around, fields_of
from regwright.importing.ieee1685.labels import Node, named, note
from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.ieee1685.policies import access_of
from regwright.importing.ieee1685.resets import Reset, reset_of, spell
from regwright.importing.ieee1685.words import put_fields, word_sizes
from regwright.importing.names import identifier, line
from regwright.importing.spelled import hexadecimal

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts
    from regwright.importing.ieee1685.making import Within

#: Wider registers than this are not read: no memory has words of such a width.
_WIDEST_READ = 4096


class Registers:
    """Collects the registers of one block; alternates come last, behind what they stand for."""

    def __init__(self, within: Within) -> None:
        self._within = within
        self._taken: set[str] = set()
        self.nodes: list[Node] = []
        self._alternates: list[Node] = []

    def all(self) -> list[Node]:
        """Return every register."""
        return self.nodes + self._alternates

    def add(self, document: Document, element: etree._Element) -> None:
        """Add the register that ``element`` describes, if it is there."""
        own = document.facts(element, "register")
        if "isPresent" in own and not document.is_present(own):
            return
        try:
            reference = own.get("registerDefinitionRef")
            if reference is None:
                self._put(Part(element, own, document, own, document))
                return
            with document.opened(reference, "registerDefinition") as found:
                if found is not None:
                    other, definition = found
                    facts = other.facts(definition, "register")
                    self._put(Part(element, own, document, facts, other))
        except Unclear as problem:
            name = document.text(own.get("name"))
            message = f"the register {name!r} cannot be placed: {problem}"
            document.log.refuse("number-unclear", message, problem.element)

    def _put(self, part: Part) -> None:
        own, own_document, facts, document = part.own, part.own_document, part.facts, part.document
        if "addressOffset" not in own or "size" not in facts:
            raise Unclear("it does not say its offset and size", part.element)
        offset = own_document.number(own["addressOffset"])
        size = document.number(facts["size"])
        if not 1 <= size <= _WIDEST_READ:
            raise Unclear(f"a size of {size} bits is not 1 to {_WIDEST_READ}", facts["size"])
        row = row_of(own_document, own) if "dim" in own or "array" in own else None
        self.nodes += self._nodes(part, offset, size, row)
        if "alternateRegisters" in own:
            self._add_alternates(own_document, own, offset, size, row)

    def _nodes(self, part: Part, offset: int, size: int, row: Row | None) -> list[Node]:
        """Return the register as one node, or as its words when it is too wide for one."""
        element, facts, document = part.element, part.facts, part.document
        within = self._within
        words = word_sizes(size, within.unit)
        within.making.count(within.times * len(words) * (row.length if row else 1), element)
        node = named(part, self._taken, "register")
        notes = node.pop("notes", None)
        access = access_of(document, facts)
        volatile = document.flag(facts["volatile"]) if "volatile" in facts else within.volatile
        reset = None
        if "reset" in facts:
            reset = reset_of(document, facts["reset"][0], size, (node["name"],))
        fields = fields_of(document, facts, Around(node["name"], size, volatile))
        if volatile and not fields and "volatile" in facts:
            document.log.lose_often("that a register without fields is volatile", element)
        found = []
        low = 0
        for number, width in enumerate(words):
            word = node
            if len(words) > 1:
                word = dict(node)
                word["name"] = self._name_of_word(node["name"], number, row)
            self._place(word, offset, low, size, row, element)
            if width != within.width:
                word["width"] = width
            if access:
                word["access"] = access
            _put_reset(word, reset, low, width)
            if notes and not low:
                word["notes"] = notes
            put_fields(document, word, fields, (low, width), within.making)
            within.making.remember(word, element)
            found.append(word)
            low += width
        if len(words) > 1:
            message = f"{node['name']} has {size} bits; it became {len(words)} registers"
            document.log.tell("register-split", message, element)
        return found

    def _name_of_word(self, name: str, number: int, row: Row | None) -> str:
        end = f"_W{number}_E" if row else f"_W{number}"
        return identifier(name[:70] + end, self._taken)

    def _place(
        self,
        node: Node,
        offset: int,
        low: int,
        size: int,
        row: Row | None,
        element: etree._Element,
    ) -> None:
        within, lane = self._within, self._within.lane
        at = offset + low // within.unit
        node["offset"] = hexadecimal(lane.place(at) if lane else at)
        if row is None:
            return
        whole = within.units(size)
        stride = row.stride if row.stride is not None else whole
        node["count"] = row.length
        if lane and not lane.is_regular(stride):
            raise Unclear("an array in a part of a parallel bank fills no whole rows", element)
        if lane or row.stride is not None or size > 64:
            node["stride"] = hexadecimal(lane.place(stride) if lane else stride)

    def _add_alternates(
        self, document: Document, own: Facts, offset: int, size: int, row: Row | None
    ) -> None:
        of = self.nodes[-1]
        for element in own["alternateRegisters"]:
            facts = document.facts(element, "alternateRegister")
            if not document.is_present(facts):
                continue
            part = Part(element, facts, document, facts, document)
            condition = _condition(document, facts)
            for node in self._nodes(part, offset, size, row):
                fields = node.pop("fields", None)
                note(node, f"Another view of {of['name']}{condition}.")
                if not _told_apart(node, of, self._within.access):
                    reason = line(f"another view of {of['name']}{condition}")
                    node["silences"] = [{"rule": "registers-overlap", "reason": reason}]
                if fields:
                    node["fields"] = fields
                self._alternates.append(node)
            message = f"when {facts_name(document, facts)} answers instead of {of['name']}"
            document.log.lose(message, element)


def facts_name(document: Document, facts: Facts) -> str:
    """Return the name among ``facts`` as a message shows it."""
    return document.text(facts.get("name")) or "an alternate register"


_READS = frozenset({"read-write", "read-only", "read-writeOnce"})
_WRITES = frozenset({"read-write", "write-only", "writeOnce", "read-writeOnce"})


def _told_apart(one: Node, other: Node, access: str) -> bool:
    """Tell whether of two registers one is only read and the other only written."""
    first, second = one.get("access", access), other.get("access", access)
    both_read = first in _READS and second in _READS
    both_written = first in _WRITES and second in _WRITES
    return not both_read and not both_written


def _condition(document: Document, facts: Facts) -> str:
    groups = facts.get("alternateGroups")
    names = [document.text(item) for item in facts.get("modeRef", ())]
    word = "mode"
    if groups is not None:
        names, word = [document.text(item) for item in groups], "group"
    many = "s" if len(names) > 1 else ""
    return f", in the {word}{many} {', '.join(names)}" if names else ""


def _put_reset(node: Node, reset: Reset | None, low: int, width: int) -> None:
    if reset is None:
        return
    ones = (1 << width) - 1
    value, undefined = reset.value >> low & ones, reset.undefined >> low & ones
    if undefined != ones:
        node["reset"] = spell(Reset(value, undefined), width)
