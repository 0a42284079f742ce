"""Helpers of this folder: emit in this process, compile in parallel, list macros."""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, NamedTuple, TypeVar

from regwright.pipeline import check, emit
from regwright.read.source import Source, spelling_of

ROOT = Path(__file__).resolve().parent.parent.parent
SHIPPED = sorted(path for path in (ROOT / "descriptions").iterdir() if path.is_file())
DIALECTS = ("c89", "c99", "c11", "c2x", "c++17")

Item = TypeVar("Item")
Result = TypeVar("Result")


class Emitted(NamedTuple):
    """A chip's name, its header and its check file."""

    name: str
    header: str
    check: str

    def write(self, folder: Path) -> None:
        """Write both files into ``folder``."""
        (folder / f"{self.name}.h").write_text(self.header, encoding="utf-8")
        (folder / f"{self.name}_check.c").write_text(self.check, encoding="utf-8")


def emitted(
    description: Path | dict[str, Any], prefix: str = "", *, with_errors: bool = False
) -> Emitted:
    """Emit a description, a file or a dictionary; an error in it fails the test unless wanted."""
    if isinstance(description, Path):
        name, data = description.name, description.read_bytes()
    else:
        name, data = "test.json", json.dumps({"format": 1, **description}).encode()
    checked = check(Source(name, data, spelling_of(name, data)), prefix)
    found = [str(item) for item in checked.findings]
    assert with_errors or not checked.has_errors, found
    files = dict(emit(checked, ["header", "check"]))
    header = next(name for name in files if name.endswith(".h"))
    stem = header.removesuffix(".h")
    return Emitted(stem, files[header], files[f"{stem}_check.c"])


def in_parallel(work: Callable[[Item], Result], items: Iterable[Item]) -> list[Result]:
    """Return ``work`` of each item, in order; the compiler runs twice at a time."""
    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(work, items))


def macros_of(text: str, *flags: str, folder: Path) -> dict[str, str]:
    """Return the macros defined after ``text``, with their parameters, as the preprocessor says."""
    process = subprocess.run(
        ["gcc", "-E", "-dM", *(flags or ("-x", "c", "-std=c11")), "-"],
        cwd=folder,
        input=text,
        capture_output=True,
        text=True,
        check=True,
    )
    lines = re.findall(r"^#define (\w+(?:\([^)]*\))?) ?(.*)$", process.stdout, re.MULTILINE)
    return dict(lines)
