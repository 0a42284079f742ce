"""Helpers of this folder: tools that may be missing, descriptions, what is emitted of them."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from regwright.pipeline import Checked, check, emit, emit_family
from regwright.read.source import Source, spelling_of

ROOT = Path(__file__).resolve().parent.parent.parent
DEMO = Path(__file__).resolve().parent / "demo"
CHIPS = ("sorrel14", "sorrel40")
TEMPLATES = ["header", "check", "report", "make", "cmake", "linker", "size", "drawing"]


def needs(*tools: str) -> pytest.MarkDecorator:
    """Return a mark that skips a test where one of ``tools`` is missing."""
    missing = [tool for tool in tools if shutil.which(tool) is None]
    return pytest.mark.skipif(bool(missing), reason=f"{', '.join(missing)} is not installed")


def checked(description: Path | dict[str, Any]) -> Checked:
    """Return a description, a file or a dictionary, checked; an error in it fails the test."""
    if isinstance(description, Path):
        name, data = description.name, description.read_bytes()
    else:
        name, data = "test.json", json.dumps({"format": 1, **description}).encode()
    found = check(Source(name, data, spelling_of(name, data)))
    assert not found.has_errors, [str(item) for item in found.findings]
    return found


def emitted(description: Path | dict[str, Any]) -> dict[str, str]:
    """Return every file that suits a description, by its name."""
    return dict(emit(checked(description), TEMPLATES))


def write(files: dict[str, str], folder: Path) -> Path:
    """Write ``files`` into ``folder``, which is returned."""
    folder.mkdir(exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def sorrels(folder: Path) -> Path:
    """Emit both 8-bit chips of the greenhouse and the header of their family into ``folder``."""
    paths = [next((ROOT / "descriptions").glob(f"{name}.*")) for name in CHIPS]
    both = [checked(path) for path in paths]
    files = {name: text for one in both for name, text in emit(one, TEMPLATES)}
    family, text = emit_family("sorrel", both)
    return write({**files, family: text}, folder)


def run(*command: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run ``command`` and return what came of it."""
    return subprocess.run(
        [*map(str, command)], cwd=cwd, capture_output=True, text=True, check=False
    )
