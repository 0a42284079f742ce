"""Hold sources against a chip: everything that is found, and the sources repaired."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from copy import copy
from typing import NamedTuple

from regwright.audit.all import AUDIT_RULES
from regwright.audit.catalogue import CodeFinding, run
from regwright.audit.edits import applied
from regwright.audit.rules.addresses import address_hits_nothing, name_means_nothing
from regwright.audit.rules.comments import audible
from regwright.audit.rules.hand_made import hand_made_definition, name_of_the_header
from regwright.audit.subject import AuditSubject
from regwright.code.text import CodeText
from regwright.macros.registers import ChipMacros
from regwright.model.finding import ERROR
from regwright.resolve.chip import ResolvedChip
from regwright.rules.catalogue import OFF
from regwright.rules.settings import DEFAULT, Settings

#: A repair can make more certain, and so lead to another; more rounds than this are not made.
_MOST_ROUNDS = 10
#: What runs only when it is asked for.
_PEDANTIC = (address_hits_nothing, name_means_nothing)
_OF_THE_HEADER = (hand_made_definition, name_of_the_header)
#: How often the sources are audited in all rounds, to find the repairs that spoil something.
_MOST_TRIES = 40


class Audited(NamedTuple):
    """What an audit came to: what it looked at, and its findings in the order of the sources."""

    subject: AuditSubject
    findings: list[CodeFinding]

    def by_file(self) -> list[list[CodeFinding]]:
        """Return the findings in each file."""
        found: list[list[CodeFinding]] = [[] for _ in self.subject.files]
        for item in self.findings:
            found[item.at.file].append(item)
        return found

    @property
    def errors(self) -> int:
        """How many of the findings are errors."""
        return _errors(self.findings)


Choice = Callable[[Audited], list[CodeFinding]]


def audit(
    resolved: ResolvedChip,
    macros: ChipMacros,
    files: Sequence[CodeText],
    settings: Settings = DEFAULT,
    *,
    pedantic: bool = False,
    use_header: str = "",
) -> Audited:
    """Return what is found in ``files``; ``macros`` are those of the chip's header."""
    subject = AuditSubject(resolved, macros, files, pedantic=pedantic, use_header=use_header)
    unasked = [rule.name for rule in _PEDANTIC] if not pedantic else []
    unasked += [rule.name for rule in _OF_THE_HEADER] if not use_header else []
    levels = {**settings.levels, **dict.fromkeys(unasked, OFF)}
    return Audited(subject, audible(run(AUDIT_RULES, subject, levels), subject))


class Counted(NamedTuple):
    """How many addresses and names are only counted, for ``pedantic`` was not asked for."""

    addresses: int = 0
    names: int = 0


def counted(audited: Audited, settings: Settings = DEFAULT) -> Counted:
    """Return how much more the same audit would find with ``pedantic``."""
    if audited.subject.pedantic:
        return Counted()
    subject = copy(audited.subject)  # it keeps what was worked out already
    subject.pedantic = True
    numbers = []
    for rule in _PEDANTIC:
        subject.findings = []
        numbers.append(len(audible(run((rule,), subject, settings.levels), subject)))
    return Counted(*numbers)


class Repaired(NamedTuple):
    """Sources whose repairs were made, audited again, and how many findings each was rid of."""

    audited: Audited
    numbers: Counter[int]


def repair(
    audited: Audited, settings: Settings = DEFAULT, choose: Choice | None = None
) -> Repaired:
    """Make the repairs of the findings that ``choose`` returns; audit again until none is left.

    A repair that brings more errors than it settles is not made.
    """
    numbers: Counter[int] = Counter()
    seen = {_bytes_of(audited)}
    tries = _MOST_TRIES
    for _ in range(_MOST_ROUNDS):
        wanted = [item for item in (choose(audited) if choose else audited.findings) if item.edits]
        attempt = _Attempt(audited, settings, tries)
        attempt.add(wanted)
        if not attempt.done or _bytes_of(attempt.best) in seen:
            break
        seen.add(_bytes_of(attempt.best))
        audited, tries = attempt.best, attempt.tries
        numbers.update(item.at.file for item in attempt.done)
    return Repaired(audited, numbers)


def _bytes_of(audited: Audited) -> tuple[bytes, ...]:
    return tuple(text.data for text in audited.subject.files)


class _Attempt:
    """Repairs that can be made together; ``best`` is what they come to.

    ``tries`` tells how often the sources may be audited still to find them.
    """

    def __init__(self, audited: Audited, settings: Settings, tries: int) -> None:
        self.best = audited
        self.done: list[CodeFinding] = []
        self.tries = tries
        self._audited = audited
        self._settings = settings

    def add(self, findings: list[CodeFinding]) -> None:
        """Make the repairs of ``findings``, too, but for those that bring errors.

        Of several together each error must be gone; one alone may uncover another in its place.
        """
        if not self.tries or not findings:
            return
        self.tries -= 1
        better, done = self._made([*self.done, *findings])
        fresh = done[len(self.done) :]
        settled = _errors(fresh) if len(findings) > 1 else 0
        if fresh and better.errors <= self.best.errors - settled:
            self.best, self.done = better, done
        elif len(findings) > 1:
            middle = len(findings) // 2
            self.add(findings[:middle])
            self.add(findings[middle:])

    def _made(self, findings: list[CodeFinding]) -> tuple[Audited, list[CodeFinding]]:
        subject = self._audited.subject
        files, done = applied(subject.files, findings)
        better = audit(
            *(subject.resolved, subject.macros, files, self._settings),
            pedantic=subject.pedantic,
            use_header=subject.use_header,
        )
        return better, done


def _errors(findings: list[CodeFinding]) -> int:
    return sum(item.level == ERROR for item in findings)
