"""``regwright audit`` as a user runs it.

The addresses are those of ``descriptions/sorrel14.xml``: I/O 0x18 is data 0x38 (OUT_B).
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from terminals import at_a_terminal

from conftest import DESCRIPTIONS, PACKAGES, Cli

SORREL14 = DESCRIPTIONS / "sorrel14.xml"
ERROR, WARNING = "io-address-behind-pointer", "macro-without-parentheses"

CLEAN = """\
#include <stdint.h>
#include "sorrel14.h"
void lamp(void) { OUT_B |= OUT_B_LED_MASK; }
"""
#: An error on line 2, a warning on line 3.
WRONG = """\
#include <stdint.h>
#define OUT_B (*(volatile uint8_t *)0x18)
#define OUT_B_LED_MASK 1 << 2
void lamp(void) { OUT_B |= OUT_B_LED_MASK; }
"""
FOUND = [("lamp.c", 2, 9, "error", ERROR), ("lamp.c", 3, 9, "warning", WARNING)]
END = "1 source, 1 error, 1 warning"


def _found(text: str) -> list[tuple[str, int, int, str, str]]:
    lines = re.findall(r"^(.*?):(\d+):(\d+): (\w+): .+ \[([a-z-]+)\]$", text, re.MULTILINE)
    return [(file, int(line), int(column), *rest) for file, line, column, *rest in lines]


@pytest.fixture
def lamp(tmp_path: Path) -> Path:
    path = tmp_path / "lamp.c"
    path.write_text(WRONG)
    return path


# What it says, and how it ends.


def test_clean(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "lamp.c").write_text(CLEAN)
    done = cli("audit", SORREL14, "lamp.c")
    assert (done.returncode, done.stdout, done.stderr) == (0, "1 source, no findings\n", "")


@pytest.mark.usefixtures("lamp")
def test_findings(cli: Cli) -> None:
    done = cli("audit", SORREL14, "lamp.c")
    assert (done.returncode, done.stderr) == (1, "")
    *lines, end = done.stdout.splitlines()
    assert _found(done.stdout) == FOUND
    assert len(lines) == len(FOUND)
    assert end == END
    assert "0x38" in lines[0]


def test_nothing_is_written_unless_asked(cli: Cli, lamp: Path) -> None:
    cli("audit", SORREL14, "lamp.c")
    cli("audit", SORREL14, "lamp.c", "--diff")
    assert [path.name for path in lamp.parent.iterdir()] == ["lamp.c"]
    assert lamp.read_text() == WRONG


def test_help_says_what_it_does_and_how_it_ends(cli: Cli) -> None:
    text = " ".join(cli("audit", "--help", env={"COLUMNS": "100"}).stdout.split())
    for words in ("no include is followed", "as one program", "Exits with 0", "standard input"):
        assert words in text
    for option in ("--fix", "--diff", "--use-header", "--uses", "--pedantic", "--fail-on"):
        assert option in text


@pytest.mark.parametrize("arguments", [[], [SORREL14], ["--fix", SORREL14], ["--nothing"]])
def test_usage_errors_end_with_2(cli: Cli, arguments: list[str | Path]) -> None:
    done = cli("audit", *arguments)
    assert done.returncode == 2
    assert "Usage: regwright audit" in done.stderr


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--fix", "--diff"], "--fix writes and --diff does not"),
        (["--diff", "--report", "json"], "--diff prints a patch and nothing else"),
        (["--diff", "--write-known", "k"], "--diff prints a patch and nothing else"),
        (["--report", "json", "--report", "sarif"], "only one report can go to standard output"),
        (["--output", "a", "--output", "b"], "2 --output, but only 1 --report"),
        (["--as", "c"], "--as is for standard input (-)"),
        (["--as", "ada"], "'ada' is not one of 'c', 'c++', 'assembler'"),
        (["--report", "xml"], "'xml' is not one of"),
    ],
)
def test_what_does_not_go_together(cli: Cli, lamp: Path, options: list[str], message: str) -> None:
    done = cli("audit", SORREL14, "lamp.c", *options)
    assert done.returncode == 2
    assert message in done.stderr
    assert lamp.read_text() == WRONG


# Which sources.


def test_a_folder_stands_for_the_sources_in_it(cli: Cli, tmp_path: Path) -> None:
    names = ["a.c", "b.h", "c.cpp", "d.S", "e.ino", "sub/f.hpp", "sub/sub/g.s", "x.C", "y.CC"]
    others = ["Makefile", "a.o", "b.h.orig", "notes.txt", ".hidden.c", ".git/z.c", "c", "sub/x.rs"]
    for name in names + others:
        path = tmp_path / "src" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("int x;\n" if not name.lower().endswith("s") else "\n")
    done = cli("audit", SORREL14, "src", "--uses", "--report", "json")
    assert json.loads(done.stdout)["sources"] == [f"src/{name}" for name in names]
    assert cli("audit", SORREL14, "src", "src/a.c").stdout == f"{len(names)} sources, no findings\n"


def test_a_folder_without_sources(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "src").mkdir()
    done = cli("audit", SORREL14, "src")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "regwright: src: no source (.c, .h, .cpp, .s, …) in this folder\n"


def test_a_file_with_any_name_is_read_as_c(cli: Cli, lamp: Path) -> None:
    lamp.rename(lamp.parent / "lamp.txt")
    done = cli("audit", SORREL14, "lamp.txt")
    assert _found(done.stdout) == [("lamp.txt", *rest) for _, *rest in FOUND]


def test_several_sources_are_one_program(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "base.h").write_text("#define BASE 0x00\n")
    (tmp_path / "pins.h").write_text("#define OUT_B (*(volatile unsigned char *)(BASE + 0x18))\n")
    together = cli("audit", SORREL14, "pins.h", "base.h")
    assert _found(together.stdout) == [("pins.h", 1, 9, "error", ERROR)]
    alone = cli("audit", SORREL14, "pins.h")
    assert (alone.returncode, alone.stdout) == (0, "1 source, no findings\n")


def test_findings_are_in_the_order_of_the_command_line(cli: Cli, lamp: Path) -> None:
    for name in ("b.c", "a.c"):
        (lamp.parent / name).write_text(WRONG.replace("OUT_B ", "IN_A ", 1))
    done = cli("audit", SORREL14, "b.c", "lamp.c", "a.c")
    files = [file for file, *_ in _found(done.stdout)]
    assert list(dict.fromkeys(files)) == ["b.c", "lamp.c", "a.c"]
    assert files == sorted(files, key=["b.c", "lamp.c", "a.c"].index)


# What cannot be read.


def _fifo(path: Path) -> None:
    os.mkfifo(path)


def _device(path: Path) -> None:
    path.symlink_to("/dev/zero")


def _unreadable(path: Path) -> None:
    path.symlink_to("/proc/self/mem")  # reading it fails for everybody, root too


def _circle(path: Path) -> None:
    path.symlink_to(path.name)


def _program(path: Path) -> None:
    path.write_bytes(b"\x7fELF\x02\x01\x01\0\0\0")


def _large(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate((64 << 20) + 1)


CANNOT = {
    "missing": (lambda _: None, "'x.c': cannot be read: No such file or directory"),
    "a pipe": (_fifo, "x.c: is no plain file; give a source or a folder of them"),
    "a device": (_device, "x.c: is no plain file; give a source or a folder of them"),
    "unreadable": (_unreadable, "'x.c': cannot be read: Input/output error"),
    "a link in a circle": (_circle, "'x.c': cannot be read: Too many levels of symbolic links"),
    "a program": (_program, "x.c: holds zero bytes, which no source does; is it a program?"),
    "too large": (_large, "x.c: is larger than 64 MiB; no source is"),
}


@pytest.mark.usefixtures("lamp")
@pytest.mark.parametrize("kind", CANNOT)
def test_what_cannot_be_read_is_told_and_the_rest_audited(
    cli: Cli, tmp_path: Path, kind: str
) -> None:
    make, says = CANNOT[kind]
    make(tmp_path / "x.c")
    done = cli("audit", SORREL14, "x.c", "lamp.c")
    assert done.returncode == 2
    assert done.stderr == f"regwright: {says}\n"
    assert _found(done.stdout) == FOUND
    assert done.stdout.endswith(f"{END}\n")
    alone = cli("audit", SORREL14, "x.c")
    assert (alone.returncode, alone.stdout) == (2, "no source was audited\n")


HARDLY = {
    "empty": b"",
    "an empty line": b"\n",
    "no text": b"\xff\xfe\xfd",
    "a byte-order mark": b"\xef\xbb\xbf",
    "half a directive": b"#",
    "half a text": b'"',
    "a backslash": b"\\",
}


@pytest.mark.parametrize("name", ["x.c", "x.cpp", "x.S"])
def test_sources_that_are_hardly_any(cli: Cli, tmp_path: Path, name: str) -> None:
    for number, data in enumerate(HARDLY.values()):
        (tmp_path / f"{number}{name}").write_bytes(data)
    done = cli("audit", SORREL14, ".")
    end = f"{len(HARDLY)} sources, no findings\n"
    assert (done.returncode, done.stdout, done.stderr) == (0, end, "")


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"/*", "this comment never ends: nothing behind it was looked at"),
        (b"#if\n" * 3000, "this conditional has no #endif"),
        (
            b"It was the best of times, it was the worst of times.",
            "most of this file is no C that could be understood; it was passed over",
        ),
    ],
)
def test_what_is_left_open_is_told_once(cli: Cli, tmp_path: Path, data: bytes, what: str) -> None:
    (tmp_path / "x.c").write_bytes(data)
    done = cli("audit", SORREL14, "x.c")
    place, _, told = done.stdout.partition(": warning: ")
    assert place.startswith("x.c:1:")
    assert told == f"{what} [not-understood]\n1 source, 1 warning\n"
    assert (done.returncode, done.stderr) == (1, "")


# The description.


@pytest.mark.usefixtures("lamp")
def test_a_description_with_an_error_is_told_and_nothing_is_audited(
    cli: Cli, tmp_path: Path
) -> None:
    text = SORREL14.read_text().replace(
        'address="io:0x18 data:0x38"', 'address="io:0x18 data:0x18"'
    )
    (tmp_path / "chip.xml").write_text(text)
    for options in ([], ["--fix"], ["--report", "json", "--output", "r.json"], ["--uses"]):
        done = cli("audit", "chip.xml", "lamp.c", *options)
        assert (done.returncode, done.stdout) == (1, "")
        *lines, end = done.stderr.splitlines()
        found = [rule for *_, level, rule in _found(done.stderr) if level == "error"]
        assert found == ["offset-not-added"]
        assert all(line.startswith("chip.xml:") for line in lines)
        assert end == "regwright: chip.xml: correct this description first; nothing was audited"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["chip.xml", "lamp.c"]
    assert (tmp_path / "lamp.c").read_text() == WRONG


@pytest.mark.usefixtures("lamp")
def test_a_description_that_is_none(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "chip.xml").write_text("<chip")
    done = cli("audit", "chip.xml", "lamp.c")
    assert (done.returncode, done.stdout) == (1, "")
    assert "[xml-syntax]" in done.stderr


@pytest.mark.usefixtures("lamp")
@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("gone.xml", "'gone.xml': cannot be read: No such file or directory"),
        (".", ".: is a folder; one description is wanted here"),
        ("-", "'-': cannot be read: No such file or directory"),
    ],
)
def test_a_description_that_cannot_be_read(cli: Cli, name: str, says: str) -> None:
    done = cli("audit", name, "lamp.c")
    assert (done.returncode, done.stdout, done.stderr) == (2, "", f"regwright: {says}\n")


def test_warnings_about_the_description_are_for_check(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "chip.json").write_text(
        '{"format": 1, "name": "one", "spaces": [{"name": "data", "size": "0x100"}],\n'
        '"registers": [{"name": "A", "address": "0x10", "page": 3},'
        ' {"name": "B", "address": "0x11"}]}\n'
    )
    (tmp_path / "a.c").write_text("#define A (*(volatile unsigned char *)0x11)\n")
    assert "warning" in cli("check", "chip.json").stdout
    done = cli("audit", "chip.json", "a.c")
    assert (done.returncode, done.stderr) == (1, "")
    assert [level for *_, level, _ in _found(done.stdout)] == ["error"]
    assert "0x10" in done.stdout


# Standard input.

#: One text in three languages: what is found in it tells how it was read.
SPOKEN = {
    "c": "void f(void) { *(volatile unsigned char *)0x18 = 1; }\n",
    "c++": "void f() { *reinterpret_cast<volatile unsigned char *>(0x18) = 1; }\n",
    "assembler": "        out 0x5F, r1\n",
}


@pytest.mark.parametrize("language", SPOKEN)
def test_standard_input_in_each_language(cli: Cli, language: str) -> None:
    done = cli("audit", SORREL14, "-", "--as", language, stdin=SPOKEN[language])
    assert (done.returncode, done.stderr) == (1, "")
    assert [(file, line, level) for file, line, _, level, _ in _found(done.stdout)] == [
        ("<stdin>", 1, "error")
    ]
    assert done.stdout.endswith("1 source, 1 error\n")
    assert cli("audit", SORREL14, "-", stdin=SPOKEN["c"]).returncode == 1
    assert cli("audit", SORREL14, "-", stdin=SPOKEN["assembler"]).returncode == 0


def test_standard_input_among_files(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "base.h").write_text("#define BASE 0x18\n")
    text = "#define OUT_B (*(volatile unsigned char *)BASE)\n"
    done = cli("audit", SORREL14, "base.h", "-", "-", stdin=text)
    assert done.returncode == 1
    assert done.stdout.endswith("2 sources, 1 error\n")
    assert cli("audit", SORREL14, "-", stdin="").stdout == "1 source, no findings\n"


def test_standard_input_that_is_closed_too_large_or_no_text(tmp_path: Path) -> None:
    def run(more: str) -> subprocess.CompletedProcess[str]:
        command = f'"{sys.executable}" -m regwright audit "{SORREL14}" - {more}'
        env = {**os.environ, "PYTHONPATH": PACKAGES}
        return subprocess.run(
            ["sh", "-c", command],
            cwd=tmp_path,
            env=env,
            capture_output=True,
            text=True,
            check=False,
        )

    for more, says in (
        ("<&-", "<stdin>: standard input is closed"),
        ("</dev/zero", "<stdin>: is larger than 64 MiB; no source is"),
        (
            f'<"{sys.executable}"',
            "<stdin>: holds zero bytes, which no source does; is it a program?",
        ),
    ):
        done = run(more)
        assert (done.returncode, done.stderr) == (2, f"regwright: {says}\n"), more


def test_fix_cannot_write_to_standard_input(cli: Cli) -> None:
    done = cli("audit", SORREL14, "-", "--fix", stdin=WRONG)
    assert done.returncode == 2
    assert "--fix cannot write to standard input" in done.stderr


# Settings.


def test_fail_on(cli: Cli, lamp: Path) -> None:
    warning = WRONG.replace("0x18", "0x38")
    for text, codes in ((WRONG, (1, 1, 1)), (warning, (0, 1, 1))):
        lamp.write_text(text)
        for level, code in zip(("error", "warning", "note"), codes, strict=True):
            assert cli("audit", SORREL14, "lamp.c", "--fail-on", level).returncode == code
    assert cli("audit", SORREL14, "lamp.c").returncode == 1
    (lamp.parent / "regwright.toml").write_text('fail-on = "error"\n')
    assert cli("audit", SORREL14, "lamp.c").returncode == 0
    assert cli("audit", SORREL14, "lamp.c", "--fail-on", "warning").returncode == 1


def test_levels(cli: Cli, lamp: Path) -> None:
    settings = lamp.parent / "regwright.toml"
    settings.write_text(f'[levels]\n{ERROR} = "note"\n{WARNING} = "error"\n')
    done = cli("audit", SORREL14, "lamp.c")
    assert [level for *_, level, _ in _found(done.stdout)] == ["note", "error"]
    assert done.returncode == 1
    settings.write_text(f'[levels]\n{ERROR} = "note"\n{WARNING} = "off"\n')
    done = cli("audit", SORREL14, "lamp.c")
    assert (done.returncode, _found(done.stdout)[0][3]) == (0, "note")
    assert done.stdout.endswith("1 source, 1 note\n")
    # a rule for descriptions is no mistake here, and one for sources none there
    settings.write_text(f'[levels]\npage-missing = "off"\n{ERROR} = "off"\n')
    assert cli("audit", SORREL14, "lamp.c").stdout.endswith("1 source, 1 warning\n")
    assert cli("check", SORREL14).returncode == 0


def test_a_rule_that_is_off_repairs_nothing(cli: Cli, lamp: Path) -> None:
    (lamp.parent / "regwright.toml").write_text(f'[levels]\n{ERROR} = "off"\n')
    done = cli("audit", SORREL14, "lamp.c", "--fix")
    assert done.stdout == "1 source, no findings; 1 repaired\n"
    assert lamp.read_text() == WRONG.replace("1 << 2", "(1 << 2)")


@pytest.mark.usefixtures("lamp")
def test_a_level_of_a_rule_that_is_nearly_one(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "regwright.toml").write_text('[levels]\nnot-volatil = "off"\n')
    done = cli("audit", SORREL14, "lamp.c")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "regwright.toml:2:1: error: there is no rule 'not-volatil'; did you mean 'not-volatile'?\n"
    )


# What means nothing on the chip is counted.

#: Two addresses of no register (SRAM from 0x60 on), one name that does not tell its register.
MEANINGLESS = """\
#define BUFFER (*(volatile unsigned char *)0x70)
#define LATCH (*(volatile unsigned char *)0x38)
void f(void) { *(volatile unsigned char *)0x71 = 1; BUFFER = 2; LATCH = 4; }
"""
COUNT = "2 addresses and 1 name mean nothing on the chip (--pedantic lists them)"


def test_what_means_nothing_is_counted(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_text(MEANINGLESS)
    done = cli("audit", SORREL14, "a.c")
    assert (done.returncode, done.stdout) == (0, f"1 source, no findings; {COUNT}\n")
    (tmp_path / "b.c").write_text(WRONG)
    assert cli("audit", SORREL14, "a.c", "b.c").stdout.splitlines()[-1] == (
        f"2 sources, 1 error, 1 warning; {COUNT}"
    )
    done = cli("audit", SORREL14, "a.c", "b.c", "--fix")
    assert done.stdout == f"2 sources, no findings; 2 repaired; {COUNT}\n"


def test_pedantic_lists_what_else_is_counted(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_text(MEANINGLESS)
    done = cli("audit", SORREL14, "a.c", "--pedantic")
    assert done.returncode == 0
    assert _found(done.stdout) == [
        ("a.c", 1, 9, "note", "address-hits-nothing"),
        ("a.c", 2, 9, "note", "name-means-nothing"),
        ("a.c", 3, 16, "note", "address-hits-nothing"),
    ]
    assert done.stdout.splitlines()[-1] == "1 source, 3 notes"
    assert cli("audit", SORREL14, "a.c", "--pedantic", "--fail-on", "note").returncode == 1


@pytest.mark.parametrize(
    ("line", "says"),
    [
        (0, "1 address means nothing on the chip (--pedantic lists it)"),
        (1, "1 name means nothing on the chip (--pedantic lists it)"),
    ],
)
def test_the_count_of_one(cli: Cli, tmp_path: Path, line: int, says: str) -> None:
    (tmp_path / "a.c").write_text(MEANINGLESS.splitlines(keepends=True)[line])
    assert cli("audit", SORREL14, "a.c").stdout == f"1 source, no findings; {says}\n"


def test_the_count_leaves_out_what_is_off_or_silenced(cli: Cli, tmp_path: Path) -> None:
    quiet = "/* regwright: silence name-means-nothing it is what it drives */\n#define LATCH"
    (tmp_path / "a.c").write_text(MEANINGLESS.replace("#define LATCH", quiet))
    says = "2 addresses mean nothing on the chip (--pedantic lists them)"
    done = cli("audit", SORREL14, "a.c")
    assert (done.returncode, done.stdout) == (0, f"1 source, no findings; {says}\n")
    (tmp_path / "regwright.toml").write_text('[levels]\naddress-hits-nothing = "off"\n')
    assert cli("audit", SORREL14, "a.c").stdout == "1 source, no findings\n"


def test_reports_have_the_count_where_people_read_them(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "a.c").write_text(MEANINGLESS)
    for name in ("text", "markdown", "html"):
        text = cli("audit", SORREL14, "a.c", "--report", name).stdout
        assert COUNT in text, name


# Known findings and reports.


def test_known_findings(cli: Cli, lamp: Path) -> None:
    done = cli("audit", SORREL14, "lamp.c", "--write-known", "known.json")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[-1] == f"{END}; known.json accepts them"
    done = cli("audit", SORREL14, "lamp.c", "--known", "known.json")
    assert (done.returncode, done.stdout, done.stderr) == (0, "1 source, no findings\n", "")
    lamp.write_text("\n\n" + WRONG + "#define IN_B (*(unsigned char *)0x39)\n")
    done = cli("audit", SORREL14, "lamp.c", "--known", "known.json")
    assert [rule for *_, rule in _found(done.stdout)] == ["not-volatile"]
    lamp.write_text(CLEAN)
    done = cli("audit", SORREL14, "lamp.c", "--known", "known.json")
    assert done.returncode == 0
    assert done.stderr.count("is found no more") == 2


@pytest.mark.usefixtures("lamp")
def test_reports_go_where_they_are_wanted(cli: Cli, tmp_path: Path) -> None:
    reports = ["--report", "sarif", "--report", "junit", "--report", "text"]
    done = cli("audit", SORREL14, "lamp.c", *reports, "--output", "a.sarif", "--output", "b.xml")
    assert done.returncode == 1
    assert _found(done.stdout) == FOUND
    assert json.loads((tmp_path / "a.sarif").read_text())["runs"][0]["results"]
    assert "<testsuites" in (tmp_path / "b.xml").read_text()
    done = cli("audit", SORREL14, "lamp.c", "gone.c", "--report", "json")
    assert done.returncode == 2
    made = json.loads(done.stdout)
    assert [item["rule"] for item in made["findings"]] == [ERROR, WARNING]
    assert made["unreadable"][0]["file"] == "gone.c"


@pytest.mark.parametrize("option", ["--write-known", "--output"])
def test_no_report_takes_the_place_of_what_was_read(cli: Cli, lamp: Path, option: str) -> None:
    chip = lamp.parent / "chip.xml"
    chip.write_bytes(SORREL14.read_bytes())
    (lamp.parent / "link.c").symlink_to("lamp.c")
    for name, what in (("lamp.c", "source"), ("link.c", "source"), ("./chip.xml", "description")):
        done = cli("audit", "chip.xml", "lamp.c", option, name)
        assert done.returncode == 2
        assert done.stderr == f"regwright: {name}: is a {what}, no place for a report\n"
    assert lamp.read_text() == WRONG
    assert chip.read_bytes() == SORREL14.read_bytes()


# At a terminal.


def test_colour(lamp: Path) -> None:
    shown = at_a_terminal(lamp.parent, "audit", str(SORREL14), "lamp.c", NO_COLOR="")
    assert "\x1b[31m\x1b[1merror:\x1b[0m" in shown
    assert "\x1b[33m\x1b[1mwarning:\x1b[0m" in shown
    assert "auditing" not in shown


@pytest.mark.parametrize("env", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_no_colour_when_not_wanted(lamp: Path, env: dict[str, str]) -> None:
    shown = at_a_terminal(lamp.parent, "audit", str(SORREL14), "lamp.c", **env)
    assert "\x1b[3" not in shown
    assert "error:" in shown


@pytest.mark.usefixtures("lamp")
def test_no_colour_in_a_pipe(cli: Cli) -> None:
    assert "\x1b" not in cli("audit", SORREL14, "lamp.c", env={"TERM": "xterm"}).stdout


#: Runs the command line with an audit that takes as long as a large program does.
SLOW = """
import sys, time
from regwright.cli import auditing, main
made = auditing.outcomes
def slow(*arguments):
    time.sleep(1.5)
    return made(*arguments)
auditing.outcomes = slow
sys.argv = ["regwright", *sys.argv[1:]]
main()
"""


@pytest.mark.parametrize("options", [[], ["--uses"]])
def test_what_takes_over_a_second_is_told(tmp_path: Path, options: list[str]) -> None:
    for number in range(12):
        (tmp_path / f"f{number}.c").write_text("int x;\n")
    arguments = ["audit", str(SORREL14), ".", *options]
    shown = at_a_terminal(tmp_path, *arguments, program=("-c", SLOW))
    before, _, after = shown.partition("auditing 12 sources")
    assert before == ""
    assert after.startswith("\r\x1b[K")
    assert "12 sources" in after
    assert "auditing" not in at_a_terminal(tmp_path, *arguments)


@pytest.mark.parametrize("name", ["a\x1b[2J.c", "a\udcff.c", "a\n.c"])
def test_names_of_files_cannot_move_the_cursor(cli: Cli, tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_text(WRONG)
    for report in ("text", "json", "sarif", "junit", "html", "markdown"):
        done = cli("audit", SORREL14, ".", "--report", report)
        assert done.returncode == 1
        assert "\x1b" not in done.stdout
        assert report != "text" or len(_found(done.stdout)) == 2
