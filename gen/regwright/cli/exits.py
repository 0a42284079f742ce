"""Exit codes: what each means, for every command."""

from __future__ import annotations

CLEAN = 0
FINDINGS = 1  # findings, or differences
COULD_NOT_RUN = 2  # usage, or input that cannot be read
INTERRUPTED = 130  # by Ctrl-C, as shells have it
