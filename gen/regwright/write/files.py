"""Write files whole or not at all, only where asked, and not at all when nothing changed."""

import errno
import os
import stat
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from regwright.format.devices import DEVICES


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
        why = "some systems keep it for a device" if stem in DEVICES else "letters are safe"
        raise CannotWrite(f"{name!r} is no name for a file ({why}); choose another")
    return Pending(folder / name, text.encode("utf-8"))


def _current(path: Path) -> bytes | None:
    """Return what the plain file ``path`` holds; anything else must not be read, it may block."""
    try:
        return path.read_bytes() if stat.S_ISREG(path.stat().st_mode) else None
    except (OSError, ValueError):
        return None


def changed(files: list[Pending]) -> list[Pending]:
    """Return those of ``files`` that are missing on the disk or differ from it."""
    return [item for item in files if _current(item.path) != item.content]


def write(files: list[Pending]) -> list[Path]:
    """Write ``files``, all of them or, when one cannot be written, none; return what changed.

    Each is written beside its place and then moved there, so that a reader never sees half of
    it. Whatever interrupts this leaves each file whole, the old one or the new one. A file that is
    already as it should be keeps its time stamp. Raises :class:`CannotWrite`.
    """
    _refuse_doubles(files)
    todo = changed(files)
    moves: list[tuple[Path, Path]] = []
    path = Path()
    try:
        for item in todo:
            path = item.path
            _make_folder(item.path.parent)
            beside = item.path.with_name(f".{os.getpid()}-{len(moves)}.part")
            moves.append((beside, item.path))
            _write_new(beside, item)
        for _, path in moves:
            _refuse_other_than_files(path)
        for beside, path in moves:
            beside.replace(path)
    except (OSError, ValueError) as problem:
        reason = problem.strerror if isinstance(problem, OSError) else problem
        raise CannotWrite(f"{path}: cannot be written: {reason}; nothing was changed") from None
    finally:
        for beside, _ in moves:
            with suppress(OSError):
                beside.unlink(missing_ok=True)
    return [path for _, path in moves]


def _refuse_doubles(files: list[Pending]) -> None:
    """Refuse two files of one name, also where case does not count."""
    seen: set[str] = set()
    for item in files:
        name = item.path.as_posix().lower()
        if name in seen:
            raise CannotWrite(
                f"{item.path}: two outputs would be this file; rename a chip or template, "
                "or write them into folders of their own"
            )
        seen.add(name)


def _make_folder(path: Path) -> None:
    """Make the folder ``path``. Raises ``OSError``, in better words when a file has its place."""
    try:
        path.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise FileExistsError(errno.EEXIST, f"{path} is a file, no folder") from None


def _refuse_other_than_files(path: Path) -> None:
    """Refuse to put a file in the place of a folder, a device or a pipe, or of a link to one.

    Raises ``OSError``. A link to a file is replaced, and the file it leads to left alone.
    """
    if path.is_dir():
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR))
    if path.exists() and not path.is_file():
        raise FileExistsError(errno.EEXIST, "Is a device or a pipe, no file")


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
