"""Find the folders ``schemas`` and ``templates``, in a wheel as in a checkout."""

from __future__ import annotations

from functools import cache
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent.parent


@cache
def folder(name: str) -> Path:
    """Return the folder ``name``: inside the package when installed, else at the top level.

    Raises ``FileNotFoundError`` when the installation is incomplete.
    """
    for candidate in (_PACKAGE / name, _PACKAGE.parent.parent / name):
        if candidate.is_dir():
            return candidate
    raise FileNotFoundError(f"this installation of regwright lacks its folder {name!r}")
