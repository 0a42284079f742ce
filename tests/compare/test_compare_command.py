"""``regwright compare`` as a user runs it: what it prints and writes, and how it ends."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from compare_runs import pump_new, pump_old
from small_chips import Tree, field, register

from conftest import DESCRIPTIONS, PACKAGES, Cli
from regwright.cli.compare import CATEGORIES, REPORT_NAMES
from regwright.compare import changes
from regwright.reports.compare_forms import FORMS

SORREL14, SORREL40 = DESCRIPTIONS / "sorrel14.xml", DESCRIPTIONS / "sorrel40.json"


@pytest.fixture
def pumps(tmp_path: Path) -> Path:
    """Return a folder with the two pumps, ``old.json`` and ``new.json``."""
    for name, tree in (("old", pump_old()), ("new", pump_new())):
        (tmp_path / f"{name}.json").write_text(json.dumps(tree))
    return tmp_path


def write(folder: Path, name: str, tree: Tree) -> None:
    (folder / name).write_text(json.dumps(tree))


def test_words_of_the_options_are_those_of_the_packages() -> None:
    assert changes.CATEGORIES == CATEGORIES
    assert tuple(FORMS) == REPORT_NAMES


@pytest.mark.parametrize("arguments", [["--help"], ["compare", "--help"]])
def test_help_loads_no_comparison(arguments: list[str]) -> None:
    program = (
        "import sys\nfrom regwright.cli import main\n"
        f"sys.argv = ['regwright', *{arguments!r}]\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print([m for m in sys.modules if m.startswith(('regwright.compare', "
        "'regwright.reports', 'regwright.read.description'))], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": PACKAGES},
    )
    assert done.stderr.strip() == "[]"


def test_what_no_chip_describes_is_not_loaded(tmp_path: Path) -> None:
    """The modules for memories, settings, clocks and pins cost nothing where there are none."""
    write(tmp_path, "old.json", pump_old())
    write(tmp_path, "new.json", pump_new())
    program = (
        "import sys\nfrom regwright.cli import main\n"
        "sys.argv = ['regwright', 'compare', 'old.json', 'new.json', '--stat']\n"
        "try:\n    main()\nexcept SystemExit:\n    pass\n"
        "print(*sorted(sys.modules), file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        check=True,
        env={"PYTHONPATH": PACKAGES},
        cwd=tmp_path,
    )
    loaded = set(done.stderr.split())
    subjects = "memory", "vector", "configuration", "setting", "clock", "pin", "build"
    assert "regwright.compare.rest_facts" in loaded
    assert loaded.isdisjoint(f"regwright.compare.{subject}_facts" for subject in subjects)
    assert loaded.isdisjoint(("regwright.clock", "regwright.configuration"))


def test_a_line_for_each_change_and_exit_1(cli: Cli) -> None:
    done = cli("compare", SORREL14, SORREL40, "--only", "effects,fields", "--only", "order")
    lines = done.stdout.splitlines()
    assert (done.returncode, done.stderr) == (1, "")
    assert "OUT_B.LED           bits          2 → 7" in lines
    flag = "WATCHDOG.FLAG       when written  cleared by writing 0 → cleared by writing 1"
    assert flag in lines
    assert lines[-1] == "sorrel14 against sorrel40: 17 changes: 1 effect, 16 fields"
    assert len(lines) == 18


def test_nothing_differs_and_exit_0(cli: Cli, tmp_path: Path) -> None:
    spelled = tmp_path / "other.json"
    assert cli("convert", SORREL14, spelled).returncode == 0
    done = cli("compare", SORREL14, spelled)
    assert (done.returncode, done.stdout) == (0, f"{SORREL14} against {spelled}: no changes\n")


def test_exit_0_when_only_what_is_ignored_differs(cli: Cli, tmp_path: Path) -> None:
    one = pump_old()
    write(tmp_path, "a.json", one)
    write(tmp_path, "b.json", {**one, "notes": "Other words"})
    assert cli("compare", "a.json", "b.json").returncode == 1
    done = cli("compare", "a.json", "b.json", "--ignore", "documentation")
    assert (done.returncode, done.stdout) == (0, "a.json against b.json: no such changes\n")
    assert cli("compare", "a.json", "b.json", "--only", "addresses,fields").returncode == 0


def test_stat_is_the_last_line_alone(cli: Cli) -> None:
    done = cli("compare", SORREL14, SORREL40, "--stat")
    lines = cli("compare", SORREL14, SORREL40).stdout.splitlines()
    assert (done.returncode, done.stdout) == (1, f"{lines[-1]}\n")
    assert lines[-1].startswith(f"sorrel14 against sorrel40: {len(lines) - 1} changes: ")


def test_the_way_back(cli: Cli) -> None:
    """The same number of lines, each with its sides swapped."""
    there = cli("compare", SORREL14, SORREL40, "--only", "fields").stdout.splitlines()[:-1]
    back = cli("compare", SORREL40, SORREL14, "--only", "fields").stdout.splitlines()[:-1]
    swapped = []
    for line in back:
        name, what, *sides = line.split()
        before, after = " ".join(sides).split(" → ")
        swapped.append([name, what, after, "→", before])
    assert sorted(swapped) == sorted(line.split() for line in there)


def test_reports_and_files(cli: Cli, tmp_path: Path) -> None:
    wanted = [("json", "c.json"), ("html", "c.html"), ("markdown", "c.md"), ("text", "-")]
    options = [part for form, file in wanted for part in ("--report", form)]
    options += [part for _, file in wanted for part in ("--output", file)]
    done = cli("compare", SORREL14, SORREL40, *options)
    assert done.returncode == 1
    assert done.stdout == cli("compare", SORREL14, SORREL40).stdout
    assert (
        json.loads((tmp_path / "c.json").read_bytes())["total"] == len(done.stdout.splitlines()) - 1
    )
    assert (tmp_path / "c.html").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    markdown = cli("compare", SORREL14, SORREL40, "--report", "markdown").stdout
    assert (tmp_path / "c.md").read_text(encoding="utf-8") == markdown


def test_matches_are_written_corrected_and_read(cli: Cli, pumps: Path) -> None:
    """The counter of strokes is found by its title; the user says that it is another register."""
    done = cli("compare", "old.json", "new.json", "--only", "names", "--write-match", "m.json")
    assert "CNT    name  CNT → STROKES (probably: same title)" in done.stdout
    data = json.loads((pumps / "m.json").read_bytes())
    entry = next(item for item in data["matches"] if item["a"] == "CNT")
    assert (entry["b"], entry["why"]) == ("STROKES", "title")
    again = cli("compare", "old.json", "new.json", "--only", "names", "--match", "m.json")
    assert "CNT    name  CNT → STROKES\n" in again.stdout
    entry["forbid"] = True
    (pumps / "m.json").write_text(json.dumps({"format": 1, "matches": [entry]}))
    other = cli("compare", "old.json", "new.json", "--only", "presence,names", "--match", "m.json")
    assert "STROKES" in other.stdout
    assert "→ STROKES" not in other.stdout


def test_a_match_file_that_is_wrong(cli: Cli, pumps: Path) -> None:
    (pumps / "m.json").write_text('{"format": 1, "matches": [{"a": "CNTT", "b": "STROKES"}]}')
    done = cli("compare", "old.json", "new.json", "--match", "m.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("m.json:1:")
    assert "has no CNTT" in done.stderr


def test_a_description_with_an_error_is_not_compared(cli: Cli, tmp_path: Path) -> None:
    """1 would say that the two differ, which nobody knows."""
    bad = register("R", 0x9999)
    write(tmp_path, "bad.json", {**pump_old(), "registers": [bad]})
    write(tmp_path, "good.json", pump_old())
    for arguments in (("bad.json", "good.json"), ("good.json", "bad.json")):
        done = cli("compare", *arguments)
        assert (done.returncode, done.stdout) == (2, "")
        assert "bad.json:1:" in done.stderr
        assert "error: " in done.stderr
        last = "regwright: bad.json: correct this description first; nothing was compared"
        assert done.stderr.splitlines()[-1] == last
    both = cli("compare", "bad.json", "bad.json")
    assert both.stderr.count("correct this description first") == 2


def test_what_is_no_error_is_no_obstacle(cli: Cli, tmp_path: Path) -> None:
    on = {"name": "ON", "value": 1}
    doubtful = field("F", "1:0", values=[on], valuesComplete=True)
    registers = [register("R", 0x60, fields=[doubtful])]
    write(tmp_path, "a.json", {**pump_old(), "registers": registers})
    assert ": warning: " in cli("check", "a.json").stdout
    assert cli("compare", "a.json", "a.json").returncode == 0


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--only", "field"], "there is no category 'field'; did you mean fields?"),
        (["--only", "fields,"], "there is no category ''"),
        (["--ignore", "zzz"], "there is no category 'zzz'; there are presence, names"),
        (["--only", "fields", "--ignore", "fields"], "leaves out all that --only asks for"),
        (["--stat", "--report", "json"], "--stat prints a line and nothing else"),
        (["--report", "json", "--report", "html"], "only one report can go to standard output"),
        (["--output", "x", "--output", "y"], "2 --output, but only 1 --report"),
    ],
)
def test_usage_errors(cli: Cli, arguments: list[str], words: str) -> None:
    done = cli("compare", SORREL14, SORREL40, *arguments)
    assert (done.returncode, done.stdout) == (2, "")
    assert words in " ".join(done.stderr.split())


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("gone.json", "'gone.json': cannot be read: No such file"),
        (".", "is a folder"),
        ("-", "'-'"),
    ],
)
def test_what_cannot_be_read(cli: Cli, name: str, words: str) -> None:
    done = cli("compare", SORREL14, name)
    assert (done.returncode, done.stdout) == (2, "")
    assert words in done.stderr


@pytest.mark.parametrize("option", ["--output", "--write-match"])
def test_no_description_is_written_over(cli: Cli, pumps: Path, option: str) -> None:
    before = (pumps / "new.json").read_bytes()
    done = cli("compare", "old.json", "new.json", option, "./new.json")
    assert (done.returncode, done.stdout) == (2, "")
    assert "is a description, no place for a report" in done.stderr
    assert (pumps / "new.json").read_bytes() == before


def test_settings_of_the_project_decide_what_is_an_error(cli: Cli, tmp_path: Path) -> None:
    """A name that C cannot use is an error, unless the project says otherwise."""
    write(tmp_path, "a.json", {**pump_old(), "registers": [register("T.1", 0x60)]})
    write(tmp_path, "b.json", {**pump_old(), "registers": [register("T.1", 0x61)]})
    assert cli("compare", "a.json", "b.json").returncode == 2
    (tmp_path / "regwright.toml").write_text('[levels]\nname-not-identifier = "warning"\n')
    done = cli("compare", "a.json", "b.json", "--only", "addresses")
    assert done.returncode == 1
    assert "T.1  data address  0x60 → 0x61\n" in done.stdout
