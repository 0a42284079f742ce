"""``--report`` and ``--output``: which report goes where."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from conftest import Cli

XML = """<chip format="1" name="one"><space name="data" size="0x100"/>
<register name="A" address="0x10" reset="0x1FF"/>
</chip>
"""
JSON = """{"format": 1, "name": "two", "spaces": [{"name": "data", "size": "0x100"}],
"registers": [{"name": "A", "adress": "0x10"}]}
"""
NAMES = ("text", "json", "sarif", "junit", "html", "markdown")
FOUND = "2 descriptions, 2 errors\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "one.xml").write_text(XML)
    (tmp_path / "two.json").write_text(JSON)
    return tmp_path


def _check(cli: Cli, *options: str) -> tuple[int, str, str]:
    done = cli("check", "one.xml", "two.json", *options)
    return done.returncode, done.stdout, done.stderr


@pytest.mark.usefixtures("folder")
def test_text_is_the_default(cli: Cli) -> None:
    code, stdout, stderr = _check(cli)
    assert (code, stderr) == (1, "")
    assert stdout.startswith("one.xml:2:42: error: A has the reset value 0x1FF")
    assert stdout.splitlines()[1].startswith("two.json:2:29: error: 'adress' is unknown")
    assert stdout.endswith(FOUND)
    assert _check(cli, "--report", "text") == (code, stdout, stderr)
    assert _check(cli, "--report", "text", "--output", "-") == (code, stdout, stderr)


@pytest.mark.parametrize("name", NAMES)
def test_a_report_is_the_same_printed_and_written(cli: Cli, folder: Path, name: str) -> None:
    code, printed, stderr = _check(cli, "--report", name)
    assert (code, stderr) == (1, "")
    assert "0x1FF" in printed
    code, stdout, stderr = _check(cli, "--report", name, "--output", f"new/{name}.txt")
    assert (code, stdout, stderr) == (1, "", FOUND)
    assert (folder / "new" / f"{name}.txt").read_text(encoding="utf-8") == printed


def test_several_at_once(cli: Cli, folder: Path) -> None:
    code, stdout, stderr = _check(
        cli,
        *("--report", "json", "--output", "a.json", "--output", "b.sarif"),
        *("--report", "sarif", "--report", "text"),
    )
    assert (code, stderr) == (1, "")
    assert stdout.endswith(FOUND)
    assert json.loads((folder / "b.sarif").read_text())["version"] == "2.1.0"
    assert "sarif" not in (folder / "a.json").read_text()


@pytest.mark.usefixtures("folder")
def test_nothing_else_goes_to_standard_output(cli: Cli) -> None:
    done = cli("check", "one.xml", "gone.xml", "--report", "json")
    assert done.returncode == 2
    json.loads(done.stdout)
    assert done.stderr == "regwright: 'gone.xml': cannot be read: No such file or directory\n"


def test_reports_are_of_what_is_new_and_repaired(cli: Cli, folder: Path) -> None:
    cli("check", "one.xml", "--write-known", "known.json")
    options = ["--known", "known.json", "--fix", "--report", "json"]
    code, stdout, stderr = _check(cli, *options)
    assert (code, stderr) == (0, "")
    assert "0x1FF" not in stdout
    assert "adress" not in stdout
    assert '"address"' in (folder / "two.json").read_text()


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--report", "json", "--report", "text"], "only one report can go to standard output"),
        (["--output", "a", "--output", "b"], "2 --output, but only 1 --report"),
        (["--report", "pdf"], "'pdf' is not one of"),
    ],
)
def test_what_does_not_fit(cli: Cli, folder: Path, options: list[str], message: str) -> None:
    code, stdout, stderr = _check(cli, *options)
    assert (code, stdout) == (2, "")
    assert message in stderr
    assert len(list(folder.iterdir())) == 2


def test_all_are_written_or_none(cli: Cli, folder: Path) -> None:
    (folder / "taken").mkdir()
    options = ["--report", "json", "--output", "a", "--report", "html", "--output", "taken"]
    code, _, stderr = _check(cli, *options, "--fix")
    assert code == 2
    assert "regwright: taken: cannot be written: Is a directory; nothing was changed" in stderr
    assert not (folder / "a").exists()
    assert (folder / "two.json").read_text() == JSON


def test_a_description_is_not_written_over(cli: Cli, folder: Path) -> None:
    code, _, stderr = _check(cli, "--report", "json", "--output", "./two.json")
    assert code == 2
    assert "./two.json: is a description, no place for a report" in stderr
    assert (folder / "two.json").read_text() == JSON


def test_every_report_has_its_choice() -> None:
    from regwright.cli.check import command
    from regwright.reports import REPORTS

    option = next(item for item in command.params if item.name == "reports")
    assert tuple(option.type.choices) == tuple(REPORTS)  # type: ignore[attr-defined]
