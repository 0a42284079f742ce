"""Tell make which outputs depend on which inputs."""

from __future__ import annotations

from pathlib import Path


def _escaped(path: Path) -> str:
    """Return ``path`` as GNU make reads it in a rule."""
    text = path.as_posix().replace("$", "$$")
    for character in "\\ #:":
        text = text.replace(character, "\\" + character)
    return text


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
