"""The README's examples are run as they stand, and print what it says they print."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

from conftest import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")


def _blocks(kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)


def test_console_examples(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "descriptions", tmp_path / "descriptions")
    named = r"`(\w+\.\w+)`:\n\n```\w+\n(.*?)^```$"
    for name, text in re.findall(named, README, re.DOTALL | re.MULTILINE):
        (tmp_path / name).write_text(text)
    tools = tmp_path / "bin"
    tools.mkdir()
    program = tools / "regwright"
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m regwright "$@" 2>&1\n')
    program.chmod(0o755)
    env = {**os.environ, "PATH": f"{tools}{os.pathsep}{os.environ['PATH']}"}
    for block in _blocks("console"):
        for command, expected in re.findall(r"^\$ (.*)\n((?:(?!\$ ).*\n)*)", block, re.MULTILINE):
            done = subprocess.run(
                ["sh", "-c", command],
                cwd=tmp_path,
                env=env,
                capture_output=True,
                text=True,
                check=False,
            )
            printed = done.stdout + done.stderr
            # standard error comes first or last, depending on when each stream is flushed
            assert sorted(printed.splitlines()) == sorted(expected.splitlines()), command


def test_header_names_of_the_readme_exist() -> None:
    header = (ROOT / "out" / "sorrel40.h").read_text()
    for ending in re.findall(r"`R_(?:F_)?([A-Z_]+)(?:\(|`)", README):
        if ending not in ("V", "IO_ADDR"):
            assert f"_{ending}" in header, ending


def test_commands_are_single_lines() -> None:
    commands = _blocks("sh")
    assert len(commands) == 2
    assert all(command.count("\n") == 1 for command in commands)
