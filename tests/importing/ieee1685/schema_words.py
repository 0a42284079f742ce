"""What the standard's schemas allow within the elements that speak of registers."""

from __future__ import annotations

from pathlib import Path

from lxml import etree

_XS = "{http://www.w3.org/2001/XMLSchema}"
#: The types and elements of the schemas by the name that the importer has for them.
KINDS: dict[str, tuple[str, ...]] = {
    "memoryMap": ("memoryMapType", "memoryMapDefinition"),
    "memoryRemap": ("memoryRemapType", "memoryRemapDefinitionType", "memoryRemapDefinition"),
    "bank": (
        "addressBankType",
        "bankedBankType",
        "localAddressBankType",
        "localBankedBankType",
        "addressBankDefinitionType",
        "bankedDefinitionBankType",
        "bankDefinition",
    ),
    "addressBlock": ("addressBlockType", "bankedBlockType", "addressBlockDefinition"),
    "subspaceMap": ("subspaceRefType", "bankedSubspaceType"),
    "registerFile": ("registerFile", "registerFileDefinition"),
    "register": ("register", "registerDefinition"),
    "alternateRegister": ("alternateRegister",),
    "field": ("fieldType", "fieldDefinition"),
    "fieldAccessPolicy": ("fieldAccessPolicy", "fieldAccessPolicyDefinition"),
    "accessPolicy": ("accessPolicy",),
    "enumeratedValue": ("enumeratedValueType", "enumeratedValue"),
    "enumeratedValues": ("enumeratedValues",),
    "reset": ("reset",),
    "array": ("array",),
    "addressSpace": ("addressSpace",),
    "segment": ("segment",),
    "localMemoryMap": ("localMemoryMapType",),
}


class Schemas:
    """The declarations of one edition."""

    def __init__(self, folder: Path) -> None:
        self._named: dict[str, list[etree._Element]] = {}
        for name in ("memoryMap", "commonStructures", "autoConfigure", "configurable"):
            path = folder / f"{name}.xsd"
            every = etree.parse(path).getroot() if path.exists() else ()
            for item in every if name != "memoryMap" else every.iter(f"{_XS}*"):
                if isinstance(item.tag, str) and item.get("name"):
                    self._named.setdefault(item.get("name"), []).append(item)

    def allowed(self, kind: str) -> tuple[set[str], set[str]]:
        """Return the children and attributes that a kind of element may have."""
        children: set[str] = set()
        attributes: set[str] = set()
        for name in KINDS[kind]:
            for item in self._named.get(name, ()):
                if item.tag in (f"{_XS}element", f"{_XS}complexType") and len(item):
                    self._collect(item, children, attributes, top=True)
        return children, attributes

    def _collect(
        self, item: etree._Element, children: set[str], attributes: set[str], *, top: bool = False
    ) -> None:
        kind = etree.QName(item).localname
        name = (item.get("name") or item.get("ref") or "").rpartition(":")[2]
        if kind == "element" and not top:
            children.add(name)
            return
        if kind == "attribute":
            attributes.add(name)
            return
        for target in self._continued(item, kind, name):
            self._collect(target, children, attributes)
        if not (kind in ("group", "attributeGroup") and item.get("ref")):
            for inner in item:
                if isinstance(inner.tag, str) and inner.tag not in (f"{_XS}key", f"{_XS}unique"):
                    self._collect(inner, children, attributes)

    def _continued(self, item: etree._Element, kind: str, name: str) -> list[etree._Element]:
        """Return the group or base type that a declaration goes on with."""
        if kind in ("group", "attributeGroup") and item.get("ref"):
            named = self._named.get(name, [])
            return [target for target in named if target.tag == item.tag and not target.get("ref")]
        if kind == "extension":
            base = item.get("base", "").rpartition(":")[2]
            named = self._named.get(base, [])
            return [target for target in named if target.tag == f"{_XS}complexType"]
        return []
