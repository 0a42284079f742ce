"""Read what a project has decided: ``regwright.toml``, or ``[tool.regwright]`` of a pyproject."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from regwright.model.finding import LEVELS
from regwright.model.words import nearest, visible
from regwright.rules.settings import DEFAULT, Settings

OWN = "regwright.toml"
SHARED = "pyproject.toml"
_LARGEST = 1 << 20
_KEYS = ("fail-on", "levels")
#: The names that findings of the readers have; they are no rules, and always errors.
_READERS = ("schema", "json-syntax", "xml-syntax", "nesting", "too-many-registers")


_NAME = r"""(?:[\w-]+|"[^"]*"|'[^']*')"""
_ASSIGNED = rf"\s*({_NAME}(?:\s*\.\s*{_NAME})*)\s*=\s*"
_HEADER = r"\s*\[\[?([^\]]*)\]"


class BadConfig(Exception):
    """A settings file is wrong; the message has a line for each mistake, with its place."""


def settings(fail_on: str | None = None) -> Settings:
    """Return the settings of the nearest file that has some; ``fail_on`` goes before them.

    Raises :class:`BadConfig`.
    """
    found = DEFAULT
    for path in _candidates():
        text = _text(path)
        if path.name == SHARED and not _may_be_ours(text):
            continue
        table = _table(path, text)
        if table is not None:
            found = _Reader(_shown(path), text, path.name == SHARED).settings(table)
            break
    return found._replace(fail_on=fail_on) if fail_on else found


def _may_be_ours(text: str) -> bool:
    """Tell whether a pyproject can have a table for us; parsing each one would slow every start."""
    if "regwright" not in text:
        return False
    return bool(re.search(r"tool\W*regwright|(?m:^\s*\[\s*[\"']?tool[\"']?\s*\])", text))


def _candidates() -> Iterator[Path]:
    """Yield the files that may hold settings, the nearest first."""
    try:
        folder = Path.cwd()
    except OSError:  # it is gone
        return
    for place in (folder, *folder.parents):
        for name in (OWN, SHARED):
            if (place / name).is_file():
                yield place / name


def _shown(path: Path) -> str:
    return Path(os.path.relpath(path)).as_posix()


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > _LARGEST:
            raise BadConfig(f"{_shown(path)}: error: is too large for settings")
        return path.read_bytes().decode("utf-8").replace("\r\n", "\n")
    except OSError as problem:
        raise BadConfig(f"{_shown(path)}: error: cannot be read: {problem.strerror}") from None
    except UnicodeDecodeError:
        if path.name == SHARED:  # it may have nothing to do with us
            return ""
        raise BadConfig(f"{_shown(path)}: error: is no UTF-8; save it as that") from None


def _table(path: Path, text: str) -> Any:
    """Return the part of the file that is ours, or ``None`` if there is none."""
    import tomllib  # only a project with settings needs it

    try:
        data: Any = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as problem:
        match = re.search(r" \(at (?:line (\d+), column (\d+)|end of document)\)$", str(problem))
        message = str(problem)[: match.start()] if match else str(problem)
        end = text.count("\n") + 1, len(text.rpartition("\n")[2]) + 1
        line, column = (match[1], match[2]) if match and match[1] else map(str, end)
        words = message[:1].lower() + message[1:]
        shown = f"{_shown(path)}:{line}:{column}: error: no TOML: {words}"
        raise BadConfig(visible(shown)) from None
    if path.name == OWN:
        return data
    tool = data.get("tool")
    return tool.get("regwright") if isinstance(tool, dict) else None


class _Reader:
    """Turns the table of one file into settings, and collects what is wrong with it."""

    def __init__(self, name: str, text: str, is_shared: bool) -> None:  # noqa: FBT001
        self._name = name
        self._lines = text.split("\n")
        self._prefix = ("tool", "regwright") if is_shared else ()
        self._wrong: list[tuple[int, int, str]] = []

    def settings(self, table: Any) -> Settings:
        """Return the settings. Raises :class:`BadConfig`."""
        if not isinstance(table, dict):
            self._complain(self._prefix, "tool.regwright must be a table")
            table = {}
        for key in table:
            if key not in _KEYS:
                message = f"there is no setting {key!r}{_near(key, _KEYS)}"
                self._complain((*self._prefix, key), message)
        levels = self._levels(table.get("levels", {}))
        fail_on = table.get("fail-on", DEFAULT.fail_on)
        if fail_on not in LEVELS:
            message = f"fail-on must be {_either(LEVELS)}"
            self._complain((*self._prefix, "fail-on"), message, of_value=True)
        if self._wrong:
            raise BadConfig(
                "\n".join(
                    visible(f"{self._name}:{line}:{column}: error: {message}")
                    for line, column, message in sorted(self._wrong)
                )
            )
        return Settings(levels, fail_on)

    def _levels(self, levels: Any) -> dict[str, str]:
        from regwright.rules.catalogue import OFF

        path = (*self._prefix, "levels")
        if not isinstance(levels, dict):
            self._complain(path, 'levels must be a table, as in levels = { rule-name = "off" }')
            return {}
        names = _rule_names(levels) if levels else []
        allowed = (OFF, *reversed(LEVELS))
        for name, level in levels.items():
            if name in _READERS:
                self._complain(
                    (*path, name), f"{name!r} is no rule; its findings are always errors"
                )
            elif name not in names:
                near = _near(name, names) or "; regwright rules lists them"
                self._complain((*path, name), f"there is no rule {name!r}{near}")
            if level not in allowed:
                message = f"the level of {name!r} must be {_either(allowed)}"
                self._complain((*path, name), message, of_value=True)
        return levels

    def _complain(self, path: tuple[str, ...], message: str, *, of_value: bool = False) -> None:
        self._wrong.append((*_place(self._lines, path, of_value=of_value), message))


def _place(lines: list[str], path: tuple[str, ...], *, of_value: bool) -> tuple[int, int]:
    """Return line and column of the key at ``path``, or the nearest thing to it."""
    table: tuple[str, ...] = ()
    nearest = (1, 1)
    for number, line in enumerate(lines, 1):
        header = re.match(_HEADER, line)
        if header:
            table = _parts(header[1])
            if path[: len(table)] == table:
                nearest = (number, header.start(1) + 1)
            continue
        assigned = re.match(_ASSIGNED, line)
        if assigned is None:
            continue
        full = (*table, *_parts(assigned[1]))
        if full == path:
            return number, (assigned.end() if of_value else assigned.start(1)) + 1
        if path[: len(full)] == full:  # an inline table
            inner = re.compile(rf"""["']?{re.escape(path[-1])}["']?\s*=""")
            found = inner.search(line, assigned.end()) or assigned
            return number, (found.start() if found is not assigned else found.start(1)) + 1
    return nearest


def _parts(key: str) -> tuple[str, ...]:
    """Return the names in a dotted key."""
    return tuple(part.strip("\"'") for part in re.findall(_NAME, key))


def _rule_names(wanted: Iterable[str]) -> list[str]:
    """Return the names of the rules about descriptions, and of those about sources if need be."""
    from regwright.rules.all import RULES

    names = [rule.name for rule in RULES]
    if set(wanted) <= set(names):  # the others take a while to load
        return names
    from regwright.audit.all import AUDIT_RULES

    return names + [rule.name for rule in AUDIT_RULES]


def _near(name: str, known: tuple[str, ...] | list[str]) -> str:
    near = nearest(name, known)
    return f"; did you mean {near!r}?" if near else ""


def _either(words: tuple[str, ...]) -> str:
    quoted = [f'"{word}"' for word in words]
    return f"{', '.join(quoted[:-1])} or {quoted[-1]}"
