"""Descriptions to be hostile with, and what to ask of the command line's answer."""

from __future__ import annotations

import json
import time
from contextlib import chdir
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from regwright.cli import group

#: A description that checks clean, up to where its registers go.
JSON_START = '{"format":1,"name":"c","spaces":[{"name":"data","size":"0x100"}],\n"registers":['
XML_START = '<chip format="1" name="c"><space name="data" size="0x100"/>\n'


def chip(**more: Any) -> dict[str, Any]:
    """Return a small description, with ``more`` properties."""
    spaces = [{"name": "data", "size": "0x100"}]
    registers = [{"name": "A", "address": "0x20"}]
    return {"format": 1, "name": "c", "spaces": spaces, "registers": registers} | more


def write_chip(folder: Path, file: str = "c.json", **more: Any) -> Path:
    """Write :func:`chip` to the file ``file``."""
    path = folder / file
    path.write_text(json.dumps(chip(**more)), encoding="utf-8")
    return path


def as_bytes(text: str | bytes) -> bytes:
    """Return ``text`` in UTF-8, unless it is bytes already."""
    return text if isinstance(text, bytes) else text.encode("utf-8")


def run_here(folder: Path, *arguments: str) -> Result:
    """Run the command line in ``folder`` without a process of its own, which takes a while."""
    with chdir(folder):
        result = CliRunner().invoke(group, list(arguments))
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result


def assert_refused(folder: Path, name: str, data: str | bytes, *starts: str) -> None:
    """Check ``data`` as the file ``name``: each finding starts with what ``starts`` says of it.

    It must be quick, too.
    """
    (folder / name).write_bytes(as_bytes(data))
    start = time.monotonic()
    result = run_here(folder, "check", name)
    assert time.monotonic() - start < 8
    lines = result.output.splitlines()
    assert result.exit_code == 1, result.output[:2000]
    assert len(lines) == len(starts) + 1, result.output[:2000]
    for line, start_of_line in zip(lines, starts, strict=False):
        assert line.startswith(f"{name}:{start_of_line}"), line[:500]
        assert len(line) < 500
    assert lines[-1] == f"1 description, {len(starts)} error{'s' if len(starts) > 1 else ''}"


def assert_clean(folder: Path, name: str, data: str | bytes) -> None:
    """Check ``data`` as the file ``name`` and expect no finding."""
    (folder / name).write_bytes(as_bytes(data))
    result = run_here(folder, "check", name)
    assert (result.exit_code, result.output) == (0, "1 description, no findings\n")


def files_below(folder: Path) -> set[str]:
    """Return every file and folder below ``folder``."""
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*")}
