"""Time whole commands side by side, and their peak memory.

Run ``python tests/benchmarks/measure.py`` for the table that a closing note wants.
"""

from __future__ import annotations

import os
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple

HERE = Path(__file__).resolve().parent
YARDSTICK = [sys.executable, str(HERE / "yardstick.py")]
REGWRIGHT = [sys.executable, "-m", "regwright"]


class Cost(NamedTuple):
    """What a command took: the best of its times in seconds, and its peak memory in MB."""

    seconds: float
    megabytes: float


def environment(cache: Path) -> dict[str, str]:
    """Return a user's environment: compiled modules are kept, as an installation keeps them."""
    kept = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": str(cache)}


def _run(command: list[str], env: dict[str, str]) -> tuple[float, float]:
    start = time.perf_counter()
    null = os.open(os.devnull, os.O_RDWR)
    actions = [(os.POSIX_SPAWN_DUP2, null, stream) for stream in (0, 1, 2)]
    child = os.posix_spawn(command[0], command, env, file_actions=actions)
    _, status, usage = os.wait4(child, 0)
    os.close(null)
    if os.waitstatus_to_exitcode(status) not in (0, 1):
        raise RuntimeError(f"{command} ended with {os.waitstatus_to_exitcode(status)}")
    return time.perf_counter() - start, usage.ru_maxrss / 1024


def side_by_side(commands: dict[str, list[str]], cache: Path, rounds: int) -> dict[str, Cost]:
    """Run ``commands`` in turn, ``rounds`` times after one round that does not count."""
    env = environment(cache)
    taken: dict[str, list[tuple[float, float]]] = {name: [] for name in commands}
    for number in range(rounds + 1):
        for name, command in commands.items():
            cost = _run(command, env)
            if number:
                taken[name].append(cost)
    return {
        name: Cost(
            min(seconds for seconds, _ in costs),
            max(megabytes for _, megabytes in costs),
        )
        for name, costs in taken.items()
    }


def emit_costs(folder: Path, registers: int, rounds: int) -> dict[str, Cost]:
    """Return the cost of the yardstick and of ``emit`` from both spellings, outputs removed."""
    from chips import write

    xml, json = write(folder, registers)
    return side_by_side(
        {
            "yardstick": [*YARDSTICK, str(xml), str(folder / "yardstick.h")],
            "emit from XML": [*REGWRIGHT, "emit", str(xml), "--to", str(folder / "x")],
            "emit from JSON": [*REGWRIGHT, "emit", str(json), "--to", str(folder / "j")],
        },
        folder / "cache",
        rounds,
    )


def version_costs(folder: Path, rounds: int) -> dict[str, Cost]:
    """Return the cost of importing click and of ``regwright --version``."""
    return side_by_side(
        {
            "import click": [sys.executable, "-c", "import click"],
            "--version": [*REGWRIGHT, "--version"],
        },
        folder / "cache",
        rounds,
    )


_READ = """
import sys
from pathlib import Path
from regwright.cli import main
from regwright.read.description import read_description
from regwright.read.source import Source, spelling_of
data = Path(sys.argv[1]).read_bytes()
read_description(Source(sys.argv[1], data, spelling_of(sys.argv[1], data)))
"""


def check_costs(folder: Path, spelling: str, rounds: int) -> dict[str, Cost]:
    """Return the cost of reading 100 registers and of checking them, as whole processes."""
    from chips import write

    xml, json = write(folder, 100)
    path = str(xml if spelling == "XML" else json)
    return side_by_side(
        {
            f"read {spelling}": [sys.executable, "-c", _READ, path],
            f"check {spelling}": [*REGWRIGHT, "check", path],
        },
        folder / "cache",
        rounds,
    )


def _print(title: str, costs: dict[str, Cost]) -> None:
    base = next(iter(costs.values()))
    for name, cost in costs.items():
        slower, larger = cost.seconds / base.seconds, cost.megabytes / base.megabytes
        sys.stdout.write(
            f"{title:8} {name:16} {cost.seconds * 1000:8.1f} ms {slower:5.2f} x"
            f" {cost.megabytes:7.1f} MB {larger:5.2f} x\n"
        )


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _print("start", version_costs(folder, 15))
        _print("100", check_costs(folder, "XML", 15))
        _print("100", check_costs(folder, "JSON", 15))
        _print("100", emit_costs(folder, 100, 15))
        _print("5000", emit_costs(folder, 5000, 5))


if __name__ == "__main__":
    main()
