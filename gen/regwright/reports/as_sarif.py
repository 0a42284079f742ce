"""The findings in SARIF 2.1.0, the format in which checkers report to code hosts and editors."""

from __future__ import annotations

import hashlib
import json
import os
from collections import Counter
from pathlib import Path, PurePath
from typing import Any
from urllib.parse import quote

from regwright import __version__
from regwright.model.words import DESCRIPTION
from regwright.reports.pages import Page, is_off, pages_for
from regwright.reports.results import Found, Replacement, Run, Unreadable
from regwright.reports.words import advice

SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)


def report(run: Run) -> str:
    """Return the run as a SARIF log."""
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [_run(run)]}
    return json.dumps(log, ensure_ascii=False, indent=2) + "\n"


def _run(run: Run) -> dict[str, Any]:
    found = pages_for(run)
    files = list(dict.fromkeys([result.file for result in run.results]))
    # A description is UTF-8 or nothing; a source may be anything.
    encoding = {"encoding": "UTF-8"} if run.what == DESCRIPTION else {}
    return {
        "tool": {
            "driver": {
                "name": "regwright",
                "semanticVersion": __version__,
                "rules": [_descriptor(page) for page in found],
            }
        },
        "columnKind": "unicodeCodePoints",
        "invocations": [_invocation(run, found)],
        "artifacts": [
            {"location": {"uri": uri(file)}, "roles": ["analysisTarget"], **encoding}
            for file in files
        ],
        "results": _results(
            run,
            {page.rule: number for number, page in enumerate(found)},
            {file: number for number, file in enumerate(files)},
        ),
    }


def uri(file: str) -> str:
    """Return ``file`` as a relative URI reference; what is absolute is seen from this folder."""
    path = PurePath(file)
    if path.is_absolute():
        path = PurePath(os.path.relpath(file, Path.cwd()))
    return quote(path.as_posix(), safe="/")


def message(text: str) -> dict[str, str]:
    """Return a message that shows ``text`` as it is.

    SARIF takes ``{0}`` for a placeholder (3.11.5) and ``[text](target)`` for a link (3.11.6).
    """
    return {"text": text.replace("](", "] (").replace("{", "{{").replace("}", "}}")}


def _descriptor(page: Page) -> dict[str, Any]:
    descriptor: dict[str, Any] = {
        "id": page.rule,
        "shortDescription": {"text": page.summary},
        "help": {"text": page.text(), "markdown": page.markdown()},
        "defaultConfiguration": {"level": page.level},
    }
    if page.sections:
        descriptor["fullDescription"] = {
            "text": " ".join(page.sections[0].paragraphs).replace("`", "")
        }
    return descriptor


def _invocation(run: Run, found: list[Page]) -> dict[str, Any]:
    levels = run.settings.levels
    overrides = [
        {
            "descriptor": {"id": page.rule, "index": number},
            "configuration": (
                {"enabled": False} if is_off(run, page.rule) else {"level": levels[page.rule]}
            ),
        }
        for number, page in enumerate(found)
        if page.rule in levels
    ]
    return {
        "executionSuccessful": not run.unreadable,
        **({"ruleConfigurationOverrides": overrides} if overrides else {}),
        "toolExecutionNotifications": [_notification(item) for item in run.unreadable],
    }


def _notification(item: Unreadable) -> dict[str, Any]:
    location = {"physicalLocation": {"artifactLocation": {"uri": uri(item.file)}}}
    return {"level": "error", "message": message(item.reason), "locations": [location]}


def _results(run: Run, rules: dict[str, int], files: dict[str, int]) -> list[dict[str, Any]]:
    seen: Counter[tuple[str, str, str]] = Counter()
    results = []
    for result in run.results:
        address = uri(result.file)
        artifact = {"uri": address, "index": files[result.file]}
        for item in result.findings:
            key = (item.rule, item.message, address)
            entry = _result(item, rules[item.rule], artifact)
            entry["partialFingerprints"] = {"ruleMessageFile/v1": _fingerprint(*key, seen[key])}
            seen[key] += 1
            results.append(entry)
    return results


def _fingerprint(rule: str, text: str, file: str, repeated: int) -> str:
    """Return what stays the same when a finding's line moves, and differs when it is repeated."""
    parts = [rule, text, file, *([str(repeated)] if repeated else [])]
    return hashlib.sha256("\0".join(parts).encode("utf-8")).hexdigest()[:32]


def _region(part: Found | Replacement) -> dict[str, int]:
    return {
        "startLine": part.start_line,
        "startColumn": part.start_column,
        "endLine": part.end_line,
        "endColumn": part.end_column,
    }


def _result(item: Found, rule: int, artifact: dict[str, Any]) -> dict[str, Any]:
    location = {"artifactLocation": artifact, "region": _region(item)}
    entry: dict[str, Any] = {
        "ruleId": item.rule,
        "ruleIndex": rule,
        "level": item.level,
        "message": message(item.message),
        "locations": [{"physicalLocation": location}],
    }
    if item.repair is not None:
        replacements = [
            {"deletedRegion": _region(part), "insertedContent": {"text": part.text}}
            for part in item.replacements
        ]
        change = {"artifactLocation": artifact, "replacements": replacements}
        description = message(advice(item) or "")
        entry["fixes"] = [{"description": description, "artifactChanges": [change]}]
    return entry
