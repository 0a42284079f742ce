"""Silences: findings that a description itself says are known and wanted."""

from __future__ import annotations

from collections.abc import Iterator

from regwright.model.chip import Block, Chip, Silence
from regwright.model.finding import WARNING, Finding
from regwright.model.origin import Origin
from regwright.model.words import nearest
from regwright.rules.catalogue import Problem, Subject, rule


def silences(chip: Chip) -> list[Silence]:
    """Return every silence of a description."""
    found = list(chip.silences)
    waiting: list[Chip | Block] = [chip]
    while waiting:
        node = waiting.pop()
        for register in node.registers:
            found += register.silences
        for block in node.blocks:
            found += block.silences
            waiting.append(block)
    return found


def _is_within(origin: Origin, around: Origin) -> bool:
    while origin is not None:
        if origin is around:
            return True
        origin = origin[0]
    return around is None


def is_silenced(finding: Finding, by: Silence) -> bool:
    """Tell whether ``finding`` is one that the silence ``by`` is for."""
    return finding.rule == by.rule and _is_within(finding.origin, by.within)


def audible(findings: list[Finding], chip: Chip) -> list[Finding]:
    """Return those of ``findings`` that no silence of ``chip`` is for."""
    every = silences(chip)
    if not every:
        return findings
    return [item for item in findings if not any(is_silenced(item, by) for by in every)]


@rule("silence-unused", WARNING)
def silence_unused(subject: Subject) -> Iterator[Problem]:
    """A silence silences nothing.

    ## What it catches
    A `silence` whose rule finds nothing in the place it stands in, or whose rule does not exist.
    Runs last, on what the other rules have found.

    ## Why it matters
    What it was for has been corrected, and it would hide the next mistake of that kind.

    ## Example
    `<silence rule="registers-overlap" reason="…"/>` in a register that overlaps no other.

    ## Instead
    Remove it, or correct the rule's name.

    ## When to silence it
    Never.
    """
    every = silences(subject.chip)
    if not every:
        return
    from regwright.rules.all import RULES

    names = [item.name for item in RULES]
    for silence in every:
        if silence.rule not in names:
            near = nearest(silence.rule, names)
            hint = f"; did you mean {near}?" if near else "; regwright rules lists them"
            message = f"there is no rule {silence.rule!r}{hint}"
            yield Problem(message, (silence.origin, "rule"), "", near)
        elif silence.rule in subject.switched_off:
            continue
        elif not any(is_silenced(item, silence) for item in subject.findings):
            message = f"nothing here is found by {silence.rule}: remove the silence"
            yield Problem(message, silence.origin)
