"""Export a description as a component of IEEE 1685, in the editions of 2014 and 2022.

What a reader that only knows the standard sees: a memory map for each address space; in it the
registers with their fields, named values, access, side effects and values after reset; blocks as
address blocks and register files, an address block for each place where a block stands.

- A register stands in one map only, that of the first of the chip's spaces for which the document
  prints an address: whoever generates code or tests from the file gets each register once. Its
  address in another space, and the windows from which such addresses follow, are in the extensions.
- Registers in no block are put into address blocks called ``REGISTERS``.
- A field in several places is several fields, ``NAME_3`` and ``NAME_2_0``: the bits of the value
  that they hold. The names of its values are in the extensions.
- A register without fields gets one that covers it, ``VALUE``: the standard wants one. Bits that no
  field covers and that are not 0 after reset get one as well, ``UNNAMED_7_4``; that others are 0
  is not seen.
- Registers that answer at one address under different conditions overlap; the conditions are in the
  extensions. The halves of a wide register are not seen, only the whole.
- The 2014 edition has no access ``no-access``: it is left out there.
- Names that are no C identifiers, or are taken, are mapped.

Everything else of the description is in vendor extensions, in the namespace
``urn:regwright:chip:1`` and spelled as a description in XML is, at the element that it is about.
They leave out what the standard's part says. What the standard cannot place (a register without
an address, or at one in a space that there is not) is kept whole in those of the component. Where
an editor finds the schema (``$schema``) is not exported.

``regwright.importing.ieee1685.own_extensions`` reads the result back, and the importing side says
what needs no extension (``own_standard``), so that the two agree.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any
from xml.etree.ElementTree import Element

from regwright.exporting.blocks import Blocks, Member
from regwright.exporting.extensions import extension
from regwright.exporting.placing import Spaces, qualified
from regwright.exporting.standard import Standard
from regwright.exporting.xml_text import to_text
from regwright.importing.ieee1685.own_places import said_of_chip, said_of_space
from regwright.importing.ieee1685.own_spelling import NAMESPACE, OWN
from regwright.importing.ieee1685.own_standard import Inherited
from regwright.importing.names import identifier

Tree = dict[str, Any]

_NAME = re.compile(r"[A-Za-z_:][A-Za-z0-9_:.-]*")
_TOKEN = re.compile(r"[A-Za-z0-9_:.-]+")


def export_ieee1685(
    tree: Tree,
    edition: str,
    vendor: str = "regwright",
    library: str = "chips",
    version: str = "1",
) -> str:
    """Return a component of ``edition``, ``"2014"`` or ``"2022"``, for a description.

    ``tree`` has passed the schema, and blocks in it are nested no deeper than a description's may
    be. Raises :class:`ValueError` for another edition, and for a vendor, library or version that
    the standard does not take.
    """
    standard = Standard(edition)
    _check_identity(vendor, library, version)
    tree = qualified(tree, tree["spaces"][0]["name"])
    blocks = Blocks(
        standard,
        Spaces(tree),
        Inherited(tree.get("width", 8), tree.get("access", "read-write")),
    )
    blocks.place(tree)
    root = _component(standard, tree, (vendor, library, version))
    _add_memory_maps(standard, root, tree, blocks)
    chip = extension("chip", tree, said_of_chip(root), "chip")
    standard.extend(root, chip, *blocks.kept)
    _number_members(standard, root, blocks.members)
    _drop_unused_keys(standard, root)
    return to_text(root, {standard.namespace: "ipxact", NAMESPACE: "regwright"})


def _check_identity(vendor: str, library: str, version: str) -> None:
    for what, text, pattern in (
        ("vendor", vendor, _NAME),
        ("library", library, _NAME),
        ("version", version, _TOKEN),
    ):
        if not pattern.fullmatch(text):
            start = "" if pattern is _TOKEN else ", the first of them a letter or underscore"
            raise ValueError(
                f"the {what} {text!r} is no name for IEEE 1685: letters, digits, underscores, "
                f"periods, colons and hyphens{start}"
            )


def _component(standard: Standard, tree: Tree, identity: tuple[str, str, str]) -> Element:
    """Return the component with its identity and texts; in 2014 the texts come behind the maps."""
    vendor, library, version = identity
    root = standard.element("component")
    for name, text in (
        ("vendor", vendor),
        ("library", library),
        ("name", tree["name"]),
        ("version", version),
    ):
        standard.add(root, name, text)
    if standard.is_2022:
        if "title" in tree:
            standard.add(root, "displayName", tree["title"])
        if "notes" in tree:
            standard.add(root, "description", tree["notes"])
    return root


def _add_memory_maps(standard: Standard, root: Element, tree: Tree, blocks: Blocks) -> None:
    maps = standard.add(root, "memoryMaps")
    names: set[str] = set()
    for space in tree["spaces"]:
        name = identifier(space["name"], names)
        element = standard.named("memoryMap", name, space.get("title"), None)
        element.extend(blocks.maps.pop(space["name"], ()))
        standard.add(element, "addressUnitBits", str(space.get("unit", 8)))
        said = said_of_space(element, standard.reader)
        standard.extend(element, extension("space", space, said, "space"))
        maps.append(element)
    texts = [tree[name] for name in ("title", "notes") if name in tree]
    if texts and not standard.is_2022:
        standard.add(root, "description", "\n\n".join(texts))


def _number_members(standard: Standard, root: Element, members: list[Member]) -> None:
    """Say the places of members in their lists, where they do not follow from the file's order."""
    at = {id(element): place for place, element in enumerate(root.iter())}
    lists: dict[tuple[str, str], list[Member]] = {}
    for member in sorted(members, key=lambda item: at[id(item.element)]):
        lists.setdefault((member.key, member.kind), []).append(member)
    for found in lists.values():
        if all(before.number < after.number for before, after in pairwise(found)):
            continue
        for member in found:
            standard.extension(member.element, member.tag).set("at", str(member.number))


def _drop_unused_keys(standard: Standard, root: Element) -> None:
    """Drop the names of blocks that nothing refers to, and the extensions that are then empty."""
    used = {item.get(name) for item in root.iter() for name in ("within", "of")}
    start = f"{{{standard.namespace}}}"
    for element in [*root.iter(f"{start}addressBlock"), *root.iter(f"{start}registerFile")]:
        for extensions in element.findall(f"{start}vendorExtensions"):
            for item in extensions.findall(f"{OWN}block"):
                if item.get("id") not in used:
                    del item.attrib["id"]
                    if not item.attrib and not len(item):
                        extensions.remove(item)
            if not len(extensions):
                element.remove(extensions)
