"""Turn the paths of a command line into descriptions."""

from __future__ import annotations

import stat
from pathlib import Path

from regwright.read.source import SIZE_LIMIT, Source, spelling_of

ENDINGS = (".json", ".xml")


class CannotRead(Exception):
    """A path cannot be read as a description; the message says why."""


def expand(paths: tuple[str, ...]) -> list[str]:
    """Return ``paths`` with each folder replaced by the descriptions in it, sorted by name.

    Raises :class:`CannotRead` for a folder that has none.
    """
    found: list[str] = []
    for path in paths:
        if not Path(path).is_dir():
            found.append(path)
            continue
        inside = sorted(
            item.as_posix()
            for item in Path(path).rglob("*")
            if item.suffix.lower() in ENDINGS
            and not any(part.startswith(".") for part in item.relative_to(path).parts)
            and item.is_file()
        )
        if not inside:
            raise CannotRead(f"{path}: no description (.json or .xml) in this folder")
        found += inside
    return list(dict.fromkeys(found))


def load(path: str) -> Source:
    """Return the description in the file ``path``.

    Raises :class:`CannotRead` when it is missing, no plain file, too large or unreadable.
    """
    try:
        status = Path(path).stat()
        if not stat.S_ISREG(status.st_mode):
            raise CannotRead(f"{path}: is no plain file")
        if status.st_size > SIZE_LIMIT:
            raise CannotRead(f"{path}: is larger than {SIZE_LIMIT >> 20} MiB; no description is")
        with Path(path).open("rb") as file:
            data = file.read(SIZE_LIMIT + 1)
    except (OSError, ValueError) as problem:
        reason = problem.strerror if isinstance(problem, OSError) else problem
        raise CannotRead(f"{path!r}: cannot be read: {reason}") from None
    return Source(path, data, spelling_of(path, data))
