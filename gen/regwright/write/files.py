"""Write files whole or not at all, only where asked, and not at all when nothing changed."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

#: Names that some operating systems keep for devices, whatever ending follows.
DEVICES = frozenset(
    ["con", "prn", "aux", "nul"] + [f"{port}{n}" for port in ("com", "lpt") for n in range(10)]
)


class CannotWrite(Exception):
    """A file cannot be written; the message says which and why."""


class Pending(NamedTuple):
    """A file to write: where, and its whole content."""

    path: Path
    content: bytes


def pending(folder: Path, name: str, text: str) -> Pending:
    """Return the file ``name`` in ``folder``.

    Raises :class:`CannotWrite` when ``name`` is no plain file name.
    """
    stem = name.partition(".")[0].strip().lower()
    plain = name and not set(name) & set("/\\:\0") and not name.startswith(".")
    if not plain or stem in DEVICES:
        raise CannotWrite(f"{name!r} is no name for a file")
    return Pending(folder / name, text.encode("utf-8"))


def _current(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None


def changed(files: list[Pending]) -> list[Pending]:
    """Return those of ``files`` that are missing on the disk or differ from it."""
    return [item for item in files if _current(item.path) != item.content]


def write(files: list[Pending]) -> list[Path]:
    """Write ``files``, all of them or, when one cannot be written, none; return what changed.

    Each is written beside its place and then moved there, so that a reader never sees half of
    it. Whatever interrupts this leaves the old files as they were. A file that is already as it
    should be keeps its time stamp. Raises :class:`CannotWrite`.
    """
    todo = changed(files)
    moves: list[tuple[Path, Path]] = []
    try:
        for item in todo:
            item.path.parent.mkdir(parents=True, exist_ok=True)
            beside = item.path.with_name(f".{item.path.name}.{os.getpid()}.part")
            moves.append((beside, item.path))
            _write_new(beside, item)
        for _, path in moves:
            if path.is_dir():
                raise IsADirectoryError(21, "Is a directory")
        for beside, path in moves:
            beside.replace(path)
    except OSError as problem:
        where = moves[-1][1] if moves else todo[0].path
        raise CannotWrite(f"{where}: cannot be written: {problem.strerror}") from None
    finally:
        for beside, _ in moves:
            with suppress(OSError):
                beside.unlink(missing_ok=True)
    return [path for _, path in moves]


def _write_new(path: Path, item: Pending) -> None:
    """Write the content of ``item`` to the new file ``path``, with the old file's permissions."""
    with suppress(FileNotFoundError):
        path.unlink()
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    with os.fdopen(handle, "wb") as file:
        file.write(item.content)
    with suppress(OSError):
        path.chmod(item.path.stat().st_mode & 0o777)


def difference(item: Pending) -> Iterator[str]:
    """Yield the lines of a unified diff from what is on the disk to what should be."""
    import difflib  # only a stale folder needs it

    now = (_current(item.path) or b"").decode("utf-8", "replace").splitlines(keepends=True)
    wanted = item.content.decode("utf-8").splitlines(keepends=True)
    name = item.path.as_posix()
    for line in difflib.unified_diff(now, wanted, name, f"{name} (as emitted now)"):
        yield line if line.endswith("\n") else line + "\n\\ No newline at end of file\n"
