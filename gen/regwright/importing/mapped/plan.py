"""A mapping as it is worked with: rules for values, and where nodes are."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from regwright.model.origin import Origin


@dataclass(eq=False)
class Rule:
    """Where one value is and how it is written.

    ``source`` says which of the ways to a value is meant: ``path``, ``value``, ``first``, ``key``,
    ``file`` or ``bits``. ``parts`` has the rules that this one is made of, by their names.
    """

    origin: Origin
    source: str
    path: Any = None
    text: str = ""
    value: Any = None
    up: int = 0
    optional: bool = False
    parts: dict[str, Rule] = field(default_factory=dict)
    several: list[Rule] = field(default_factory=list)
    #: The rules of which it is enough that one selects something.
    beside: list[Rule] = field(default_factory=list)
    #: How it is written, as the mapping says it.
    written: dict[str, Any] = field(default_factory=dict)
    uses: int = 0
    hits: int = 0


@dataclass(eq=False)
class Lookup:
    """Nodes elsewhere in the document that are found by a key; ``optional``: or none."""

    inside: Rule
    by: Rule
    key: Rule
    optional: bool = False


@dataclass(eq=False)
class NodePlan:
    """Where the nodes of one kind are, relative to the node around them, and what they hold."""

    origin: Origin
    kind: str
    at: list[Rule] = field(default_factory=list)
    lookup: Lookup | None = None
    skip: Rule | None = None
    inherit: Rule | None = None
    inherit_key: Rule | None = None
    fixed: dict[str, Any] = field(default_factory=dict)
    properties: dict[str, Rule] = field(default_factory=dict)
    children: dict[str, list[NodePlan]] = field(default_factory=dict)


@dataclass
class Plan:
    """A whole mapping. ``numbers`` is how a number is written where its rule does not say it."""

    chip: NodePlan
    numbers: str
    ignored: frozenset[str]
    rules: list[Rule]
