"""One document of the standard while it is read: its elements, numbers, flags and definitions."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cached_property
from typing import TYPE_CHECKING, Any, NamedTuple

from regwright.importing.ieee1685.editions import Edition, short_names
from regwright.importing.ieee1685.literals import shown
from regwright.importing.ieee1685.log import LOSS
from regwright.importing.ieee1685.losses import LOST, LOST_ATTRIBUTES, LOST_OF_COMPONENT, USED
from regwright.importing.ieee1685.making import TooMuch
from regwright.importing.ieee1685.numbers import Numbers, Unclear
from regwright.model.finding import NOTE

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.library import Library
    from regwright.importing.ieee1685.log import Log
    from regwright.importing.ieee1685.resets import Reset

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
        "values",
        "modeRef",
        "accessPolicy",
        "fieldAccessPolicy",
        "reset",
    }
)
#: Children whose order among each other matters, kept together as ``items``.
_ITEMS = frozenset({"addressBlock", "bank", "subspaceMap"})
#: The namespace of the extensions that regwright itself writes.
_OWN = "{urn:regwright:chip:1}"
_ABSENT = "what is not there (isPresent) was left out"
#: What may have several children of a name.
_WITH_SEVERAL = frozenset(
    {
        "memoryMap",
        "memoryRemap",
        "localMemoryMap",
        "bank",
        "addressBlock",
        "registerFile",
        "register",
        "alternateRegister",
        "accessPolicy",
        "fieldAccessPolicy",
        "array",
    }
)
#: Children that need no further look, by what they stand in.
_PLAIN = {
    kind: (names | {"items"}) - {"vendorExtensions", "values"} for kind, names in USED.items()
}


class Part(NamedTuple):
    """An element with what it says itself, and what the definition says that it refers to.

    Without a reference ``facts`` and ``own`` are the same.
    """

    element: etree._Element
    own: Facts
    own_document: Document
    facts: Facts
    document: Document


class Document(Numbers):
    """A document of the standard while it is read."""

    def __init__(
        self,
        root: etree._Element,
        edition: Edition,
        log: Log,
        library: Library,
        overrides: dict[str, str] | None = None,
    ) -> None:
        """Hold ``root``; ``overrides`` are values for its parameters, by identifier."""
        super().__init__(root, edition, log, overrides)
        self.library = library
        self.names = short_names(edition)
        #: Whether fields have identifiers of their own, which only the 2014 edition knows.
        self.has_field_ids = edition.folder == "2014"
        #: Children by kind and name, of the elements of which somebody asked.
        self.children_by_name: dict[etree._Element, dict[tuple[str, str], etree._Element]] = {}
        #: Values after reset, by the texts of value and mask and by their width.
        self.resets: dict[tuple[str | None, str | None, int], Reset | None] = {}
        #: Where vendor extensions stand, by the kind around them and their tag.
        self._extensions: dict[tuple[str, str], list[etree._Element]] = {}
        #: Kinds with names of children that need no further look.
        self._plain_shapes: set[tuple[str, ...]] = set()

    # Elements

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
        if found.keys() <= _PLAIN[kind]:
            self._plain_shapes.add(shape)
            return found
        if "values" in found:  # of SPIRIT 1.4: each is one value
            found = self._grouped(element)
        if "vendorExtensions" in found:
            self.report_extensions(found["vendorExtensions"], kind)
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

    def report_component(self) -> None:
        """Report what the component says of its registers outside its memory maps."""
        for child in self.root:
            name = self.names[child.tag]
            if name in LOST_OF_COMPONENT:
                self.log.lose(LOST_OF_COMPONENT[name], child)
            elif name == "vendorExtensions":
                self.report_extensions(child, "component")

    def report_formulas(self) -> None:
        """Report which numbers of memory maps and address spaces depend on others (2009)."""
        message = "a number depends on others by a formula; the number written was taken"
        for name in ("memoryMaps", "addressSpaces"):
            for group in self.root.iterchildren(self.tag(name)):
                for element in group.iter():
                    if element.get(self.tag("dependency")):
                        self.log.assume_often("formula-not-read", message, element)

    def report_extensions(self, container: etree._Element, kind: str) -> None:
        """Report the vendor extensions in ``container`` as losses."""
        for child in container:
            if child.tag.startswith(_OWN):  # what was lost of these, own_extensions has said
                continue
            key = kind, child.tag
            places = self._extensions.get(key)
            if places is None:
                name = self.names[child.tag].rpartition("}")[2][:60]
                message = f"the vendor extension <{name}> within <{kind}>"
                places = self._extensions[key] = self.log.places_of(LOSS, message, NOTE)
            places.append(child)

    def lose_attribute(self, element: etree._Element, name: str) -> None:
        """Report an attribute that a description has no place for, if it is there."""
        if self.attribute(element, name):
            self.log.lose_often(LOST_ATTRIBUTES[name], element)

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
