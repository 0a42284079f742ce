"""The examples for CI, an editor, make and pre-commit, run as they stand."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
import yaml

from conftest import DESCRIPTIONS, PACKAGES, ROOT, Cli

TEXT = (ROOT / "README.md").read_text(encoding="utf-8")


def _blocks(kind: str) -> list[str]:
    return re.findall(rf"^```{kind}\n(.*?)^```$", TEXT, re.DOTALL | re.MULTILINE)


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Return a folder with a description, and with a command ``regwright`` that notes its calls."""
    (tmp_path / "descriptions").mkdir()
    shutil.copy(DESCRIPTIONS / "sorrel14.xml", tmp_path / "descriptions")
    (tmp_path / "bin").mkdir()
    program = tmp_path / "bin" / "regwright"
    program.write_text(
        f'#!/bin/sh\necho "$1" >> "{tmp_path}/calls"\nexec "{sys.executable}" -m regwright "$@"\n'
    )
    program.chmod(0o755)
    return tmp_path


def _run(project: Path, *command: str) -> subprocess.CompletedProcess[str]:
    path = f"{project / 'bin'}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(
        command,
        cwd=project,
        env={**os.environ, "PATH": path, "PYTHONPATH": PACKAGES},
        capture_output=True,
        text=True,
        check=False,
    )
    calls = project / "calls"
    done.args = calls.read_text().split() if calls.exists() else []
    calls.unlink(missing_ok=True)
    return done


def _spoil(project: Path) -> None:
    path = project / "descriptions" / "sorrel14.xml"
    path.write_text(path.read_text().replace("data:0x38", "data:0x18"))


def test_ci(project: Path) -> None:
    script = _blocks("bash")[0]
    _run(project, "regwright", "emit", "descriptions", "--to", "out")
    done = _run(project, "sh", "-e", "-c", script)
    assert (done.returncode, done.args) == (0, ["check", "emit"]), done.stderr
    assert (project / "findings.xml").read_text().startswith("<?xml")
    header = project / "out" / "sorrel14.h"
    header.write_text(header.read_text() + "\n")
    assert _run(project, "sh", "-e", "-c", script).returncode == 1
    _spoil(project)
    done = _run(project, "sh", "-e", "-c", script)
    assert (done.returncode, done.args) == (1, ["check"])
    assert "[offset-not-added]" in done.stdout


def test_known_findings_and_an_editor(project: Path) -> None:
    _spoil(project)
    known, editor = _blocks("bash")[1:3]
    assert _run(project, "sh", "-e", "-c", known).returncode == 0
    done = _run(project, "sh", "-c", editor)
    assert done.returncode == 1
    assert re.search(r"^<stdin>:\d+:\d+: error: .*\[offset-not-added\]$", done.stdout, re.MULTILINE)


def test_settings(cli: Cli, project: Path) -> None:
    text = _blocks("toml")[0]
    assert set(tomllib.loads(text)) == {"fail-on", "levels"}
    (project / "regwright.toml").write_text(text)
    done = cli("check", "descriptions", cwd=project)
    assert (done.returncode, done.stderr) == (0, "")


def _times(project: Path) -> dict[str, int]:
    names = ("out/.stamp", "out/sorrel14.h", "main.o")
    return {name: (project / name).stat().st_mtime_ns for name in names}


def _age(project: Path) -> None:
    """Make every file an hour older, so that what happens next is later on any clock."""
    for path in project.rglob("*"):
        times = path.stat()
        os.utime(path, ns=(times.st_atime_ns, times.st_mtime_ns - 3600 * 10**9))


def test_make(project: Path) -> None:
    (makefile,) = [block for block in _blocks("make") if "out/.stamp" in block]
    (project / "Makefile").write_text(makefile)
    (project / "main.c").write_text('#include "sorrel14.h"\nint bits = OUT_B_LED_BITPOS;\n')
    first = _run(project, "make")
    assert (first.returncode, first.args) == (0, ["emit"]), first.stderr
    # nothing has changed
    _age(project)
    before = _times(project)
    done = _run(project, "make")
    assert (done.returncode, done.args, _times(project)) == (0, [], before)
    # a change that the header does not show: looked at, but nothing is built
    description = project / "descriptions" / "sorrel14.xml"
    description.write_text(description.read_text() + "<!-- looked up -->\n")
    done = _run(project, "make")
    assert (done.returncode, done.args) == (0, ["emit"]), done.stderr
    after = _times(project)
    assert after["out/.stamp"] > before["out/.stamp"]
    assert {**after, "out/.stamp": 0} == {**before, "out/.stamp": 0}
    assert _run(project, "make").args == []
    # a change that it does show
    _age(project)
    description.write_text(
        description.read_text()
        .replace('name="LED" bits="2"', 'name="LED" bits="2" access="read-only"')
        .replace("status lamp", "the lamp")
    )
    done = _run(project, "make")
    assert (done.returncode, done.args) == (0, ["emit"]), done.stderr
    assert _times(project)["main.o"] > after["main.o"]
    # a mistake stops it, and does so again
    _spoil(project)
    for _ in range(2):
        done = _run(project, "make")
        assert (done.returncode, done.args) == (2, ["emit"])
        assert "[offset-not-added]" in done.stderr


def test_the_hook() -> None:
    (hook,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    assert {"id", "name", "entry", "language"} <= set(hook)
    assert hook["id"] == "regwright-check"
    assert (hook["entry"], hook["language"]) == ("regwright check", "python")
    assert set(hook["types_or"]) == {"xml", "json"}
    assert re.search(hook["files"], "descriptions/sorrel14.xml")
    assert not re.search(hook["files"], "src/descriptions.xml")
    (example,) = _blocks("yaml")
    (repository,) = yaml.safe_load(example)["repos"]
    assert repository["hooks"] == [{"id": "regwright-check", "files": "^descriptions/"}]


def test_the_entry_of_the_hook_takes_the_files_behind_it(cli: Cli, project: Path) -> None:
    hook = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))[0]
    program, *arguments = hook["entry"].split()
    assert program == "regwright"
    done = cli(*arguments, "descriptions/sorrel14.xml", cwd=project)
    assert done.returncode == 0
    _spoil(project)
    assert cli(*arguments, "descriptions/sorrel14.xml", cwd=project).returncode == 1
