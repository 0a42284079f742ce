"""What the standard's own elements say of a register, as far as regwright writes them.

The exporter asks this of what it has just written, and puts into the extensions only what is
missing or would be read wrongly; the importer asks the same and adds the extensions. So the two
cannot disagree on what needs no extension.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from regwright.format.shape import shapes
from regwright.importing import spelled
from regwright.importing.ieee1685.own_spelling import (
    OWN,
    Element,
    Tree,
    children,
    ordered,
    tree_of,
)

#: Gives the whole number that an element holds, or ``None``.
Evaluate = Callable[[Any], "int | None"]
_LITERAL = re.compile("'h([0-9A-F]{1,1024})|([0-9]{1,1024})")
_SPACE_ALONE = re.compile("[a-z][a-z0-9_]*")


class NotOurs(Exception):
    """The standard's part is not as regwright writes it."""


class Said(NamedTuple):
    """What the standard's elements say of one object.

    ``certain`` is taken over. ``repeated`` is what they say as well, though a description usually
    leaves it out: because a register inherits it, or its fields' resets are the register's.
    """

    certain: Tree
    repeated: Tree


class Inherited(NamedTuple):
    """What a register has that does not say its own."""

    width: int
    access: str


class Bits(NamedTuple):
    """A value and the bits of it that are not known."""

    value: int
    unknown: int


def literal(element: Element) -> int | None:
    """Return the number that an element holds, spelled as the exporter spells it."""
    match = _LITERAL.fullmatch(element.text or "")
    if match is None:
        return None
    return int(match[1], 16) if match[1] else int(match[2])


def local(element: Element) -> str:
    """Return the name of an element without its namespace."""
    return str(element.tag).rpartition("}")[2]


def find(element: Element, *path: str) -> Element | None:
    """Return the first element at ``path``, in the namespace of ``element``."""
    start = element.tag[: element.tag.index("}") + 1]
    for name in path:
        element = element.find(start + name)
        if element is None:
            return None
    return element


def several(element: Element, name: str) -> list[Element]:
    """Return the children called ``name`` in the namespace of ``element``."""
    found: list[Element] = element.findall(element.tag[: element.tag.index("}") + 1] + name)
    return found


def own(element: Element, tag: str) -> Element | None:
    """Return the extension ``tag`` that stands at ``element``."""
    extensions = find(element, "vendorExtensions")
    return None if extensions is None else extensions.find(OWN + tag)


def names_in(extension: Element | None, attribute: str) -> list[str]:
    """Return the names that an attribute of an extension lists."""
    return [] if extension is None else extension.get(attribute, "").split()


def completed(said: Said, extension: Element | None, kind: str) -> Tree:
    """Return an object of this kind: what the standard says of it and what the extension adds."""
    tree = dict(said.certain)
    for name in names_in(extension, "given"):
        if name in said.repeated:
            tree[name] = said.repeated[name]
    for name in names_in(extension, "implied"):
        tree.pop(name, None)
    if extension is not None:
        known = {**said.repeated, **said.certain}
        for name, value in tree_of(extension, shapes()[kind]).items():
            if name in ("address", "base"):
                value = _with_number(value, known.get(name, ""))  # noqa: PLW2901
            tree[name] = value
    return ordered(tree, kind)


def _with_number(text: str, known: str) -> str:
    """Return the addresses of ``text``; one without its number is the one that is known."""
    items = []
    for item in text.split(" "):
        if not _SPACE_ALONE.fullmatch(item):
            items.append(item)
        elif known.startswith(f"{item}:"):
            items.append(known)
    return " ".join(items)


def texts(element: Element) -> Tree:
    """Return name, title and notes of an element."""
    found: Tree = {}
    for name, tag in (("name", "name"), ("title", "displayName"), ("notes", "description")):
        text = element.findtext(element.tag[: element.tag.index("}") + 1] + tag)
        if text:
            found[name] = text
    return found


class Reader:
    """Reads the standard's elements; ``evaluate`` gives the number that one holds."""

    def __init__(self, evaluate: Evaluate = literal) -> None:
        self._evaluate = evaluate
        #: Each object that was read and its line, by the identity of its tree.
        self._lines: dict[int, tuple[Tree, int]] = {}

    def number(self, element: Element, *path: str, default: int | None = None) -> int:
        """Return the number at ``path``. Raises :class:`NotOurs` if there is none."""
        found = find(element, *path)
        value = default if found is None else self._evaluate(found)
        if value is None or value < 0:
            raise NotOurs(f"{path[-1] if path else local(element)} is no number of its own")
        return value

    def kept(self, tree: Tree, element: Element) -> Tree:
        """Return ``tree`` and remember where it stands."""
        self._lines[id(tree)] = tree, getattr(element, "sourceline", None) or 1
        return tree

    def moved(self, tree: Tree, before: Tree) -> Tree:
        """Return ``tree``, which stands where ``before`` does."""
        self._lines[id(tree)] = tree, self.line(before, 1)
        return tree

    def line(self, tree: Tree, otherwise: int) -> int:
        """Return the line on which an object stands."""
        known = self._lines.get(id(tree))
        return known[1] if known else otherwise

    def row(self, element: Element) -> Tree:
        """Return ``count`` and ``stride`` of an array."""
        array = find(element, "array")
        sizes = several(element if array is None else array, "dim")
        if not sizes:
            return {}
        if len(sizes) > 1:
            raise NotOurs("it has several dimensions")
        found: Tree = {"count": self.number(sizes[0])}
        if array is not None and find(array, "stride") is not None:
            found["stride"] = spelled.hexadecimal(self.number(array, "stride"))
        return found

    def register(self, element: Element, place: Said, inherited: Inherited) -> Tree:
        """Return the register that an element describes; ``place`` is what is said of where."""
        extension = own(element, "register")
        summary = "" if extension is None else extension.get("summary", "")
        said = self.said_of_register(element, place, inherited, summary)
        return self.kept(completed(said, extension, "register"), element)

    def said_of_register(
        self, element: Element, place: Said, inherited: Inherited, summary: str
    ) -> Said:
        """Return what the standard's elements say of a register.

        ``summary`` tells that its first fields are a summary row: ``8 6`` for 8 entries, 6 of them
        with a name. It is empty for none.
        """
        certain = {**texts(element), **self.row(element), **place.certain}
        repeated = dict(place.repeated)
        width = self.number(element, "size")
        (repeated if width == inherited.width else certain)["width"] = width
        access = access_of(element)
        if access is not None:
            (repeated if access == inherited.access else certain)["access"] = access
        every = several(element, "field")
        common = self.common(every, width)
        certain.update(common)
        fields, reserved = self._groups(every, set(common))
        row = _summary_row(summary, fields)
        if row is not None:
            certain["flags"], fields = row
        if fields:
            certain["fields"] = fields
        if reserved:
            certain["reserved"] = reserved
        return Said(certain, repeated)

    def common(self, fields: list[Element], width: int) -> Tree:
        """Return what all fields say together of their register."""
        found: Tree = {}
        resets = [self._reset(field) for field in fields]
        if fields and None not in resets:
            value = unknown = 0
            for field, reset in zip(fields, resets, strict=True):
                offset = self._shift(field)
                value |= reset.value << offset if reset else 0
                unknown |= reset.unknown << offset if reset else 0
            found["reset"] = spelled.reset(value & ~unknown, unknown, width)
        actions = {_policy(field, "readAction") for field in fields}
        if len(actions) == 1 and None not in actions:
            found["readAction"] = actions.pop()
        return found

    def _groups(self, every: list[Element], common: set[str]) -> tuple[list[Tree], list[Tree]]:
        """Return the fields and the reserved bits of a register, those in pieces joined."""
        pieces: dict[str, list[Element]] = {}
        for field in every:
            joined = own(field, "piece")
            name = texts(field).get("name", "") if joined is None else joined.get("of", "")
            if own(field, "synthesized") is None:
                pieces.setdefault(name, []).append(field)
        fields, reserved = [], []
        for group in pieces.values():
            if self._is_reserved(group[0]):
                said = self.said_of_reserved(group)
                tree = completed(said, own(group[0], "reserved"), "reservedBits")
                reserved.append(self.kept(tree, group[0]))
            else:
                said = self.said_of_field(group, common)
                tree = completed(said, own(group[0], "field"), "field")
                fields.append(self.kept(tree, group[0]))
        return fields, reserved

    def _is_reserved(self, field: Element) -> bool:
        found = _policy_element(field, "reserved")
        if found is None:
            return False
        return (found.text or "").strip() == "true" or self._evaluate(found) == 1

    def _shift(self, field: Element) -> int:
        """Return a field's lowest bit. Raises :class:`NotOurs` for one that no register has."""
        offset = self.number(field, "bitOffset")
        if offset > 999:
            raise NotOurs("a field stands beyond any register")
        return offset

    def _bits(self, pieces: list[Element]) -> str:
        ranges = []
        for piece in pieces:
            low, width = self._shift(piece), self.number(piece, "bitWidth")
            if not 1 <= width <= 999:
                raise NotOurs("a field is wider than any register")
            ranges.append((low + width - 1, low))
        return spelled.bits(ranges)

    def _reset(self, field: Element) -> Bits | None:
        """Return a field's reset; a bit outside the mask is not known."""
        resets = find(field, "resets")
        if resets is None:
            return None
        found = several(resets, "reset")
        if len(found) != 1 or found[0].get("resetTypeRef") is not None:
            raise NotOurs("a field has several resets")
        width = self.number(field, "bitWidth")
        if not 1 <= width <= 999:
            raise NotOurs("a field is wider than any register")
        ones = (1 << width) - 1
        value = self.number(found[0], "value") & ones
        mask = self.number(found[0], "mask", default=ones)
        return Bits(value & mask, ones & ~mask)

    def _joined_reset(self, pieces: list[Element]) -> str | None:
        value = unknown = width = 0
        for piece in pieces:
            reset = self._reset(piece)
            if reset is None:
                return None
            bits = self.number(piece, "bitWidth")
            value = value << bits | reset.value
            unknown = unknown << bits | reset.unknown
            width += bits
        return spelled.reset(value, unknown, width)

    def said_of_field(self, pieces: list[Element], common: set[str]) -> Said:
        """Return what is said of a field; ``common`` is what counts as said of its register."""
        first = pieces[0]
        certain: Tree = {**texts(first), "bits": self._bits(pieces)}
        repeated: Tree = {}
        volatile = find(first, "volatile")
        if volatile is not None:
            certain["volatile"] = (volatile.text or "").strip() in ("true", "1")
        for name in ("access", "modifiedWriteValue", "readAction"):
            word = _policy(first, name)
            if word is not None:
                (repeated if name in common else certain)[name] = word
        reset = self._joined_reset(pieces)
        if reset is not None:
            (repeated if "reset" in common else certain)["reset"] = reset
        values = find(first, "enumeratedValues")
        if values is not None:
            certain["values"] = [self._value(item) for item in several(values, "enumeratedValue")]
        return Said(certain, repeated)

    def _value(self, element: Element) -> Tree:
        tree = completed(self.said_of_value(element), own(element, "value"), "value")
        return self.kept(tree, element)

    def said_of_value(self, element: Element) -> Said:
        """Return what is said of an enumerated value."""
        certain = texts(element)
        certain["value"] = spelled.hexadecimal(self.number(element, "value"), 1)
        if element.get("usage") is not None:
            certain["usage"] = element.get("usage")
        return Said(certain, {})

    def said_of_reserved(self, pieces: list[Element]) -> Said:
        """Return what is said of reserved bits."""
        said = {**texts(pieces[0]), "bits": self._bits(pieces)}
        certain: Tree = {name: said[name] for name in ("bits", "title") if name in said}
        constraint = _policy_element(pieces[0], "writeValueConstraint")
        if constraint is not None and find(constraint, "writeAsRead") is not None:
            certain["write"] = "preserve"
        elif constraint is not None and find(constraint, "minimum") is not None:
            certain["write"] = "1" if self.number(constraint, "minimum") else "0"
        return Said(certain, {})


def access_of(element: Element) -> str | None:
    """Return the access of a register or block."""
    found = find(element, "access")
    if found is None:
        found = find(element, "accessPolicies", "accessPolicy", "access")
    return None if found is None else (found.text or "").strip()


def _policy_element(field: Element, name: str) -> Element | None:
    """Return what the 2014 edition puts into the field, and the 2022 edition into its policy."""
    found = find(field, name)
    return find(field, "fieldAccessPolicies", "fieldAccessPolicy", name) if found is None else found


def _policy(field: Element, name: str) -> str | None:
    found = _policy_element(field, name)
    return None if found is None else (found.text or "").strip()


def _summary_row(summary: str, fields: list[Tree]) -> tuple[str, list[Tree]] | None:
    """Return the summary row that the first fields make, and the other fields."""
    match = re.fullmatch("([0-9]{1,3}) ([0-9]{1,3})", summary)
    if match is None:
        return None
    length, named = int(match[1]), int(match[2])
    row = ["-"] * length
    for field in fields[:named]:
        if set(field) != {"name", "bits"} or not re.fullmatch("[!-~]+", field["name"]):
            return None
        bit = int(field["bits"]) if field["bits"].isdigit() else length
        if bit >= length or row[length - 1 - bit] != "-":
            return None
        row[length - 1 - bit] = field["name"]
    return " ".join(row), fields[named:]


def parts(element: Element) -> Iterator[Element]:
    """Yield the registers and register files in a block or register file."""
    return (child for child in children(element) if local(child) in ("register", "registerFile"))
