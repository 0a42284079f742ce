"""Access and side effects, in the words of any edition and in those that files use instead."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from regwright.importing.ieee1685.literals import shown

if TYPE_CHECKING:
    from lxml import etree

    from regwright.importing.ieee1685.documents import Document, Facts

ACCESS = frozenset(
    {"read-write", "read-only", "write-only", "writeOnce", "read-writeOnce", "no-access"}
)
MODIFIED = frozenset(
    {
        "oneToClear",
        "oneToSet",
        "oneToToggle",
        "zeroToClear",
        "zeroToSet",
        "zeroToToggle",
        "clear",
        "set",
        "modify",
    }
)
READ_ACTIONS = frozenset({"clear", "set", "modify"})


class Meaning(NamedTuple):
    """What a word for access stands for."""

    access: str
    modified: str = ""
    read_action: str = ""


#: Words that the standard does not have, in lower case without anything but letters and digits.
#: Common practice, no source.
_OTHER_WORDS = {
    **dict.fromkeys(("rw", "wr", "readwrite", "writeread"), Meaning("read-write")),
    **dict.fromkeys(("r", "ro", "read", "readonly"), Meaning("read-only")),
    **dict.fromkeys(("w", "wo", "write", "writeonly"), Meaning("write-only")),
    **dict.fromkeys(("w1", "writeonce"), Meaning("writeOnce")),
    **dict.fromkeys(("rw1", "readwriteonce"), Meaning("read-writeOnce")),
    **dict.fromkeys(("na", "none", "noaccess"), Meaning("no-access")),
    **dict.fromkeys(("w1c", "rw1c", "rwc", "r1c"), Meaning("read-write", "oneToClear")),
    **dict.fromkeys(("w1s", "rw1s", "rws"), Meaning("read-write", "oneToSet")),
    **dict.fromkeys(("w1t", "rw1t"), Meaning("read-write", "oneToToggle")),
    **dict.fromkeys(("w0c", "rw0c"), Meaning("read-write", "zeroToClear")),
    **dict.fromkeys(("w0s", "rw0s"), Meaning("read-write", "zeroToSet")),
    **dict.fromkeys(("w0t", "rw0t"), Meaning("read-write", "zeroToToggle")),
    **dict.fromkeys(("rc", "roc"), Meaning("read-only", "", "clear")),
    **dict.fromkeys(("rs",), Meaning("read-only", "", "set")),
    **dict.fromkeys(("wrc",), Meaning("read-write", "", "clear")),
}
_PLAIN = {word: Meaning(word) for word in ACCESS}


def access_word(document: Document, element: etree._Element) -> Meaning | None:
    """Return what an access element says; ``None``, reported, when that is not known."""
    found = _PLAIN.get(element.text or "")
    if found is not None:
        return found
    text = document.text(element)
    if text in _PLAIN:
        return _PLAIN[text]
    core = "".join(letter for letter in text.lower() if letter.isalnum())
    found = _OTHER_WORDS.get(core)
    if found is None:
        message = f"the access {shown(text)} is not known; that of what is around it was taken"
    else:
        effects = [word for word in (found.modified, found.read_action) if word]
        means = " with ".join([found.access, *effects])
        message = f"the access {shown(text)} is not one of the standard's; {means} was taken"
    document.log.assume_often("access-word", message, element)
    return found


def access_of(document: Document, facts: Facts) -> str:
    """Return the access of a block or register, or nothing when it says none."""
    element = facts.get("access")
    if element is None and "accessPolicies" in facts:
        element = _of_policies(document, facts["accessPolicies"])
    if element is None:
        return ""
    found = access_word(document, element)
    return found.access if found else ""


def _of_policies(document: Document, policies: etree._Element) -> etree._Element | None:
    parts = [document.facts(item, "accessPolicy") for item in policies]
    chosen = usual(document, parts, list(policies), "accessPolicy")
    access: etree._Element | None = chosen.get("access")
    return access


def usual(
    document: Document, parts: list[Facts], elements: list[etree._Element], kind: str
) -> Facts:
    """Return the policy that holds in every mode, or else the first; the others are losses."""
    if not parts:
        return {}
    chosen = next((part for part in parts if "modeRef" not in part), parts[0])
    for part, element in zip(parts, elements, strict=True):
        modes = ", ".join(document.text(mode) for mode in part.get("modeRef", ()))
        if part is not chosen:
            document.log.lose(f"what holds in the mode {modes or 'of another policy'}", element)
        elif modes:
            message = f"what holds in the mode {modes} alone ({kind}) was taken to hold always"
            document.log.assume_often("mode-ignored", message, element)
    return chosen


class FieldPolicy(NamedTuple):
    """What accesses do to a field; empty texts for what is not said."""

    access: str = ""
    modified: str = ""
    read_action: str = ""
    values_complete: bool = False
    reserved: bool = False


_NO_POLICY = FieldPolicy()
_SIMPLE = {word: FieldPolicy(word) for word in ACCESS}
_EFFECTS = frozenset({"modifiedWriteValue", "readAction", "writeValueConstraint", "reserved"})


def field_policy(document: Document, facts: Facts) -> FieldPolicy:
    """Return the policy of a field, said in it or in one of its field access policies."""
    policies = facts.get("fieldAccessPolicies")
    if policies is None:
        if _EFFECTS.isdisjoint(facts):
            access = facts.get("access")
            simple = _SIMPLE.get(access.text) if access is not None else _NO_POLICY
            if simple is not None:
                return simple
        return _policy(document, facts)
    parts = [document.facts(item, "fieldAccessPolicy") for item in policies]
    chosen = usual(document, parts, list(policies), "fieldAccessPolicy")
    own = _policy(document, chosen)
    reference = chosen.get("fieldAccessPolicyDefinitionRef")
    if reference is None:
        return own
    with document.opened(reference, "fieldAccessPolicyDefinition") as found:
        if found is None:
            return own
        other, element = found
        defined = _policy(other, other.facts(element, "fieldAccessPolicy"))
    return defined._replace(reserved=own.reserved)


def _policy(document: Document, facts: Facts) -> FieldPolicy:
    access = modified = read_action = ""
    element = facts.get("access")
    if element is not None:
        meaning = access_word(document, element)
        if meaning is not None:
            access, modified, read_action = meaning
    modified = _effect(document, facts.get("modifiedWriteValue"), MODIFIED) or modified
    read_action = _effect(document, facts.get("readAction"), READ_ACTIONS) or read_action
    complete = "writeValueConstraint" in facts and _is_complete(
        document, facts["writeValueConstraint"]
    )
    reserved = "reserved" in facts and _is_reserved(document, facts["reserved"])
    return FieldPolicy(access, modified, read_action, complete, reserved)


def _effect(document: Document, element: etree._Element | None, words: frozenset[str]) -> str:
    if element is None:
        return ""
    text = document.text(element)
    document.lose_attribute(element, "modify")
    if text in words:
        return text
    message = f"the effect {shown(text)} is not one of the standard's; it was left out"
    document.log.assume_often("access-word", message, element)
    return ""


def _is_complete(document: Document, constraint: etree._Element) -> bool:
    """Tell whether only the values that have a name may be written; other limits are losses."""
    for item in constraint:
        name = document.names[item.tag]
        if name == "useEnumeratedValues":
            return document.text(item) in ("true", "1")
        document.log.lose_often(f"which values may be written (writeValueConstraint, {name})", item)
    return False


def _is_reserved(document: Document, element: etree._Element) -> bool:
    from regwright.importing.ieee1685.numbers import Unclear

    try:
        return document.flag(element)
    except Unclear as problem:
        message = f"whether this is reserved is not clear ({problem}); it was taken not to be"
        document.log.assume("number-unclear", message, element)
        return False
