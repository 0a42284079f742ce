"""Texts made to break out of the comment, table or line that they are put in."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from typing import Any

import pytest
from hostile_chips import chip, run_here, write_chip

from conftest import Compile

#: What must not make a difference. The schema forbids line breaks in these.
LINES = {
    "end of a comment": "*/ #define EVIL 1 /*",
    "end after many": "***/**/*//*/ int evil; /",
    "start of a comment": "/* // /*/",
    "backslash at the end": "a\\",
    "backslashes": "\\\\ \\*\\/ \\",
    "trigraph backslash": "a ??/",
    "trigraphs": "???/ ??????/ *??/",
    "trigraph in the end": "*?",
    "directions": "\u202e*/ evil \u2066/*\u2069 \u200f",
    "line separators": "a\u2028#define EVIL 1\u2029#define EVIL 2\x85#define EVIL 3",
    "not ASCII": "zażółć 漢字 😀 \u00a0 \u200b \ufeff",
    "template": "{{ chip }} {% raw %} {# #}",
    "format": "%s %n %1000000000d {0} {name}",
    "quotes": "\" ' `",
    "star": "*",
    "slash": "/",
    "long": "*/" * 100,
}
STARTS = ("#define EVIL 1", "*/", "/", "\\", "??/", "*/ #error evil", "", " */ /* ")


def everywhere(text: str, notes: str) -> dict[str, Any]:
    """Return a description that says ``text`` wherever the format takes a line of text."""
    value = {"name": "ON", "value": 1, "title": text}
    field = {"name": "F", "bits": "2:1", "title": text, "notes": notes, "values": [value]}
    flag = {"name": "W", "bits": 0, "title": text, "modifiedWriteValue": "oneToClear"}
    reserved = {"bits": "7:3", "write": "0", "title": text}
    register = {"name": "A", "address": "0x20", "title": text, "notes": notes}
    inner = {"fields": [field, flag], "reserved": [reserved]}
    whole = {"name": "W", "width": 16, "offset": 0, "halves": halves(text), "title": text}
    block = {"name": "B", "title": text, "base": "0x40", "notes": notes, "registers": [whole]}
    region = {"name": "R", "kind": "ram", "first": 0, "last": 9, "title": text}
    space = {"name": "data", "size": "0x100", "title": text, "regions": [region]}
    document = {"title": text, "revision": text, "notes": notes}
    more = {"title": text, "family": text, "notes": notes, "document": document}
    registers = [register | inner]
    return chip(spaces=[space], registers=registers, blocks=[block], **more)


def halves(text: str) -> dict[str, Any]:
    low, high = {"name": "W_L", "title": text}, {"name": "W_H", "title": text}
    order = {"readFirst": "low", "writeFirst": "high", "temporary": text[:80]}
    return {"low": low, "high": high} | order


def emit(folder: Path, text: str, notes: str) -> Path:
    """Emit :func:`everywhere` into the folder ``out`` and return it."""
    write_chip(folder, **everywhere(text, notes))
    result = run_here(folder, "emit", "c.json", "--to", "out")
    assert result.exit_code == 0, result.output
    return folder / "out"


def without_comments(header: Path, std: str) -> str:
    """Return what the preprocessor leaves of ``header`` when it only takes the comments out."""
    flags = [f"-std={std}", "-fpreprocessed", "-dD", "-E", "-P", "-Wcomment", "-Wtrigraphs"]
    done = subprocess.run(
        ["gcc", *flags, "-Werror", header.name],
        cwd=header.parent,
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


@pytest.fixture(scope="module")
def harmless(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Return what is left of the header when every text is harmless."""
    out = emit(tmp_path_factory.mktemp("harmless"), "text", "text")
    return {std: without_comments(out / "c.h", std) for std in ("c89", "c11")}


def assert_harmless(out: Path, harmless: dict[str, str], compile_c: Compile) -> None:
    for path in out.iterdir():
        text = path.read_text(encoding="utf-8")
        assert all(c.isprintable() for line in text.split("\n") for c in line)
    for std, expected in harmless.items():
        assert without_comments(out / "c.h", std) == expected
        include = f'#include "{out}/c_check.c"\n#include "{out}/c.h"\nint one = 1;\n'
        done = compile_c(include, "-Wtrigraphs", "-Wcomment", std=std)
        assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("name", LINES)
def test_line(tmp_path: Path, harmless: dict[str, str], compile_c: Compile, name: str) -> None:
    text = LINES[name]
    assert_harmless(emit(tmp_path, text, f"{text}\n{text}"), harmless, compile_c)


def test_lines_of_notes(tmp_path: Path, harmless: dict[str, str], compile_c: Compile) -> None:
    notes = "\n".join(STARTS) + "\n"
    out = emit(tmp_path, "text", notes)
    assert_harmless(out, harmless, compile_c)
    assert " * #define EVIL 1\n" in (out / "c.h").read_text()


@pytest.mark.parametrize("where", ["title", "family", "document"])
def test_line_break_in_a_line(tmp_path: Path, where: str) -> None:
    text: Any = "a\n#define EVIL 1"
    write_chip(tmp_path, **{where: {"title": text} if where == "document" else text})
    result = run_here(tmp_path, "emit", "c.json", "--to", "out")
    name = "title" if where == "document" else where
    column = (tmp_path / "c.json").read_text().index('"a\\n') + 1
    assert result.exit_code == 1
    assert f"c.json:1:{column}: error: {name} is " in result.output
    assert "text on one line" in result.output
    assert not (tmp_path / "out").exists()


def test_comment_that_xml_could_not_hold(tmp_path: Path) -> None:
    write_chip(tmp_path, comment="ends --><register/>")
    result = run_here(tmp_path, "convert", "c.json", "c.xml")
    column = (tmp_path / "c.json").read_text().index('"ends') + 1
    assert result.exit_code == 1
    assert f"c.json:1:{column}: error: comment is 'ends --><register/>'" in result.output
    assert not (tmp_path / "c.xml").exists()


@pytest.mark.parametrize("name", LINES)
def test_other_spelling_keeps_the_text(tmp_path: Path, name: str) -> None:
    text = LINES[name]
    out = emit(tmp_path, text, f"{text}\n{text}")
    (tmp_path / "x").mkdir()
    assert run_here(tmp_path, "convert", "c.json", "x/c.xml").exit_code == 0
    assert run_here(tmp_path, "emit", "x/c.xml", "--to", "y").exit_code == 0
    header = (tmp_path / "y" / "c.h").read_text(encoding="utf-8")
    assert header == (out / "c.h").read_text(encoding="utf-8").replace("c.json", "c.xml")


MARKDOWN = {
    "cells": "a | b || c",
    "escaped cells": "a \\| b \\\\| c",
    "code": "`` ` ``` | `",
    "tags": "<script>alert(1)</script> <b> &lt; &amp;",
    "link": "[x](javascript:evil) ![y](z) <http://z>",
    "weight": "**a** __b__ *c* _d_ ~~e~~",
    "heading": "# a",
    "list": "- a",
    "numbers": "1. a",
    "rule": "---",
    "underline": "===",
    "directions": "\u202e | \u2028 |",
}


def cells(line: str) -> list[str]:
    """Return the cells of a table's row; a bar behind a backslash is text."""
    found = re.findall(r"\|((?:\\.|[^|\\])*)", line)
    return [cell.strip() for cell in found[:-1]]


def shown(text: str) -> str:
    """Return Markdown text as it is shown when all that could mean something is escaped."""
    assert not re.search(r"(?<!\\)(?:\\\\)*[`*_{}\[\]<>#~|&!]", re.sub(r"\\[^\\]", "", text))
    return re.sub(r"\\(.)", r"\1", text)


@pytest.mark.parametrize("name", MARKDOWN)
def test_report(tmp_path: Path, name: str) -> None:
    text = MARKDOWN[name]
    out = emit(tmp_path, text, "text")
    lines = (out / "c.report.md").read_text(encoding="utf-8").splitlines()
    expected = "".join(c if c.isprintable() else " " for c in text).strip()
    assert shown(lines[2].partition(". Described in ")[0]) == expected.replace("\\", "/")
    table = [line for line in lines if line.startswith("|")]
    assert len(table) == 2 + 4
    assert {len(cells(line)) for line in table} == {8}
    titles = [shown(cells(line)[-1]) for line in table[2:4]]
    assert titles == [expected, expected]
    headings = [line for line in lines if line.startswith("#")]
    assert headings == [
        "# Consistency report: c",
        "## Address spaces",
        "## Registers",
        "## Findings",
    ]


def test_file_name_in_the_outputs(tmp_path: Path, compile_c: Compile) -> None:
    name = "a`b|<b>??\u202e\n#define EVIL.json"
    write_chip(tmp_path, name)
    assert run_here(tmp_path, "emit", name, "--to", "out").exit_code == 0
    done = compile_c('#include "out/c_check.c"\n', "-Wtrigraphs", "-Wcomment")
    assert (done.returncode, done.stderr) == (0, "")
    for path in (tmp_path / "out").iterdir():
        lines = path.read_text(encoding="utf-8").split("\n")
        assert all(c.isprintable() for line in lines for c in line)
        assert "#define EVIL.json" not in lines
    report = (tmp_path / "out" / "c.report.md").read_text(encoding="utf-8")
    assert "`a'b|<b>? ?  #define EVIL.json`" in report
