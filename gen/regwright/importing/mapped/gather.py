"""Follow the plan of a mapping through a document, and read every value."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator
from typing import Any

from regwright.importing.mapped.bits import of_mask, of_two, ranges_of
from regwright.importing.mapped.document import BadPath, Document, Value, WrongKind
from regwright.importing.mapped.findings import Findings, Place
from regwright.importing.mapped.plan import Lookup, NodePlan, Plan, Rule
from regwright.importing.mapped.raw import BitsRead, Raw, ResetRead
from regwright.importing.mapped.readings import (
    Given,
    NotRead,
    as_number,
    as_text,
    as_truth,
    prepared,
    shown,
    spelled,
)

#: Blocks within each other, and nodes in all, that are read.
DEEPEST = 16
MOST_NODES = 500_000
UNREADABLE, NO_RESULT = "value-not-readable", "lookup-without-result"
WRONG, SEVERAL, BAD_PATH = "path-of-wrong-kind", "path-of-several", "path-not-valid"


class TooMuch(Exception):
    """There is more than a description can hold; the message says of what."""


class Gatherer:
    """Reads one document."""

    def __init__(self, plan: Plan, document: Document, findings: Findings, stem: str) -> None:
        """``stem`` is the name of the file without its ending."""
        self._plan = plan
        self._document = document
        self._findings = findings
        self._stem = stem
        self._around: list[Any] = []
        self._found: dict[Lookup, dict[str, list[Any]]] = {}
        self._left_out: dict[Hashable, Any] = {}
        self._kept: set[Hashable] = set()
        self._count = 0

    def gather(self) -> Raw:
        """Return the chip. Raises :class:`TooMuch`."""
        plan, root = self._plan.chip, self._document.root
        if plan.at:
            nodes = [node for rule in plan.at for node in self._nodes(rule, root)]
            root = nodes[0] if nodes else root
            if len(nodes) > 1:
                message = f"{plan.at[0].text} selects {len(nodes)} chips; only the first is taken"
                self._findings.doubt_rule(SEVERAL, message, plan.at[0].origin)
        chip = self._node(plan, root, None)
        for identity, node in self._left_out.items():
            if identity not in self._kept:
                self._document.ignore(node)
        return chip

    def _node(self, plan: NodePlan, node: Any, around: Raw | None) -> Raw:
        self._count += 1
        if self._count > MOST_NODES:
            raise TooMuch(f"there are more than {MOST_NODES:,} nodes; no chip has so many")
        if len(self._around) > DEEPEST:
            raise TooMuch(f"nodes are nested more than {DEEPEST} deep; do they select themselves?")
        raw = Raw(plan, self._document.place(node), around, dict(plan.fixed))
        for name, rule in plan.properties.items():
            value = self._property(plan.kind, name, rule, node)
            if value is not None:
                raw.properties[name] = value
        if plan.inherit is not None:
            raw.base = self._text(plan.inherit, node)
        key = plan.inherit_key or plan.properties.get("name")
        raw.key = self._text(key, node) if key is not None else ""
        self._around.append(node)
        for name, plans in plan.children.items():
            items = [self._node(p, item, raw) for p in plans for item in self._wanted(p, node)]
            if items:
                raw.children[name] = items
        self._around.pop()
        return raw

    def _wanted(self, plan: NodePlan, node: Any) -> Iterator[Any]:
        """Yield the nodes of ``plan`` within ``node`` that are not to be left out."""
        starts = [node] if plan.lookup is None else self._looked_up(plan.lookup, node)
        found = [item for rule in plan.at for start in starts for item in self._nodes(rule, start)]
        for item in found if plan.at else starts:
            if plan.skip is not None and self._is_true(plan.skip, item):
                self._left_out[self._document.identity(item)] = item
            else:
                self._kept.add(self._document.identity(item))
                yield item

    def _looked_up(self, lookup: Lookup, node: Any) -> list[Any]:
        """Return the nodes elsewhere that the key in ``node`` names."""
        key = self._text(lookup.key, node)
        if lookup not in self._found:
            index: dict[str, list[Any]] = defaultdict(list)
            for item in self._nodes(lookup.inside, self._document.root):
                index[self._text(lookup.by, item)].append(item)
            self._found[lookup] = index
        found = self._found[lookup].get(key, []) if key else []
        if key and not found and not lookup.optional:
            message = f"{shown(key)} is the name of nothing that {lookup.inside.text} selects"
            place = self._document.place(node)
            self._findings.refuse(NO_RESULT, message, place, lookup.key.origin)
        return found

    def _nodes(self, rule: Rule, node: Any) -> list[Any]:
        found = self._guarded(rule, node, self._document.nodes)
        return found if isinstance(found, list) else []

    def _guarded(self, rule: Rule, node: Any, follow: Any) -> Any:
        """Follow the path of ``rule``; what is wrong with it is said of the mapping."""
        rule.uses += 1
        try:
            found = follow(rule.path, self._from(rule, node))
        except WrongKind as problem:
            rule.hits += 1
            line = self._document.place(node)[0]
            message = f"{rule.text} {problem} (from line {line} of the document)"
            self._findings.refuse_rule(WRONG, message, rule.origin)
            return []
        except BadPath as problem:
            rule.hits += 1
            self._findings.refuse_rule(BAD_PATH, str(problem), rule.origin)
            return []
        rule.hits += bool(found)
        return found

    def _from(self, rule: Rule, node: Any) -> Any:
        if not rule.up:
            return node
        around = self._around[-rule.up :]
        return around[0] if around else self._document.root

    def _property(self, kind: str, name: str, rule: Rule, node: Any) -> Any:
        if name == "address" and rule.source == "several":
            pieces = [self._property(kind, name, item, node) for item in rule.several]
            return " ".join(str(piece) for piece in pieces if piece is not None) or None
        try:
            return self._read(kind, name, rule, node)
        except NotRead as problem:
            place = self._document.place(node)
            self._findings.refuse(UNREADABLE, f"{name} of a {kind}: {problem}", place, rule.origin)
            return None

    def _read(self, kind: str, name: str, rule: Rule, node: Any) -> Any:
        if rule.source in ("first", "several"):
            several = (self._read(kind, name, item, node) for item in rule.several)
            found = next((item for item in several if item is not None), None)
        elif name in ("bits", "flags") and rule.source == "bits":
            found = self._bits(rule, node)
        else:
            found = self._spelled(kind, name, rule, node)
        return rule.written.get("default") if found is None else found

    def _spelled(self, kind: str, name: str, rule: Rule, node: Any) -> Any:
        value = self._value(rule, node)
        if value is None or isinstance(value, Given):
            return value.value if value else None
        if name == "reset":
            return self._reset(rule, value, node)
        if name == "bits":
            return BitsRead(ranges_of(value, rule.written), _is_from_high(rule))
        found = spelled(value, kind, name, rule.written, self._plan.numbers)
        if isinstance(value, str) and isinstance(found, str) and len(value) > len(found) > 40:
            self._tell_if_cut(kind, name, (value, found), rule, node)
        return found

    def _tell_if_cut(
        self, kind: str, name: str, texts: tuple[str, str], rule: Rule, node: Any
    ) -> None:
        """Say that the end of a text was left out; white space between words does not count."""
        before, after = (" ".join(text.split()) for text in texts)
        if after.endswith("…") and not before.endswith("…"):
            message = f"{name} of a {kind} has {len(before)} characters; {len(after)} were kept"
            place = self._document.place(node)
            self._findings.assume("text-shortened", message, place, rule.origin)

    def _reset(self, rule: Rule, value: Value, node: Any) -> ResetRead:
        defined = rule.parts.get("defined")
        mask = self._number(defined, node) if defined else None
        return ResetRead(as_number(value, rule.written, self._plan.numbers), mask)

    def _bits(self, rule: Rule, node: Any) -> BitsRead | None:
        given = {key: self._number(part, node) for key, part in rule.parts.items()}
        from_high = _is_from_high(rule)
        if given.get("mask") is not None:
            return BitsRead(of_mask(given["mask"] or 0), from_high)
        low = given.get("low")
        if low is None:
            return None
        return BitsRead(of_two(low, given.get("high"), given.get("width")), from_high)

    def _number(self, rule: Rule, node: Any) -> int | None:
        """Return a number that is a part of another value."""
        if rule.source == "first":
            several = (self._number(item, node) for item in rule.several)
            return next((item for item in several if item is not None), None)
        value = self._value(rule, node)
        if value is None:
            default = rule.written.get("default")
            return None if default is None else as_number(default, {}, "c")
        if isinstance(value, Given):
            value = value.value
        return as_number(value, rule.written, self._plan.numbers)

    def _value(self, rule: Rule, node: Any) -> Value | Given | None:
        """Return what ``rule`` gives, its pattern and table applied."""
        if rule.source == "value":
            return Given(rule.value)
        if rule.source == "file":
            return prepared(self._stem, rule.written)
        if rule.source == "key":
            key = self._document.key(node, rule.written["key"])
            return None if key is None else prepared(key, rule.written)
        values = self._guarded(rule, node, self._document.values)
        if not values:
            return prepared("", rule.written) if "" in rule.written.get("table", {}) else None
        if "join" in rule.written:
            texts = [as_text(item).strip() for item in values]
            values = [rule.written["join"].join(text for text in texts if text)]
        elif len(values) > 1:
            message = f"{rule.text} selects {len(values)} values, and the first one was taken"
            hint = '; join them by "join", or select one'
            place = self._document.place(node)
            self._findings.assume(SEVERAL, message + hint, place, rule.origin)
        return prepared(values[0], rule.written)

    def _text(self, rule: Rule, node: Any) -> str:
        """Return a text that names something; empty when there is none."""
        try:
            if rule.source == "first":
                several = (self._text(item, node) for item in rule.several)
                return next((item for item in several if item), "")
            value = self._value(rule, node)
        except NotRead as problem:
            place = self._document.place(node)
            self._findings.refuse(UNREADABLE, str(problem), place, rule.origin)
            return ""
        if isinstance(value, Given):
            value = value.value
        return "" if value is None else as_text(value)

    def _is_true(self, rule: Rule, node: Any) -> bool:
        place: Place = self._document.place(node)
        try:
            if rule.source == "first":
                return any(self._is_true(item, node) for item in rule.several)
            value = self._value(rule, node)
            if isinstance(value, Given):
                value = value.value
            if value is None:
                return False
            return as_truth(value, rule.written)
        except NotRead as problem:
            self._findings.refuse(UNREADABLE, f"skip: {problem}", place, rule.origin)
            return False


def _is_from_high(rule: Rule) -> bool:
    return bool(rule.written.get("numbered") == "from-high")
