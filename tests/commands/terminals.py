"""The command line with a terminal for its output."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from pathlib import Path

from conftest import PACKAGES


def at_a_terminal(
    folder: Path, *arguments: str, program: tuple[str, ...] = ("-m", "regwright"), **env: str
) -> str:
    """Run the command line with a terminal for its output and return what it shows.

    ``program`` is what Python runs in its place, with the same arguments.
    """
    main, other = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, *program, *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": PACKAGES, "TERM": "xterm", **env},
        stdout=other,
        stderr=other,
        stdin=subprocess.DEVNULL,
    )
    os.close(other)
    shown = b""
    while True:
        try:
            piece = os.read(main, 4096)
        except OSError:
            break
        if not piece:
            break
        shown += piece
    os.close(main)
    process.wait(timeout=60)
    return shown.decode()
