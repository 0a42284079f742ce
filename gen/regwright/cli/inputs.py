"""Turn the paths of a command line into descriptions, or into sources."""

from __future__ import annotations

import stat
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from regwright.read.source import SIZE_LIMIT, Source, spelling_of

#: The path that stands for standard input, and what messages call it.
STDIN = "-"
STDIN_NAME = "<stdin>"
_LONGEST_SHOWN = 200


class CannotRead(Exception):
    """A path cannot be read; the message says why."""


class Kind(NamedTuple):
    """A kind of input: what it is called, and which files of a folder are of it."""

    noun: str
    hint: str
    matches: Callable[[str], bool]


DESCRIPTIONS = Kind(
    "description", " (.json or .xml)", lambda name: name.lower().endswith((".json", ".xml"))
)


def expand(paths: tuple[str, ...], kind: Kind = DESCRIPTIONS) -> list[str]:
    """Return ``paths`` with each folder replaced by the files of ``kind`` in it, sorted by name.

    Raises :class:`CannotRead` for a folder that has none or cannot be read.
    """
    found: list[str] = []
    for path in paths:
        try:
            inside = _inside(Path(path), kind) if Path(path).is_dir() else [path]
        except (OSError, ValueError) as problem:
            raise _cannot_read(path, problem) from None
        if not inside:
            raise CannotRead(f"{path}: no {kind.noun}{kind.hint} in this folder")
        found += inside
    return list(dict.fromkeys(found))


def _inside(folder: Path, kind: Kind) -> list[str]:
    """Return the files of ``kind`` in ``folder`` and the folders in it, sorted by name."""
    return sorted(
        item.as_posix()
        for item in folder.rglob("*")
        if kind.matches(item.name)
        and not any(part.startswith(".") for part in item.relative_to(folder).parts)
        and item.is_file()
    )


def _cannot_read(path: str, problem: Exception) -> CannotRead:
    reason: str | None = "a path cannot hold a zero byte"
    if isinstance(problem, OSError):
        reason = problem.strerror
    shown = path if len(path) <= _LONGEST_SHOWN else f"{path[:_LONGEST_SHOWN]}…"
    return CannotRead(f"{shown!r}: cannot be read: {reason}")


def load(path: str) -> Source:
    """Return the description in the file ``path``.

    Raises :class:`CannotRead` when it is missing, no plain file, too large or unreadable.
    """
    data = load_bytes(path)
    return Source(path, data, spelling_of(path, data))


def load_bytes(path: str, kind: Kind = DESCRIPTIONS) -> bytes:
    """Return what the file ``path`` holds. Raises :class:`CannotRead` as :func:`load` does."""
    try:
        status = Path(path).stat()
        if stat.S_ISDIR(status.st_mode):
            raise CannotRead(f"{path}: is a folder; one {kind.noun} is wanted here")
        if not stat.S_ISREG(status.st_mode):
            raise CannotRead(f"{path}: is no plain file; give a {kind.noun} or a folder of them")
        data = b""
        if status.st_size <= SIZE_LIMIT:
            with Path(path).open("rb") as file:
                data = file.read(SIZE_LIMIT + 1)
        if max(status.st_size, len(data)) > SIZE_LIMIT:
            raise CannotRead(f"{path}: is larger than {SIZE_LIMIT >> 20} MiB; no {kind.noun} is")
    except (OSError, ValueError) as problem:
        raise _cannot_read(path, problem) from None
    return data


def load_stdin(spelling: str | None) -> Source:
    """Return the description that standard input holds, in ``spelling`` or the one it looks like.

    Raises :class:`CannotRead` when it is closed, too large or unreadable.
    """
    data = stdin_bytes()
    return Source(STDIN_NAME, data, spelling or spelling_of(STDIN_NAME, data))


def stdin_bytes(kind: Kind = DESCRIPTIONS) -> bytes:
    """Return what standard input holds. Raises :class:`CannotRead` as :func:`load_stdin` does."""
    try:
        if sys.stdin is None:
            raise CannotRead(f"{STDIN_NAME}: standard input is closed")
        data = sys.stdin.buffer.read(SIZE_LIMIT + 1)
    except OSError as problem:
        raise CannotRead(f"{STDIN_NAME}: cannot be read: {problem.strerror}") from None
    if len(data) > SIZE_LIMIT:
        raise CannotRead(f"{STDIN_NAME}: is larger than {SIZE_LIMIT >> 20} MiB; no {kind.noun} is")
    return data
