"""Findings that a project knows and accepts, so that only new ones are reported.

The file is described by ``schemas/known.schema.json``. It names no lines: it stays right when
lines move.
"""

from __future__ import annotations

import json
import os
from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from regwright.model.words import visible

if TYPE_CHECKING:
    from regwright.pipeline import Located

FORMAT = 1
_LARGEST = 64 << 20
_TEXTS = ("file", "rule", "message")
_KEYS = {*_TEXTS, "count"}

#: How often each rule and message is found in one description.
Counts = dict[tuple[str, str], int]


class BadKnown(Exception):
    """A file of known findings cannot be used; the message says why."""


class Known(NamedTuple):
    """The known findings of each description, by its name as :func:`name_of` gives it."""

    by_file: dict[str, Counts]

    def fresh(self, file: str, found: list[Located]) -> list[Located]:
        """Return those of ``found`` in ``file`` that are not known."""
        left = Counter(self.by_file.get(name_of(file), {}))
        fresh = []
        for item in found:
            key = (item.finding.rule, item.finding.message)
            if left[key] > 0:
                left[key] -= 1
            else:
                fresh.append(item)
        return fresh

    def outdated(self, found: dict[str, Counts]) -> list[str]:
        """Return a line for each entry that matches nothing any more, or fewer than it says.

        ``found`` is what was checked. An entry for another file is outdated when that is gone.
        """
        lines = []
        for file, counts in sorted(self.by_file.items()):
            if file not in found and os.path.lexists(file):
                continue
            for (rule, message), count in sorted(counts.items()):
                now = found.get(file, {}).get((rule, message), 0)
                if now < count:
                    what = f"only {now} of {count} are found now" if now else "is found no more"
                    lines.append(f"{file}: {what}: {message} [{rule}]")
        return lines


def name_of(file: str) -> str:
    """Return how a description is named in a file of known findings: relative, with slashes."""
    if Path(file).is_absolute():
        try:
            file = os.path.relpath(file)
        except ValueError:  # on another drive
            return Path(file).as_posix()
    return Path(os.path.normpath(file)).as_posix()


def counts_of(found: list[Located]) -> Counts:
    """Return how often each rule and message is found."""
    return dict(Counter((item.finding.rule, item.finding.message) for item in found))


def known_text(found: dict[str, Counts]) -> str:
    """Return the file that makes all of ``found`` known."""
    entries = [
        {"file": file, "rule": rule, "message": message, "count": count}
        for file, counts in sorted(found.items())
        for (rule, message), count in sorted(counts.items())
    ]
    data = {"format": FORMAT, "findings": entries}
    return json.dumps(data, indent=2, ensure_ascii=True) + "\n"


def read_known(file: str) -> Known:
    """Return the known findings in ``file``. Raises :class:`BadKnown`."""
    try:
        path = Path(file)
        if path.is_file() and path.stat().st_size > _LARGEST:
            raise BadKnown(f"{file}: is too large for a file of known findings")
        data = json.loads(path.read_bytes().decode("utf-8"))
    except OSError as problem:
        raise BadKnown(f"{file}: cannot be read: {problem.strerror}") from None
    except json.JSONDecodeError as problem:
        where = f"{visible(file)}:{problem.lineno}:{problem.colno}"
        words = problem.msg[:1].lower() + problem.msg[1:]
        raise BadKnown(f"{where}: error: no JSON: {words}") from None
    except (ValueError, RecursionError):
        raise BadKnown(f"{file}: is no file of known findings") from None
    by_file: dict[str, Counts] = {}
    for entry in _entries(file, data):
        counts = by_file.setdefault(name_of(entry["file"]), {})
        key = entry["rule"], entry["message"]
        counts[key] = counts.get(key, 0) + entry["count"]
    return Known(by_file)


def _entries(file: str, data: Any) -> list[dict[str, Any]]:
    """Return the entries of the file. Raises :class:`BadKnown` when one is none."""
    if not isinstance(data, dict) or "format" not in data or "findings" not in data:
        raise BadKnown(f"{file}: is no file of known findings; write one with --write-known")
    if data["format"] != FORMAT or isinstance(data["format"], bool):
        raise BadKnown(
            f"{file}: has the format {data['format']!r}, and only {FORMAT} is known here; "
            "write it again with --write-known"
        )
    entries = data["findings"]
    if not isinstance(entries, list) or not set(data) <= {"$schema", "format", "findings"}:
        raise BadKnown(f"{file}: holds a format and a list of findings, nothing else")
    for number, entry in enumerate(entries, 1):
        is_right = (
            isinstance(entry, dict)
            and set(entry) == _KEYS
            and all(isinstance(entry[key], str) and entry[key] for key in _TEXTS)
            and type(entry["count"]) is int
            and entry["count"] >= 1
        )
        if not is_right:
            raise BadKnown(
                f"{file}: entry {number} of findings must have a file, a rule, a message (texts) "
                "and a count of 1 or more, nothing else"
            )
    return entries
