"""``regwright config`` run within the test's own process, which is quick."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from regwright.cli.config import command


def config(*arguments: str | Path, answers: str = "") -> Result:
    """Run the command; standard output and standard error are kept apart."""
    done = CliRunner().invoke(command, [str(item) for item in arguments], input=answers)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    return done


def value_of(done: Result, word: str) -> str:
    """Return the value to write that the text form prints for ``word``."""
    lines = done.stdout.splitlines()
    table = lines[next(at for at, line in enumerate(lines) if line.startswith("word ")) :]
    return next(line.split()[1] for line in table if line.split()[:1] == [word])
