"""Sources held against the shipped chips, without the command line."""

from __future__ import annotations

from functools import cache
from typing import Any

from conftest import DESCRIPTIONS
from regwright.audit.audit import Audited, Repaired, audit, repair
from regwright.code.text import C, CodeText, language_of
from regwright.pipeline import check
from regwright.read.source import Source, spelling_of
from regwright.rules.catalogue import Subject

#: The name of each source, and what it holds.
Sources = dict[str, bytes]


@cache
def chip(name: str = "sorrel14") -> Subject:
    """Return the shipped chip ``name``."""
    (path,) = DESCRIPTIONS.glob(f"{name}.*")
    data = path.read_bytes()
    subject = check(Source(path.name, data, spelling_of(path.name, data))).subject
    assert subject is not None
    return subject


def audited(sources: Sources, name: str = "sorrel14", **options: Any) -> Audited:
    """Return what is found in ``sources``."""
    texts = [CodeText(file, data, language_of(file) or C) for file, data in sources.items()]
    subject = chip(name)
    return audit(subject.resolved, subject.macros, texts, **options)


def repaired(sources: Sources, name: str = "sorrel14", **options: Any) -> Repaired:
    """Return ``sources`` with every repair made."""
    return repair(audited(sources, name, **options))


def texts_of(found: Audited) -> Sources:
    """Return the sources as they are after repairs."""
    return {text.name: text.data for text in found.subject.files}


def rules_of(found: Audited) -> list[str]:
    """Return the rule of each finding."""
    return [item.rule for item in found.findings]
