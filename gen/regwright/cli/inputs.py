"""Turn the paths of a command line into descriptions."""

from __future__ import annotations

import stat
import sys
from pathlib import Path

from regwright.read.source import SIZE_LIMIT, Source, spelling_of

ENDINGS = (".json", ".xml")
#: The path that stands for standard input, and what messages call it.
STDIN = "-"
STDIN_NAME = "<stdin>"
_LONGEST_SHOWN = 200


class CannotRead(Exception):
    """A path cannot be read as a description; the message says why."""


def expand(paths: tuple[str, ...]) -> list[str]:
    """Return ``paths`` with each folder replaced by the descriptions in it, sorted by name.

    Raises :class:`CannotRead` for a folder that has none or cannot be read.
    """
    found: list[str] = []
    for path in paths:
        try:
            inside = _inside(Path(path)) if Path(path).is_dir() else [path]
        except (OSError, ValueError) as problem:
            raise _cannot_read(path, problem) from None
        if not inside:
            raise CannotRead(f"{path}: no description (.json or .xml) in this folder")
        found += inside
    return list(dict.fromkeys(found))


def _inside(folder: Path) -> list[str]:
    """Return the descriptions in ``folder`` and the folders in it, sorted by name."""
    return sorted(
        item.as_posix()
        for item in folder.rglob("*")
        if item.suffix.lower() in ENDINGS
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
    try:
        status = Path(path).stat()
        if not stat.S_ISREG(status.st_mode):
            raise CannotRead(f"{path}: is no plain file; give a description or a folder of them")
        data = b""
        if status.st_size <= SIZE_LIMIT:
            with Path(path).open("rb") as file:
                data = file.read(SIZE_LIMIT + 1)
        if max(status.st_size, len(data)) > SIZE_LIMIT:
            raise CannotRead(f"{path}: is larger than {SIZE_LIMIT >> 20} MiB; no description is")
    except (OSError, ValueError) as problem:
        raise _cannot_read(path, problem) from None
    return Source(path, data, spelling_of(path, data))


def load_stdin(spelling: str | None) -> Source:
    """Return the description that standard input holds, in ``spelling`` or the one it looks like.

    Raises :class:`CannotRead` when it is closed, too large or unreadable.
    """
    try:
        if sys.stdin is None:
            raise CannotRead(f"{STDIN_NAME}: standard input is closed")
        data = sys.stdin.buffer.read(SIZE_LIMIT + 1)
    except OSError as problem:
        raise CannotRead(f"{STDIN_NAME}: cannot be read: {problem.strerror}") from None
    if len(data) > SIZE_LIMIT:
        raise CannotRead(f"{STDIN_NAME}: is larger than {SIZE_LIMIT >> 20} MiB; no description is")
    return Source(STDIN_NAME, data, spelling or spelling_of(STDIN_NAME, data))
