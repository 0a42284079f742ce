"""``--jobs``: several processes find what one finds, in the same order, and end cleanly."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from conftest import PACKAGES, Cli

XML = """<chip format="1" name="c{0}"><space name="data" size="0x100"/>
<register name="A{0}" address="{0}" reset="0x1FF"/><!-- {1} -->
</chip>
"""
JSON = """{{"format": 1, "name": "c{0}", "spaces": [{{"name": "data", "size": "0x100"}}],
"registers": [{{"name": "A{0}", "adress": "${0}"}}]}}
"""


@pytest.fixture
def many(tmp_path: Path) -> Path:
    """Return a folder of descriptions, large ones and small ones in turn, each with a finding."""
    folder = tmp_path / "many"
    folder.mkdir()
    for number in range(1, 60):
        text, ending = (XML, "xml") if number % 3 else (JSON, "json")
        filler = "x" * (200_000 if number % 7 == 1 else 1)
        (folder / f"{number:02}.{ending}").write_text(text.format(number % 10, filler))
    return folder


def test_all_that_comes_out_is_the_same(cli: Cli, many: Path) -> None:
    (many / "07.xml").write_text("<chip")
    arguments = ["check", "many", "gone.xml", "--report", "text", "--report", "json"]
    arguments[4:] = ["json", "--output", "report.json", "--report", "text"]
    done = {}
    reports = set()
    for jobs in ("1", "2", "3", "0", "99"):
        done[jobs] = cli(*arguments, "--jobs", jobs)
        reports.add((many.parent / "report.json").read_bytes())
    assert {(one.returncode, one.stdout, one.stderr) for one in done.values()} == {
        (2, done["1"].stdout, done["1"].stderr)
    }
    assert len(reports) == 1
    assert "gone.xml" in done["1"].stderr
    files = [line.split(":")[0] for line in done["1"].stdout.splitlines()[:-1]]
    assert files == sorted(files)
    assert len(set(files)) == 59


@pytest.mark.usefixtures("many")
def test_repairs_in_several_processes(cli: Cli) -> None:
    one = cli("check", "many", "--diff")
    two = cli("check", "many", "--diff", "--jobs", "2")
    assert (one.stdout, one.stderr, one.returncode) == (two.stdout, two.stderr, two.returncode)
    done = cli("check", "many", "--fix", "--jobs", "2")
    assert done.stdout.endswith("; 38 repaired\n")
    assert "[schema]" not in done.stdout


@pytest.mark.parametrize("jobs", ["-1", "x", "513"])
def test_numbers_that_are_none(cli: Cli, many: Path, jobs: str) -> None:
    done = cli("check", many, "--jobs", jobs)
    assert done.returncode == 2
    assert "'--jobs'" in done.stderr


#: Stands for the command line, with a description that takes long or ends its process.
PROGRAM = """
import os, signal, sys, time
import regwright.cli.checking as checking
first = checking.outcome_of
def outcome_of(job, task):
    if task.endswith("13.xml"):
        {}
    return first(job, task)
checking.outcome_of = outcome_of
from regwright.cli import main
main()
"""


def _start(folder: Path, what: str, *arguments: str) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", PROGRAM.format(what), "check", "many", "--jobs", "2", *arguments],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": PACKAGES},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def _is_empty(group: int) -> bool:
    """Tell whether no process of ``group`` is left."""
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return True
    return False


def test_a_process_that_dies(many: Path) -> None:
    process = _start(many.parent, "os.kill(os.getpid(), signal.SIGKILL)")
    _, errors = process.communicate(timeout=30)
    assert process.returncode == 2
    assert errors.startswith(
        "regwright: a process that checked descriptions was ended from outside"
    )
    assert "Traceback" not in errors
    assert _is_empty(process.pid)


def test_nothing_is_written_when_a_process_dies(many: Path) -> None:
    before = {path: path.read_bytes() for path in many.iterdir()}
    process = _start(many.parent, "os._exit(3)", "--fix", "--report", "json", "--output", "r")
    _, errors = process.communicate(timeout=30)
    assert process.returncode == 2
    assert errors.count("\n") == 1
    assert {path: path.read_bytes() for path in many.iterdir()} == before
    assert not (many.parent / "r").exists()


@pytest.mark.parametrize(
    ("number", "to_all", "code", "errors"),
    [
        (signal.SIGINT, True, 130, "regwright: interrupted\n"),
        (signal.SIGINT, False, 130, "regwright: interrupted\n"),
        (signal.SIGTERM, False, 143, ""),
    ],
)
def test_an_interrupt(
    many: Path, number: signal.Signals, to_all: bool, code: int, errors: str
) -> None:
    process = _start(many.parent, "open('here', 'w').close(); time.sleep(60)")
    deadline = time.monotonic() + 20
    while not (many.parent / "here").exists() and time.monotonic() < deadline:
        time.sleep(0.01)
    if to_all:  # as a terminal does on Ctrl-C
        os.killpg(process.pid, number)
    else:
        process.send_signal(number)
    _, found = process.communicate(timeout=20)
    assert (process.returncode, found.lstrip("\n")) == (code, errors)
    assert _is_empty(process.pid)


def test_the_reader_of_the_output_goes_away(many: Path) -> None:
    command = f'"{sys.executable}" -m regwright check many many/../many --jobs 2 | head -n 1'
    done = subprocess.run(
        ["sh", "-c", command],
        cwd=many.parent,
        env={**os.environ, "PYTHONPATH": PACKAGES},
        capture_output=True,
        text=True,
        check=False,
        timeout=30,
    )
    assert done.stdout.startswith("many/01.xml:2:40: error: ")
    assert done.stderr == ""


def test_results_are_light() -> None:
    """What crosses to another process holds nothing of the model."""
    import pickle

    from regwright.cli.checking import Job, outcome_of
    from regwright.read.source import Source
    from regwright.rules.settings import Settings

    text = XML.format(1, "x" * 100_000)
    job = Job(Settings({}), wants_counts=True, wants_result=True)
    outcome = outcome_of(job, Source("a.xml", text.encode(), "xml"))
    assert len(outcome.findings) == 1
    data = pickle.dumps(outcome)
    assert len(data) < 2000
    assert b"regwright.model.chip" not in data
    assert b"regwright.resolve" not in data
    assert pickle.loads(data) == outcome
