"""The promised speed, each as a ratio measured in one run on one machine.

The yardstick is ``yardstick.py``. A machine that is busy with something else distorts a run, so a
ratio that is too high is measured again, a few times at the most.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from chips import write
from measure import Cost, check_costs, emit_costs, environment, version_costs

ATTEMPTS = 5


def _ratio(measure: Callable[[], dict[str, Cost]], name: str, base: str) -> Cost:
    costs = measure()
    return Cost(
        costs[name].seconds / costs[base].seconds, costs[name].megabytes / costs[base].megabytes
    )


def _at_most(limit: float, measure: Callable[[], float]) -> None:
    ratios = []
    for _ in range(ATTEMPTS):
        ratios.append(measure())
        if ratios[-1] <= limit:
            return
    pytest.fail(f"more than {limit} x each time: {', '.join(f'{r:.2f}' for r in ratios)}")


def test_version_starts_as_fast_as_click(tmp_path: Path) -> None:
    def measure() -> float:
        return _ratio(lambda: version_costs(tmp_path, 9), "--version", "import click").seconds

    _at_most(1.5, measure)


@pytest.mark.parametrize("spelling", ["XML", "JSON"])
def test_check_costs_little_more_than_reading(tmp_path: Path, spelling: str) -> None:
    """Checking 100 registers takes at most 1.5 times as long as reading them, whole processes."""

    def measure() -> float:
        read, checked = check_costs(tmp_path, spelling, 9).values()
        return checked.seconds / read.seconds

    _at_most(1.5, measure)


@pytest.mark.parametrize("spelling", ["XML", "JSON"])
def test_emit_of_100_registers(tmp_path: Path, spelling: str) -> None:
    def measure() -> float:
        costs = emit_costs(tmp_path, 100, 9)
        return costs[f"emit from {spelling}"].seconds / costs["yardstick"].seconds

    _at_most(1.6, measure)


@pytest.mark.parametrize("spelling", ["XML", "JSON"])
def test_emit_of_5000_registers(tmp_path: Path, spelling: str) -> None:
    memory = []

    def measure() -> float:
        ratio = _ratio(lambda: emit_costs(tmp_path, 5000, 3), f"emit from {spelling}", "yardstick")
        memory.append(ratio.megabytes)
        return ratio.seconds

    _at_most(4, measure)
    assert max(memory) <= 3


@pytest.mark.parametrize("spelling", ["XML", "JSON"])
def test_cost_of_a_field_does_not_grow(tmp_path: Path, spelling: str) -> None:
    """40,000 fields cost at most 1.2 times as much each as 4,000 do, whole commands compared."""

    def measure() -> float:
        few = emit_costs(tmp_path, 500, 5)[f"emit from {spelling}"]
        many = emit_costs(tmp_path, 5000, 3)[f"emit from {spelling}"]
        return many.seconds / few.seconds / 10

    _at_most(1.2, measure)


def test_second_emit_changes_nothing(tmp_path: Path) -> None:
    xml, _ = write(tmp_path, 100)
    command = [sys.executable, "-m", "regwright", "emit", str(xml), "--to", str(tmp_path / "out")]
    env = environment(tmp_path / "cache")
    subprocess.run(command, env=env, check=True, capture_output=True)
    before = {path: path.stat() for path in (tmp_path / "out").iterdir()}
    again = subprocess.run(command, env=env, check=True, capture_output=True, text=True)
    after = {path: path.stat() for path in (tmp_path / "out").iterdir()}
    assert again.stdout == ""
    assert {p: (s.st_mtime_ns, s.st_ino) for p, s in before.items()} == {
        p: (s.st_mtime_ns, s.st_ino) for p, s in after.items()
    }
