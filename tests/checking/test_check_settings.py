"""Levels of rules and what fails a check: by option, ``regwright.toml`` and ``pyproject.toml``."""

from __future__ import annotations

from pathlib import Path

import pytest

from conftest import Cli

#: A warning and, with ``{}`` filled in, an error.
XML = """<chip format="1" name="one"><space name="data" size="0x100"/>
<register name="A" address="0x10"{}/>
<register name="B" address="0x11" page="4"/>
</chip>
"""
JSON = """{{"format": 1, "name": "one", "spaces": [{{"name": "data", "size": "0x100"}}],
"registers": [{{"name": "A", "address": "0x10"{}}},
{{"name": "B", "address": "0x11", "page": 4}}]}}
"""
ERROR = {"xml": ' reset="0x1FF"', "json": ', "reset": "0x1FF"'}


def _write(folder: Path, spelling: str = "xml", *, error: bool = False) -> str:
    text = XML if spelling == "xml" else JSON
    name = f"one.{spelling}"
    (folder / name).write_text(text.format(ERROR[spelling] if error else ""))
    return name


def _levels(text: str) -> list[str]:
    return [line.split(": ")[1] for line in text.splitlines() if "[" in line]


@pytest.mark.parametrize("spelling", ["xml", "json"])
def test_fail_on(cli: Cli, tmp_path: Path, spelling: str) -> None:
    name = _write(tmp_path, spelling)
    (tmp_path / "regwright.toml").write_text('levels.document-without-revision = "note"')
    for level, code in (("error", 0), ("warning", 0), ("note", 1)):
        done = cli("check", name, "--fail-on", level)
        assert (done.returncode, done.stderr) == (code, "")
        assert _levels(done.stdout)[0] == "note"
    assert cli("check", name).returncode == 0
    _write(tmp_path, spelling, error=True)
    assert cli("check", name, "--fail-on", "error").returncode == 1
    wrong = cli("check", name, "--fail-on", "grave")
    assert wrong.returncode == 2
    assert "'grave' is not one of 'error', 'warning', 'note'" in wrong.stderr


def test_warnings_fail_unless_told_otherwise(cli: Cli, tmp_path: Path) -> None:
    name = _write(tmp_path)
    done = cli("check", name)
    assert done.returncode == 1
    assert done.stdout.splitlines()[-1] == "1 description, 1 warning"
    assert done.stdout.startswith("one.xml:3:41: warning: ")
    assert cli("check", name, "--fail-on", "error").returncode == 0
    (tmp_path / "regwright.toml").write_text('fail-on = "error"\n')
    assert cli("check", name).returncode == 0
    assert cli("check", name, "--fail-on", "warning").returncode == 1


PROJECT = '[project]\nname = "x"\n[tool.regwright]\nfail-on = "error"\n'


def test_the_nearest_file_counts_and_the_own_one_goes_first(cli: Cli, tmp_path: Path) -> None:
    inner = tmp_path / "a" / "b"
    inner.mkdir(parents=True)
    name = _write(inner)
    (tmp_path / "pyproject.toml").write_text(PROJECT)
    assert cli("check", name, cwd=inner).returncode == 0
    # one that says nothing about regwright, or is none of its business, is passed over
    (inner / "pyproject.toml").write_text("[project\n")
    assert cli("check", name, cwd=inner).returncode == 0
    (tmp_path / "a" / "pyproject.toml").write_text(PROJECT.replace("error", "warning"))
    assert cli("check", name, cwd=inner).returncode == 1
    (inner / "pyproject.toml").write_text('# regwright\n[tool]\nother = "x"\n')
    assert cli("check", name, cwd=inner).returncode == 1
    (tmp_path / "a" / "regwright.toml").write_text('fail-on = "error"\r\n')
    assert cli("check", name, cwd=inner).returncode == 0


def test_levels(cli: Cli, tmp_path: Path) -> None:
    name = _write(tmp_path, error=True)
    settings = tmp_path / "pyproject.toml"
    head = "[tool.regwright.levels]\n"
    settings.write_text(f'{head}reset-does-not-fit = "off"\n"document-without-revision" = "error"')
    done = cli("check", name)
    assert (done.returncode, _levels(done.stdout)) == (1, ["error"])
    assert "[document-without-revision]" in done.stdout
    settings.write_text(f'{head}reset-does-not-fit = "note"\ndocument-without-revision = "off"')
    done = cli("check", name)
    assert (done.returncode, _levels(done.stdout)) == (0, ["note"])
    assert "[reset-does-not-fit]" in done.stdout


def test_emit_obeys_the_levels(cli: Cli, tmp_path: Path) -> None:
    name = _write(tmp_path, error=True)
    assert cli("emit", name).returncode == 1
    assert not (tmp_path / "out").exists()
    settings = tmp_path / "regwright.toml"
    settings.write_text('[levels]\nreset-does-not-fit = "warning"\n')
    done = cli("emit", name)
    assert done.returncode == 0
    assert "one.xml:2:42: warning: " in done.stderr
    assert (tmp_path / "out" / "one.h").exists()
    settings.write_text('[levels]\nreset-does-not-fit = "off"\ndocument-without-revision = "error"')
    done = cli("emit", name)
    assert done.returncode == 1
    assert "one.xml:3:41: error: " in done.stderr
    assert "nothing was written" in done.stderr
    settings.write_text("[levels]\nx = 1\n")
    done = cli("emit", name)
    assert done.returncode == 2
    assert done.stderr.startswith("regwright.toml:2:1: error: there is no rule 'x'")


WRONG = {
    "unknown key": (
        'fail_on = "error"',
        ["1:1: error: there is no setting 'fail_on'; did you mean 'fail-on'?"],
    ),
    "wrong level": (
        '\n fail-on =  "bad"',
        ['2:13: error: fail-on must be "error", "warning" or "note"'],
    ),
    "unknown rule": (
        '[levels]\n# x\nregister-overlap = "off"',
        ["3:1: error: there is no rule 'register-overlap'; did you mean 'registers-overlap'?"],
    ),
    "rule like none": (
        '[levels]\nzzz = "off"',
        ["2:1: error: there is no rule 'zzz'; regwright rules lists them"],
    ),
    "level of a rule": (
        '[levels]\n"registers-overlap"="loud"',
        [
            "2:21: error: the level of 'registers-overlap' must be "
            '"off", "note", "warning" or "error"'
        ],
    ),
    "level that is no text": ("[levels]\nregisters-overlap=[1]", ["2:19: error: the level of"]),
    "finding of a reader": (
        '[levels]\nschema = "off"',
        ["2:1: error: 'schema' is no rule; its findings are always errors"],
    ),
    "inline table": ('levels = { a-b = "off" }', ["1:12: error: there is no rule 'a-b'"]),
    "no table": ("levels = 3", ["1:1: error: levels must be a table"]),
    "broken": ('fail-on = "error"\nlevels = ', ["2:10: error: no TOML: invalid value"]),
    "broken at the end": ('fail-on = "error', ["error: no TOML: unterminated string"]),
    "two at once": (
        'x = 1\n[levels]\ny = "off"',
        ["1:1: error: there is no setting 'x'", "3:1: error: there is no rule 'y'"],
    ),
    "control characters": ('"\\u001b[2J" = 1', ["1:1: error: there is no setting '\\x1b[2J'"]),
}


@pytest.mark.parametrize("case", WRONG.values(), ids=WRONG.keys())
def test_what_is_wrong_is_told_with_its_place(
    cli: Cli, tmp_path: Path, case: tuple[str, list[str]]
) -> None:
    text, expected = case
    (tmp_path / "regwright.toml").write_text(text)
    done = cli("check", _write(tmp_path))
    assert (done.returncode, done.stdout) == (2, "")
    lines = done.stderr.splitlines()
    assert len(lines) == len(expected), lines
    for line, start in zip(lines, expected, strict=True):
        assert line.startswith("regwright.toml:")
        assert start in line


def test_places_in_a_pyproject(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "pyproject.toml").write_text(
        '[project]\nfail-on = 1\n[tool.regwright]\nfail-on = "x"\nlevels.y = "off"\n'
        "[tool.z]\nx = 1\n"
    )
    inner = tmp_path / "inner"
    inner.mkdir()
    done = cli("check", _write(inner), cwd=inner)
    assert done.returncode == 2
    assert [line.partition(" ")[0] for line in done.stderr.splitlines()] == [
        "../pyproject.toml:4:11:",
        "../pyproject.toml:5:1:",
    ]


def test_settings_that_cannot_be_read(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "regwright.toml").write_bytes(b"x = '\xff'")
    done = cli("check", _write(tmp_path))
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "regwright.toml: error: is no UTF-8; save it as that\n"


def test_tomllib_is_not_loaded_without_settings(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "x"\n')
    name = _write(tmp_path)
    done = cli("check", name, env={"PYTHONPROFILEIMPORTTIME": "1"})
    assert "regwright.pipeline" in done.stderr
    for module in (
        "tomllib",
        "concurrent.futures",
        "multiprocessing",
        "regwright.reports",
        "regwright.audit",
        "regwright.code",
        "tree_sitter",
    ):
        assert f" {module}\n" not in done.stderr, module


def test_the_audit_is_loaded_for_the_names_of_its_rules_only(cli: Cli, tmp_path: Path) -> None:
    name = _write(tmp_path)
    settings = tmp_path / "regwright.toml"
    more = '\nnot-volatile = "off"'
    for text, is_loaded in (("", False), (more, True)):
        settings.write_text(f'fail-on = "error"\n[levels]\npage-missing = "off"{text}')
        done = cli("check", name, env={"PYTHONPROFILEIMPORTTIME": "1"})
        assert done.returncode == 0
        assert (" regwright.audit\n" in done.stderr) == is_loaded
        assert " tree_sitter\n" not in done.stderr
