"""The findings for programs, in the format of ``schemas/findings.schema.json``."""

from __future__ import annotations

import json
from typing import Any

from regwright import __version__
from regwright.reports.results import Found, Replacement, Result, Run
from regwright.reports.words import counts

#: The version of the format; a change that breaks readers raises it.
VERSION = 1


def report(run: Run) -> str:
    """Return the run as JSON."""
    return json.dumps(document(run), ensure_ascii=False, indent=2) + "\n"


def document(run: Run) -> dict[str, Any]:
    """Return the run as plain data."""
    return {
        "version": VERSION,
        "tool": {"name": "regwright", "version": __version__},
        "failOn": run.settings.fail_on,
        "counts": {
            f"{run.what}s": len(run.results),
            "registers": sum(result.registers for result in run.results),
            **counts(run.findings),
            "unreadable": len(run.unreadable),
        },
        f"{run.what}s": [_result(result) for result in run.results],
        "findings": [
            _finding(run, result, item) for result in run.results for item in result.findings
        ],
        "unreadable": [{"file": file, "reason": reason} for file, reason in run.unreadable],
    }


def _result(result: Result) -> dict[str, Any]:
    return {
        "file": result.file,
        "chip": result.chip,
        "title": result.title,
        "registers": result.registers,
        "counts": counts(result.findings),
    }


def _finding(run: Run, result: Result, item: Found) -> dict[str, Any]:
    return {
        "rule": item.rule,
        "level": item.level,
        "fails": run.fails(item),
        "message": item.message,
        "file": result.file,
        "startLine": item.start_line,
        "startColumn": item.start_column,
        "endLine": item.end_line,
        "endColumn": item.end_column,
        "repair": item.repair,
        "replacements": [_replacement(part) for part in item.replacements],
    }


def _replacement(part: Replacement) -> dict[str, Any]:
    return {
        "startLine": part.start_line,
        "startColumn": part.start_column,
        "endLine": part.end_line,
        "endColumn": part.end_column,
        "text": part.text,
    }
