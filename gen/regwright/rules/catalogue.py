"""What a rule is, and how rules are run."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cached_property
from typing import NamedTuple

from regwright.macros.registers import ChipMacros, chip_macros
from regwright.model.finding import Finding
from regwright.model.origin import Origin
from regwright.resolve.chip import Placed, ResolvedChip


class Problem(NamedTuple):
    """What a rule yields: a message about a place. The driver adds the rule's name and level."""

    message: str
    origin: Origin
    word: str = ""


class Subject:
    """What rules look at: the resolved chip and its macros, each computed once."""

    def __init__(self, resolved: ResolvedChip) -> None:
        """Look at ``resolved``."""
        self.resolved = resolved
        self.chip = resolved.chip

    @cached_property
    def macros(self) -> ChipMacros:
        """The macros of the header."""
        return chip_macros(self.resolved)

    @cached_property
    def described(self) -> list[Placed]:
        """One placed register for each register or half of the description, its first place."""
        seen: set[int] = set()
        first = []
        for placed in self.resolved.registers:
            key = id(placed.register.origin)
            if key not in seen:
                seen.add(key)
                first.append(placed)
        return first


Check = Callable[[Subject], Iterator[Problem]]


class Rule(NamedTuple):
    """A rule: its name, its level, the function that checks, and its page of documentation."""

    name: str
    level: str
    check: Check

    @property
    def documentation(self) -> str:
        """The rule's page, under its fixed headings."""
        return self.check.__doc__ or ""


def rule(name: str, level: str) -> Callable[[Check], Rule]:
    """Make the decorated function the rule ``name``."""

    def make(check: Check) -> Rule:
        return Rule(name, level, check)

    return make


def run(rules: tuple[Rule, ...], subject: Subject) -> list[Finding]:
    """Return what ``rules`` find in ``subject``."""
    return [
        Finding(item.name, item.level, problem.message, problem.origin, problem.word)
        for item in rules
        for problem in item.check(subject)
    ]
