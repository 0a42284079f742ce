"""Do in a process of its own what nothing within a process can stop.

A path of a mapping may be followed for ever, a few kilobytes of PDF may unfold to gigabytes.
"""

from __future__ import annotations

import math
import os
import subprocess
import sys
from pathlib import Path

import regwright


def run(
    module: str, sent: bytes, seconds: float, *arguments: str
) -> subprocess.CompletedProcess[bytes]:
    """Run ``module`` on what is ``sent`` to its standard input, for ``seconds`` by the clock.

    It imports what this process could import. Raises ``subprocess.TimeoutExpired`` and ``OSError``.
    """
    packages = str(Path(regwright.__file__).resolve().parent.parent)
    paths = [packages, *filter(None, sys.path)]
    return subprocess.run(  # noqa: S603  the command is fixed
        [sys.executable, "-P", "-m", module, *arguments],
        input=sent,
        capture_output=True,
        timeout=seconds,
        check=False,
        env={
            **os.environ,
            "PYTHONPATH": os.pathsep.join(dict.fromkeys(paths)),
            "PYTHONIOENCODING": "utf-8",
        },
    )


def limit_time(seconds: float) -> None:
    """End this process when it has used a processor for ``seconds``, where the system can."""
    most = math.ceil(seconds)
    _limit("RLIMIT_CPU", most, most + 1)


def limit_memory(most: int) -> None:
    """Let this process have ``most`` bytes of memory, where the system can bound that."""
    _limit("RLIMIT_AS", most, most)


def _limit(kind: str, soft: int, hard: int) -> None:
    """Set a bound, within one that is set already."""
    try:
        import resource
    except ImportError:  # the system has no bounds
        return
    which = getattr(resource, kind)
    _, highest = resource.getrlimit(which)
    if highest != resource.RLIM_INFINITY:
        soft, hard = min(soft, highest), min(hard, highest)
    resource.setrlimit(which, (soft, hard))
