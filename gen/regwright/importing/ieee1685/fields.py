"""The fields of a register."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from regwright.importing.ieee1685.aliases import alias_target
from regwright.importing.ieee1685.arrays import row_of
from regwright.importing.ieee1685.documents import Part
from regwright.importing.ieee1685.labels import Node, named
from regwright.importing.ieee1685.numbers import Unclear
from regwright.importing.ieee1685.policies import FieldPolicy, field_policy
from regwright.importing.ieee1685.resets import Reset, reset_among, spell
from regwright.importing.ieee1685.values import values_of
from regwright.importing.names import identifier

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts

#: A field is repeated at most so often; no register has more bits.
_MOST_REPEATED = 4096


class Field(NamedTuple):
    """A field as the file has it: ``low`` counts from bit 0 of its register, however wide that is.

    ``node`` is complete but for the bits.
    """

    node: Node
    low: int
    width: int
    reset: Reset | None
    reserved: bool
    element: etree._Element


class Around(NamedTuple):
    """What a field needs to know of its register."""

    name: str
    size: int
    volatile: bool


def fields_of(document: Document, facts: Facts, around: Around) -> list[Field]:
    """Return the fields of a register, repeated ones as many."""
    found: list[Field] = []
    taken: set[str] = set()
    for element in facts.get("field", ()):
        try:
            own = document.facts(element, "field")
            if _SPECIAL.isdisjoint(own):
                _put(Part(element, own, document, own, document), around, taken, found)
            elif document.is_present(own):
                _put_special(document, element, own, around, taken, found)
        except Unclear as problem:
            name = document.text(element.find(document.tag("name")))
            message = f"the field {name!r} of {around.name} was left out: {problem}"
            document.log.refuse("number-unclear", message, problem.element)
    return found


#: What makes a field more than what it says itself, once.
_SPECIAL = frozenset({"isPresent", "fieldDefinitionRef", "aliasOf", "array"})


def _put_special(
    document: Document,
    element: etree._Element,
    own: Facts,
    around: Around,
    taken: set[str],
    found: list[Field],
) -> None:
    """Add a field that is defined elsewhere, another name for one, or repeated."""
    reference = own.get("fieldDefinitionRef")
    if reference is None:
        part = Part(element, own, document, own, document)
        if "aliasOf" in own:
            part = alias_target(part, around.name)
        _put_row(part, around, taken, found)
        return
    with document.opened(reference, "fieldDefinition") as opened:
        if opened is None:
            return
        other, definition = opened
        part = Part(element, own, document, other.facts(definition, "field"), other)
        _put_row(part, around, taken, found)


def _put_row(part: Part, around: Around, taken: set[str], found: list[Field]) -> None:
    row = row_of(part.own_document, part.own, _MOST_REPEATED) if "array" in part.own else None
    if row is None:
        _put(part, around, taken, found)
        return
    one: list[Field] = []
    _put(part, around, set(), one)
    for field in one:
        stride = row.stride if row.stride is not None else field.width
        for number, index in enumerate(row.indices()):
            at = field.low + number * stride
            name = f"{field.node['name']}{index}"
            if at + field.width > around.size:
                message = f"{name} and what follows lie past the end of {around.name}; left out"
                part.own_document.log.assume("field-past-the-end", message, part.element)
                return
            copy = {**field.node, "name": identifier(name, taken)}
            found.append(field._replace(node=copy, low=at))


def _put(part: Part, around: Around, taken: set[str], found: list[Field]) -> None:
    element, own, own_document, facts, document = part
    if "bitOffset" not in own or "bitWidth" not in facts:
        raise Unclear("it does not say which bits it takes", element)
    low = own_document.number(own["bitOffset"])
    width = document.number(facts["bitWidth"])
    if own_document.has_field_ids:
        own_document.lose_attribute(element, "fieldID")
    if low + width > around.size or not width:
        width = _width_within(part, around, low, width)
        if not width:
            return
    found.append(_field(part, around, taken, low, width))


def _width_within(part: Part, around: Around, low: int, width: int) -> int:
    """Return ``width``, cut where the register ends; 0, reported, when nothing is left."""
    name = part.own_document.text(part.own.get("name"))
    left = max(around.size - low, 0) if width else 0
    if left:
        what = f"bits past the end of {around.name}, which has {around.size}; they were left out"
    elif width:
        what = f"all its bits past the end of {around.name}; it was left out"
    else:
        what = "no bits; it was left out"
    message = f"the field {name!r} has {what}"
    part.own_document.log.assume("field-past-the-end", message, part.element)
    return left


def _field(part: Part, around: Around, taken: set[str], low: int, width: int) -> Field:
    facts, document = part.facts, part.document
    policy = field_policy(document, facts)
    said = named(part, set() if policy.reserved else taken, "field")
    node: Node = {"name": said["name"], "bits": ""}
    if "title" in said:
        node["title"] = said["title"]
    if policy.access:
        node["access"] = policy.access
    if policy.modified or policy.read_action:
        _put_effects(node, policy)
    reset = None
    if "resets" in facts:
        reset = reset_among(document, facts["resets"], width, (around.name, said["name"]))
        if reset is not None:
            node["reset"] = spell(reset, width)
    if document.flag(facts["volatile"]) if "volatile" in facts else around.volatile:
        node["volatile"] = True
    if "notes" in said:
        node["notes"] = said["notes"]
    if "enumeratedValues" in facts or "values" in facts:
        _put_values(node, part, width, around, policy)
    if policy.reserved:
        _report_of_reserved(document, node, policy, reset, part.element)
    return Field(node, low, width, reset, policy.reserved, part.element)


def _put_values(node: Node, part: Part, width: int, around: Around, policy: FieldPolicy) -> None:
    where = f"{around.name}.{node['name']}"
    values = values_of(part.document, part.facts, width, where)
    if values:
        if policy.values_complete:
            node["valuesComplete"] = True
        node["values"] = values


def _put_effects(node: Node, policy: FieldPolicy) -> None:
    if policy.modified:
        node["modifiedWriteValue"] = policy.modified
    if policy.read_action:
        node["readAction"] = policy.read_action


def _report_of_reserved(
    document: Document,
    node: Node,
    policy: FieldPolicy,
    reset: Reset | None,
    element: etree._Element,
) -> None:
    said = [
        word
        for word, is_there in (
            ("access", policy.access and policy.access != "read-only"),
            ("effects", policy.modified or policy.read_action),
            ("value after reset", reset),
            ("named values", node.get("values")),
        )
        if is_there
    ]
    if said:
        document.log.lose_often(f"{' and '.join(said)} of reserved bits", element)
