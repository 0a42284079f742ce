"""Read back what regwright itself has exported, with its extensions to the standard.

What the standard's elements say counts; the extensions only add to it. So a register that another
tool has added is read, one that it has moved is where it was moved to, one that it has removed is
gone. Where the file has something that the exporter never writes (banks, alternate registers,
definitions elsewhere), or where the extensions no longer fit, the file is read like any other and
a remark says why.
"""

from __future__ import annotations

from typing import Any

from regwright.importing.draft import Draft
from regwright.importing.ieee1685.own_restoring import Restoring, memory_maps
from regwright.importing.ieee1685.own_spelling import OWN, Element, Tree, children
from regwright.importing.ieee1685.own_standard import (
    Evaluate,
    NotOurs,
    Reader,
    literal,
    local,
    own,
    texts,
)
from regwright.model.origin import Origin
from regwright.read.description import deciding_validator

#: The standard's elements that the exporter writes into memory maps.
_WRITTEN = frozenset(
    (
        *("memoryMap", "name", "displayName", "description", "addressUnitBits"),
        *("addressBlock", "baseAddress", "range", "width", "usage"),
        *("register", "registerFile", "dim", "array", "stride", "addressOffset", "size"),
        *("access", "accessPolicies", "accessPolicy"),
        *("field", "bitOffset", "bitWidth", "volatile", "resets", "reset", "value", "mask"),
        *("fieldAccessPolicies", "fieldAccessPolicy", "modifiedWriteValue", "readAction"),
        *("writeValueConstraint", "writeAsRead", "minimum", "maximum", "reserved"),
        *("enumeratedValues", "enumeratedValue"),
    )
)
#: What others may have added there without changing what registers there are.
_HARMLESS = frozenset(
    {"accessHandles", "parameters", "testable", "typeIdentifier", "shortDescription", "shared"}
)


def _check_vocabulary(element: Element, draft: Draft, start: str) -> None:
    """Tell what others have added. Raises :class:`NotOurs` if it may change what is there."""
    for item in children(element):
        name = local(item)
        is_standard = item.tag.startswith(start)
        if is_standard and name == "vendorExtensions":
            for foreign in children(item):
                if not foreign.tag.startswith(OWN):
                    message = f"the vendor extension <{local(foreign)[:60]}> of {_called(element)}"
                    draft.lose(message, _line(item))
        elif is_standard and name in _HARMLESS:
            draft.lose(f"<{name}> of {_called(element)}", _line(item))
        elif is_standard and name in _WRITTEN:
            _check_vocabulary(item, draft, start)
        else:
            raise NotOurs(f"it has <{name[:60]}>, which regwright does not write")


def _called(element: Element) -> str:
    """Return the name of an element as a message shows it."""
    name = " ".join(texts(element).get("name", local(element)).split())
    return repr(name[:60])


def _line(element: Element) -> int:
    return getattr(element, "sourceline", None) or 1


def _places(tree: Tree, origin: Origin, reader: Reader, draft: Draft, line: int = 1) -> None:
    """Note the line of each object in ``tree``; what has none is where the object around it is."""
    for name, value in tree.items():
        if not isinstance(value, list):
            continue
        for index, item in enumerate(value):
            if isinstance(item, dict):
                at = (origin, name, index)
                own_line = reader.line(item, line)
                draft.places[at] = (own_line, 1)
                _places(item, at, reader, draft, own_line)


def read_own(root: Any, draft: Draft, evaluate: Evaluate = literal) -> bool:
    """Fill ``draft`` from a component that regwright has exported; tell whether it is one.

    ``evaluate`` gives the value of an element that holds an expression, ``None`` if it has none.
    What stands outside the memory maps is not looked at.
    """
    extension = own(root, "chip") if root.tag.startswith("{") else None
    if extension is None:
        return False
    remarks = len(draft.remarks)
    try:
        for item in memory_maps(root):
            _check_vocabulary(item, draft, item.tag[: item.tag.index("}") + 1])
        restoring = Restoring(root, extension, evaluate)
        tree = restoring.run()
        if not deciding_validator().is_valid(tree):
            raise NotOurs(
                "what the extensions and the standard's elements say makes no description"
            )
    except (NotOurs, ValueError, KeyError) as problem:
        del draft.remarks[remarks:]
        message = f"the extensions of regwright, for this is not as it was exported: {problem}"
        draft.lose(message, _line(extension))
        return False
    draft.tree = tree
    _places(tree, None, restoring.reader, draft)
    return True
