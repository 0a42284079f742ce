"""Read a mapping file: its text, what the schema says of it, and the plan that it comes to."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

from regwright.format.resources import folder
from regwright.format.shape import shapes
from regwright.importing.mapped.document import BadPath, Document
from regwright.importing.mapped.findings import Findings, Place
from regwright.importing.mapped.pattern import compiled, why_not
from regwright.importing.mapped.plan import Lookup, NodePlan, Plan, Rule
from regwright.model.finding import ERROR, Finding
from regwright.model.origin import Origin, from_steps
from regwright.read.json_text import NotRead, read_json
from regwright.read.source import Source

INVALID, BAD_PATH = "mapping-not-valid", "path-not-valid"
#: What a rule may get its value from; one of them.
SOURCES = ("path", "value", "first", "key", "file")
_OF_BITS = ("high", "low", "width", "mask")
#: Keys of a node that are no properties of it.
OWN_KEYS = ("at", "use", "lookup", "skip", "inherit", "fixed")


@cache
def mapping_schema() -> dict[str, Any]:
    """Return ``mapping.schema.json`` as Python data."""
    text = (folder("schemas") / "mapping.schema.json").read_text(encoding="utf-8")
    data: dict[str, Any] = json.loads(text)
    return data


class MappingFile:
    """The text of a mapping file, its data, and what is wrong with it."""

    def __init__(self, name: str, text: bytes) -> None:
        """Read ``text``; ``problems`` says what the syntax and the schema hold against it."""
        self._source = Source(name, text, "json")
        self.data: dict[str, Any] = {}
        self.problems: list[Finding] = []
        if not text.strip():
            message = "the file is empty; a mapping was expected"
            self.problems = [Finding(INVALID, ERROR, message, None, at=(1, 1))]
            return
        try:
            data = read_json(self._source)
            self.problems = _held_against(data, self._source)
            self.data = data if isinstance(data, dict) else {}
        except NotRead as problem:
            self.problems = problem.findings

    def place(self, origin: Origin) -> Place:
        """Return the line and column of a value in the file."""
        _, line, column = self._source.place(Finding("", "", "", origin))
        return line, column

    def place_of(self, finding: Finding) -> Place:
        """Return the line and column that one of ``problems`` speaks of."""
        _, line, column = self._source.place(finding)
        return line, column


def _held_against(data: Any, source: Source) -> list[Finding]:
    import jsonschema_rs

    from regwright.read.explain import explain, explaining

    if jsonschema_rs.validator_for(mapping_schema()).is_valid(data):
        return []
    return explain(data, source, explaining(mapping_schema()))


class Planner:
    """Makes the plan of a mapping that the schema has accepted."""

    def __init__(self, data: dict[str, Any], document: Document, findings: Findings) -> None:
        """Compile paths for ``document``; mistakes go to ``findings``."""
        self._data = data
        self._document = document
        self._findings = findings
        self._rules: list[Rule] = []
        self._shared: dict[tuple[str, str], NodePlan] = {}

    def plan(self) -> Plan:
        """Return the plan; it is of use when nothing was found."""
        chip = self._node("chip", self._data["chip"], [("chip")], ())
        ignored = frozenset(self._data.get("ignore", ()))
        return Plan(chip, self._data.get("numbers", "auto"), ignored, self._rules)

    def _node(
        self, kind: str, data: Any, steps: list[str | int], used: tuple[str, ...]
    ) -> NodePlan:
        plan = NodePlan(from_steps(steps), kind)
        self._fill(plan, data, steps, used)
        return plan

    def _fill(
        self, plan: NodePlan, data: dict[str, Any], steps: list[str | int], used: tuple[str, ...]
    ) -> None:
        """Put into ``plan`` what ``data`` says, on top of what it uses."""
        if "use" in data:
            self._use(plan, data["use"], [*steps, "use"], used)
        if "at" in data:
            plan.at = self._several(data["at"], [*steps, "at"])
        if "skip" in data:
            plan.skip = self._rule(data["skip"], [*steps, "skip"], "boolean")
        if "inherit" in data:
            inner = data["inherit"]
            plan.inherit = self._rule(inner["from"], [*steps, "inherit", "from"], "text")
            if "key" in inner:
                plan.inherit_key = self._rule(inner["key"], [*steps, "inherit", "key"], "text")
        if "lookup" in data:
            inner, at = data["lookup"], [*steps, "lookup"]
            plan.lookup = Lookup(
                self._rule(inner["in"], [*at, "in"], "nodes"),
                self._rule(inner["by"], [*at, "by"], "text"),
                self._rule(inner["key"], [*at, "key"], "text"),
                inner.get("optional", False),
            )
        plan.fixed |= data.get("fixed", {})
        self._properties(plan, data, steps, used)

    def _properties(
        self, plan: NodePlan, data: dict[str, Any], steps: list[str | int], used: tuple[str, ...]
    ) -> None:
        children = shapes()[plan.kind].by_property
        for name, value in data.items():
            if name in OWN_KEYS:
                continue
            child = children.get(name)
            if child is None or child.shape is None:
                plan.properties[name] = self._rule(value, [*steps, name], name)
                continue
            items = value if isinstance(value, list) else [value]
            plan.children[name] = []
            for number, item in enumerate(items):
                at = [*steps, name, number] if isinstance(value, list) else [*steps, name]
                plan.children[name].append(self._child(child.shape, item, at, used))

    def _child(
        self, kind: str, data: dict[str, Any], steps: list[str | int], used: tuple[str, ...]
    ) -> NodePlan:
        """Return the plan of a child; one that only uses shared rules may be within itself."""
        is_link = set(data) <= {"use", "at"} and "use" in data
        key = (kind, json.dumps(data, sort_keys=True))
        if is_link and key in self._shared:
            return self._shared[key]
        plan = NodePlan(from_steps(steps), kind)
        if is_link:
            self._shared[key] = plan
            used = ()
        self._fill(plan, data, steps, used)
        return plan

    def _use(
        self, plan: NodePlan, name: str, steps: list[str | int], used: tuple[str, ...]
    ) -> None:
        origin = from_steps(steps)
        shared = self._data.get("shared", {}).get(plan.kind, {})
        if name not in shared:
            known = ", ".join(shared) or "nothing"
            message = f"{name!r} is nothing that is shared for {plan.kind}; known is {known}"
            self._findings.refuse_rule(INVALID, message, origin)
        elif name in used:
            message = f"{name!r} uses itself; within itself it may stand with use and at alone"
            self._findings.refuse_rule(INVALID, message, origin)
        else:
            self._fill(plan, shared[name], ["shared", plan.kind, name], (*used, name))

    def _several(self, data: Any, steps: list[str | int]) -> list[Rule]:
        if not isinstance(data, list):
            return [self._rule(data, steps, "nodes")]
        rules = [self._rule(item, [*steps, number], "nodes") for number, item in enumerate(data)]
        for rule in rules:
            rule.beside = rules
        return rules

    def _rule(self, data: Any, steps: list[str | int], use: str) -> Rule:
        origin = from_steps(steps)
        if isinstance(data, str):
            data, path_at = {"path": data}, steps
        elif isinstance(data, list):
            parts = [self._rule(item, [*steps, n], use) for n, item in enumerate(data)]
            return Rule(origin, "several", several=parts)
        else:
            path_at = [*steps, "path"]
        rule = Rule(origin, self._source(data, origin, use), written=data, up=data.get("up", 0))
        rule.value = data.get("value")
        rule.optional = data.get("optional", False) or "default" in data
        for key in (*_OF_BITS, "defined"):
            if key in data:
                rule.parts[key] = self._rule(data[key], [*steps, key], "number")
        for number, item in enumerate(data.get("first", ())):
            rule.several.append(self._rule(item, [*steps, "first", number], use))
        if "path" in data:
            self._compile(rule, data["path"], from_steps(path_at))
        self._check_pattern(data, [*steps, "pattern"])
        return rule

    def _compile(self, rule: Rule, path: str, origin: Origin) -> None:
        rule.text = path
        self._rules.append(rule)
        try:
            rule.path = self._document.compile(path)
        except BadPath as problem:
            add = problem.column + 1 if problem.column else 0
            self._findings.refuse_rule(BAD_PATH, str(problem), origin, add)

    def _source(self, data: dict[str, Any], origin: Origin, use: str) -> str:
        """Return the one way to a value that the rule names."""
        given = [key for key in SOURCES if key in data]
        of_bits = [key for key in _OF_BITS if key in data]
        message = ""
        if of_bits and use != "bits":
            message = f"{of_bits[0]} has a place only where bits are given"
        elif of_bits and not ({"low", "mask"} & set(of_bits)):
            message = f"{of_bits[0]} alone gives no bits; give low too, or a mask"
        elif "defined" in data and use != "reset":
            message = "defined has a place only where a value after reset is given"
        elif "space" in data and use != "address":
            message = "space has a place only where an address is given"
        elif len(given) + bool(of_bits) != 1:
            what = " and ".join([*given, *of_bits]) or "none of them"
            message = f"one of {', '.join(SOURCES)} is wanted here, and there is {what}"
        if message:
            self._findings.refuse_rule(INVALID, message, origin)
        return given[0] if given else "bits"

    def _check_pattern(self, data: dict[str, Any], steps: list[str | int]) -> None:
        if "pattern" not in data:
            return
        why = why_not(data["pattern"])
        if why:
            self._findings.refuse_rule(INVALID, why, from_steps(steps))
        else:
            compiled(data["pattern"])
