"""Templates of the user's that are wrong, curious or greedy."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from hostile_chips import as_bytes, files_below, run_here, write_chip

from conftest import ROOT, Cli
from regwright.render import sandbox
from regwright.render.templates import TEMPLATE_LIMIT

NO_FILE = "a template may not read another file ("
MEMORY = "the template needs more than 512 MiB of memory"
DOUBLED = (
    "{% set n = namespace(a=7) %}\n{% for i in range(60) %}{% set n.a = n.a OP n.a %}{% endfor %}"
)

#: A template, the line and the column of what is wrong, and what the message says of it.
WRONG: dict[str, tuple[str | bytes, str, str]] = {
    "undefined": ("line\n{{ nothing }}\n", "2:1", "'nothing' is undefined"),
    "undefined, other line ends": ("a\r\n\r\n{{ nothing }}", "3:1", "'nothing' is undefined"),
    "syntax": ("a\nb\n{% if %}\n", "3:1", "Expected an expression"),
    "no end": ("a\n{% for x in [] %}\n", "2:1", "Unexpected end of template"),
    "unknown tag": ("\n{% do x %}", "2:1", "Encountered unknown tag 'do'"),
    "unknown filter": ("\n{{ 1 | nothing }}", "2:1", "No filter named 'nothing'"),
    "attribute": ("a\n{{ chip.nope }}", "2:1", "has no attribute 'nope'"),
    "call": ("a\n{{ chip.name() }}", "2:1", "'str' object is not callable"),
    "types": ("a\n{{ 'a' ** 2 }}", "2:1", "unsupported operand type"),
    "division": ("a\n{{ 1 / 0 }}", "2:1", "division by zero"),
    "mro": ("{{ ''.__class__.__mro__ }}", "1:1", "access to attribute '__class__' of 'str' obj"),
    "class of the chip": ("\n{{ chip.__class__ }}", "2:1", "access to attribute '__class__'"),
    "by item": ("\n{{ chip['__class__'] }}", "2:1", "access to attribute '__class__'"),
    "by filter": ("\n{{ ''|attr('__class__') }}", "2:1", "access to attribute '__class__'"),
    "by format": ("\n{{ '{0.__class__}'.format('') }}", "2:1", "access to attribute '__class__'"),
    "by function": ("\n{{ cycler.__init__.__globals__ }}", "2:1", "access to attribute '__init__'"),
    "change": ("{% set chip.name = 'x' %}", "1:1", "cannot assign attribute"),
    "change of a list": ("\n{{ chip.registers.clear() }}", "2:1", "access to attribute 'clear'"),
    "include": ("x\n{% include '/etc/passwd' %}", "2:1", NO_FILE + "/etc/passwd); put its text"),
    "include, if there": ("x\n{% include 'a' ignore missing %}", "2:1", NO_FILE + "a)"),
    "import": ("x\n{% import 'os' as os %}", "2:1", NO_FILE + "os)"),
    "import from": ("{% from 'os' import x %}", "1:1", NO_FILE + "os)"),
    "extends": ("\n{% extends '/etc/passwd' %}", "2:1", NO_FILE + "/etc/passwd)"),
    "import alone": ("\n{% import %}", "2:1", "unexpected 'end of statement block'"),
    "repetition": ("x\n{{ 'a' * 10**9 }}", "2:1", "a repetition is too long"),
    "repetition, turned": ("x\n{{ 10**9 * 'a' }}", "2:1", "a repetition is too long"),
    "repeated list": ("x\n{{ [0] * 10**9 }}", "2:1", "a repetition is too long"),
    "repetitions": (
        "x\n{% for i in range(100000) %}{% set x = 'a' * 6000000 %}{% endfor %}",
        "2:1",
        "the sums and repetitions of the template make too much text",
    ),
    "power": ("x\n{{ 2 ** (10 ** 9) }}", "2:1", "a power is too large"),
    "powers": ("x\n{{ 2**10**9**99 }}", "2:1", "a power is too large"),
    "products": (DOUBLED.replace("OP", "*"), "2:1", "a product is too large"),
    "sums": (DOUBLED.replace("OP", "+").replace("7", "'a'"), "2:1", "a sum of texts or lists is"),
    "range": ("x\n{% for i in range(10**9) %}{% endfor %}", "2:1", "Range too big"),
    "format": ("x\n{{ '%1000000000d' % 1 }}", "2:1", "a width in a format is too large"),
    "format by value": ("x\n{{ '%*d' % (1000000000, 1) }}", "2:1", "a width in a format is too"),
    "long number": ("x\n{{ 1" + "0" * 5000 + " }}", "1:1", "a number has too many digits"),
    "recursion": (
        "\n{% macro m() %}{{ m() }}{% endmacro %}{{ m() }}",
        "2:1",
        "the template calls itself without end, or is nested too deeply",
    ),
    "nesting": (
        "{{ " + "(" * 3000 + "1" + ")" * 3000 + " }}",
        "1:1",
        "the template calls itself without end, or is nested too deeply",
    ),
    "output": (
        "x\n{% for i in range(10000) %}\n{{ 'a' * 100000 }}\n{% endfor %}",
        "3:1",
        "the output is longer than 64 MiB",
    ),
    "half a pair": ("x\n{{ '\\ud800' }}", "2:1", "half of a surrogate pair is no text; write"),
    "no UTF-8": (b"ok\nx\xe9\n", "2:2", "byte 0xE9 is no UTF-8; save the template as UTF-8"),
    "binary": (bytes(range(256)), "2:118", "byte 0x80 is no UTF-8; save the template as UTF-8"),
}


@pytest.mark.parametrize("name", WRONG)
def test_wrong_template(tmp_path: Path, name: str) -> None:
    text, place, says = WRONG[name]
    write_chip(tmp_path)
    (tmp_path / "my.h.j2").write_bytes(as_bytes(text))
    start = time.monotonic()
    result = run_here(tmp_path, "emit", "c.json", "--template", "header", "--template", "my.h.j2")
    assert time.monotonic() - start < 5
    assert result.exit_code == 2
    assert result.output.startswith(f"regwright: my.h.j2:{place}: error: ")
    assert says in result.output
    assert result.output.count("\n") == 1
    assert files_below(tmp_path) == {"c.json", "my.h.j2"}


#: What takes memory or time in places that jinja2 does not let us look at beforehand.
GREEDY = {
    "center": ("\n{{ 'a' | center(1000000000) }}", MEMORY),
    "ljust": ("\n{{ 'a'.ljust(1000000000) }}", MEMORY),
    "format": ("\n{{ '{:>1000000000}'.format(1) }}", MEMORY),
    "format filter": ("\n{{ '%1000000000d' | format(1) }}", MEMORY),
    "join": ("\n{{ range(100000) | join('a' * 10000000) }}", MEMORY),
    "replace": ("\n{{ ('a' * 10000) | replace('a', 'b' * 10000000) }}", MEMORY),
    "doubling": (DOUBLED.replace("OP", "~"), MEMORY),
    "batch": ("\n{{ [1] | batch(1000000000, 0) | list | length }}", MEMORY),
}


@pytest.mark.parametrize("name", GREEDY)
def test_greedy_template(cli: Cli, tmp_path: Path, name: str) -> None:
    text, says = GREEDY[name]
    write_chip(tmp_path)
    (tmp_path / "my.h.j2").write_text(text)
    done = cli("emit", "c.json", "--template", "my.h.j2", timeout=20)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == f"regwright: my.h.j2:2:1: error: {says}\n"
    assert files_below(tmp_path) == {"c.json", "my.h.j2"}


LOOP = "{% for i in range(99999) %}"
ENDLESS = {
    "loops": "\n" + LOOP * 3 + "{% endfor %}" * 3,
    "slice": "\n{{ [1] | slice(1000000000) | list | length }}",
    "lipsum": "\n{{ lipsum(n=10000000) }}",
}


@pytest.mark.parametrize("name", ENDLESS)
def test_endless_template(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    monkeypatch.setattr(sandbox, "MOST_STEPS", 100_000)
    write_chip(tmp_path)
    (tmp_path / "my.h.j2").write_text(ENDLESS[name])
    result = run_here(tmp_path, "emit", "c.json", "--template", "my.h.j2")
    assert result.exit_code == 2
    says = "my.h.j2:2:1: error: the template runs on and on (over 100,000 steps)"
    assert result.output == f"regwright: {says}\n"
    assert files_below(tmp_path) == {"c.json", "my.h.j2"}


def test_endless_template_ends_within_seconds(cli: Cli, tmp_path: Path) -> None:
    write_chip(tmp_path)
    (tmp_path / "my.h.j2").write_text(ENDLESS["loops"])
    done = cli("emit", "c.json", "--template", "my.h.j2", timeout=40)
    assert (done.returncode, done.stdout) == (2, "")
    assert "my.h.j2:2:1: error: the template runs on and on (over 20,000,000 st" in done.stderr


@pytest.mark.parametrize("name", ["missing.j2", "folder", "/dev/null", "", "c\0d", "x" * 5000])
def test_no_such_template(tmp_path: Path, name: str) -> None:
    write_chip(tmp_path)
    (tmp_path / "folder").mkdir()
    result = run_here(tmp_path, "emit", "c.json", "--template", name)
    assert result.exit_code == 2
    assert "no such template; give a file, or one of header, check, report" in result.output
    assert len(result.output) < 400
    assert files_below(tmp_path) == {"c.json", "folder"}


def test_large_template(tmp_path: Path) -> None:
    write_chip(tmp_path)
    (tmp_path / "my.j2").write_text("x" * (TEMPLATE_LIMIT + 1))
    result = run_here(tmp_path, "emit", "c.json", "--template", "my.j2")
    assert result.exit_code == 2
    says = "regwright: my.j2: the template is larger than 1,048,576 bytes\n"
    assert result.output == says


@pytest.mark.parametrize("name", ["a\\b.j2", "c:d.j2"])
def test_template_whose_output_has_no_name(tmp_path: Path, name: str) -> None:
    write_chip(tmp_path)
    (tmp_path / name).write_text("x")
    result = run_here(tmp_path, "emit", "c.json", "--template", name)
    assert result.exit_code == 2
    assert "is no name for a file (letters are safe); choose another" in result.output
    assert files_below(tmp_path) == {"c.json", name}


def test_harmless_templates(tmp_path: Path) -> None:
    write_chip(tmp_path)
    own = (ROOT / "templates" / "header.h.j2").read_text()
    (tmp_path / "own.h.j2").write_text(own)
    (tmp_path / "sums.txt.j2").write_text(
        "{{ 2 ** 32 }} {{ 'ab' * 3 }} {{ '%04X' % 255 }} {{ 2**-1 }}\n"
    )
    result = run_here(
        tmp_path, "emit", "c.json", "--template", "own.h.j2", "--template", "sums.txt.j2"
    )
    assert result.exit_code == 0
    assert run_here(tmp_path, "emit", "c.json").exit_code == 0
    out = tmp_path / "out"
    assert (out / "c_own.h").read_text() == (out / "c.h").read_text()
    assert (out / "c_sums.txt").read_text() == "4294967296 ababab 00FF 0.5\n"
