"""Names that some operating systems keep for devices."""

from __future__ import annotations

#: A file of one of these names cannot be made there, whatever ending follows.
DEVICES = frozenset(
    ["con", "prn", "aux", "nul"] + [f"{port}{n}" for port in ("com", "lpt") for n in range(10)]
)
