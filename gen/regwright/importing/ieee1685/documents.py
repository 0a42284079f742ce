"""One document of the standard while it is read: its elements, numbers, flags and definitions."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from typing import TYPE_CHECKING, Any, NamedTuple

from regwright.importing.ieee1685.editions import Edition, short_names
from regwright.importing.ieee1685.literals import (
    BARE_HEX,
    BASE,
    EXPRESSION,
    HASH,
    OCTAL,
    PREFIX,
    SCALE,
    BadNumber,
    Value,
    shown,
)
from regwright.importing.ieee1685.losses import LOST, LOST_ATTRIBUTES, USED
from regwright.importing.ieee1685.making import TooMuch
from regwright.importing.ieee1685.operators import is_true, whole
from regwright.importing.ieee1685.parameters import Parameters

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.library import Library
    from regwright.importing.ieee1685.log import Log

#: What a document calls itself: vendor, library, name and version.
Identifier = tuple[str, str, str, str]
#: The children of an element by name: one, or all where there may be several.
Facts = dict[str, Any]

#: Definitions may refer to each other over so many steps.
DEEPEST_DEFINITION = 32
#: Definitions may be used so often in all.
MOST_USES = 10_000
_MANY = frozenset(
    {
        "memoryRemap",
        "register",
        "registerFile",
        "dim",
        "field",
        "enumeratedValue",
        "values",
        "modeRef",
        "accessPolicy",
        "fieldAccessPolicy",
        "segment",
        "reset",
    }
)
#: Children whose order among each other matters, kept together as ``items``.
_ITEMS = frozenset({"addressBlock", "bank", "subspaceMap"})
_SEVERAL = _MANY | _ITEMS
_ODD_OF_PLAIN = frozenset({OCTAL, BARE_HEX, BASE, EXPRESSION})
_ODD_OF_EXPRESSIONS = frozenset({HASH, PREFIX, SCALE})
_ABSENT = "what is not there (isPresent) was left out"
_YES = {"true": True, "1": True, "false": False, "0": False}


_WITH_SEVERAL = frozenset({"register", "registerFile", "addressBlock", "memoryMap"})
_PLAIN = {kind: (names | {"items"}) - {"vendorExtensions"} for kind, names in USED.items()}


class Unclear(Exception):
    """A number that is needed cannot be had; carries the message and the element at fault."""

    def __init__(self, message: str, element: etree._Element) -> None:
        super().__init__(message)
        self.element = element


class Part(NamedTuple):
    """An element with what it says itself, and what the definition says that it refers to.

    Without a reference ``facts`` and ``own`` are the same.
    """

    element: etree._Element
    own: Facts
    own_document: Document
    facts: Facts
    document: Document


class Document:
    """A document; ``file`` is empty for the one that was asked for."""

    def __init__(
        self,
        root: etree._Element,
        edition: Edition,
        log: Log,
        library: Library,
        overrides: dict[str, str] | None = None,
    ) -> None:
        self.root = root
        self.edition = edition
        self.log = log
        self.library = library
        self.names = short_names(edition)
        self._start = f"{{{edition.namespace}}}"
        self._parameters = Parameters(root, edition, overrides)
        self._odd_here = _ODD_OF_PLAIN if edition.plain_numbers else _ODD_OF_EXPRESSIONS
        #: Numbers by the text that says them, where nothing is odd about it.
        self.clean: dict[str | None, int] = {}
        #: Children by kind and name, of the elements of which somebody asked.
        self.children_by_name: dict[etree._Element, dict[tuple[str, str], etree._Element]] = {}
        #: Kinds with names of children that need no further look.
        self._plain_shapes: set[tuple[str, ...]] = set()
        self._values: dict[str, tuple[Value, list[list[etree._Element]]]] = {}
        self._bits: dict[str | None, tuple[int, int, list[list[etree._Element]]]] = {}

    # Elements

    def tag(self, name: str) -> str:
        """Return ``name`` in the document's namespace."""
        return self._start + name

    def facts(self, element: etree._Element, kind: str) -> Facts:
        """Return the children of ``element`` by name; what is not used of them is reported."""
        if kind in _WITH_SEVERAL:
            found = self._grouped(element)
        else:
            names = self.names
            found = {names[child.tag]: child for child in element}
        shape = (kind, *found)
        if shape in self._plain_shapes:
            return found
        if (kind in _WITH_SEVERAL or _SEVERAL.isdisjoint(found)) and found.keys() <= _PLAIN[kind]:
            self._plain_shapes.add(shape)
            return found
        if kind not in _WITH_SEVERAL and not _SEVERAL.isdisjoint(found):
            found = self._grouped(element)
        if "vendorExtensions" in found:
            self._report_extensions(found["vendorExtensions"], kind)
        if not found.keys() <= USED[kind]:
            self._not_used(found.keys() - USED[kind] - {"items"}, found, kind)
        return found

    def _grouped(self, element: etree._Element) -> Facts:
        """Return the children of ``element``, those that there may be several of in lists."""
        names = self.names
        found: Facts = {}
        for child in element:
            name = names[child.tag]
            if name in _MANY:
                found.setdefault(name, []).append(child)
            elif name in _ITEMS:
                found.setdefault("items", []).append(child)
            else:
                found[name] = child
        return found

    def _not_used(self, extra: set[str], found: Facts, kind: str) -> None:
        for name in sorted(extra):
            child = found[name][0] if isinstance(found[name], list) else found[name]
            if name in LOST:
                self.log.lose_often(f"{LOST[name]}, within <{kind}>", child)
            else:
                message = (
                    f"<{name[:60]}> stands within <{kind}>, where the standard has none; not read"
                )
                self.log.assume_often("foreign-element", message, child)

    def _report_extensions(self, container: etree._Element, kind: str) -> None:
        for child in container:
            name = self.names[child.tag].rpartition("}")[2][:60]
            self.log.lose_often(f"the vendor extension <{name}> within <{kind}>", child)

    def attribute(self, element: etree._Element, name: str) -> str:
        """Return an attribute, qualified or not, or nothing."""
        return element.get(name) or element.get(self._start + name) or ""

    def lose_attribute(self, element: etree._Element, name: str) -> None:
        """Report an attribute that a description has no place for, if it is there."""
        if self.attribute(element, name):
            self.log.lose_often(LOST_ATTRIBUTES[name], element)

    def text(self, element: etree._Element | None) -> str:
        """Return the text of ``element`` without white space around it."""
        if element is None:
            return ""
        text = element.text or ""
        return (text if not len(element) else "".join(element.itertext())).strip()

    # Numbers

    def number(self, element: etree._Element) -> int:
        """Return the whole number that ``element`` says, 0 or more. Raises :class:`Unclear`."""
        found = self.clean.get(element.text)
        return found if found is not None else self._number(element)

    def _number(self, element: etree._Element) -> int:
        plain = self._plain(element)
        if plain is not None:
            return plain
        value, odd = self._evaluated(element)
        try:
            number = whole(value)
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None
        if number < 0 or number.bit_length() > 64:
            size = "negative" if number < 0 else f"a number of {number.bit_length()} bits"
            raise Unclear(f"{shown(self.text(element))} is {size}, which cannot be here", element)
        if not odd and not len(element):
            self.clean[element.text] = number
        return number

    def _plain(self, element: etree._Element) -> int | None:
        """Return the number that ``element`` says if it is spelled in a common way."""
        text = element.text
        if text is None or len(element):
            return None
        found = _simple(text.strip(), self.edition)
        if found is not None:
            self.clean[text] = found
        return found

    def signed(self, element: etree._Element) -> int:
        """Return the whole number that ``element`` says. Raises :class:`Unclear`."""
        try:
            return whole(self._evaluated(element)[0])
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None

    def bits(self, element: etree._Element) -> tuple[int, int]:
        """Return the bits that ``element`` says, and which of them are x or z.

        Either may be negative: then all higher bits are 1. Raises :class:`Unclear`.
        """
        text = element.text
        known = self._bits.get(text)
        if known is None:
            plain = self.clean.get(text) if text in self.clean else self._plain(element)
            if plain is not None:
                return plain, 0
            return self._other_bits(element)
        for places in known[2]:
            places.append(element)
        return known[0], known[1]

    def _other_bits(self, element: etree._Element) -> tuple[int, int]:
        value, odd = self._evaluated(element)
        try:
            found = whole(value._replace(unknown=0))
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None
        if not len(element) and not element.keys():
            self._bits[element.text] = found, value.unknown, odd
        return found, value.unknown

    def flag(self, element: etree._Element) -> bool:
        """Tell whether what ``element`` says is true. Raises :class:`Unclear`."""
        found = _YES.get(element.text or "")
        if found is not None:
            return found
        try:
            return is_true(self._evaluated(element)[0])
        except BadNumber as problem:
            raise Unclear(str(problem), element) from None

    def _evaluated(self, element: etree._Element) -> tuple[Value, list[list[etree._Element]]]:
        """Return what ``element`` says, and where to note each place that says it so oddly."""
        text = self.text(element)
        known = self._values.get(text)
        if known is None:
            odd: set[str] = set()
            try:
                value = self._parameters.evaluate(text, odd)
            except BadNumber as problem:
                raise Unclear(str(problem), element) from None
            odd &= self._odd_here
            odd |= {f"the name {name!r}" for name in self._parameters.by_name}
            self._parameters.by_name.clear()
            known = self._values[text] = value, [self._places_of(item) for item in sorted(odd)]
        for places in known[1]:
            places.append(element)
        if self.edition.qualified and element.get(self.tag("dependency")):
            message = "a number depends on others by a formula; the number written was taken"
            self.log.assume_often("formula-not-read", message, element)
        return known

    def _places_of(self, spelling: str) -> list[etree._Element]:
        edition = self.edition.label
        if spelling.startswith("the name "):
            message = f"{spelling} stands for a parameter, which has another identifier"
        elif spelling == OCTAL:
            message = f"{spelling} as edition {edition} says; check that no decimal was meant"
        else:
            message = f"{spelling}: not how edition {edition} writes numbers; read as meant"
        return self.log.places_of("number-spelling", message)

    # Whether an element is there

    def is_present(self, facts: Facts) -> bool:
        """Tell whether the element whose children are ``facts`` is there."""
        condition = facts.get("isPresent")
        if condition is None:
            return True
        try:
            present = self.flag(condition)
        except Unclear as problem:
            message = f"whether this is there is not clear ({problem}); it was taken to be"
            self.log.assume("number-unclear", message, condition)
            return True
        if not present:
            self.log.tell_often("not-present", _ABSENT, condition)
        return present

    # Definitions in this document and others

    @cached_property
    def identifier(self) -> Identifier:
        """What the document calls itself."""
        vendor, library, name, version = (
            self.text(self.root.find(self.tag(name)))
            for name in ("vendor", "library", "name", "version")
        )
        return vendor, library, name, version

    @cached_property
    def _externals(self) -> dict[str, etree._Element]:
        found: dict[str, etree._Element] = {}
        places = [self.root, *self.root.iterchildren(self.tag("typeDefinitions"))]
        for place in places:
            for external in place.iterchildren(self.tag("externalTypeDefinitions")):
                name = self.text(external.find(self.tag("name")))
                found.setdefault(name, external)
        return found

    @cached_property
    def _definitions(self) -> dict[tuple[str, str], etree._Element]:
        found: dict[tuple[str, str], etree._Element] = {}
        for group in self.root:
            kind = self.names[group.tag]
            if not kind.endswith("Definitions") or kind == "externalTypeDefinitions":
                continue
            for item in group.iterchildren(self.tag(kind[:-1])):
                found.setdefault((kind[:-1], self.text(item.find(self.tag("name")))), item)
        return found

    @contextmanager
    def opened(
        self, reference: etree._Element, kind: str
    ) -> Iterator[tuple[Document, etree._Element] | None]:
        """Give the definition of ``kind`` that ``reference`` names, and its document.

        ``None``, reported, when it is not found or leads in a circle. Raises :class:`TooMuch`.
        """
        name = self.text(reference)
        document = self._other(reference)
        found = document._definitions.get((kind, name)) if document else None
        if document is None or found is None:
            if document is not None:
                message = f"the definition {shown(name)} ({kind}) is not there"
                self.log.refuse("definition-not-found", message, reference)
            yield None
            return
        self.library.uses += 1
        if self.library.uses > MOST_USES:
            raise TooMuch(f"definitions are used more than {MOST_USES} times", reference)
        chain = self.library.open_definitions
        if any(item is found for item in chain):
            message = f"the definition {shown(name)} ({kind}) refers to itself in a circle"
            self.log.refuse("definition-not-found", message, reference)
            yield None
        elif len(chain) >= DEEPEST_DEFINITION:
            message = f"definitions refer to each other over more than {DEEPEST_DEFINITION} steps"
            self.log.refuse("definition-not-found", message, reference)
            yield None
        else:
            chain.append(found)
            try:
                yield document, found
            finally:
                chain.pop()

    def _other(self, reference: etree._Element) -> Document | None:
        """Return the document in which the definition is that ``reference`` names."""
        label = self.attribute(reference, "typeDefinitions")
        external = self._externals.get(label)
        if external is None:
            if self._definitions:
                return self
            message = f"no externalTypeDefinitions is called {shown(label)}"
            self.log.refuse("definition-not-found", message, reference)
            return None
        target = external.find(self.tag("typeDefinitionsRef"))
        if target is None:
            self.log.refuse("definition-not-found", "this names no document", external)
            return None
        return self.library.find(self, target)


_SIMPLE_HEX = {False: "'h", True: "0x"}


def _simple(text: str, edition: Edition) -> int | None:
    """Return the value of the commonest spellings of a number, or ``None``."""
    if text.isdecimal() and text.isascii() and len(text) < 20:
        leads = edition.plain_numbers and text[0] == "0" and len(text) > 1
        value = None if leads else int(text)
    else:
        digits = text.removeprefix(_SIMPLE_HEX[edition.plain_numbers])
        if digits is text or not digits.isalnum() or not digits.isascii() or len(digits) > 16:
            return None
        try:
            value = int(digits, 16)
        except ValueError:
            return None
    return value if value is not None and value < 1 << 64 else None
