"""Texts of a description that want to end what they are put into.

Source: the compiler, make, CMake, the shell, GNU ld and an XML reader: none of them sees more than
a comment or a name.
"""

from __future__ import annotations

import re
import subprocess
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any

import markdown_it
import pytest
from fragment_runs import emitted, needs, run, write

#: Ends comments, quotes, fences, cells and tags; goes on on the next line; turns the direction.
NASTY = (
    "a */ \" ' ` ``` $(touch gone) ${HOME} $x | \\ // #[[ ]] ?? <script> & "
    "\u202e \u2028 */#error \\"
)


def chip() -> dict[str, Any]:
    title = {"title": NASTY}
    return {
        "name": "part",
        **title,
        "document": title,
        "notes": NASTY,
        "spaces": [{"name": "data", "size": "0x200", **title}],
        "memories": [
            {"name": f"{kind}{NASTY[:60]}", "kind": kind, "space": "data", "size": "0x80", **more}
            for kind, more in (
                ("flash", {"first": 0, **title}),
                ("ram", {"first": "0x80", **title}),
                ("eeprom", {"first": "0x100", **title}),
            )
        ],
        "vectorTable": {
            "space": "data",
            "size": 1,
            "vectors": [
                {"number": 0, "name": NASTY[:70], **title},
                {"number": 1, "name": "\u20ac"},
            ],
        },
        "configuration": {
            "space": "data",
            "hazards": [{"name": "h", "kind": "other", "caution": NASTY, **title}],
            "words": [
                {
                    "name": "w",
                    "address": "0x180",
                    "default": "0xFF",
                    **title,
                    "fields": [
                        {
                            "name": "f",
                            "setting": "f",
                            "bits": "7:0",
                            **title,
                            "choices": [
                                {"name": "one", "value": 1, "hazards": "h", **title},
                                {"name": "all", "value": "0xFF"},
                            ],
                        }
                    ],
                }
            ],
        },
        "clock": {
            "constant": "HZ",
            "sources": [{"name": "s", "kind": "internal", "frequency": "1 MHz", **title}],
        },
        "ports": [{"name": "A", "bits": "1:0", **title}],
        "packages": [
            {
                "name": "TWO",
                "arrangement": "dual",
                "pinCount": 2,
                **title,
                "pins": [
                    {"number": "1", "name": NASTY[:70], "port": "A.0", **title},
                    {"number": "2", "name": "```", "port": "A.1", "functions": "```|`*/ \\"},
                ],
            }
        ],
        "build": {"target": "a-1", "instructionSet": "a", "programmerPart": "p"},
    }


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write(emitted(chip()), tmp_path)


def test_the_compiler_sees_comments_and_numbers(folder: Path) -> None:
    for language, std in (("c", "c89"), ("c", "c99"), ("c++", "c++11"), ("c++", "c++17")):
        strict = ("-trigraphs", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "-Wno-trigraphs")
        done = run(
            *("gcc", "-x", language, f"-std={std}", *strict, "-fsyntax-only", "part_check.c"),
            cwd=folder,
        )
        assert (done.returncode, done.stderr) == (0, "")
    macros = run("gcc", "-E", "-dM", "-x", "assembler-with-cpp", "part.h", cwd=folder).stdout
    names = re.findall(r"^#define (VECTOR_\w+|MEMORY_\w+_BYTES|PIN_\w+) ", macros, re.MULTILINE)
    assert "VECTOR_U20AC_NUMBER" in names
    assert sum(name.startswith("MEMORY_") for name in names) == 3
    assert all("__" not in name for name in names)


@needs("make")
def test_make_sees_comments_and_variables(folder: Path) -> None:
    (folder / "Makefile").write_text("include part.mk\nall:\n\t@echo $(REGWRIGHT_TARGET)\n")
    done = run("make", "-s", cwd=folder)
    assert (done.returncode, done.stdout, done.stderr) == (0, "a-1\n", "")
    assert not (folder / "gone").exists()


@needs("cmake")
def test_cmake_sees_comments_and_variables(folder: Path) -> None:
    (folder / "CMakeLists.txt").write_text(
        "cmake_minimum_required(VERSION 3.17)\nproject(p NONE)\ninclude(part.cmake)\n"
        'message(STATUS "is ${REGWRIGHT_TARGET}")\n'
    )
    done = run("cmake", "-S", ".", "-B", "build", cwd=folder)
    assert (done.returncode, done.stderr) == (0, "")
    assert "-- is a-1\n" in done.stdout


def test_the_shell_sees_comments_and_names(folder: Path) -> None:
    done = subprocess.run(
        ["sh", "part_size.sh", "part.h"],
        cwd=folder,
        env={"SIZE": "./size", "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert not (folder / "gone").exists()
    size = folder / "size"
    size.write_text("#!/bin/sh\nprintf 'text\\n1 1 1\\n'\n")
    size.chmod(0o755)
    done = run("env", "SIZE=./size", "sh", "part_size.sh", "part.h", cwd=folder)
    assert (done.returncode, done.stderr) == (0, "")
    assert not (folder / "gone").exists()


@needs("ld")
def test_the_linker_sees_comments_and_regions(folder: Path) -> None:
    (folder / "whole.ld").write_text("INCLUDE part_memory.ld\nSECTIONS { }\n")
    (folder / "p.c").write_text("int f(void);\nint f(void) { return 1; }\n")
    quiet = ("-fno-pie", "-fno-asynchronous-unwind-tables")
    run("gcc", "-c", "-O1", *quiet, "p.c", cwd=folder)
    done = run("ld", "-e", "f", "-T", "whole.ld", "p.o", "-o", "p", cwd=folder)
    assert (done.returncode, done.stderr) == (0, "")


def test_the_drawing_is_xml_without_a_script(folder: Path) -> None:
    root = ET.parse(folder / "part_TWO.svg").getroot()
    tags = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert tags <= {"svg", "title", "style", "rect", "circle", "text"}


def test_markdown_sees_one_fence_and_rows_of_one_length(folder: Path) -> None:
    text = (folder / "part.report.md").read_text(encoding="utf-8")
    tokens = markdown_it.MarkdownIt("commonmark").enable("table").parse(text)
    kinds = [token.type for token in tokens]
    assert kinds.count("fence") == 1
    assert "html_block" not in kinds
    inner = [child.type for token in tokens for child in token.children or ()]
    assert "html_inline" not in inner
    assert inner.count("link_open") == 1
    # memories, vectors, a word, sources, pins, registers: each with its own number of cells
    assert kinds.count("table_open") == 6
    widths, width = [], 0
    for kind in kinds:
        width += kind in ("td_open", "th_open")
        if kind == "tr_close":
            widths.append(width)
            width = 0
        if kind == "table_close":
            assert len(set(widths)) == 1
            widths = []
    assert "\u202e" not in text
