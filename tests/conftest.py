"""What several tests need: the command line as a user runs it, and the C compiler."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import regwright

#: Where this very regwright is, for commands that run in another folder.
PACKAGES = str(Path(regwright.__file__).resolve().parent.parent)
ROOT = Path(__file__).resolve().parent.parent
DESCRIPTIONS = ROOT / "descriptions"
#: The flags under which an emitted header must compile without a warning.
STRICT = ["-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Wundef", "-Werror"]

# What a shell starts in the background ignores SIGINT, and so would every command of a test.
signal.signal(signal.SIGINT, signal.default_int_handler)

Cli = Callable[..., "subprocess.CompletedProcess[str]"]
Compile = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture
def cli(tmp_path: Path) -> Cli:
    """Run the command line in a process of its own, in an empty folder unless told otherwise."""

    def run(
        *arguments: str | Path,
        cwd: Path = tmp_path,
        env: dict[str, str] | None = None,
        timeout: float = 60,
        stdin: str = "",
    ) -> subprocess.CompletedProcess[str]:
        process = subprocess.run(
            [sys.executable, "-m", "regwright", *map(str, arguments)],
            cwd=cwd,
            env={**os.environ, "PYTHONPATH": PACKAGES, "PYTHONIOENCODING": "utf-8", **(env or {})},
            input=stdin,
            capture_output=True,
            text=True,
            encoding="utf-8",
            timeout=timeout,
            check=False,
        )
        assert "Traceback" not in process.stderr, process.stderr
        return process

    return run


@pytest.fixture
def compile_c(tmp_path: Path) -> Compile:
    """Run the C or C++ compiler in the test's folder on a source given as text."""

    def run(
        source: str,
        *flags: str,
        std: str = "c11",
        name: str = "program",
        strict: bool = True,
        link: bool = False,
    ) -> subprocess.CompletedProcess[str]:
        is_cpp = std.startswith("c++")
        path = tmp_path / f"{name}.{'cpp' if is_cpp else 'c'}"
        path.write_text(source, encoding="utf-8")
        output = [] if link else ["-c"]
        return subprocess.run(
            [
                "g++" if is_cpp else "gcc",
                f"-std={std}",
                *(STRICT if strict else []),
                *flags,
                *output,
                path.name,
                "-o",
                name if link else f"{name}.o",
            ],
            cwd=tmp_path,
            capture_output=True,
            text=True,
            check=False,
        )

    return run
