"""How the command line ends when its output is cut off or it is interrupted."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hostile_chips import write_chip

COMMANDS = [
    "check c.json",
    "check bad.json",
    "emit c.json --to out",
    "--help",
    "check --help",
    "--version",
    "completion bash",
]
#: Prints once it runs, so that nothing is interrupted before there is anything to interrupt.
READY = "from regwright.cli import main; print('ready', flush=True); main()"


@pytest.fixture
def chips(tmp_path: Path) -> Path:
    write_chip(tmp_path)
    (tmp_path / "bad.json").write_text("{")
    return tmp_path


def run(folder: Path, command: str, stdout: int) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "regwright", *command.split()],
        cwd=folder,
        stdout=stdout,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
        timeout=20,
    )


@pytest.mark.parametrize("command", COMMANDS)
def test_broken_pipe(chips: Path, command: str) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = run(chips, command, writing)
    os.close(writing)
    assert done.returncode == 2
    assert done.stderr == ""


@pytest.mark.parametrize("command", COMMANDS)
def test_full_output(chips: Path, command: str) -> None:
    with Path("/dev/full").open("w") as full:
        done = run(chips, command, full.fileno())
    assert done.returncode == 2
    assert done.stderr == "regwright: cannot write the output: No space left on device\n"


@pytest.mark.parametrize("streams", ["1>&-", "2>&-", "0<&- 1>&- 2>&-"])
@pytest.mark.parametrize(("file", "code"), [("c.json", 0), ("bad.json", 1), ("missing", 2)])
def test_closed_streams(chips: Path, streams: str, file: str, code: int) -> None:
    line = f"'{sys.executable}' -m regwright check {file} {streams}"
    done = subprocess.run(
        ["sh", "-c", line], cwd=chips, capture_output=True, text=True, check=False
    )
    assert done.returncode == code
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("command", ["check", "emit"])
def test_interrupted(tmp_path: Path, command: str) -> None:
    with (tmp_path / "long.json").open("w") as file:
        file.write("[" + "[]," * 3_000_000 + "[]]")
    process = subprocess.Popen(
        [sys.executable, "-c", READY, command, "long.json"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "ready\n"
    time.sleep(0.3)
    process.send_signal(signal.SIGINT)
    output, errors = process.communicate(timeout=20)
    assert (process.returncode, output) == (130, "")
    assert errors.strip() == "regwright: interrupted"
    assert not (tmp_path / "out").exists()


def test_usage_error(chips: Path) -> None:
    done = run(chips, "check c.json --nothing", subprocess.PIPE)
    assert done.returncode == 2
    assert "--nothing" in done.stderr
