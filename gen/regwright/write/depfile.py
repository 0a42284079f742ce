"""Tell make which outputs depend on which inputs."""

from __future__ import annotations

import re
from pathlib import Path

from regwright.write.files import CannotWrite


def _escaped(path: Path) -> str:
    """Return ``path`` as GNU make reads it in a rule.

    Raises :class:`CannotWrite` for a path that no rule can name.
    """
    text = path.as_posix()
    if re.search(r"[\x00-\x1f\x7f=;|%\\]|^~", text):
        raise CannotWrite(f"{text!r}: make has no way to write this path; leave out --depfile")
    return re.sub(r"[ #:*?\[\]]", r"\\\g<0>", text).replace("$", "$$")


def depfile(outputs: list[Path], inputs: list[Path]) -> str:
    """Return a make rule that makes ``outputs`` depend on ``inputs``.

    Each input also gets an empty rule, so that make goes on when one has been deleted.
    """
    if not outputs:
        return ""
    targets = " ".join(_escaped(path) for path in outputs)
    sources = " ".join(_escaped(path) for path in inputs)
    lines = [f"{targets}: {sources}"] + [f"{_escaped(path)}:" for path in inputs]
    return "\n".join(lines) + "\n"
