"""The promised speed of the audit: megabytes a second on one core, and the same for large sources.

A machine that is busy with something else distorts a run, so a figure that is too bad is measured
again, a few times at the most. What a command takes to start is measured beside it, with a source
of one line, and taken off.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from measure import REGWRIGHT, Cost, side_by_side
from sources import write

from conftest import DESCRIPTIONS

ATTEMPTS = 5
SMALL, LARGE = 500_000, 5_000_000


def audit_costs(folder: Path, rounds: int) -> dict[str, Cost]:
    """Return the cost of auditing a source of one line, a small and a large one."""
    one = folder / "one.c"
    one.write_text("int x;\n")
    audit = [*REGWRIGHT, "audit", str(DESCRIPTIONS / "sorrel14.xml")]
    return side_by_side(
        {
            "one line": [*audit, str(one)],
            "small": [*audit, str(write(folder, SMALL))],
            "large": [*audit, str(write(folder, LARGE))],
        },
        folder / "cache",
        rounds,
    )


def seconds_per_megabyte(folder: Path, costs: dict[str, Cost], name: str, size: int) -> float:
    """Return what a megabyte of a source costs, without what it takes to start."""
    length = (folder / f"firmware{size}.c").stat().st_size
    return (costs[name].seconds - costs["one line"].seconds) / (length / 1e6)


#: In megabytes a second, so that it does not get slower than it is (0.9 was measured); 2 are asked
#: for, and not reached yet on sources as dense with registers as these.
LEAST = 0.5


def test_speed_does_not_fall(tmp_path: Path) -> None:
    rates = []
    for _ in range(ATTEMPTS):
        costs = audit_costs(tmp_path, 2)
        rates.append(1 / seconds_per_megabyte(tmp_path, costs, "large", LARGE))
        if rates[-1] >= LEAST:
            return
    pytest.fail(f"fewer than {LEAST} MB/s each time: {', '.join(f'{rate:.2f}' for rate in rates)}")


def test_cost_of_a_byte_does_not_grow(tmp_path: Path) -> None:
    """A byte of 5 MB costs at most 1.3 times what one of 0.5 MB does."""
    ratios = []
    for _ in range(ATTEMPTS):
        costs = audit_costs(tmp_path, 2)
        large = seconds_per_megabyte(tmp_path, costs, "large", LARGE)
        ratios.append(large / seconds_per_megabyte(tmp_path, costs, "small", SMALL))
        if ratios[-1] <= 1.3:
            return
    pytest.fail(f"more than 1.3 x each time: {', '.join(f'{ratio:.2f}' for ratio in ratios)}")
