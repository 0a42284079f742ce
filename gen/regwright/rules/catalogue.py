"""What a rule is, and how rules are run."""

from collections.abc import Callable, Iterator, Mapping
from functools import cached_property
from typing import Any, NamedTuple

from regwright.macros.registers import ChipMacros, chip_macros, macro_names
from regwright.model.finding import Finding
from regwright.model.origin import Origin
from regwright.resolve.chip import Placed, ResolvedChip
from regwright.rules.verdicts import TableVerdict, verdicts

#: The level of a rule that does not run.
OFF = "off"


class Problem(NamedTuple):
    """What a rule yields: a message about a place. The driver adds the rule's name and level."""

    message: str
    origin: Origin
    word: str = ""
    repair: str | None = None


class Subject:
    """What rules look at: the resolved chip and its macros, each computed once.

    ``findings`` are those of the rules that ran before, ``switched_off`` the rules that do not.
    """

    def __init__(self, resolved: ResolvedChip) -> None:
        """Look at ``resolved``."""
        self.resolved = resolved
        self.chip = resolved.chip
        self.findings: list[Finding] = []
        self.switched_off: set[str] = set()

    @cached_property
    def macros(self) -> ChipMacros:
        """The macros of the header."""
        return chip_macros(self.resolved)

    @cached_property
    def macro_names(self) -> list[str]:
        """The name of every macro of the header, in its order."""
        return macro_names(self.macros)

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

    @cached_property
    def table_verdicts(self) -> list[TableVerdict]:
        """What the whole table says against the windows."""
        return verdicts(self.resolved, self.described)

    @cached_property
    def explained(self) -> frozenset[int]:
        """The identities of the registers whose addresses a verdict on the table explains."""
        return frozenset(key for verdict in self.table_verdicts for key in verdict.explained)


#: From what a rule looks at (a :class:`Subject` for rules about descriptions) to its problems.
Check = Callable[[Any], Iterator[Any]]


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


def run(rules: tuple[Rule, ...], subject: Subject, levels: Mapping[str, str]) -> list[Finding]:
    """Return what ``rules`` find in ``subject``.

    ``levels`` gives some of them another level, or switches them ``off``.
    """
    subject.switched_off = {name for name, level in levels.items() if level == OFF}
    for item in rules:
        level = levels.get(item.name, item.level)
        if level != OFF:
            subject.findings += [
                Finding(item.name, level, message, origin, word, repair=repair)
                for message, origin, word, repair in item.check(subject)
            ]
    return subject.findings
