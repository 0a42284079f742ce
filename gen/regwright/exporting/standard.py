"""Elements of IEEE 1685 as its editions of 2014 and 2022 want them, each child in its place."""

from __future__ import annotations

from typing import NamedTuple
from xml.etree.ElementTree import Element, SubElement

from regwright.importing.ieee1685.own_spelling import NAMESPACE
from regwright.importing.ieee1685.own_standard import Reader

_NAMESPACE = "http://www.accellera.org/XMLSchema/IPXACT/1685-"
EDITIONS = ("2014", "2022")


class Texts(NamedTuple):
    """What an element is called, in the standard's part and for people."""

    name: str
    title: str | None = None
    notes: str | None = None


class Row(NamedTuple):
    """``length`` of something, ``stride`` units apart; without one, as close as they can be."""

    length: int
    stride: int | None = None


class Effects(NamedTuple):
    """What reading and writing does to a field, in the words of the standard.

    ``write`` is what must be written: ``0``, ``1`` or ``preserve``; ``None`` if that is not said.
    """

    access: str | None = None
    modified_write_value: str | None = None
    read_action: str | None = None
    write: str | None = None
    reserved: bool = False


class Standard:
    """Makes elements of one edition; ``reader`` reads them back.

    Raises :class:`ValueError` for an edition that is not one of :data:`EDITIONS`.
    """

    def __init__(self, edition: str) -> None:
        if edition not in EDITIONS:
            raise ValueError(f"there is no edition {edition!r} to export; say 2014 or 2022")
        self.namespace = _NAMESPACE + edition
        self.is_2022 = edition == "2022"
        self.reader = Reader()

    def element(self, tag: str) -> Element:
        """Return an empty element."""
        return Element(f"{{{self.namespace}}}{tag}")

    def add(self, parent: Element, tag: str, text: str | None = None) -> Element:
        """Return a new last child of ``parent``."""
        child = SubElement(parent, f"{{{self.namespace}}}{tag}")
        child.text = text
        return child

    def named(self, tag: str, name: str, title: str | None, notes: str | None) -> Element:
        """Return an element that starts with a name and texts for people."""
        element = self.element(tag)
        self.add(element, "name", name)
        if title is not None:
            self.add(element, "displayName", title)
        if notes is not None:
            self.add(element, "description", notes)
        return element

    def address_block(self, texts: Texts, base: int, reach: int, width: int) -> Element:
        """Return an address block for registers, ``reach`` units long, without its contents."""
        element = self.named("addressBlock", *texts)
        self.add(element, "baseAddress", hexadecimal(base))
        self.add(element, "range", hexadecimal(max(reach, 1)))
        self.add(element, "width", str(width))
        self.add(element, "usage", "register")
        return element

    def register_file(self, texts: Texts, offset: int, row: Row | None, reach: int) -> Element:
        """Return a register file, ``reach`` units long, without its contents."""
        element = self.named("registerFile", *texts)
        self.add_row(element, row)
        self.add(element, "addressOffset", hexadecimal(offset))
        self.add(element, "range", hexadecimal(max(reach, 1)))
        return element

    def add_row(self, parent: Element, row: Row | None) -> None:
        """Add the dimension of an array; the 2014 edition has no stride."""
        if row is None:
            return
        parent = self.add(parent, "array") if self.is_2022 else parent
        self.add(parent, "dim", str(row.length))
        if self.is_2022 and row.stride is not None:
            self.add(parent, "stride", hexadecimal(row.stride))

    def add_access(self, parent: Element, access: str | None) -> None:
        """Add the access of a block or register; the 2014 edition does not know no-access."""
        if access is None or not self.knows(access):
            return
        if self.is_2022:
            parent = self.add(self.add(parent, "accessPolicies"), "accessPolicy")
        self.add(parent, "access", access)

    def knows(self, access: str) -> bool:
        """Tell whether the edition has a word for this access."""
        return self.is_2022 or access != "no-access"

    def add_reset(self, field: Element, value: int, unknown: int, width: int) -> None:
        """Add a field's value after reset; bits that are not known stand outside the mask."""
        reset = self.add(self.add(field, "resets"), "reset")
        self.add(reset, "value", hexadecimal(value & ~unknown))
        if unknown:
            self.add(reset, "mask", hexadecimal(((1 << width) - 1) & ~unknown))

    def add_effects(
        self, field: Element, effects: Effects, width: int, values: Element | None
    ) -> None:
        """Add what reading and writing does to a field of ``width`` bits, and its named values."""
        parent, access = field, effects.access
        if access is not None and not self.knows(access):
            access = None
        if self.is_2022 and (access is not None or any(effects[1:])):
            parent = self.add(self.add(field, "fieldAccessPolicies"), "fieldAccessPolicy")
        if access is not None:
            self.add(parent, "access", access)
        if values is not None and not self.is_2022:
            field.append(values)
        if effects.modified_write_value is not None:
            self.add(parent, "modifiedWriteValue", effects.modified_write_value)
        if effects.write is not None:
            self._add_constraint(parent, effects.write, width)
        if effects.read_action is not None:
            self.add(parent, "readAction", effects.read_action)
        if effects.reserved:
            self.add(parent, "reserved", "1" if self.is_2022 else "true")
        if values is not None and self.is_2022:
            field.append(values)

    def _add_constraint(self, parent: Element, write: str, width: int) -> None:
        constraint = self.add(parent, "writeValueConstraint")
        if write == "preserve":
            self.add(constraint, "writeAsRead", "true")
            return
        value = hexadecimal((1 << width) - 1 if write == "1" else 0)
        self.add(constraint, "minimum", value)
        self.add(constraint, "maximum", value)

    def extend(self, element: Element, *extensions: Element | None) -> None:
        """Add extensions to ``element``, which then has all its other children."""
        found = [item for item in extensions if item is not None]
        if found:
            self.add(element, "vendorExtensions").extend(found)

    def extension(self, element: Element, tag: str) -> Element:
        """Return the extension ``tag`` of ``element``, new if it has none."""
        extensions = element.find(f"{{{self.namespace}}}vendorExtensions")
        if extensions is None:
            extensions = self.add(element, "vendorExtensions")
        found = extensions.find(f"{{{NAMESPACE}}}{tag}")
        return SubElement(extensions, f"{{{NAMESPACE}}}{tag}") if found is None else found


def hexadecimal(value: int) -> str:
    """Return a number as the standard's expressions, which are SystemVerilog's, spell it."""
    return f"'h{value:X}"
